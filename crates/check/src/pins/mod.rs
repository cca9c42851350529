//! Verifies that a work plan does what was asked for holes by name, or says of each hole that it can't.
//!
//! | rule | it is broken when |
//! |---|---|
//! | `pins.out` | a hole is mended that was to be left out |
//! | `pins.date`, `pins.crew` | a hole is mended on another day or by another crew than asked |
//! | `pins.lost` | a hole is not mended that was to be, and nothing says why |

use std::collections::BTreeSet;

use model::hole::HoleId;
use model::pin::{Pin, PinnedTo};
use model::plan::{CrewDay, WorkPlan};

use crate::{Breach, Breaches};

/// Checks what was asked against the rounds themselves; an empty list says that all is as asked.
pub fn pin_breaches(work: &WorkPlan) -> Vec<Breach> {
    let mut breaches = Breaches(Vec::new());
    let refused: BTreeSet<&HoleId> = work.pins_refused.iter().flat_map(|refused| &refused.holes).collect();
    for Pin { holes, to } in &work.pins {
        for hole in holes.iter().filter(|hole| !refused.contains(hole)) {
            let day = work.rounds.iter().find(|day| mends(day, hole));
            against(hole, to, day, &mut breaches);
        }
    }
    breaches.0
}

fn against(hole: &HoleId, to: &PinnedTo, day: Option<&CrewDay>, breaches: &mut Breaches) {
    let name = &hole.0;
    match (to, day) {
        (PinnedTo::Out, None) => {}
        (PinnedTo::Out, Some(day)) => {
            breaches.require(false, "pins.out", || format!("hole {name} is mended on {}", day.plan.date));
        }
        (PinnedTo::Round { .. }, None) => {
            breaches.require(false, "pins.lost", || format!("hole {name} is in no round, and nothing says why"));
        }
        (PinnedTo::Round { date, crew }, Some(day)) => {
            let (on, by) = (day.plan.date, &day.plan.district.crew.name);
            breaches.require(date.is_none_or(|date| date == on), "pins.date", || {
                format!("hole {name} is mended on {on}, asked for {date:?}")
            });
            breaches.require(crew.as_ref().is_none_or(|crew| crew == by), "pins.crew", || {
                format!("hole {name} is mended by {by}, asked for {crew:?}")
            });
        }
    }
}

/// Whether a crew's day visits the hole, by whichever of its reports it is named.
fn mends(day: &CrewDay, name: &HoleId) -> bool {
    let plan = &day.plan;
    let visited = plan.round.trips.iter().flatten().filter_map(|&site| plan.sites.get(site));
    let holes = visited.flat_map(|site| &site.jobs).filter_map(|&job| plan.jobs.get(job)).flat_map(|job| &job.holes);
    let mut holes = holes.filter_map(|&hole| plan.holes.get(hole));
    holes.any(|hole| hole.hole.id == *name || hole.reports.iter().any(|report| report.id == *name))
}
