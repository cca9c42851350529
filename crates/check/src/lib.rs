//! Verifies a finished plan, or a work programme, against the rules of the job, from the plan alone.
//!
//! Depends on `model` only; never sees `rounds` or any other stage, so that a fault there can't hide here. Written
//! against what the words mean, not against how the stages compute.

mod account;
mod cuts;
mod day_looks;
mod learnt;
mod loads;
mod looks;
mod pins;
mod programme;
mod timetable;
mod zones;

use model::plan::Plan;

pub use looks::look_breaches;
pub use pins::pin_breaches;
pub use programme::programme_breaches;

/// A rule that the plan or programme breaks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Breach {
    /// Which rule, a stable code such as `timetable.gap`.
    pub rule: &'static str,
    /// What was found.
    pub found: String,
}

/// Checks everything that can be checked; an empty list is a sound plan.
pub fn check(plan: &Plan) -> Vec<Breach> {
    let mut breaches = Breaches(Vec::new());
    account::check(plan, &mut breaches);
    cuts::check(plan, &mut breaches);
    learnt::check(plan, &mut breaches);
    zones::check(plan, &mut breaches);
    timetable::check(plan, &mut breaches);
    day_looks::check(plan, &mut breaches);
    loads::check(plan, &mut breaches);
    breaches.0
}

/// Collects breaches.
struct Breaches(Vec<Breach>);

impl Breaches {
    /// Notes a breach unless the rule holds. The comparison is written so that NaN counts as a breach.
    fn require(&mut self, holds: bool, rule: &'static str, found: impl FnOnce() -> String) {
        if !holds {
            self.0.push(Breach { rule, found: found() });
        }
    }
}

impl std::fmt::Display for Breach {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: {}", self.rule, self.found)
    }
}
