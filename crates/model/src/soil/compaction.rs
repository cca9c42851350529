//! A laboratory compaction test (Proctor): what was weighed, and what follows.

use crate::figure::Figure;
use crate::problem::Locator;
use crate::quantity::{Mass, MassDensity, Ratio, Volume};

/// One compacted specimen as measured.
#[derive(Debug, Clone, PartialEq)]
pub struct CompactionReading {
    /// Water over dry mass.
    pub moisture: Ratio,
    /// How heavy it came out.
    pub density: DensityReading,
    /// Where it stands in the input.
    pub from: Locator,
}

/// How the density of a specimen was written down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DensityReading {
    /// Dry density, worked out already.
    Dry(MassDensity),
    /// Density with the water in it.
    Wet(MassDensity),
    /// Mould weighed full and empty, and its volume.
    Mould {
        /// Mould with the moist specimen.
        full: Mass,
        /// Mould alone; zero where the specimen was weighed by itself.
        empty: Mass,
        /// Inside volume.
        volume: Volume,
    },
}

/// One specimen worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct CompactionPoint {
    /// Water over dry mass.
    pub moisture: Ratio,
    /// Dry density.
    pub dry_density: MassDensity,
    /// Greatest dry density possible at that moisture, all voids full of water.
    pub zero_air_voids: MassDensity,
    /// Whether it was used.
    pub fate: PointFate,
    /// Where it stands in the input.
    pub from: Locator,
}

/// Whether a specimen was used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PointFate {
    /// In the fit.
    Used,
    /// Denser than is possible at its moisture: left out.
    AboveZeroAirVoids,
}

/// Curve through the specimens.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FitDegree {
    /// Second degree.
    Parabola,
    /// Third degree.
    Cubic,
}

impl FitDegree {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            FitDegree::Parabola => "parabola",
            FitDegree::Cubic => "cubic",
        }
    }
}

/// A compaction test worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct CompactionTest {
    /// All specimens that could be worked out, driest first.
    pub points: Vec<CompactionPoint>,
    /// Specific gravity of the particles that the bounds rest on.
    pub specific_gravity: Figure<f64>,
    /// The curve and its peak, or why there is none and what to test next.
    pub fit: Result<CompactionFit, String>,
    /// Zero air voids line over the moistures tested and somewhat beyond.
    pub zero_air_voids: Curve,
    /// Lines of part saturation.
    pub part_saturation: Vec<Curve>,
}

/// The fitted curve and its peak.
#[derive(Debug, Clone, PartialEq)]
pub struct CompactionFit {
    /// Curve taken.
    pub degree: FitDegree,
    /// Why that one.
    pub degree_reason: String,
    /// Density at the peak.
    pub maximum_dry_density: Figure<MassDensity>,
    /// Moisture at the peak.
    pub optimum_moisture: Figure<Ratio>,
    /// Share of the voids full of water at the peak.
    pub saturation: Figure<Ratio>,
    /// Standard deviation of the specimens about the curve; `None` where the curve goes through all of them by force.
    pub scatter: Option<MassDensity>,
    /// Specimens more than the curve has constants: what the spread rests on.
    pub degrees_of_freedom: usize,
    /// The curve over the moistures tested.
    pub curve: Curve,
    /// What to know before relying on it, in words.
    pub remarks: Vec<String>,
}

/// A line in the plane of moisture and dry density.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// Share of the voids full of water along it; `None` for a fit.
    pub saturation: Option<Ratio>,
    /// Moisture and dry density, rising moisture.
    pub points: Vec<(Ratio, MassDensity)>,
}
