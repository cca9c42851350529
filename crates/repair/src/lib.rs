//! What one repair needs: from a marked-out cut to layers, water, compaction, binder, cover stone, spoil and time.
//!
//! The order of the work is the order of [`quantities::Basis::quantities`]; each step has its own module. A hole's true
//! size is known only once it is dug out, so the whole computation is done for the cut as surveyed and again at the
//! quantiles of its growth ([`growth`]).
//!
//! Pure: no files, no clock, no chance but from the seed that is passed in.

pub mod binder_volume;
mod cautions;
mod check_rules;
pub mod compaction;
pub mod deeper;
pub mod duration;
mod figures;
pub mod growth;
mod growth_learning;
mod growth_table;
mod input;
pub mod layers;
pub mod moisture;
pub mod quantities;
pub mod seal;
mod seal_area;
mod show;
mod site_units;
pub mod spoil;
pub mod total;
mod yardstick;

pub use ::belief;
pub use cautions::cautions;
pub use check_rules::check_rules;
pub use growth_learning::{ClassGrowth, Learnt, learn};
pub use input::{InputError, RepairInput};
pub use quantities::{as_surveyed, at_quantile};
pub use seal::product::{check as check_binder, grade_kind};
pub use seal_area::{Pavement, seal_area};
pub use site_units::{site_count, site_counts};
pub use total::{Drawn, Part, Supply};
pub use yardstick::yardstick;

use model::repair::Repair;
use model::rules::repair::RepairRules;

use figures::Figures;
use quantities::Basis;

/// All quantities of one repair, each as surveyed, with its spread and the way it was worked out.
///
/// Never panics. The figures mean something for an input that passes [`RepairInput::check`] under rules that pass
/// [`check_rules`]. The stages leave traffic control out: the work zone knows its time.
pub fn repair(input: &RepairInput, rules: &RepairRules) -> Repair {
    let basis = Basis::new(input, rules);
    let figures = Figures::new(&basis);
    Repair {
        depth: figures.depth(),
        cut_area: figures.cut_area(),
        layer_count: figures.layer_count(),
        layer_thickness: figures.layer_thickness(),
        loose_layer_thickness: figures.loose_layer_thickness(),
        layers: figures.layers(),
        crown: figures.crown(),
        fill_volume: figures.fill_volume(),
        fill_dry_mass: figures.fill_dry_mass(),
        fill_wet_mass: figures.fill_wet_mass(),
        water_to_add: figures.water_to_add(),
        water_to_dry: figures.water_to_dry(),
        loose_volume: figures.loose_volume(),
        seal_area: figures.seal_area(),
        binder_rate: figures.binder_rate(),
        binder_volume: figures.binder_volume(),
        binder_volume_hot: figures.binder_volume_hot(),
        binder_containers: figures.binder_containers(),
        cover_rate: figures.cover_rate(),
        cover_mass: figures.cover_mass(),
        cover_volume: figures.cover_volume(),
        spoil_volume: figures.spoil_volume(),
        spoil_mass: figures.spoil_mass(),
        site_counts: figures.site_counts(),
        compactor: figures.compactor_words(),
        static_passes: figures.static_passes(),
        vibrating_passes: figures.vibrating_passes(),
        lanes_across: figures.lanes_across(),
        rolling_time: figures.rolling_time(),
        patterns: figures.patterns(),
        stages: figures.stages(),
        duration: figures.duration(),
        deeper: deeper::deeper_rows(input, rules, &basis.compactor),
        remarks: figures.remarks(),
        opening: figures.opening(),
        cautions: cautions(input, rules),
    }
}
