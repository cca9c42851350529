//! Numbers as a crew reads them: the district's units and language, rounded to what a tape, a scale or a dipstick can show.

use model::district::{District, UnitSystem};
use model::figure::{Figure, Spread};
use model::quantity::{
    Area, InArea, InLength, InMass, InTime, InVelocity, InVolume, KilogramsPerSquareMetre, Length,
    LitresPerSquareMetre, Mass, Time, Velocity, Volume, litres,
};
use words::{Language, Words};

/// Writes quantities in one system of units and one language.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Units {
    /// The system of units.
    pub system: UnitSystem,
    /// The language, for whatever is said beside the quantities.
    pub words: Words,
}

/// One figure, ready for a table.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct Shown {
    /// The value with its unit.
    pub value: String,
    /// The median, or a dash where nothing uncertain enters.
    pub median: String,
    /// `low to high`, or a dash where nothing uncertain enters.
    pub spread: String,
}

impl Shown {
    /// A value that nothing uncertain enters.
    pub fn exact(value: String) -> Self {
        Shown { value, median: "–".into(), spread: "–".into() }
    }
}

/// The district's language; English where its code is not known here, which the reader of the file refuses.
pub fn words_of(district: &District) -> Words {
    Words(Language::of_code(&district.language).unwrap_or_default())
}

impl Units {
    /// A system of units with its words.
    pub const fn new(system: UnitSystem, words: Words) -> Self {
        Units { system, words }
    }

    /// As the district's people read them.
    pub fn of(district: &District) -> Self {
        Units::new(district.units, words_of(district))
    }

    fn si(self) -> bool {
        self.system == UnitSystem::Si
    }

    /// A number and its unit, by the unit's key in the catalogue.
    pub fn with_unit(self, number: &str, unit: &str) -> String {
        format!("{} {}", self.words.number(number), self.words.say(unit))
    }

    /// One of two units, by the system.
    fn unit(self, value: (f64, usize, &str), customary: (f64, usize, &str)) -> String {
        let (value, decimals, unit) = if self.si() { value } else { customary };
        self.with_unit(&fixed(value, decimals), unit)
    }

    /// A depth or thickness: whole millimetres, or quarter inches.
    pub fn depth(self, length: Length) -> String {
        if self.si() {
            self.with_unit(&fixed(length.in_millimetres(), 0), "unit-mm")
        } else {
            self.quarter_inches(length.in_inches())
        }
    }

    /// A side of a hole or a cut: metres to the centimetre, or feet and quarter inches.
    pub fn side(self, length: Length) -> String {
        if self.si() {
            self.with_unit(&fixed(length.in_metres(), 2), "unit-m")
        } else {
            self.feet_and_inches(length.in_inches())
        }
    }

    /// `1.25 × 0.85 m`, or each side with its own unit in feet and inches.
    pub fn by(self, length: Length, width: Length) -> String {
        let (length, width) = (self.side(length), self.side(width));
        let unit = format!(" {}", self.words.say("unit-m"));
        match length.strip_suffix(&unit) {
            Some(short) if self.si() => format!("{short} × {width}"),
            _ => format!("{length} × {width}"),
        }
    }

    /// A distance that is paced or wheeled along the road: whole metres (a tenth below 20 m), or whole feet.
    pub fn along(self, length: Length) -> String {
        let metres = length.in_metres();
        let decimals = usize::from(metres.abs() < 19.95 && (metres - metres.round()).abs() > 0.05);
        self.unit((metres, decimals, "unit-m"), (length.in_feet(), 0, "unit-ft"))
    }

    /// A width of road, one decimal.
    pub fn width(self, length: Length) -> String {
        self.unit((length.in_metres(), 1, "unit-m"), (length.in_feet(), 1, "unit-ft"))
    }

    /// A driven distance.
    pub fn drive(self, length: Length) -> String {
        self.unit((length.in_kilometres(), 1, "unit-km"), (length.in_feet() / 5280.0, 1, "unit-mi"))
    }

    /// Distance along the section as a station: `1+234` in metres, `40+49` in hundreds of feet.
    pub fn chainage(self, length: Length) -> String {
        let (whole, part) = if self.si() { (length.in_metres(), 1000) } else { (length.in_feet(), 100) };
        if !whole.is_finite() {
            return "–".into();
        }
        let rounded = whole.round() as i64;
        let digits = if self.si() { 3 } else { 2 };
        let sign = if rounded < 0 { "–" } else { "" };
        format!("{sign}{}+{:0digits$}", rounded.abs() / part, rounded.abs() % part)
    }

    /// An area.
    pub fn area(self, area: Area) -> String {
        if self.si() {
            self.with_unit(&significant(area.in_square_metres(), 2), "unit-m2")
        } else {
            self.with_unit(&significant(area.in_square_feet(), 1), "unit-ft2")
        }
    }

    /// Loose or compacted solids.
    pub fn solid(self, volume: Volume) -> String {
        if self.si() {
            let value = volume.in_cubic_metres();
            self.with_unit(&fixed(value, if value.abs() < 0.0995 { 3 } else { 2 }), "unit-m3")
        } else {
            self.with_unit(&significant(volume.in_cubic_feet(), 1), "unit-ft3")
        }
    }

    /// Liquids.
    pub fn liquid(self, volume: Volume) -> String {
        if self.si() {
            self.with_unit(&significant(volume.in_litres(), 1), "unit-l")
        } else {
            self.with_unit(&significant(volume.in_us_gallons(), 1), "unit-gal")
        }
    }

    /// Water, which the trade weighs but the crew pours: 1 kg fills 1 L.
    pub fn water(self, mass: Mass) -> String {
        self.liquid(litres(mass.in_kilograms()))
    }

    /// A mass.
    pub fn mass(self, mass: Mass) -> String {
        let (value, unit) = if self.si() { (mass.in_kilograms(), "unit-kg") } else { (mass.in_pounds(), "unit-lb") };
        let rounded = if value.abs() >= 1000.0 { (value / 10.0).round() * 10.0 } else { value };
        self.with_unit(&significant(rounded, 1), unit)
    }

    /// A binder rate.
    pub fn binder_rate(self, rate: LitresPerSquareMetre) -> String {
        // 1 US gal/yd² = 3.785 L / 0.8361 m².
        let customary = (rate * square_yard()).in_us_gallons();
        self.unit((rate.0, 2, "unit-l-per-m2"), (customary, 2, "unit-gal-per-yd2"))
    }

    /// A cover stone rate.
    pub fn cover_rate(self, rate: KilogramsPerSquareMetre) -> String {
        self.unit((rate.0, 1, "unit-kg-per-m2"), ((rate * square_yard()).in_pounds(), 1, "unit-lb-per-yd2"))
    }

    /// A speed limit.
    pub fn speed(self, speed: Velocity) -> String {
        self.unit((speed.in_kilometres_per_hour(), 0, "unit-km-per-h"), (speed.in_miles_per_hour(), 0, "unit-mi-per-h"))
    }

    /// A temperature.
    pub fn temperature(self, celsius: f64) -> String {
        self.unit((celsius, 0, "unit-celsius"), (celsius * 1.8 + 32.0, 0, "unit-fahrenheit"))
    }

    /// Things one after the other, with the language's comma.
    pub fn list(self, items: &[impl AsRef<str>]) -> String {
        let joined = |first: String, second: &str| {
            self.words.say_with("sheet-list", [("first", first.into()), ("second", second.into())])
        };
        let mut items = items.iter().map(AsRef::as_ref);
        let first = items.next().unwrap_or_default().to_owned();
        items.fold(first, joined)
    }

    /// A message that counts: `3 holes`.
    pub fn counted(self, key: &str, count: usize) -> String {
        self.words.say_with(key, [("count", count.into())])
    }

    /// A text of the rule data or a fixed sentence of a stage; a district's own words stay as they are.
    pub fn rule_text(self, text: &str) -> String {
        self.words.of_rule(text).unwrap_or_else(|| text.to_owned())
    }

    /// Minutes, or hours and minutes; never zero for something that takes time.
    pub fn duration(self, time: Time) -> String {
        let minutes = time.in_minutes();
        if !minutes.is_finite() {
            return "–".into();
        }
        let whole = if minutes > 0.0 { minutes.round().max(1.0) } else { 0.0 } as u64;
        let (hour, minute) = (self.words.say("unit-h"), self.words.say("unit-min"));
        if whole < 60 {
            format!("{whole} {minute}")
        } else {
            format!("{} {hour} {:02} {minute}", whole / 60, whole % 60)
        }
    }

    /// Whole percent, never 100 for what is not certain.
    pub fn percent(self, share: f64) -> String {
        self.words.say_with("sheet-percent", [("number", format!("{:.0}", (100.0 * share).floor()).into())])
    }

    /// `low to high`, the unit said once where both have the same.
    pub fn range(self, low: &str, high: &str) -> String {
        let low = match (low.rsplit_once(' '), high.rsplit_once(' ')) {
            (Some((number, a)), Some((_, b))) if a == b && number.replace(',', ".").parse::<f64>().is_ok() => number,
            _ => low,
        };
        self.words.say_with("sheet-range", [("low", low.into()), ("high", high.into())])
    }

    /// Passes of a layer: without, then with vibration.
    pub fn passes(self, fixed: u32, vibrating: u32) -> String {
        let count = |count: u32| ("count", count.into());
        match (fixed, vibrating) {
            (fixed, 0) => self.words.say_with("sheet-passes", [count(fixed)]),
            (0, vibrating) => self.words.say_with("sheet-passes-vibrating", [count(vibrating)]),
            (fixed, vibrating) => self
                .words
                .say_with("sheet-passes-then-vibrating", [("fixed", fixed.into()), ("vibrating", vibrating.into())]),
        }
    }

    fn feet_and_inches(self, inches: f64) -> String {
        if !inches.is_finite() {
            return "–".into();
        }
        let quarters = (inches * 4.0).round();
        if quarters.abs() < 48.0 {
            return self.quarter_inches(inches);
        }
        let (feet, rest) = ((quarters / 48.0).trunc(), (quarters % 48.0).abs() / 4.0);
        let feet = self.with_unit(&format!("{feet:.0}"), "unit-ft");
        if rest == 0.0 { feet } else { format!("{feet} {}", self.quarter_inches(rest)) }
    }

    fn quarter_inches(self, inches: f64) -> String {
        if !inches.is_finite() {
            return "–".into();
        }
        let quarters = (inches * 4.0).round() as i64;
        let sign = if quarters < 0 { "-" } else { "" };
        let number = match (quarters.abs() / 4, ["", "¼", "½", "¾"][(quarters.abs() % 4) as usize]) {
            (0, "") => "0".to_owned(),
            (0, part) => format!("{sign}{part}"),
            (whole, part) => format!("{sign}{whole}{part}"),
        };
        self.with_unit(&number, "unit-in")
    }

    /// A figure with its spread, by one of the formats above.
    pub fn shown<Q: Copy>(self, figure: &Figure<Q>, format: impl Fn(Self, Q) -> String) -> Shown {
        let value = format(self, figure.value);
        let Some(Spread { p10, p50, p90 }) = figure.spread else { return Shown::exact(value) };
        let (low, median, high) = (format(self, p10), format(self, p50), format(self, p90));
        if low == high && low == value {
            return Shown::exact(value);
        }
        Shown { value, median, spread: if low == high { low } else { self.range(&low, &high) } }
    }
}

/// Decimals as asked below ten, one fewer from ten, none from a hundred on.
fn significant(value: f64, decimals: usize) -> String {
    let drop = match value.abs() {
        v if v < 9.995 => 0,
        v if v < 99.95 => 1,
        _ => 2,
    };
    fixed(value, decimals.saturating_sub(drop))
}

fn fixed(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return "–".into();
    }
    let text = format!("{value:.decimals$}");
    // "-0.00" is a number nobody has ever measured.
    if text.trim_start_matches(['-', '0', '.']).is_empty() { text.trim_start_matches('-').to_owned() } else { text }
}

fn square_yard() -> Area {
    model::quantity::square_feet(9.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::figure::{Source, Why};
    use model::quantity::{
        cubic_metres, feet, inches, kilograms, kilometres, kilometres_per_hour, litres, metres, millimetres, minutes,
        square_metres,
    };

    const SI: Units = Units::new(UnitSystem::Si, Words(Language::English));
    const US: Units = Units::new(UnitSystem::UsCustomary, Words(Language::English));

    #[test]
    fn si_numbers_are_short() {
        // Expected texts by hand.
        assert_eq!(SI.solid(cubic_metres(0.338_000_000_1)), "0.34 m³");
        assert_eq!(SI.solid(cubic_metres(0.0561)), "0.056 m³");
        assert_eq!(SI.liquid(litres(12.3)), "12 L");
        assert_eq!(SI.liquid(litres(2.04)), "2.0 L");
        assert_eq!(SI.side(metres(1.25)), "1.25 m");
        assert_eq!(SI.depth(millimetres(219.6)), "220 mm");
        assert_eq!(SI.mass(kilograms(1234.5)), "1230 kg");
        assert_eq!(SI.mass(kilograms(-0.01)), "0.0 kg");
        assert_eq!(SI.along(metres(150.2)), "150 m");
        assert_eq!(SI.along(metres(7.62)), "7.6 m");
        assert_eq!(SI.along(metres(15.0)), "15 m");
        assert_eq!(SI.area(square_metres(1.234)), "1.23 m²");
        assert_eq!(SI.area(square_metres(12.34)), "12.3 m²");
        assert_eq!(SI.chainage(metres(1234.4)), "1+234");
        assert_eq!(SI.chainage(metres(-30.0)), "–0+030");
        assert_eq!(SI.drive(kilometres(12.34)), "12.3 km");
        assert_eq!(SI.speed(kilometres_per_hour(80.0)), "80 km/h");
        assert_eq!(SI.duration(minutes(85.4)), "1 h 25 min");
        assert_eq!(SI.duration(minutes(0.2)), "1 min");
    }

    #[test]
    fn customary_numbers_read_off_a_tape() {
        // 1 ft = 0.3048 m, 1 in = 25.4 mm, 1 US gal = 3.785 L, 1 lb = 0.4536 kg by definition.
        assert_eq!(US.side(inches(49.2)), "4 ft 1¼ in");
        assert_eq!(US.side(inches(47.99)), "4 ft");
        assert_eq!(US.side(inches(11.5)), "11½ in");
        assert_eq!(US.depth(millimetres(220.0)), "8¾ in");
        assert_eq!(US.along(feet(500.0)), "500 ft");
        assert_eq!(US.liquid(litres(37.85)), "10 gal");
        assert_eq!(US.mass(kilograms(45.36)), "100 lb");
        assert_eq!(US.chainage(feet(4049.0)), "40+49");
        assert_eq!(US.temperature(75.0), "167 °F");
        // 2 L/m² x 0.8361 m²/yd² / 3.785 L/gal = 0.44 gal/yd².
        assert_eq!(US.binder_rate(LitresPerSquareMetre(2.0)), "0.44 gal/yd²");
    }

    #[test]
    fn a_spread_says_its_unit_once_and_infinity_is_a_dash() {
        let why = Why::new("x", Source::definition());
        let figure = Figure::spread(
            litres(12.0),
            Spread { p10: litres(10.0), p50: litres(12.0), p90: litres(15.0) },
            why.clone(),
        );
        assert_eq!(SI.shown(&figure, Units::liquid).spread, "10 to 15 L");
        assert_eq!(SI.shown(&Figure::exact(litres(1.0), why), Units::liquid).spread, "–");
        assert_eq!(SI.depth(metres(f64::NAN)), "– mm");
        assert_eq!(US.side(metres(f64::INFINITY)), "–");
        assert_eq!(US.range("4 ft 1 in", "4 ft 2 in"), "4 ft 1 in to 4 ft 2 in");
    }
}
