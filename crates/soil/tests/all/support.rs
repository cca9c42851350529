//! What the tests share: the shipped rules, and readings from bare numbers.

use model::problem::Locator;
use model::quantity::{kilograms_per_cubic_metre, percent};
use model::rules::gradation::GradationRules;
use model::rules::soil::SoilRules;
use model::soil::{CompactionReading, DensityReading};
use serde::de::DeserializeOwned;

pub fn soil_rules() -> SoilRules {
    shipped("soil/common-practice.toml")
}

pub fn m147() -> GradationRules {
    shipped("gradation/aashto-m147.toml")
}

pub fn iowa() -> GradationRules {
    shipped("gradation/iowa-im209.toml")
}

fn shipped<T: DeserializeOwned>(file: &str) -> T {
    let path = testkit::in_repository("rules").join(file);
    let mut table: toml::Table = std::fs::read_to_string(path).unwrap().parse().unwrap();
    // The head of a file is the loader's.
    assert!(table.remove("name").is_some() && table.remove("about").is_some());
    table.try_into().unwrap()
}

/// Specimens of moisture in per cent and dry density in kg/m3, one a line from line 2.
pub fn specimens(points: &[(f64, f64)]) -> Vec<CompactionReading> {
    let reading = |(index, &(moisture, density)): (usize, &(f64, f64))| CompactionReading {
        moisture: percent(moisture),
        density: DensityReading::Dry(kilograms_per_cubic_metre(density)),
        from: Locator { file: "specimens.csv".into(), line: index + 2, column: 1 },
    };
    points.iter().enumerate().map(reading).collect()
}

#[track_caller]
pub fn near(found: f64, expected: f64, tolerance: f64) {
    let off = (found - expected).abs();
    assert!(off <= tolerance, "{found} is not {expected} within {tolerance}");
}
