//! What is known of a zone.

use model::record::happened::{Happened, Subject};
use model::record::in_force::InForce;
use model::record::known::{KnownSignature, KnownZone};
use model::record::told::{Teller, tell};
use uuid::Uuid;

use super::{add_all, photo, teller};

pub(super) fn known(id: Uuid, standing: &[InForce<'_>]) -> Option<KnownZone> {
    let mut zone: Option<KnownZone> = None;
    for stands in standing {
        if !stands.happened.subjects().contains(&Subject::Zone(id)) {
            continue;
        }
        let by = teller(stands);
        let known = zone.get_or_insert_with(|| nothing_yet(id, &by));
        known.last_told = known.last_told.max(by.at);
        match stands.happened {
            Happened::ZoneOpened { round, holes, position, road, layout, devices_out, stretches, .. } => {
                add_all(&mut known.holes, holes);
                if let Some(round) = round {
                    tell(&mut known.round, round, &by);
                }
                tell(&mut known.position, position, &by);
                if !road.is_empty() {
                    tell(&mut known.road, road, &by);
                }
                if !layout.is_empty() {
                    tell(&mut known.layout, layout, &by);
                }
                if let Some(devices) = devices_out {
                    tell(&mut known.devices_out, devices, &by);
                }
                if !stretches.is_empty() {
                    tell(&mut known.stretches, stretches, &by);
                }
                known.opened.get_or_insert(by);
            }
            Happened::ZoneClosed { devices_in, .. } => {
                if let Some(devices) = devices_in {
                    tell(&mut known.devices_in, devices, &by);
                }
                known.closed.get_or_insert(by);
            }
            Happened::HoleCut { holes, zone: Some(_), .. } => add_all(&mut known.holes, holes),
            Happened::PhotoTaken { .. } => known.photos.extend(photo(stands, Subject::Zone(id))),
            Happened::Signed { role, note, .. } => {
                known.signatures.push(KnownSignature { by, role: role.clone(), note: note.clone() });
            }
            _ => {}
        }
    }
    zone
}

fn nothing_yet(id: Uuid, by: &Teller) -> KnownZone {
    KnownZone {
        zone: id,
        round: None,
        holes: Vec::new(),
        position: None,
        road: None,
        layout: None,
        devices_out: None,
        stretches: None,
        devices_in: None,
        opened: None,
        closed: None,
        photos: Vec::new(),
        signatures: Vec::new(),
        last_told: by.at,
    }
}
