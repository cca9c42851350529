//! Shape of `rules/soil/*.toml`: how tests of the base are worked out.
//!
//! The unit of each value is in its name. `name`, `about` and `extends` at the head of a file belong to the loader.

use serde::Deserialize;

use super::Sourced;

/// How tests of the base are worked out.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SoilRules {
    /// Laboratory compaction test.
    pub compaction: CompactionTestRules,
    /// Density in place by sand replacement.
    pub field_density: FieldDensityRules,
    /// Sieve analysis.
    pub sieving: SievingRules,
}

/// Laboratory compaction test.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CompactionTestRules {
    /// Specific gravity of the particles where it was not measured.
    pub specific_gravity: Sourced<f64>,
    /// Density of water, kilograms per cubic metre.
    pub water_density_kg_per_m3: Sourced<f64>,
    /// The bound of the densest possible dry density at a moisture.
    pub zero_air_voids: Sourced<String>,
    /// Least count of specimens for a cubic.
    pub cubic_from_points: Sourced<u32>,
    /// A specimen denser than the curve's peak by more than this share of it is told: the curve is too blunt for it.
    pub blunt_share: Sourced<f64>,
    /// Lines of part saturation to draw, as shares.
    pub part_saturation: Sourced<Vec<f64>>,
}

/// Density in place by sand replacement: standard uncertainty of each reading.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FieldDensityRules {
    /// The method.
    pub method: Sourced<String>,
    /// Of one weighing, kilograms.
    pub weighing_kg: Sourced<f64>,
    /// Of the moisture, percentage points.
    pub moisture_points: Sourced<f64>,
    /// Of the sand's density, as a share of it.
    pub sand_density_share: Sourced<f64>,
    /// Smallest hole that the result can be relied on, cubic metres.
    pub smallest_hole_m3: Sourced<f64>,
}

/// Sieve analysis.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SievingRules {
    /// Greatest share of the mass that may get lost in sieving.
    pub loss_most: Sourced<f64>,
    /// The three sieves of the grading modulus `(300 - sum of per cent passing) / 100`.
    pub modulus_sieves: Sourced<[String; 3]>,
    /// Sieve designations.
    pub sieves: Sourced<Vec<Sieve>>,
    /// An opening this near to a designated one, as a share of it, is that sieve.
    pub same_sieve_share: Sourced<f64>,
}

/// One designated sieve.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sieve {
    /// Designation, e.g. `No. 200` or `3/4 in`.
    pub name: String,
    /// Opening, millimetres.
    pub opening_mm: f64,
}
