//! What one repair needs.

use crate::figure::{Figure, Why};
use crate::place::FramePoint;
use crate::quantity::{Area, KilogramsPerSquareMetre, Length, LitresPerSquareMetre, Mass, Time, Velocity, Volume};
use crate::site_unit::SiteCount;

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
    /// The layers as surveyed, from the bottom up.
    pub layers: Vec<Layer>,
    /// How the last layer stands above the road, placed and compacted.
    pub crown: Crown,
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
    /// Containers to fill with hot binder, and what is left in the last.
    pub binder_containers: Figure<Containers>,
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
    /// The materials as the crew counts them, in the order in which they are used; those for which there is a unit.
    pub site_counts: Vec<SiteCount>,
    /// The compactors taken, and why not better ones, e.g. `vibrating plate (it fits between the sides)`.
    pub compactor: String,
    /// Passes without vibration, each layer; of the machine that works inside the cut.
    pub static_passes: Figure<u32>,
    /// Passes with vibration, each layer; of the machine that works inside the cut.
    pub vibrating_passes: Figure<u32>,
    /// Lanes of its drum or plate across the cut.
    pub lanes_across: Figure<u32>,
    /// Compacting time, all layers.
    pub rolling_time: Figure<Time>,
    /// In which order the machine goes over each layer; a second one where another finishes the last layer.
    pub patterns: Vec<CompactionPattern>,
    /// Time of each stage of the work at the hole (traffic control not included), in order.
    pub stages: Vec<StageTime>,
    /// Sum of the stages.
    pub duration: Figure<Time>,
    /// If the hole turns out deeper: layers and fill for a row of depths.
    pub deeper: Vec<DeeperRow>,
    /// What could not be kept, in words, e.g. that a layer is thinner than its stones allow.
    pub remarks: Vec<String>,
    /// When the fresh seal may be opened, how fast, and when it is swept.
    pub opening: Opening,
    /// Cautions that go with this repair's materials and plant.
    pub cautions: Vec<String>,
}

/// One layer of base.
#[derive(Debug, Clone, PartialEq)]
pub struct Layer {
    /// Place from the bottom, from 1.
    pub number: u32,
    /// The trade's name of what compacts it.
    pub compactor: String,
    /// Compacted thickness; of the last layer without its crown.
    pub thickness: Length,
    /// Loose thickness to place; of the last layer without its crown.
    pub loose_thickness: Length,
    /// Compacted volume; of the last layer with its crown.
    pub volume: Volume,
    /// Loose volume to place, its crown's included.
    pub loose_volume: Volume,
    /// Passes without vibration.
    pub static_passes: u32,
    /// Passes with vibration, after those without.
    pub vibrating_passes: u32,
    /// Lanes.
    pub lanes: u32,
    /// Compacting time.
    pub time: Time,
    /// How all this was worked out.
    pub why: Why,
}

/// How the last layer stands above the road around it: a parabolic dome.
#[derive(Debug, Clone, PartialEq)]
pub struct Crown {
    /// Compacted, in the middle.
    pub middle: Figure<Length>,
    /// Compacted, on the mean over the cut.
    pub mean: Figure<Length>,
    /// Placed loose, along the sides.
    pub loose_at_sides: Figure<Length>,
    /// Placed loose, in the middle.
    pub loose_in_middle: Figure<Length>,
}

/// The order in which a machine goes over one layer.
#[derive(Debug, Clone, PartialEq)]
pub struct CompactionPattern {
    /// The trade's name of the machine.
    pub compactor: String,
    /// Width of drum, plate or foot.
    pub width: Length,
    /// Lanes, or runs of blows, in order.
    pub strokes: Vec<Stroke>,
}

/// One lane, or one run of blows, along the middle of drum, plate or foot; road frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stroke {
    /// Where it begins.
    pub from: FramePoint,
    /// Where it ends.
    pub to: FramePoint,
}

/// Whole containers of binder: never less than is needed.
#[derive(Debug, Clone, PartialEq)]
pub struct Containers {
    /// How many of which; empty when the sprayer draws from the tank.
    pub counts: Vec<ContainerCount>,
    /// Hot binder over what is needed; zero when there are none.
    pub left_over: Volume,
}

/// Containers of one size.
#[derive(Debug, Clone, PartialEq)]
pub struct ContainerCount {
    /// Name.
    pub name: String,
    /// What each is filled to.
    pub volume: Volume,
    /// How many.
    pub count: u32,
}

/// When a fresh seal may be opened to traffic, how fast, and when it is swept. All times from the last stone.
#[derive(Debug, Clone, PartialEq)]
pub struct Opening {
    /// First traffic not before.
    pub open_after: Figure<Time>,
    /// The same on a colder or warmer surface, coldest first: degrees Celsius and time.
    pub by_temperature: Vec<(f64, Time)>,
    /// Greatest speed at first.
    pub speed: Figure<Velocity>,
    /// How long that speed holds.
    pub slow_for: Figure<Time>,
    /// Loose stone is swept off.
    pub sweep_after: Figure<Time>,
    /// And again.
    pub sweep_again_after: Figure<Time>,
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
