//! Time of each stage of the work at the hole.

use model::quantity::{Area, InArea, InLength, InVolume, Length, Time, Volume, seconds};
use model::repair::Stage;
use model::rules::repair::TimeRules;

/// What the times depend on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Work {
    /// Edge to mark and cut.
    pub perimeter: Length,
    /// Area of the cut.
    pub cut_area: Area,
    /// Volume to dig, in place.
    pub bank_volume: Volume,
    /// Loose base to place.
    pub loose_volume: Volume,
    /// Layers.
    pub layers: u32,
    /// Rolling time, all layers.
    pub rolling: Time,
    /// Sealed area.
    pub seal_area: Area,
}

/// Stages timed here, in order. Traffic control is the zone's.
pub const STAGES: [Stage; 6] =
    [Stage::MarkOut, Stage::CutOut, Stage::Fill, Stage::Compact, Stage::Seal, Stage::CleanUp];

/// Times in the order of [`STAGES`].
pub fn stage_times(work: &Work, rules: &TimeRules) -> [Time; 6] {
    let perimeter = work.perimeter.in_metres();
    let (cut, sealed) = (work.cut_area.in_square_metres(), work.seal_area.in_square_metres());
    let layers = f64::from(work.layers);
    [
        seconds(rules.mark_out_s.value + rules.mark_out_s_per_m.value * perimeter),
        seconds(
            rules.cut_out_s.value
                + rules.cut_out_s_per_m.value * perimeter
                + rules.cut_out_s_per_m3.value * work.bank_volume.in_cubic_metres()
                + rules.cut_out_s_per_m2.value * cut,
        ),
        seconds(
            rules.fill_s_per_m3.value * work.loose_volume.in_cubic_metres() + rules.fill_s_per_layer.value * layers,
        ),
        work.rolling + seconds(rules.compact_s_per_layer.value * layers),
        seconds(rules.seal_s.value + rules.seal_s_per_m2.value * sealed),
        seconds(rules.clean_up_s.value + rules.clean_up_s_per_m2.value * sealed),
    ]
}

/// The rule of each stage's time in symbols, in the order of [`STAGES`].
pub const STAGE_RULES: [&str; 6] = [
    "t = a + b * P",
    "t = a + b * P + c * V_bank + d * A",
    "t = a * V_loose + b * n",
    "t = t_rolling + a * n",
    "t = a + b * A_seal",
    "t = a + b * A_seal",
];
