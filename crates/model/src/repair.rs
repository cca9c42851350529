//! What one repair needs.

use crate::figure::Figure;
use crate::quantity::{Area, KilogramsPerSquareMetre, Length, LitresPerSquareMetre, Mass, Time, Volume};

/// All quantities for one cut.
#[derive(Debug, Clone, PartialEq)]
pub struct Repair {
    /// Depth of the dug hole below the surface.
    pub depth: Figure<Length>,
    /// Area of the cut.
    pub cut_area: Figure<Area>,
    /// Layers of base.
    pub layer_count: Figure<u32>,
    /// Compacted thickness of one layer.
    pub layer_thickness: Figure<Length>,
    /// Loose thickness to place so that one layer comes out right.
    pub loose_layer_thickness: Figure<Length>,
    /// Compacted base, crown included.
    pub fill_volume: Figure<Volume>,
    /// Dry mass of that base.
    pub fill_dry_mass: Figure<Mass>,
    /// Mass as it comes from the stock, with the stock's moisture.
    pub fill_wet_mass: Figure<Mass>,
    /// Water to add to reach the optimum; zero when the stock is too wet.
    pub water_to_add: Figure<Mass>,
    /// Water to dry out first; zero when the stock is dry enough.
    pub water_to_dry: Figure<Mass>,
    /// Loose volume to load.
    pub loose_volume: Figure<Volume>,
    /// Sealed area: the cut grown by the overlap, kept on the pavement.
    pub seal_area: Figure<Area>,
    /// Binder rate on the fresh base, product as supplied; the old seal under the overlap takes another, see its why.
    pub binder_rate: Figure<LitresPerSquareMetre>,
    /// Binder product, measured at 15 °C.
    pub binder_volume: Figure<Volume>,
    /// Binder product, measured at spraying temperature.
    pub binder_volume_hot: Figure<Volume>,
    /// Cover stone rate.
    pub cover_rate: Figure<KilogramsPerSquareMetre>,
    /// Cover stone.
    pub cover_mass: Figure<Mass>,
    /// Cover stone, loose.
    pub cover_volume: Figure<Volume>,
    /// Loose spoil dug out.
    pub spoil_volume: Figure<Volume>,
    /// Mass of the spoil.
    pub spoil_mass: Figure<Mass>,
    /// The compactor taken, and why not a better one, e.g. `plate (roller does not fit between the sides)`.
    pub compactor: String,
    /// Passes without vibration, each layer.
    pub static_passes: Figure<u32>,
    /// Passes with vibration, each layer.
    pub vibrating_passes: Figure<u32>,
    /// Lanes of the drum or plate across the cut.
    pub lanes_across: Figure<u32>,
    /// Compacting time, all layers.
    pub rolling_time: Figure<Time>,
    /// Time of each stage of the work at the hole (traffic control not included), in order.
    pub stages: Vec<StageTime>,
    /// Sum of the stages.
    pub duration: Figure<Time>,
    /// If the hole turns out deeper: layers and fill for a row of depths.
    pub deeper: Vec<DeeperRow>,
    /// Cautions that go with this repair's materials and plant.
    pub cautions: Vec<String>,
}

/// Time of one stage.
#[derive(Debug, Clone, PartialEq)]
pub struct StageTime {
    /// Which stage.
    pub stage: Stage,
    /// How long.
    pub time: Figure<Time>,
}

/// The eight stages of a repair, in their fixed order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[allow(missing_docs)] // the words are the definition
pub enum Stage {
    TrafficControlOut,
    MarkOut,
    CutOut,
    Fill,
    Compact,
    Seal,
    CleanUp,
    TrafficControlIn,
}

/// One row of the table for a hole that turns out deeper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DeeperRow {
    /// Depth found.
    pub depth: Length,
    /// Layers then.
    pub layer_count: u32,
    /// Thickness of each then.
    pub layer_thickness: Length,
    /// Compacted fill then.
    pub fill_volume: Volume,
    /// Loose volume then.
    pub loose_volume: Volume,
    /// Water to add then.
    pub water_to_add: Mass,
}

impl Stage {
    /// All eight, in order.
    pub const ALL: [Stage; 8] = [
        Stage::TrafficControlOut,
        Stage::MarkOut,
        Stage::CutOut,
        Stage::Fill,
        Stage::Compact,
        Stage::Seal,
        Stage::CleanUp,
        Stage::TrafficControlIn,
    ];

    /// The trade's name of the stage.
    pub fn words(self) -> &'static str {
        match self {
            Stage::TrafficControlOut => "traffic control out",
            Stage::MarkOut => "mark out",
            Stage::CutOut => "cut out",
            Stage::Fill => "fill",
            Stage::Compact => "compact",
            Stage::Seal => "seal",
            Stage::CleanUp => "clean up",
            Stage::TrafficControlIn => "traffic control in",
        }
    }
}
