//! Quantities in words, for the working of a figure.

use model::quantity::{InLength, InMass, InMassDensity, InRatio, Length, Mass, MassDensity, Ratio};

pub fn density(value: MassDensity) -> String {
    format!("{:.1} kg/m3", value.in_kilograms_per_cubic_metre())
}

pub fn percent(value: Ratio) -> String {
    format!("{:.2} %", value.in_percent())
}

pub fn grams(value: Mass) -> String {
    format!("{:.1} g", 1000.0 * value.in_kilograms())
}

pub fn millimetres(value: Length) -> String {
    format!("{} mm", trimmed(value.in_millimetres(), 3))
}

/// A number with at most so many decimals and no trailing zeros.
pub fn trimmed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}
