//! Density in place by sand replacement, and the degree of compaction against the one asked for.

use model::figure::{Figure, Source, Spread, Why};
use model::quantity::{InMass, InMassDensity, InRatio, cubic_metres, fraction, kilograms_per_cubic_metre};
use model::rules::soil::SoilRules;
use model::soil::{FieldDensity, FieldDensityReading, Verdict};
use statrs::distribution::{ContinuousCDF, Normal};

use crate::show;
use crate::voids::{dry_density, saturation};

/// A degree short of the one asked for by no more than rounding is not short.
const ROUNDING: f64 = 1e-9;

/// What makes a field test impossible to work out, each in words; empty where it can be.
pub fn faults(reading: &FieldDensityReading) -> Vec<String> {
    let mut faults = Vec::new();
    let sand = sand_in_hole(reading);
    for (name, value) in [
        ("sand before", reading.sand_before.in_kilograms()),
        ("sand density", reading.sand_density.in_kilograms_per_cubic_metre()),
        ("soil from the hole", reading.soil.in_kilograms()),
        ("maximum dry density", reading.maximum_dry_density.in_kilograms_per_cubic_metre()),
        ("degree asked for", reading.required.in_fraction()),
    ] {
        if !(value.is_finite() && value > 0.0) {
            faults.push(format!("{name} is {value}; a number over zero is needed"));
        }
    }
    for (name, value) in [
        ("sand after", reading.sand_after.in_kilograms()),
        ("sand in the cone", reading.sand_in_cone.in_kilograms()),
        ("moisture", reading.moisture.in_fraction()),
    ] {
        if !(value.is_finite() && value >= 0.0) {
            faults.push(format!("{name} is {value}; a number of zero or more is needed"));
        }
    }
    if faults.is_empty() && sand <= 0.0 {
        let left = 1000.0 * sand;
        faults.push(format!("{left:.1} g of sand are left for the hole; more must have run out than fills the cone"));
    }
    faults
}

/// Works out a field test whose [`faults`] are none.
pub fn field_density(reading: &FieldDensityReading, rules: &SoilRules) -> FieldDensity {
    let test = &rules.field_density;
    let source = &test.method.source;
    let (sand, sand_density) = (sand_in_hole(reading), reading.sand_density.in_kilograms_per_cubic_metre());
    let (soil, moisture) = (reading.soil.in_kilograms(), reading.moisture.in_fraction());
    let volume = sand / sand_density;
    let wet = soil / volume;
    let dry = dry_density(wet, moisture);
    let maximum = reading.maximum_dry_density.in_kilograms_per_cubic_metre();
    let degree = dry / maximum;
    // Relative standard uncertainties, first order, readings independent. Three weighings give the sand.
    let weighing = test.weighing_kg.value;
    let of_volume = (3.0_f64.sqrt() * weighing / sand).hypot(test.sand_density_share.value);
    let of_wet = of_volume.hypot(weighing / soil);
    let of_dry = of_wet.hypot(test.moisture_points.value / 100.0 / (1.0 + moisture));
    let readings = |why: Why, share: f64| {
        why.with("one weighing", format!("± {:.1} g", 1000.0 * weighing))
            .with("sand density", format!("± {} %", show::trimmed(100.0 * test.sand_density_share.value, 2)))
            .with("moisture", format!("± {} points", show::trimmed(test.moisture_points.value, 2)))
            .with("standard uncertainty", format!("{:.2} %", 100.0 * share))
    };
    let volume_why = Why::new("V = (m_before - m_after - m_cone) / rho_sand", source.clone())
        .with("m_before", show::grams(reading.sand_before))
        .with("m_after", show::grams(reading.sand_after))
        .with("m_cone", show::grams(reading.sand_in_cone))
        .with("rho_sand", show::density(reading.sand_density));
    let wet_why = Why::new("rho_wet = m_soil / V", source.clone())
        .with("m_soil", show::grams(reading.soil))
        .with("V", format!("{:.2} cm3", 1e6 * volume));
    let dry_why = Why::new("rho_d = rho_wet / (1 + w)", Source::definition())
        .with("rho_wet", show::density(kilograms_per_cubic_metre(wet)))
        .with("w", show::percent(reading.moisture));
    let degree_why = Why::new("k = rho_d / MDD, the laboratory's MDD taken as it is", Source::definition())
        .with("rho_d", show::density(kilograms_per_cubic_metre(dry)))
        .with("MDD", show::density(reading.maximum_dry_density));
    let degree = spread(degree, of_dry, fraction, readings(degree_why, of_dry));
    let verdict = verdict(&degree, reading.required.in_fraction());
    FieldDensity {
        hole_volume: spread(volume, of_volume, cubic_metres, readings(volume_why, of_volume)),
        wet_density: spread(wet, of_wet, kilograms_per_cubic_metre, readings(wet_why, of_wet)),
        dry_density: spread(dry, of_dry, kilograms_per_cubic_metre, readings(dry_why, of_dry)),
        remarks: remarks(volume, moisture, dry, rules),
        degree_of_compaction: degree,
        required: reading.required,
        verdict,
    }
}

fn sand_in_hole(reading: &FieldDensityReading) -> f64 {
    (reading.sand_before - reading.sand_after - reading.sand_in_cone).in_kilograms()
}

fn verdict(degree: &Figure<model::quantity::Ratio>, required: f64) -> Verdict {
    let passes = degree.value.in_fraction() >= required - ROUNDING;
    let is_narrow =
        degree.spread.as_ref().is_some_and(|s| (s.p10.in_fraction()..=s.p90.in_fraction()).contains(&required));
    match (passes, is_narrow) {
        (true, false) => Verdict::Passes,
        (true, true) => Verdict::PassesNarrowly,
        (false, true) => Verdict::FailsNarrowly,
        (false, false) => Verdict::Fails,
    }
}

fn remarks(volume: f64, moisture: f64, dry: f64, rules: &SoilRules) -> Vec<String> {
    let mut remarks = Vec::new();
    let least = rules.field_density.smallest_hole_m3.value;
    if volume < least {
        remarks.push(format!(
            "the hole holds {:.0} cm3; under {:.0} cm3 its errors weigh too much: dig a larger one",
            1e6 * volume,
            1e6 * least
        ));
    }
    let gravity = rules.compaction.specific_gravity.value;
    let full = saturation(moisture, dry, gravity, rules.compaction.water_density_kg_per_m3.value);
    // Over one, or below zero where it is denser than the particles themselves.
    if !(0.0..=1.0).contains(&full) {
        remarks.push(format!(
            "denser than can be at that moisture for specific gravity {}: look at the weighings",
            show::trimmed(gravity, 3)
        ));
    }
    remarks
}

fn spread<Q>(value: f64, share: f64, quantity: fn(f64) -> Q, why: Why) -> Figure<Q> {
    let off = Normal::standard().inverse_cdf(0.9) * share * value;
    let spread = Spread { p10: quantity((value - off).max(0.0)), p50: quantity(value), p90: quantity(value + off) };
    Figure::spread(quantity(value), spread, why)
}
