//! How bad a hole is, in which order holes press, and by when each must be mended.
//!
//! - **Severity** comes from a published table of depth and diameter, given as data ([`SeverityRules`]). The diameter is
//!   that of the circle of the same area, `d_e = sqrt(4 A / pi)`. A hole below the table's limits is *not rated*, which is
//!   not the same as low. Systems differ on the same hole, so every rating carries its system's name.
//! - **Risk points** are a product of factors. They are an aid to put holes in order and nothing more: they measure no
//!   probability, and no number of points means that a hole is safe.
//! - **Due day** counts the agency's days from the day the hole was seen, or from today where that is not known.
//!
//! Pure functions; today is passed in.

mod check;
mod due;
mod risk;
mod severity;

use jiff::civil::Date;
use model::hole::LanePosition;
use model::quantity::{Area, Length, Velocity};
use model::road::RoadClass;
use model::rules::severity::SeverityRules;
use model::triage::Judgement;

pub use check::{RulesError, check_rules};
pub use severity::equivalent_diameter;

/// What a hole is judged by. Quantities are finite and not negative; that is seen to where they are read.
#[derive(Debug, Clone, PartialEq)]
pub struct TriageInput {
    /// Greatest depth.
    pub depth: Length,
    /// Area seen from above.
    pub area: Area,
    /// Where across the road, where known.
    pub lane_position: Option<LanePosition>,
    /// Water standing in it or the base wet, where said.
    pub wet: Option<bool>,
    /// The road's speed.
    pub speed: Velocity,
    /// The road's class.
    pub class: RoadClass,
    /// Traffic, where counted.
    pub vehicles_per_day: Option<f64>,
    /// Day it was seen, where known.
    pub seen: Option<Date>,
}

/// Judges one hole. `rules` are taken as they are; [`check_rules`] says once whether they make sense.
pub fn judge(input: &TriageInput, rules: &SeverityRules, today: Date) -> Judgement {
    let rated = severity::rate(input, rules);
    let (due, due_why) = due::due_day(input, rated.severity, &rules.due, today);
    Judgement {
        severity: rated.severity,
        system: rules.system.clone(),
        severity_why: rated.why,
        risk: risk::risk(input, rated.severity, &rules.risk, today),
        due,
        due_why,
    }
}

/// The day the hole is counted from: seen, but not later than today.
fn counted_from(seen: Option<Date>, today: Date) -> Date {
    seen.map_or(today, |seen| seen.min(today))
}

/// Severity in words.
fn severity_word(severity: Option<model::triage::Severity>) -> &'static str {
    use model::triage::Severity::{High, Low, Medium};
    match severity {
        None => "not rated",
        Some(Low) => "low",
        Some(Medium) => "medium",
        Some(High) => "high",
    }
}
