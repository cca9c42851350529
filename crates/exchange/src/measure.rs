//! Masses, densities, volumes, shares and temperatures as people write them: `3870 g`, `1.45 g/cm3`, `60 L`, `6.2 %`,
//! `31 C`. One list of units for table headers and for the command line; a unit is never guessed.

use model::quantity::{
    InMass, InMassDensity, InRatio, InVolume, Mass, MassDensity, Ratio, Volume, cubic_feet, cubic_metres, fraction,
    kilograms, kilograms_per_cubic_metre, litres, percent, pounds,
};

use crate::quantity_text::{DecimalMark, LengthTextError, plain_signs, take_number};

/// Reads a mass with its unit.
///
/// # Errors
/// What is wrong with the text, in words.
pub fn read_mass(text: &str) -> Result<Mass, String> {
    read(text, Measure::Mass).map(kilograms)
}

/// Reads a density with its unit.
///
/// # Errors
/// As [`read_mass`].
pub fn read_density(text: &str) -> Result<MassDensity, String> {
    read(text, Measure::Density).map(kilograms_per_cubic_metre)
}

/// Reads a volume with its unit.
///
/// # Errors
/// As [`read_mass`].
pub fn read_volume(text: &str) -> Result<Volume, String> {
    read(text, Measure::Volume).map(cubic_metres)
}

/// Reads a share: `6.2%`.
///
/// # Errors
/// As [`read_mass`].
pub fn read_share(text: &str) -> Result<Ratio, String> {
    read(text, Measure::Share).map(fraction)
}

/// Reads a temperature as degrees Celsius: `31C`, `88F`.
///
/// # Errors
/// As [`read_mass`].
pub fn read_temperature_c(text: &str) -> Result<f64, String> {
    read(text, Measure::Temperature)
}

/// A number in SI (temperatures in degrees Celsius).
fn read(text: &str, measure: Measure) -> Result<f64, String> {
    let text = plain_signs(text);
    let (number, unit) = take_number(&text, DecimalMark::Point).map_err(|error| error.to_string())?;
    if !number.is_finite() {
        return Err(LengthTextError::NotFinite.to_string());
    }
    let known = || format!("known units: {}", measure.known());
    if unit.is_empty() {
        return Err(format!("no unit is given, and none is guessed; {}", known()));
    }
    let into =
        measure.unit(&unit.to_lowercase()).ok_or_else(|| format!("`{unit}` is not a known unit; {}", known()))?;
    Ok(into(number))
}

/// What a number measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// Water over dry mass, or another share.
    Share,
    /// Mass.
    Mass,
    /// Mass over volume.
    Density,
    /// Volume.
    Volume,
    /// Temperature, degrees Celsius.
    Temperature,
    /// Depth of rain, millimetres.
    Rain,
    /// A time; no unit.
    Time,
    /// A word, or a length with its own unit.
    Mark,
}

/// A known unit: how it is written, and one of it in SI.
type UnitWord = (&'static [&'static str], fn(f64) -> f64);

impl Measure {
    /// Its units.
    fn units(self) -> &'static [UnitWord] {
        match self {
            Measure::Share => &[
                (&["%", "percent", "per cent", "pct"], |n| percent(n).in_fraction()),
                (&["fraction"], |n| fraction(n).in_fraction()),
            ],
            Measure::Mass => {
                &[(&["g"], |n| n / 1000.0), (&["kg"], |n| n), (&["lb", "lbs"], |n| pounds(n).in_kilograms())]
            }
            Measure::Density => &[
                (&["kg/m3", "kg/m³", "kg_per_m3"], |n| n),
                (&["g/cm3", "g/cm³", "g_per_cm3", "t/m3", "t/m³", "t_per_m3", "mg/m3", "mg/m³"], |n| 1000.0 * n),
                (&["lb/ft3", "lb/ft³", "lb_per_ft3", "pcf"], |n| {
                    (pounds(n) / cubic_feet(1.0)).in_kilograms_per_cubic_metre()
                }),
            ],
            Measure::Volume => &[
                (&["cm3", "cm³", "ml"], |n| n / 1e6),
                (&["l", "litre", "liter"], |n| litres(n).in_cubic_metres()),
                (&["m3", "m³"], |n| n),
                (&["ft3", "ft³"], |n| cubic_feet(n).in_cubic_metres()),
            ],
            Measure::Temperature => &[(&["c", "°c"], |n| n), (&["f", "°f"], |n| (n - 32.0) / 1.8)],
            Measure::Rain => &[(&["mm"], |n| n), (&["in"], |n| 25.4 * n)],
            Measure::Time | Measure::Mark => &[],
        }
    }

    /// The unit that examples are given in.
    pub fn first(self) -> &'static str {
        self.units().first().map_or("mm", |(words, _)| words[0])
    }

    /// Its units, for messages.
    pub fn known(self) -> String {
        if self == Measure::Mark {
            return crate::quantity_text::KNOWN_UNITS.into();
        }
        self.units().iter().map(|(words, _)| words[0]).collect::<Vec<_>>().join(", ")
    }

    /// From a number in that unit to SI; `None` where the unit is not known.
    pub fn unit(self, word: &str) -> Option<fn(f64) -> f64> {
        self.units().iter().find(|(words, _)| words.contains(&word)).map(|(_, into)| *into)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantities_as_people_write_them() {
        // By definition: 1 lb = 0.45359237 kg, 1 ft3 = 0.028316846592 m3; the unit library has pounds to seven digits.
        let near =
            |found: f64, expected: f64| assert!((found - expected).abs() < 1e-6 * expected, "{found} {expected}");
        near(read_mass("3870 g").unwrap().in_kilograms(), 3.87);
        near(read_mass("10lb").unwrap().in_kilograms(), 4.5359237);
        near(read_density("1.45 g/cm3").unwrap().in_kilograms_per_cubic_metre(), 1450.0);
        near(read_density("100 pcf").unwrap().in_kilograms_per_cubic_metre(), 1601.8463);
        near(read_volume("60 L").unwrap().in_cubic_metres(), 0.06);
        near(read_volume("2 ft3").unwrap().in_cubic_metres(), 0.056633693);
        near(read_share("6.2%").unwrap().in_fraction(), 0.062);
        near(read_temperature_c("86F").unwrap(), 30.0);
        near(read_temperature_c("31 °C").unwrap(), 31.0);
    }

    #[test]
    fn what_is_no_quantity_is_refused() {
        assert_eq!(read_mass("5").unwrap_err(), "no unit is given, and none is guessed; known units: g, kg, lb");
        assert_eq!(read_volume("5 pints").unwrap_err(), "`pints` is not a known unit; known units: cm3, l, m3, ft3");
        assert!(read_share("NaN %").is_err() && read_density("1e999 kg/m3").is_err() && read_mass("").is_err());
        assert!(read_mass("1,5 kg").is_err());
    }
}
