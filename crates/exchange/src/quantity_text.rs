//! Lengths as people write them: `1.2m`, `220 mm`, `8 in`, `2'6"`, `1 1/2 in`, and speeds: `50mph`, `80 km/h`. One
//! parser for table cells and for the command line.
//!
//! A quantity without a unit is an error: a unit is never guessed.

use model::quantity::{
    Length, Velocity, centimetres, feet, inches, kilometres_per_hour, metres, metres_per_second, miles_per_hour,
    millimetres,
};

/// Reads a length with its unit. It may be zero or negative; whoever asks knows what makes sense.
pub fn read_length(text: &str) -> Result<Length, LengthTextError> {
    let measured = read_measured(text, DecimalMark::Point)?;
    measured.unit.map(|unit| unit.length(measured.number)).ok_or(LengthTextError::NoUnit)
}

/// Reads a speed with its unit: km/h, mph or m/s. It must be above zero.
pub fn read_speed(text: &str) -> Result<Velocity, SpeedTextError> {
    let text = plain_signs(text);
    let (number, unit) = take_number(&text, DecimalMark::Point)?;
    let speed = match unit.to_lowercase().as_str() {
        "km/h" | "kmh" | "kph" => kilometres_per_hour(number),
        "mph" => miles_per_hour(number),
        "m/s" => metres_per_second(number),
        "" => return Err(SpeedTextError::NoUnit),
        _ => return Err(SpeedTextError::UnknownUnit(unit.to_owned())),
    };
    if !number.is_finite() {
        return Err(LengthTextError::NotFinite.into());
    }
    if number <= 0.0 { Err(SpeedTextError::NotPositive) } else { Ok(speed) }
}

/// Reads a number and the unit written with it, if any.
pub fn read_measured(text: &str, mark: DecimalMark) -> Result<Measured, LengthTextError> {
    let text = plain_signs(text);
    if text.is_empty() {
        return Err(LengthTextError::Empty);
    }
    let (number, rest) = take_number(&text, mark)?;
    let (number, rest) = take_fraction(number, rest);
    if !number.is_finite() {
        return Err(LengthTextError::NotFinite);
    }
    if rest.is_empty() {
        return Ok(Measured { number, unit: None });
    }
    let word_end = rest.find(|c: char| c.is_whitespace() || c.is_ascii_digit()).unwrap_or(rest.len());
    let (word, after) = rest.split_at(word_end);
    let unknown = || LengthTextError::UnknownUnit(rest.to_owned());
    let unit = LengthUnit::from_word(word).ok_or_else(unknown)?;
    match (unit, after.trim()) {
        (_, "") => Ok(Measured { number, unit: Some(unit) }),
        (LengthUnit::Foot, after) => Ok(Measured { number: add_inches(number, after, mark)?, unit: Some(unit) }),
        _ => Err(unknown()),
    }
}

/// Reads a number and the word that follows it, empty where there is none; whoever asks knows the units.
pub(crate) fn number_and_unit(text: &str, mark: DecimalMark) -> Result<(f64, String), LengthTextError> {
    let text = plain_signs(text);
    let (number, rest) = take_number(&text, mark)?;
    let (number, rest) = take_fraction(number, rest);
    if number.is_finite() { Ok((number, rest.trim().to_owned())) } else { Err(LengthTextError::NotFinite) }
}

/// A number and the unit written with it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured {
    /// Finite.
    pub number: f64,
    /// `None`: none was written.
    pub unit: Option<LengthUnit>,
}

/// What stands between whole and decimal digits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DecimalMark {
    /// Only a point; a comma is refused, since it may be either mark.
    Point,
    /// A comma or a point.
    CommaOrPoint,
}

/// Units a length may be written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)] // the words are the definition
pub enum LengthUnit {
    Millimetre,
    Centimetre,
    Metre,
    Inch,
    Foot,
}

/// Why a text is not a length.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum LengthTextError {
    /// Nothing there.
    #[error("nothing is written; write a number and a unit, e.g. 220mm")]
    Empty,
    /// No number at the start.
    #[error("`{0}` is not a number")]
    NotANumber(String),
    /// Not a number, or infinite, or too big to hold.
    #[error("the number is not finite")]
    NotFinite,
    /// A comma where only a point is taken.
    #[error("`{0}` has a comma, which may mean decimals or thousands; write decimals with a point")]
    Comma(String),
    /// The unit is not known.
    #[error("`{0}` is not a known unit of length; known: mm, cm, m, in, ft")]
    UnknownUnit(String),
    /// No unit.
    #[error("no unit is given, and none is guessed; known: mm, cm, m, in, ft")]
    NoUnit,
}

/// Why a text is not a speed.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum SpeedTextError {
    /// The number can't be read.
    #[error(transparent)]
    Number(#[from] LengthTextError),
    /// The unit is not known.
    #[error("`{0}` is not a known unit of speed; known: km/h, mph, m/s")]
    UnknownUnit(String),
    /// No unit.
    #[error("no unit is given; known: km/h, mph, m/s")]
    NoUnit,
    /// Zero or negative.
    #[error("the speed is not above zero")]
    NotPositive,
}

/// The units a length may be written in, for messages.
pub const KNOWN_UNITS: &str = "mm, cm, m, in, ft";

impl LengthUnit {
    /// The unit of that word or mark; case does not matter.
    pub fn from_word(word: &str) -> Option<Self> {
        Some(match word.trim().trim_end_matches('.').to_lowercase().as_str() {
            "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => LengthUnit::Millimetre,
            "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => LengthUnit::Centimetre,
            "m" | "metre" | "metres" | "meter" | "meters" => LengthUnit::Metre,
            "in" | "inch" | "inches" | "\"" => LengthUnit::Inch,
            "ft" | "foot" | "feet" | "'" => LengthUnit::Foot,
            _ => return None,
        })
    }

    /// The unit's symbol.
    pub fn symbol(self) -> &'static str {
        match self {
            LengthUnit::Millimetre => "mm",
            LengthUnit::Centimetre => "cm",
            LengthUnit::Metre => "m",
            LengthUnit::Inch => "in",
            LengthUnit::Foot => "ft",
        }
    }

    /// That many of this unit.
    pub fn length(self, number: f64) -> Length {
        match self {
            LengthUnit::Millimetre => millimetres(number),
            LengthUnit::Centimetre => centimetres(number),
            LengthUnit::Metre => metres(number),
            LengthUnit::Inch => inches(number),
            LengthUnit::Foot => feet(number),
        }
    }
}

/// Typographic primes, quotes, minus and no-break spaces as their typewriter forms.
pub(crate) fn plain_signs(text: &str) -> String {
    let plain = |c| match c {
        '′' | '’' => '\'',
        '″' | '”' => '"',
        '\u{2212}' => '-',
        '\u{a0}' | '\u{202f}' => ' ',
        other => other,
    };
    text.chars().map(plain).collect::<String>().replace("''", "\"").trim().to_owned()
}

/// The number at the start, and what follows it.
pub(crate) fn take_number(text: &str, mark: DecimalMark) -> Result<(f64, &str), LengthTextError> {
    let not_a_number = || LengthTextError::NotANumber(text.to_owned());
    let unsigned = text.trim_start_matches(['+', '-']).to_lowercase();
    if unsigned.starts_with("nan") || unsigned == "inf" || unsigned.starts_with("inf ") || unsigned.starts_with("infin")
    {
        return Err(LengthTextError::NotFinite);
    }
    let end = number_end(text.as_bytes());
    let (digits, rest) = text.split_at(end);
    let digits = match (mark, digits.matches(',').count()) {
        (_, 0) => digits.to_owned(),
        (DecimalMark::CommaOrPoint, 1) if !digits.contains('.') => digits.replace(',', "."),
        _ => return Err(LengthTextError::Comma(digits.to_owned())),
    };
    let number: f64 = digits.parse().map_err(|_| not_a_number())?;
    Ok((number, rest.trim_start()))
}

/// Where the number at the start ends: sign, digits and marks, and an exponent only if digits follow it.
fn number_end(bytes: &[u8]) -> usize {
    let run = |from: usize, takes: fn(u8) -> bool| {
        from + bytes.get(from..).unwrap_or_default().iter().take_while(|byte| takes(**byte)).count()
    };
    let sign = |at: usize| at + usize::from(matches!(bytes.get(at), Some(b'+' | b'-')));
    let mantissa = run(sign(0), |byte| byte.is_ascii_digit() || byte == b'.' || byte == b',');
    if !matches!(bytes.get(mantissa), Some(b'e' | b'E')) {
        return mantissa;
    }
    let exponent = sign(mantissa + 1);
    let end = run(exponent, |byte| byte.is_ascii_digit());
    if end > exponent { end } else { mantissa }
}

/// Adds the fraction of `1 1/2`, or divides for `3/4`.
fn take_fraction(number: f64, rest: &str) -> (f64, &str) {
    let digits_end = |text: &str| text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    let divide = |over: f64, text: &'_ str| -> Option<(f64, usize)> {
        let end = digits_end(text);
        let under: f64 = text[..end].parse().ok()?;
        (under > 0.0).then_some((over / under, end))
    };
    if let Some(under) = rest.strip_prefix('/') {
        return divide(number, under).map_or((number, rest), |(value, end)| (value, under[end..].trim_start()));
    }
    let over_end = digits_end(rest);
    let mixed = rest[..over_end].parse::<f64>().ok().zip(rest[over_end..].strip_prefix('/'));
    let Some((over, under)) = mixed.filter(|_| number.fract() == 0.0) else { return (number, rest) };
    let sign = if number.is_sign_negative() { -1.0 } else { 1.0 };
    divide(over, under).map_or((number, rest), |(part, end)| (number + sign * part, under[end..].trim_start()))
}

/// Feet with the inches after them: `6"`, `6 in`, or a bare `6`.
fn add_inches(whole_feet: f64, text: &str, mark: DecimalMark) -> Result<f64, LengthTextError> {
    // Inches never come in feet; looking first also keeps `1'1'1'...` from nesting without end.
    if text.contains(['\'', 'f', 'F']) {
        return Err(LengthTextError::UnknownUnit(text.to_owned()));
    }
    let part = read_measured(text, mark)?;
    let is_inches = matches!(part.unit, None | Some(LengthUnit::Inch)) && !part.number.is_sign_negative();
    if !is_inches {
        return Err(LengthTextError::UnknownUnit(text.to_owned()));
    }
    let sign = if whole_feet.is_sign_negative() { -1.0 } else { 1.0 };
    Ok(whole_feet + sign * part.number / 12.0)
}

#[cfg(test)]
mod tests {
    use model::quantity::InLength;
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn lengths_as_people_write_them() {
        // By definition: 1 in = 25.4 mm, 1 ft = 304.8 mm (international yard and pound agreement of 1959).
        for (text, millimetres) in [
            ("1.2m", 1200.0),
            ("0.8 m", 800.0),
            ("220mm", 220.0),
            (" 22 cm ", 220.0),
            ("8 in", 203.2),
            ("8\"", 203.2),
            ("8 inches", 203.2),
            ("2'6\"", 762.0),
            ("2′ 6″", 762.0),
            ("2'6", 762.0),
            ("2'6''", 762.0),
            ("2 ft 6 in", 762.0),
            ("2.5 ft", 762.0),
            ("1 1/2 in", 38.1),
            ("3/4 in", 19.05),
            ("2' 6 1/2\"", 774.7),
            ("1e2 mm", 100.0),
            (".5 m", 500.0),
            ("0.8 Metres", 800.0),
            ("-2'6\"", -762.0),
            ("\u{2212}5 mm", -5.0),
        ] {
            let length = read_length(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert!((length.in_millimetres() - millimetres).abs() < 1e-9, "{text}: {}", length.in_millimetres());
        }
    }

    #[test]
    fn what_is_not_a_length_is_refused() {
        use LengthTextError as E;
        for (text, expected) in [
            ("", E::Empty),
            ("  ", E::Empty),
            ("220", E::NoUnit),
            ("NaN", E::NotFinite),
            ("nan mm", E::NotFinite),
            ("-inf", E::NotFinite),
            ("infinity m", E::NotFinite),
            ("1e999 m", E::NotFinite),
            ("deep", E::NotANumber("deep".into())),
            ("mm", E::NotANumber("mm".into())),
            ("1.2.3 m", E::NotANumber("1.2.3 m".into())),
            ("1,2 m", E::Comma("1,2".into())),
            ("3 furlongs", E::UnknownUnit("furlongs".into())),
            ("3 m 2", E::UnknownUnit("m 2".into())),
            ("2' 6 mm", E::UnknownUnit("6 mm".into())),
            ("1/0 in", E::UnknownUnit("/0 in".into())),
        ] {
            assert_eq!(read_length(text), Err(expected), "{text}");
        }
    }

    #[test]
    fn speeds_as_people_write_them() {
        use model::quantity::InVelocity;
        for (text, kilometres_per_hour) in
            [("80km/h", 80.0), ("80 kph", 80.0), ("50mph", 80.4672), ("10 m/s", 36.0), ("62.5 KM/H", 62.5)]
        {
            let speed = read_speed(text).map(InVelocity::in_kilometres_per_hour);
            assert!(speed.is_ok_and(|speed| (speed - kilometres_per_hour).abs() < 1e-9), "{text}");
        }
        assert_eq!(read_speed("80"), Err(SpeedTextError::NoUnit));
        assert_eq!(read_speed("80 knots"), Err(SpeedTextError::UnknownUnit("knots".into())));
        assert_eq!(read_speed("0 mph"), Err(SpeedTextError::NotPositive));
        assert_eq!(read_speed("-5 mph"), Err(SpeedTextError::NotPositive));
        assert!(matches!(read_speed("1e999 mph"), Err(SpeedTextError::Number(LengthTextError::NotFinite))));
        assert!(matches!(read_speed("fast"), Err(SpeedTextError::Number(_))));
    }

    #[test]
    fn a_comma_is_a_decimal_mark_only_where_that_is_agreed() {
        let read = |text| read_measured(text, DecimalMark::CommaOrPoint).map(|measured| measured.number);
        assert_eq!(read("1,2"), Ok(1.2));
        assert_eq!(read("1.2"), Ok(1.2));
        assert!(read("1.200,5").is_err());
        assert!(read("1,200,5").is_err());
    }

    proptest! {
        #[test]
        fn any_text_gives_an_answer(text in ".*") {
            let _ = read_length(&text);
        }

        #[test]
        fn text_near_a_length_gives_a_finite_length_or_an_error(text in "[-+0-9.,eE/ '\"mcinft]{0,12}") {
            if let Ok(length) = read_length(&text) {
                prop_assert!(length.in_metres().is_finite());
            }
        }

        #[test]
        fn feet_on_feet_do_not_nest(count in 1..20000_usize) {
            prop_assert!(read_length(&"1'".repeat(count + 1)).is_err());
        }

        #[test]
        fn what_is_printed_reads_back(number in 0.0..1e4_f64) {
            for unit in [LengthUnit::Millimetre, LengthUnit::Centimetre, LengthUnit::Metre, LengthUnit::Inch, LengthUnit::Foot] {
                let read = read_measured(&format!("{number}{}", unit.symbol()), DecimalMark::Point);
                prop_assert_eq!(read, Ok(Measured { number, unit: Some(unit) }));
            }
        }
    }
}
