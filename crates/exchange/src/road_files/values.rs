//! Single values as road files write them: speeds, widths, counts.

use model::quantity::{
    Length, Mass, Velocity, feet, inches, kilograms, kilometres_per_hour, metres, miles_per_hour, pounds,
};
use model::rules::roads::{SpeedUnit, WidthUnit};

/// A speed with or without unit: `50`, `50 km/h`, `30 mph`; of several (`50;30`) the highest, since distances in a
/// work zone grow with speed.
pub(super) fn speed(text: &str, bare: SpeedUnit) -> Option<Velocity> {
    text.split([';', '|'])
        .filter_map(|part| one_speed(part, bare))
        .max_by(|a, b| a.partial_cmp(b).unwrap_or(std::cmp::Ordering::Equal))
}

fn one_speed(text: &str, bare: SpeedUnit) -> Option<Velocity> {
    let (number, unit) = number_and_unit(text)?;
    match unit.as_str() {
        "" => Some(match bare {
            SpeedUnit::KilometresPerHour => kilometres_per_hour(number),
            SpeedUnit::MilesPerHour => miles_per_hour(number),
        }),
        "km/h" | "kmh" | "kph" | "kmph" => Some(kilometres_per_hour(number)),
        "mph" => Some(miles_per_hour(number)),
        // International nautical mile per hour, 1.852 km/h by definition.
        "knots" => Some(kilometres_per_hour(number * 1.852)),
        _ => None,
    }
}

/// A width with or without unit: `3.5`, `3,5 m`, `12 ft`, `12'`, `12'6"`.
pub(super) fn width(text: &str, bare: WidthUnit) -> Option<Length> {
    let text = text.trim();
    if let Some((whole, rest)) = text.split_once('\'') {
        let rest = rest.trim();
        let more = match rest.strip_suffix('"') {
            Some(inch) => plain_number(inch)?,
            None if rest.is_empty() => 0.0,
            None => return None,
        };
        return Some(feet(plain_number(whole)?) + inches(more));
    }
    let (number, unit) = number_and_unit(text)?;
    match unit.as_str() {
        "" => Some(match bare {
            WidthUnit::Metres => metres(number),
            WidthUnit::Feet => feet(number),
        }),
        "m" | "metre" | "metres" | "meter" | "meters" => Some(metres(number)),
        "cm" => Some(metres(number / 100.0)),
        "ft" | "foot" | "feet" => Some(feet(number)),
        "in" | "inch" | "\"" => Some(inches(number)),
        _ => None,
    }
}

/// A mass with or without unit, tonnes where it is bare: `7.5`, `7,5 t`, `3500 kg`, `10 st` (short tons), `16000 lbs`.
pub(super) fn mass(text: &str) -> Option<Mass> {
    let (number, unit) = number_and_unit(text)?;
    match unit.as_str() {
        "" | "t" | "tonne" | "tonnes" => Some(kilograms(1000.0 * number)),
        "kg" => Some(kilograms(number)),
        "lb" | "lbs" => Some(pounds(number)),
        // A short ton is 2000 lb, a long one 2240 lb by definition.
        "st" | "ton" | "tons" => Some(pounds(2000.0 * number)),
        "lt" => Some(pounds(2240.0 * number)),
        _ => None,
    }
}

/// A count of lanes; of several (`2;3`) the least, and half a lane is none.
pub(super) fn lanes(text: &str) -> Option<u32> {
    text.split([';', '|'])
        .filter_map(plain_number)
        .filter(|count| (1.0..1000.0).contains(count))
        .map(|count| count.floor() as u32)
        .min()
}

/// A plain number, with a point or a comma for the decimals.
pub(super) fn plain_number(text: &str) -> Option<f64> {
    let text = text.trim();
    let only_digits = text.chars().all(|letter| letter.is_ascii_digit() || ".,-+eE".contains(letter));
    if text.is_empty() || !only_digits {
        return None;
    }
    text.replace(',', ".").parse::<f64>().ok().filter(|number| number.is_finite())
}

fn number_and_unit(text: &str) -> Option<(f64, String)> {
    let text = text.trim();
    let end = text
        .char_indices()
        .find(|(_, letter)| !(letter.is_ascii_digit() || ".,-+".contains(*letter)))
        .map_or(text.len(), |(index, _)| index);
    Some((plain_number(&text[..end])?, text[end..].trim().to_lowercase()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::quantity::{InLength, InMass, InVelocity};

    #[test]
    fn speeds_as_the_open_map_writes_them() {
        // Forms: OpenStreetMap wiki, Key:maxspeed (from memory). 1 mph = 1.609344 km/h by definition.
        for (text, km_h) in [
            ("50", Some(50.0)),
            ("50 km/h", Some(50.0)),
            ("30 mph", Some(48.28032)),
            ("30mph", Some(48.28032)),
            ("100;80", Some(100.0)),
            ("5 knots", Some(9.26)),
            ("none", None),
            ("DE:urban", None),
            ("", None),
            ("NaN", None),
            ("inf", None),
            ("50 furlongs", None),
        ] {
            let read = speed(text, SpeedUnit::KilometresPerHour).map(InVelocity::in_kilometres_per_hour);
            assert_eq!(read.map(|v| (v * 1e6).round()), km_h.map(|v: f64| (v * 1e6).round()), "{text}");
        }
        let read = speed("30", SpeedUnit::MilesPerHour).unwrap().in_kilometres_per_hour();
        assert!((read - 48.28032).abs() < 1e-9);
    }

    #[test]
    fn widths_with_and_without_units() {
        // Forms: OpenStreetMap wiki, Key:width (from memory). 1 ft = 0.3048 m, 1 in = 0.0254 m by definition.
        for (text, metre) in [
            ("3.5", Some(3.5)),
            ("3,5", Some(3.5)),
            ("3.5 m", Some(3.5)),
            ("3.5m", Some(3.5)),
            ("12'", Some(3.6576)),
            ("12'6\"", Some(3.81)),
            ("12' 6\"", Some(3.81)),
            ("12 ft", Some(3.6576)),
            ("350 cm", Some(3.5)),
            ("12'6", None),
            ("wide", None),
            ("'", None),
            ("1e999", None),
        ] {
            let read = width(text, WidthUnit::Metres).map(InLength::in_metres);
            assert_eq!(read.map(|v| (v * 1e9).round()), metre.map(|v: f64| (v * 1e9).round()), "{text}");
        }
        assert!((width("20", WidthUnit::Feet).unwrap().in_metres() - 6.096).abs() < 1e-12);
    }

    #[test]
    fn masses_with_and_without_units() {
        // Forms: OpenStreetMap wiki, Key:maxweight (from memory). 1 lb = 0.45359237 kg by definition.
        for (text, kg) in [
            ("7.5", Some(7500.0)),
            ("7,5 t", Some(7500.0)),
            ("3500 kg", Some(3500.0)),
            ("10 st", Some(9071.8474)),
            ("16000 lbs", Some(7257.47792)),
            ("2 lt", Some(2032.0938176)),
            ("heavy", None),
            ("", None),
        ] {
            let read = mass(text).map(InMass::in_kilograms);
            // The library of units has the pound to seven digits.
            let near = read.zip(kg).is_some_and(|(read, kg)| (read / kg - 1.0).abs() < 1e-6);
            assert!(near || read == kg, "{text}: {read:?}");
        }
    }

    #[test]
    fn lanes_are_whole_and_at_least_one() {
        for (text, count) in
            [("2", Some(2)), ("1.5", Some(1)), ("3;2", Some(2)), ("0", None), ("-1", None), ("x", None)]
        {
            assert_eq!(lanes(text), count, "{text}");
        }
    }
}
