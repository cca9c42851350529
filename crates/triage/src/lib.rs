//! How bad a hole is, in which order holes press, and by when each must be mended.
//!
//! - **Severity** comes from a published table of depth and diameter, given as data ([`SeverityRules`]). The diameter is
//!   that of the circle of the same area, `d_e = sqrt(4 A / pi)`. A hole below the table's limits is *not rated*, which is
//!   not the same as low. Systems differ on the same hole, so every rating carries its system's name.
//! - **Risk points** are a product of factors. They are an aid to put holes in order and nothing more: they measure no
//!   probability, and no number of points means that a hole is safe.
//! - **Due day** counts the agency's days from the day the hole was seen, or from today where that is not known.
//! - **Same hole** ([`same_hole`]): several reports of one hole become one, each with its reason.
//! - **Patch or not** ([`patch_or_not`]): beyond the agency's limits an engineer decides.
//! - **Outlook** says what a hole may come to by that day if nothing is done: an aid to ranking, no forecast.
//!
//! Pure functions; today is passed in.

mod check;
mod due;
mod outlook;
mod patch;
mod risk;
pub mod same_hole;
mod sentence;
mod severity;
mod words;

use jiff::civil::Date;
use model::district::UnitSystem;
use model::hole::{LanePosition, Wetness};
use model::quantity::{Area, Length, Velocity};
use model::road::RoadClass;
use model::rules::severity::SeverityRules;
use model::triage::Judgement;

pub use check::{RulesError, check_rules};
pub use patch::{CutAlong, FoundAtHole, PatchInput, cut_share, patch_or_not};
pub use severity::{equivalent_diameter, least_plan_dimension};

/// What a hole is judged by. Quantities are finite and not negative; that is seen to where they are read.
#[derive(Debug, Clone, PartialEq)]
pub struct TriageInput {
    /// Greatest depth.
    pub depth: Length,
    /// Area seen from above.
    pub area: Area,
    /// Least width seen from above, in whatever direction; see [`least_plan_dimension`].
    pub least_plan_dimension: Length,
    /// Where across the road, where known.
    pub lane_position: Option<LanePosition>,
    /// How wet it and its base are, where said.
    pub wetness: Option<Wetness>,
    /// The road's speed.
    pub speed: Velocity,
    /// The road's class.
    pub class: RoadClass,
    /// Traffic, where counted.
    pub vehicles_per_day: Option<f64>,
    /// Day it was first seen, where known.
    pub seen: Option<Date>,
    /// Day its size was taken, where known; growth counts from there.
    pub sized: Option<Date>,
}

/// Judges one hole; `units` are those of the sentences. `rules` are taken as they are; [`check_rules`] says once whether
/// they make sense.
pub fn judge(input: &TriageInput, rules: &SeverityRules, today: Date, units: UnitSystem) -> Judgement {
    let rated = severity::rate(input, rules);
    let (due, due_why) = due::due_day(input, rated.severity, &rules.due, today);
    let (risk, factors) = risk::risk(input, rated.severity, &rules.risk, today);
    Judgement {
        sentence: sentence::severity_and_due(input, &rated, due, today, units),
        risk_sentence: sentence::risk(&risk, &factors),
        outlook: outlook::outlook(input, rated.severity, due, rules, today, units),
        severity: rated.severity,
        system: rules.system.clone(),
        severity_why: rated.why,
        counts_as: rated.counts_as,
        risk,
        due,
        due_why,
    }
}

/// The day the hole is counted from: seen, but not later than today.
fn counted_from(seen: Option<Date>, today: Date) -> Date {
    seen.map_or(today, |seen| seen.min(today))
}
