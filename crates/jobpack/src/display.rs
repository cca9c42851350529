//! Numbers as a crew reads them: the district's units, rounded to what a tape, a scale or a dipstick can show.

use model::district::UnitSystem;
use model::figure::{Figure, Spread};
use model::quantity::{
    Area, InArea, InLength, InMass, InTime, InVelocity, InVolume, KilogramsPerSquareMetre, Length,
    LitresPerSquareMetre, Mass, Time, Velocity, Volume, litres,
};

/// Writes quantities in one system of units.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Units(pub UnitSystem);

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

impl Units {
    fn si(self) -> bool {
        self.0 == UnitSystem::Si
    }

    /// A depth or thickness: whole millimetres, or quarter inches.
    pub fn depth(self, length: Length) -> String {
        if self.si() { format!("{} mm", fixed(length.in_millimetres(), 0)) } else { quarter_inches(length.in_inches()) }
    }

    /// A side of a hole or a cut: metres to the centimetre, or feet and quarter inches.
    pub fn side(self, length: Length) -> String {
        if self.si() { format!("{} m", fixed(length.in_metres(), 2)) } else { feet_and_inches(length.in_inches()) }
    }

    /// A distance that is paced or wheeled along the road: whole metres (a tenth below 20 m), or whole feet.
    pub fn along(self, length: Length) -> String {
        if self.si() {
            let metres = length.in_metres();
            let decimals = usize::from(metres.abs() < 19.95 && (metres - metres.round()).abs() > 0.05);
            format!("{} m", fixed(metres, decimals))
        } else {
            format!("{} ft", fixed(length.in_feet(), 0))
        }
    }

    /// A width of road, one decimal.
    pub fn width(self, length: Length) -> String {
        if self.si() {
            format!("{} m", fixed(length.in_metres(), 1))
        } else {
            format!("{} ft", fixed(length.in_feet(), 1))
        }
    }

    /// A driven distance.
    pub fn drive(self, length: Length) -> String {
        if self.si() {
            format!("{} km", fixed(length.in_kilometres(), 1))
        } else {
            format!("{} mi", fixed(length.in_feet() / 5280.0, 1))
        }
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
            format!("{} m²", significant(area.in_square_metres(), 2))
        } else {
            format!("{} ft²", significant(area.in_square_feet(), 1))
        }
    }

    /// Loose or compacted solids.
    pub fn solid(self, volume: Volume) -> String {
        if self.si() {
            let value = volume.in_cubic_metres();
            format!("{} m³", fixed(value, if value.abs() < 0.0995 { 3 } else { 2 }))
        } else {
            format!("{} ft³", significant(volume.in_cubic_feet(), 1))
        }
    }

    /// Liquids.
    pub fn liquid(self, volume: Volume) -> String {
        if self.si() {
            format!("{} L", significant(volume.in_litres(), 1))
        } else {
            format!("{} gal", significant(volume.in_us_gallons(), 1))
        }
    }

    /// Water, which the trade weighs but the crew pours: 1 kg fills 1 L.
    pub fn water(self, mass: Mass) -> String {
        self.liquid(litres(mass.in_kilograms()))
    }

    /// A mass.
    pub fn mass(self, mass: Mass) -> String {
        let (value, unit) = if self.si() { (mass.in_kilograms(), "kg") } else { (mass.in_pounds(), "lb") };
        let rounded = if value.abs() >= 1000.0 { (value / 10.0).round() * 10.0 } else { value };
        format!("{} {unit}", significant(rounded, 1))
    }

    /// A binder rate.
    pub fn binder_rate(self, rate: LitresPerSquareMetre) -> String {
        if self.si() {
            format!("{} L/m²", fixed(rate.0, 2))
        } else {
            // 1 US gal/yd² = 3.785 L / 0.8361 m².
            format!("{} gal/yd²", fixed((rate * square_yard()).in_us_gallons(), 2))
        }
    }

    /// A cover stone rate.
    pub fn cover_rate(self, rate: KilogramsPerSquareMetre) -> String {
        if self.si() {
            format!("{} kg/m²", fixed(rate.0, 1))
        } else {
            format!("{} lb/yd²", fixed((rate * square_yard()).in_pounds(), 1))
        }
    }

    /// A speed limit.
    pub fn speed(self, speed: Velocity) -> String {
        if self.si() {
            format!("{} km/h", fixed(speed.in_kilometres_per_hour(), 0))
        } else {
            format!("{} mph", fixed(speed.in_miles_per_hour(), 0))
        }
    }

    /// A temperature.
    pub fn temperature(self, celsius: f64) -> String {
        if self.si() { format!("{} °C", fixed(celsius, 0)) } else { format!("{} °F", fixed(celsius * 1.8 + 32.0, 0)) }
    }

    /// A figure with its spread, by one of the formats above.
    pub fn shown<Q: Copy>(self, figure: &Figure<Q>, format: impl Fn(Self, Q) -> String) -> Shown {
        let value = format(self, figure.value);
        let Some(Spread { p10, p50, p90 }) = figure.spread else { return Shown::exact(value) };
        let (low, median, high) = (format(self, p10), format(self, p50), format(self, p90));
        if low == high && low == value {
            return Shown::exact(value);
        }
        Shown { value, median, spread: if low == high { low } else { range(&low, &high) } }
    }
}

/// Minutes, or hours and minutes; never zero for something that takes time.
pub fn duration(time: Time) -> String {
    let minutes = time.in_minutes();
    if !minutes.is_finite() {
        return "–".into();
    }
    let whole = if minutes > 0.0 { minutes.round().max(1.0) } else { 0.0 } as u64;
    if whole < 60 { format!("{whole} min") } else { format!("{} h {:02} min", whole / 60, whole % 60) }
}

/// `low to high`, the unit said once where both have the same.
pub fn range(low: &str, high: &str) -> String {
    match (low.rsplit_once(' '), high.rsplit_once(' ')) {
        (Some((number, a)), Some((_, b))) if a == b && number.parse::<f64>().is_ok() => format!("{number} to {high}"),
        _ => format!("{low} to {high}"),
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

fn feet_and_inches(inches: f64) -> String {
    if !inches.is_finite() {
        return "–".into();
    }
    let quarters = (inches * 4.0).round();
    if quarters.abs() < 48.0 {
        return quarter_inches(inches);
    }
    let (feet, rest) = ((quarters / 48.0).trunc(), (quarters % 48.0).abs() / 4.0);
    if rest == 0.0 { format!("{feet:.0} ft") } else { format!("{feet:.0} ft {}", quarter_inches(rest)) }
}

fn quarter_inches(inches: f64) -> String {
    if !inches.is_finite() {
        return "–".into();
    }
    let quarters = (inches * 4.0).round() as i64;
    let sign = if quarters < 0 { "-" } else { "" };
    let (whole, part) = (quarters.abs() / 4, ["", "¼", "½", "¾"][(quarters.abs() % 4) as usize]);
    match (whole, part) {
        (0, "") => "0 in".into(),
        (0, part) => format!("{sign}{part} in"),
        (whole, part) => format!("{sign}{whole}{part} in"),
    }
}

/// Passes of a layer: without, then with vibration.
pub fn passes(fixed: u32, vibrating: u32) -> String {
    match (fixed, vibrating) {
        (fixed, 0) => format!("{fixed} passes"),
        (0, vibrating) => format!("{vibrating} vibrating"),
        (fixed, vibrating) => format!("{fixed} + {vibrating} vibrating"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::figure::{Source, Why};
    use model::quantity::{
        cubic_metres, feet, inches, kilograms, kilometres, kilometres_per_hour, litres, metres, millimetres, minutes,
        square_metres,
    };

    const SI: Units = Units(UnitSystem::Si);
    const US: Units = Units(UnitSystem::UsCustomary);

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
        assert_eq!(duration(minutes(85.4)), "1 h 25 min");
        assert_eq!(duration(minutes(0.2)), "1 min");
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
        assert_eq!(range("4 ft 1 in", "4 ft 2 in"), "4 ft 1 in to 4 ft 2 in");
    }
}
