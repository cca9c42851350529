//! What is known of a crew's round.

use model::record::happened::{Happened, Subject};
use model::record::in_force::InForce;
use model::record::known::{KnownRound, KnownSignature};
use model::record::told::{Teller, Told};
use rust_decimal::Decimal;
use uuid::Uuid;

use super::{add, teller};

pub(super) fn known(id: Uuid, standing: &[InForce<'_>]) -> Option<KnownRound> {
    let mut round: Option<KnownRound> = None;
    for stands in standing {
        if !stands.happened.subjects().contains(&Subject::Round(id)) {
            continue;
        }
        let by = teller(stands);
        let known = round.get_or_insert_with(|| nothing_yet(id, &by));
        known.last_told = known.last_told.max(by.at);
        match stands.happened {
            Happened::RoundPlanned { date, crew, repairs, zones, plan, .. } => {
                // planned anew is no disagreement
                known.date = Some(Told { value: *date, by: by.clone(), otherwise: Vec::new() });
                known.crew = Some(Told { value: crew.clone(), by: by.clone(), otherwise: Vec::new() });
                known.repairs = Some(Told { value: repairs.clone(), by: by.clone(), otherwise: Vec::new() });
                known.planned_zones.clone_from(zones);
                known.plan = Some(Told { value: plan.clone(), by, otherwise: Vec::new() });
            }
            Happened::ZoneOpened { zone, .. } => add(&mut known.zones, *zone),
            Happened::TimeBooked { labour_min, plant_min, .. } => {
                known.labour_min += labour_min;
                known.plant_min += plant_min;
            }
            Happened::Signed { role, note, .. } => {
                known.signatures.push(KnownSignature { by, role: role.clone(), note: note.clone() });
            }
            _ => {}
        }
    }
    round
}

fn nothing_yet(id: Uuid, by: &Teller) -> KnownRound {
    KnownRound {
        round: id,
        date: None,
        crew: None,
        repairs: None,
        planned_zones: Vec::new(),
        plan: None,
        zones: Vec::new(),
        labour_min: Decimal::ZERO,
        plant_min: Decimal::ZERO,
        signatures: Vec::new(),
        last_told: by.at,
    }
}
