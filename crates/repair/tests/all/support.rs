//! What the tests share: the shipped rules, and a complete set of invented materials and plant.

use std::path::Path;

use model::district::{
    Applicator, BaseMaterial, Binder, BinderKind, Compactor, CompactorKind, CoverStone, Plant, Residue,
};
use model::place::FramePoint;
use model::quantity::{
    Length, cubic_metres, fraction, kilograms_per_cubic_metre, kilometres_per_hour, metres, millimetres, square_metres,
};
use model::rules::repair::RepairRules;
use model::site_unit::SiteUnit;
use repair::RepairInput;

/// The shipped rules.
pub fn rules() -> RepairRules {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../rules/repair/common-practice.toml");
    let mut table: toml::Table = std::fs::read_to_string(path).unwrap().parse().unwrap();
    // The head of a file is the loader's.
    assert!(table.remove("name").is_some() && table.remove("about").is_some());
    table.try_into().unwrap()
}

/// Materials, plant and a cut.
#[derive(Debug, Clone)]
pub struct Example {
    pub corners: Vec<FramePoint>,
    pub length: f64,
    pub width: f64,
    pub depth: f64,
    pub hole_volume: Option<f64>,
    pub vehicles_per_day: Option<f64>,
    pub plant: Plant,
    pub base: BaseMaterial,
    pub cover_stone: CoverStone,
    pub binder: Binder,
    pub site_units: Vec<SiteUnit>,
}

/// A rectangle in the road frame, its middle at the origin.
pub fn rectangle(length: f64, width: f64) -> Vec<FramePoint> {
    let (x, y) = (length / 2.0, width / 2.0);
    ring(&[(-x, -y), (x, -y), (x, y), (-x, y)])
}

pub fn ring(points: &[(f64, f64)]) -> Vec<FramePoint> {
    points.iter().map(|&(along_m, across_m)| FramePoint { along_m, across_m }).collect()
}

impl Example {
    /// The repair that `worked_repair.rs` works out by hand.
    pub fn worked() -> Self {
        Example::sized(1.2, 0.9, 0.22)
    }

    pub fn sized(length: f64, width: f64, depth: f64) -> Self {
        Example {
            corners: rectangle(length, width),
            length,
            width,
            depth,
            hole_volume: Some(0.1),
            vehicles_per_day: Some(300.0),
            plant: Plant {
                compactors: vec![
                    compactor(CompactorKind::PedestrianRoller, 0.65, 1.5),
                    compactor(CompactorKind::VibratingPlate, 0.45, 1.2),
                    compactor(CompactorKind::HandTamper, 0.20, 0.3),
                ],
                applicator: Applicator::Sprayer,
                containers: Vec::new(),
            },
            base: BaseMaterial {
                name: "crushed base".into(),
                maximum_dry_density: kilograms_per_cubic_metre(2200.0),
                optimum_moisture: fraction(0.065),
                stock_moisture: fraction(0.04),
                loose_density: kilograms_per_cubic_metre(1650.0),
                largest_stone: Some(millimetres(20.0)),
            },
            cover_stone: CoverStone {
                name: "10 mm chippings".into(),
                nominal_size: millimetres(10.0),
                median_size: Some(millimetres(9.5)),
                average_least_dimension: None,
                flakiness: fraction(0.20),
                loose_density: kilograms_per_cubic_metre(1450.0),
                particle_density: kilograms_per_cubic_metre(2650.0),
            },
            binder: Binder {
                grade: "CRS-2".into(),
                kind: BinderKind::Emulsion,
                residue: Some(Residue::ByVolume(fraction(0.67))),
                spray_temperature_c: 60.0,
                density: kilograms_per_cubic_metre(1010.0),
            },
            site_units: Vec::new(),
        }
    }

    /// The same with only these compactors.
    pub fn with(mut self, compactors: &[Compactor]) -> Self {
        self.plant.compactors = compactors.to_vec();
        self
    }

    pub fn input(&self) -> RepairInput<'_> {
        RepairInput {
            corners: &self.corners,
            pavement: None,
            area: square_metres(self.length * self.width),
            length: metres(self.length),
            width: metres(self.width),
            perimeter: metres(2.0 * (self.length + self.width)),
            depth: metres(self.depth),
            hole_volume: self.hole_volume.map(cubic_metres),
            vehicles_per_day: self.vehicles_per_day,
            factors: model::learnt::UseFactors::NONE,
            road_class: None,
            weather: None,
            plant: &self.plant,
            base: &self.base,
            cover_stone: &self.cover_stone,
            binder: &self.binder,
            site_units: &self.site_units,
        }
    }
}

pub fn compactor(kind: CompactorKind, width: f64, speed: f64) -> Compactor {
    Compactor { kind, width: Some(metres(width)), speed: Some(kilometres_per_hour(speed)) }
}

/// Equal to a relative difference.
#[track_caller]
pub fn near(found: f64, expected: f64, relative: f64) {
    let slack = expected.abs() * relative + f64::EPSILON;
    assert!((found - expected).abs() <= slack, "found {found}, expected {expected} within {relative}");
}

pub fn mm(value: f64) -> Length {
    millimetres(value)
}
