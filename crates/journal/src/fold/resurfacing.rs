//! What is known of a stretch of road that got a new surface.

use model::record::happened::{Happened, Subject};
use model::record::in_force::InForce;
use model::record::known::{KnownResurfacing, KnownSignature};
use model::record::told::{Teller, Told, tell};
use uuid::Uuid;

use super::{add_all, photo, teller};

/// Photos and signatures alone make none: nobody knows where and when it would have been.
pub(super) fn known(id: Uuid, standing: &[InForce<'_>]) -> Option<KnownResurfacing> {
    let subject = Subject::Resurfacing(id);
    let about = || standing.iter().filter(|stands| stands.happened.subjects().contains(&subject));
    let mut known = about().find_map(first)?;
    for stands in about() {
        let by = teller(stands);
        known.last_told = known.last_told.max(by.at);
        match stands.happened {
            Happened::RoadResurfaced { date, from, to, road, side, work, holes, note, .. } => {
                tell_again(&mut known.date, date, &by);
                tell_again(&mut known.from, from, &by);
                tell_again(&mut known.to, to, &by);
                tell_again(&mut known.work, work, &by);
                if !road.is_empty() {
                    tell(&mut known.road, road, &by);
                }
                if let Some(side) = side {
                    tell(&mut known.side, side, &by);
                }
                if !note.is_empty() {
                    known.note.clone_from(note);
                }
                add_all(&mut known.holes, holes);
            }
            Happened::PhotoTaken { .. } => known.photos.extend(photo(stands, subject)),
            Happened::Signed { role, note, .. } => {
                known.signatures.push(KnownSignature { by, role: role.clone(), note: note.clone() });
            }
            _ => {}
        }
    }
    Some(known)
}

/// As it was told first.
fn first(stands: &InForce<'_>) -> Option<KnownResurfacing> {
    let Happened::RoadResurfaced { resurfacing, date, from, to, work, .. } = stands.happened else { return None };
    let by = teller(stands);
    Some(KnownResurfacing {
        resurfacing: *resurfacing,
        date: told(*date, &by),
        from: told(*from, &by),
        to: told(*to, &by),
        road: None,
        side: None,
        work: told(*work, &by),
        holes: Vec::new(),
        note: String::new(),
        photos: Vec::new(),
        signatures: Vec::new(),
        last_told: by.at,
        told: by,
    })
}

fn told<T>(value: T, by: &Teller) -> Told<T> {
    Told { value, by: by.clone(), otherwise: Vec::new() }
}

/// Takes in a value where there is one already.
fn tell_again<T: PartialEq + Clone>(place: &mut Told<T>, value: &T, by: &Teller) {
    let mut there = Some(place.clone());
    tell(&mut there, value, by);
    if let Some(now) = there {
        *place = now;
    }
}
