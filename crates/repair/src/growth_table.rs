//! The quantities of one cut that are summed over cuts, as a table over its growth: the whole computation runs once for
//! each row, and draws are read between the rows.

use std::array;

use model::quantity::{InMass, InTime, InVolume};
use model::rules::repair::RepairRules;
use statrs::distribution::{ContinuousCDF, Normal};

use crate::growth::{Growth, belief_of};
use crate::input::RepairInput;
use crate::quantities::{Basis, Quantities};

/// How many quantities are summed.
pub(crate) const KINDS: usize = 10;

/// Base m3, base kg, water kg, hot binder m3, binder kg, stone m3, stone kg, spoil m3, spoil kg, time s.
pub(crate) type Sums = [f64; KINDS];

/// Rows lie at these steps of a normal deviate, out to this many steps on each side: far enough for a load that suffices
/// in 999 days of 1000, near enough that a further layer shows.
const STEP: f64 = 0.125;
const STEPS_EACH_SIDE: i32 = 36;

/// One cut's sums over `ln g`.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct GrowthTable {
    /// Rising.
    log_growths: Vec<f64>,
    rows: Vec<Sums>,
}

impl GrowthTable {
    pub fn new(input: &RepairInput, rules: &RepairRules) -> Self {
        let basis = Basis::new(input, rules);
        let belief = belief_of(rules.growth.of_road(input.road_class).1);
        let normal = Normal::standard();
        let learnt = input.factors.growth.ln();
        let row = |step: i32| belief.quantile(normal.cdf(STEP * f64::from(step))) + learnt;
        let log_growths: Vec<f64> = (-STEPS_EACH_SIDE..=STEPS_EACH_SIDE).map(row).collect();
        let share = rules.growth.depth_share.value;
        let at = |log: &f64| sums(&basis.quantities(Growth::of_volume(log.exp(), share)), input);
        GrowthTable { rows: log_growths.iter().map(at).collect(), log_growths }
    }

    /// Between two rows in proportion; beyond the ends the end.
    pub fn at(&self, log_growth: f64) -> Sums {
        let above = self.log_growths.partition_point(|row| *row < log_growth);
        let Some(below) = above.checked_sub(1) else { return self.rows[0] };
        if above == self.rows.len() {
            return self.rows[below];
        }
        let (low, high) = (self.log_growths[below], self.log_growths[above]);
        let part = (log_growth - low) / (high - low);
        array::from_fn(|kind| self.rows[below][kind] + part * (self.rows[above][kind] - self.rows[below][kind]))
    }
}

/// The sums of one cut at one growth, worked out in full.
pub(crate) fn sums(quantities: &Quantities, input: &RepairInput) -> Sums {
    let binder = quantities.demand(input).binder_mass;
    [
        quantities.loose_volume.in_cubic_metres(),
        quantities.fill_wet_mass.in_kilograms(),
        quantities.water_to_add.in_kilograms(),
        quantities.binder_volume_hot.in_cubic_metres(),
        binder.in_kilograms(),
        quantities.cover_volume.in_cubic_metres(),
        quantities.cover_mass.in_kilograms(),
        quantities.spoil_volume.in_cubic_metres(),
        quantities.spoil_mass.in_kilograms(),
        quantities.duration.in_seconds(),
    ]
}
