//! Words for what a crew sees around its work, and for what is done to a road beside patching: few enough to be told with one thumb.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How water leaves the road at a repair.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Drainage {
    /// A ditch or a slope beside the road takes the water away.
    DitchWorks,
    /// There is a ditch, grown over, silted up or blocked.
    DitchBlocked,
    /// Kerb and gully take the water away.
    KerbAndGully,
    /// There is a gully or drain, and it is blocked.
    GullyBlocked,
    /// The verge is higher than the seal's edge and keeps water on the road.
    HighVerge,
    /// Nothing takes the water away: level ground, no ditch.
    NoDrainage,
    /// Water stands beside the road.
    StandingWater,
}

/// The weather around the sealing of a repair, as it matters to binder and stone; where several are so, the last of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SealingWeather {
    /// Dry, and dry the day before.
    Dry,
    /// Dew, fog or drizzle.
    Damp,
    /// It rained within the day before, or did within the day after.
    RainWithinADay,
    /// Frost in the night before, or in the night after.
    Frost,
}

/// What was done to a road that got a new surface.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SurfaceWork {
    /// A new seal of binder and chippings over the old one.
    Reseal,
    /// A thin layer of slurry or mix over the old seal.
    ThinOverlay,
    /// A layer of asphalt that carries.
    Overlay,
    /// The base made new or stabilised, and sealed.
    NewBaseAndSeal,
    /// Something else, see the remark.
    Other,
}

/// A side of a stretch of road, looking from where it begins to where it ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the words are the definition
pub enum StretchSide {
    Left,
    Right,
}

impl Drainage {
    /// All, those that take water away first.
    pub const ALL: [Drainage; 7] = [
        Drainage::DitchWorks,
        Drainage::KerbAndGully,
        Drainage::DitchBlocked,
        Drainage::GullyBlocked,
        Drainage::HighVerge,
        Drainage::NoDrainage,
        Drainage::StandingWater,
    ];

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Drainage::DitchWorks => "ditch works",
            Drainage::DitchBlocked => "ditch blocked",
            Drainage::KerbAndGully => "kerb and gully",
            Drainage::GullyBlocked => "gully blocked",
            Drainage::HighVerge => "verge higher than the road",
            Drainage::NoDrainage => "no drainage",
            Drainage::StandingWater => "standing water",
        }
    }
}

impl SealingWeather {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            SealingWeather::Dry => "dry weather",
            SealingWeather::Damp => "dew, fog or drizzle",
            SealingWeather::RainWithinADay => "rain within a day",
            SealingWeather::Frost => "frost by night",
        }
    }
}

impl SurfaceWork {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            SurfaceWork::Reseal => "reseal",
            SurfaceWork::ThinOverlay => "thin overlay",
            SurfaceWork::Overlay => "overlay",
            SurfaceWork::NewBaseAndSeal => "new base and seal",
            SurfaceWork::Other => "other",
        }
    }
}
