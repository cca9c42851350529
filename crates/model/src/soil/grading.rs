//! A sieve analysis: what was weighed, and how it lies in the envelopes of published gradings.

use crate::figure::{Figure, Source};
use crate::problem::Locator;
use crate::quantity::{Length, Mass, Ratio};

/// How a sieve is named in the input.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SieveMark {
    /// By number, as `No. 200`.
    Number(u32),
    /// By its opening.
    Opening(Length),
}

/// What was found on one sieve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SieveReading {
    /// Dry mass that stayed on it.
    Retained(Mass),
    /// Share of the whole that passed it.
    Passing(Ratio),
}

/// A sample as sieved.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SieveSample {
    /// Sieves in any order.
    pub sieves: Vec<(SieveMark, SieveReading, Locator)>,
    /// What fell through the last sieve.
    pub pan: Option<Mass>,
    /// Fines lost in washing before sieving.
    pub washed: Option<Mass>,
    /// Dry mass before washing and sieving.
    pub total: Option<Mass>,
}

/// Share passing one sieve.
#[derive(Debug, Clone, PartialEq)]
pub struct PassingPoint {
    /// Sieve's designation.
    pub sieve: String,
    /// Its opening.
    pub opening: Length,
    /// Share of the dry mass that passes it.
    pub passing: Figure<Ratio>,
}

/// A sieve analysis worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct SieveAnalysis {
    /// Coarsest sieve first.
    pub points: Vec<PassingPoint>,
    /// Mass that got lost in sieving over the mass sieved; `None` where it can't be known.
    pub loss: Option<Figure<Ratio>>,
    /// Grading modulus, or why there is none.
    pub modulus: Result<Figure<f64>, String>,
    /// Against every grading given, the nearest first.
    pub checks: Vec<GradingCheck>,
}

/// A sample against one grading.
#[derive(Debug, Clone, PartialEq)]
pub struct GradingCheck {
    /// Name of the grading.
    pub grading: String,
    /// What it is.
    pub about: String,
    /// Where its limits are from.
    pub source: Source,
    /// Sieve by sieve, coarsest first.
    pub sieves: Vec<SieveVerdict>,
    /// Its rule on fines, where it has one.
    pub fines: Option<FinesVerdict>,
    /// All together.
    pub fit: Fit,
    /// Sum over the sieves of how far outside they lie.
    pub miss: Ratio,
}

/// All sieves of a grading together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fit {
    /// Every sieve was tested and lies inside, and so do the fines.
    Fits,
    /// What was tested lies inside, but not every sieve was tested.
    NotDecided,
    /// Something lies outside.
    Misses,
}

impl Fit {
    /// Better fits have the lower rank.
    pub fn rank(self) -> u8 {
        self as u8
    }

    /// The word for it.
    pub fn words(self) -> &'static str {
        match self {
            Fit::Fits => "fits",
            Fit::NotDecided => "not decided",
            Fit::Misses => "misses",
        }
    }
}

/// One sieve of a grading.
#[derive(Debug, Clone, PartialEq)]
pub struct SieveVerdict {
    /// Sieve's designation.
    pub sieve: String,
    /// Its opening.
    pub opening: Length,
    /// Least share that should pass.
    pub least: Ratio,
    /// Greatest share that should pass.
    pub most: Ratio,
    /// Share that passes; read off between its neighbours where the sieve was not used, `None` beyond them.
    pub passing: Option<Ratio>,
    /// How that lies.
    pub standing: Standing,
}

/// A share passing against its limits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Standing {
    /// Within.
    Inside,
    /// Too little passes: too coarse there, by so much.
    Below(Ratio),
    /// Too much passes: too fine there, by so much.
    Above(Ratio),
    /// The sieve was not used.
    NotTested,
}

/// The rule on fines: no more of the finest than a share of what passes another sieve.
#[derive(Debug, Clone, PartialEq)]
pub struct FinesVerdict {
    /// What passes the fine sieve over what passes the other; `None` where either was not used.
    pub share: Option<Figure<f64>>,
    /// Greatest share allowed.
    pub most: f64,
    /// Both sieves, the finer first.
    pub sieves: [String; 2],
    /// Whether it is kept; `None` where it can't be known.
    pub is_kept: Option<bool>,
}
