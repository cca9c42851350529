//! Density in place by sand replacement: what was weighed, and what follows.

use crate::figure::Figure;
use crate::quantity::{Mass, MassDensity, Ratio, Volume};

/// One field test as measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FieldDensityReading {
    /// Sand in the apparatus before.
    pub sand_before: Mass,
    /// Sand in the apparatus after the hole and the cone are full.
    pub sand_after: Mass,
    /// Sand that fills the cone (and the gap below its plate).
    pub sand_in_cone: Mass,
    /// Loose density of the poured sand, by calibration.
    pub sand_density: MassDensity,
    /// Moist soil dug from the hole.
    pub soil: Mass,
    /// Its moisture, water over dry mass.
    pub moisture: Ratio,
    /// Maximum dry density from the laboratory.
    pub maximum_dry_density: MassDensity,
    /// Least degree of compaction that the specification asks for.
    pub required: Ratio,
}

/// A field test worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct FieldDensity {
    /// Volume of the hole dug for the test.
    pub hole_volume: Figure<Volume>,
    /// Density with its water.
    pub wet_density: Figure<MassDensity>,
    /// Dry density.
    pub dry_density: Figure<MassDensity>,
    /// Dry density over the maximum of the laboratory.
    pub degree_of_compaction: Figure<Ratio>,
    /// Degree that was asked for.
    pub required: Ratio,
    /// Against the degree asked for.
    pub verdict: Verdict,
    /// What to know before relying on it, in words.
    pub remarks: Vec<String>,
}

/// A measured degree of compaction against the one asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// At or above, and the reading errors leave little doubt.
    Passes,
    /// At or above, but within the reading errors.
    PassesNarrowly,
    /// Below, but within the reading errors.
    FailsNarrowly,
    /// Below, and the reading errors leave little doubt.
    Fails,
}

impl Verdict {
    /// Whether it reaches the degree asked for.
    pub fn is_pass(self) -> bool {
        matches!(self, Verdict::Passes | Verdict::PassesNarrowly)
    }

    /// The verdict in words.
    pub fn words(self) -> &'static str {
        match self {
            Verdict::Passes => "passes",
            Verdict::PassesNarrowly => "passes, within the reading errors",
            Verdict::FailsNarrowly => "fails, within the reading errors",
            Verdict::Fails => "fails",
        }
    }
}
