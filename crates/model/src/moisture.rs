//! Water in the base: weather that dries it, how it feels in the hand, and one batch made ready.

use serde::Deserialize;

use crate::figure::Figure;
use crate::quantity::{Area, Mass, Ratio, Time, Velocity, Volume};

/// Weather and handling while the moist base lies open before it is compacted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weather {
    /// Air temperature, degrees Celsius.
    pub air_temperature_c: f64,
    /// Relative humidity of the air; `None`: not known.
    pub humidity: Option<Ratio>,
    /// Wind over the base.
    pub wind: Velocity,
    /// Whether the base is kept under a sheet.
    pub covered: bool,
    /// How long each layer or batch lies open; `None`: as the rules say.
    pub open: Option<Time>,
}

/// How moist base behaves when squeezed in the hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum HandFeel {
    /// Falls apart: dry of the optimum.
    FallsApart,
    /// Keeps its shape: near the optimum.
    KeepsShape,
    /// Water oozes out: wet of the optimum.
    Oozes,
}

impl HandFeel {
    /// The state in words.
    pub fn words(self) -> &'static str {
        match self {
            HandFeel::FallsApart => "falls apart",
            HandFeel::KeepsShape => "keeps its shape",
            HandFeel::Oozes => "oozes",
        }
    }
}

/// How large a batch is, moist as it lies there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum BatchSize {
    /// Weighed, water included.
    MoistMass(Mass),
    /// Filled loose, e.g. a barrow or a mixer.
    LooseVolume(Volume),
}

/// What is known of a batch's moisture. A measured one wins over the hand.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct KnownMoisture {
    /// Water over dry mass, measured.
    pub measured: Option<Ratio>,
    /// Squeezed in the hand.
    pub hand: Option<HandFeel>,
}

/// What one batch needs.
#[derive(Debug, Clone, PartialEq)]
pub struct BatchWater {
    /// Mass of the batch with its water.
    pub moist_mass: Figure<Mass>,
    /// Its moisture.
    pub moisture: Figure<Ratio>,
    /// Mass of it without water.
    pub dry_mass: Figure<Mass>,
    /// Surface that dries; `None` where no weather is given.
    pub open_surface: Option<Figure<Area>>,
    /// Water that dries off before it is compacted; `None` where no weather is given.
    pub drying_loss: Option<Figure<Mass>>,
    /// Water to add; zero where it is wet enough.
    pub water_to_add: Figure<Mass>,
    /// Water to dry out; zero where it is dry enough.
    pub water_to_dry: Figure<Mass>,
    /// What to know before relying on it, in words.
    pub remarks: Vec<String>,
}
