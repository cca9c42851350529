//! What is known of a hole.

use model::record::happened::{Happened, HoleSize, Subject};
use model::record::in_force::InForce;
use model::record::known::{HoleState, KnownHole, KnownReport};
use model::record::told::{Teller, tell};
use uuid::Uuid;

use super::{add, last_plans, photo, teller};

pub(super) fn known(id: Uuid, standing: &[InForce<'_>]) -> Option<KnownHole> {
    let mut hole: Option<KnownHole> = None;
    for stands in standing {
        if !stands.happened.subjects().contains(&Subject::Hole(id)) {
            continue;
        }
        let by = teller(stands);
        let known = hole.get_or_insert_with(|| nothing_yet(id, &by));
        known.last_told = known.last_told.max(by.at);
        match stands.happened {
            Happened::HoleReported { position, size, seen, note, source, reference, contact, .. } => {
                tell(&mut known.position, position, &by);
                measure(known, size, &by);
                known.seen = match (known.seen, *seen) {
                    (Some(before), Some(now)) => Some(before.min(now)),
                    (before, now) => before.or(now),
                };
                known.reports.push(KnownReport {
                    note: note.clone(),
                    source: source.clone(),
                    reference: reference.clone(),
                    contact: *contact,
                    by,
                });
            }
            Happened::HoleMeasured { position, size, note, .. } => {
                if let Some(position) = position {
                    tell(&mut known.position, position, &by);
                }
                measure(known, size, &by);
                if !note.is_empty() {
                    known.reports.push(KnownReport {
                        note: note.clone(),
                        source: String::new(),
                        reference: String::new(),
                        contact: None,
                        by,
                    });
                }
            }
            Happened::HolesMerged { into, merged, .. } => {
                if *into == id {
                    merged.iter().filter(|other| **other != id).for_each(|other| add(&mut known.merged, *other));
                } else {
                    tell(&mut known.same_as, into, &by);
                }
            }
            Happened::HoleDismissed { why, dealt_with, .. } => {
                tell(&mut known.dismissed, why, &by);
                known.dealt_with = *dealt_with;
            }
            Happened::RoadResurfaced { resurfacing, .. } => tell(&mut known.resurfaced, resurfacing, &by),
            Happened::RoundPlanned { repairs, .. } => {
                for repair in repairs.iter().filter(|repair| repair.holes.contains(&id)) {
                    add(&mut known.repairs, repair.repair);
                }
            }
            Happened::HoleCut { repair, .. } => add(&mut known.repairs, *repair),
            Happened::PhotoTaken { .. } => known.photos.extend(photo(stands, Subject::Hole(id))),
            _ => {}
        }
    }
    let mut hole = hole?;
    hole.state = state(&hole, standing);
    Some(hole)
}

fn state(hole: &KnownHole, standing: &[InForce<'_>]) -> HoleState {
    let any = |is_so: &dyn Fn(&Happened) -> bool| standing.iter().any(|stands| is_so(stands.happened));
    let mended = any(&|happened| match happened {
        Happened::Sealed { repair, .. } | Happened::OpenedToTraffic { repair } => hole.repairs.contains(repair),
        _ => false,
    });
    let cut = any(&|happened| matches!(happened, Happened::HoleCut { holes, .. } if holes.contains(&hole.hole)));
    let planned = last_plans(standing)
        .iter()
        .any(|(_, _, repairs)| repairs.iter().any(|repair| repair.holes.contains(&hole.hole)));
    if mended {
        HoleState::Mended
    } else if hole.same_as.is_some() {
        HoleState::SameAsOther
    } else if hole.resurfaced.is_some() && hole.dismissed.is_none() {
        HoleState::Resurfaced
    } else if cut {
        HoleState::Begun
    } else if hole.dismissed.is_some() {
        HoleState::Dismissed
    } else if planned {
        HoleState::Planned
    } else {
        HoleState::Reported
    }
}

fn measure(known: &mut KnownHole, size: &HoleSize, by: &Teller) {
    if let Some(value) = size.length_mm {
        tell(&mut known.length_mm, &value, by);
    }
    if let Some(value) = size.width_mm {
        tell(&mut known.width_mm, &value, by);
    }
    if let Some(value) = size.depth_mm {
        tell(&mut known.depth_mm, &value, by);
    }
    if let Some(value) = size.lane_position {
        tell(&mut known.lane_position, &value, by);
    }
    if let Some(value) = size.wetness {
        tell(&mut known.wetness, &value, by);
    }
}

fn nothing_yet(id: Uuid, by: &Teller) -> KnownHole {
    KnownHole {
        hole: id,
        state: HoleState::Reported,
        position: None,
        length_mm: None,
        width_mm: None,
        depth_mm: None,
        lane_position: None,
        wetness: None,
        seen: None,
        reports: Vec::new(),
        same_as: None,
        merged: Vec::new(),
        dismissed: None,
        dealt_with: false,
        resurfaced: None,
        repairs: Vec::new(),
        photos: Vec::new(),
        last_told: by.at,
    }
}
