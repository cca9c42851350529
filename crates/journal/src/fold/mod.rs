//! What is known of a subject from its events: a pure function of which events there are.
//!
//! The same events in any order, late or early, some of them twice, give the same answer: they are put into the order in which
//! they happened first, and corrections are taken into account before that.

mod hole;
mod repair;
mod resurfacing;
mod round;
mod zone;

use model::record::event::Event;
use model::record::happened::{Happened, PlannedRepair, Subject};
use model::record::in_force::{InForce, in_force};
use model::record::known::{Known, KnownPhoto};
use model::record::told::Teller;
use uuid::Uuid;

/// What is known of a subject from events that are about it, their corrections, and the events of what it hangs on
/// ([`hangs_on`]). Events about other subjects among them change nothing. `None`: nothing is known of it after corrections.
pub fn known<'a>(subject: Subject, events: impl IntoIterator<Item = &'a Event>) -> Option<Known> {
    let standing = in_force(events);
    match subject {
        Subject::Hole(id) => hole::known(id, &standing).map(Known::Hole),
        Subject::Repair(id) => repair::known(id, &standing).map(Known::Repair),
        Subject::Zone(id) => zone::known(id, &standing).map(Known::Zone),
        Subject::Round(id) => round::known(id, &standing).map(Known::Round),
        Subject::Resurfacing(id) => resurfacing::known(id, &standing).map(Known::Resurfacing),
    }
}

/// What else is needed to know a subject, by its own events: a hole's repairs and rounds, a repair's holes and rounds. Sorted.
pub fn hangs_on<'a>(subject: Subject, own_events: impl IntoIterator<Item = &'a Event>) -> Vec<Subject> {
    let mut others = Vec::new();
    for stands in in_force(own_events) {
        others.extend(stands.happened.subjects().into_iter().filter(|other| match subject {
            Subject::Hole(_) => matches!(other, Subject::Repair(_) | Subject::Round(_)),
            Subject::Repair(_) => matches!(other, Subject::Hole(_) | Subject::Round(_)),
            Subject::Zone(_) | Subject::Round(_) | Subject::Resurfacing(_) => false,
        }));
    }
    others.sort_unstable();
    others.dedup();
    others
}

/// What hangs on a subject, by its own events, corrected ones and all: the other way round of [`hangs_on`], and rather more than
/// less. Sorted.
pub fn hang_on_it<'a>(subject: Subject, own_events: impl IntoIterator<Item = &'a Event>) -> Vec<Subject> {
    let mut others = Vec::new();
    for event in own_events {
        let mut at = Some(&event.happened);
        while let Some(happened) = at {
            others.extend(happened.subjects().into_iter().filter(|other| match subject {
                Subject::Repair(_) => matches!(other, Subject::Hole(_)),
                Subject::Round(_) => matches!(other, Subject::Hole(_) | Subject::Repair(_)),
                Subject::Hole(_) => matches!(other, Subject::Repair(_)),
                Subject::Zone(_) | Subject::Resurfacing(_) => false,
            }));
            at = match happened {
                Happened::Corrected { instead, .. } => instead.as_deref(),
                _ => None,
            };
        }
    }
    others.sort_unstable();
    others.dedup();
    others
}

/// The last plan of each round, in the order in which they were made.
fn last_plans<'a, 'e>(standing: &'e [InForce<'a>]) -> Vec<(&'e InForce<'a>, Uuid, &'a [PlannedRepair])> {
    let mut plans: Vec<(&InForce<'a>, Uuid, &'a [PlannedRepair])> = Vec::new();
    for stands in standing {
        if let Happened::RoundPlanned { round, repairs, .. } = stands.happened {
            plans.retain(|(_, other, _)| other != round);
            plans.push((stands, *round, repairs));
        }
    }
    plans
}

/// Who told what stands.
fn teller(stands: &InForce<'_>) -> Teller {
    Teller {
        event: stands.told.id,
        actor: stands.told.actor.clone(),
        device: stands.told.device.clone(),
        at: stands.event.happened_at(),
    }
}

/// Adds what is not there yet.
fn add(list: &mut Vec<Uuid>, id: Uuid) {
    if !list.contains(&id) {
        list.push(id);
    }
}

/// Adds all that are not there yet.
fn add_all(list: &mut Vec<Uuid>, ids: &[Uuid]) {
    for id in ids {
        add(list, *id);
    }
}

/// A photo of the subject, if the event tells of one.
fn photo(stands: &InForce<'_>, subject: Subject) -> Option<KnownPhoto> {
    match stands.happened {
        Happened::PhotoTaken { photo, of, position, note } if *of == subject => {
            Some(KnownPhoto { photo: photo.clone(), by: teller(stands), position: *position, note: note.clone() })
        }
        _ => None,
    }
}
