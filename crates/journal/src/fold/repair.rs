//! What is known of a repair.

use model::record::happened::{Found, Happened, Subject};
use model::record::in_force::InForce;
use model::record::known::{KnownInspection, KnownLayer, KnownRepair, KnownSignature, RepairState};
use model::record::told::{Teller, Told, tell};
use rust_decimal::Decimal;
use uuid::Uuid;

use super::{add_all, hole, last_plans, photo, teller};

pub(super) fn known(id: Uuid, standing: &[InForce<'_>]) -> Option<KnownRepair> {
    let mut repair: Option<KnownRepair> = None;
    for stands in standing {
        if !stands.happened.subjects().contains(&Subject::Repair(id)) {
            continue;
        }
        let by = teller(stands);
        let known = repair.get_or_insert_with(|| nothing_yet(id, &by));
        known.last_told = known.last_told.max(by.at);
        match stands.happened {
            Happened::RoundPlanned { repairs, .. } => {
                for planned in repairs.iter().filter(|planned| planned.repair == id) {
                    add_all(&mut known.holes, &planned.holes);
                }
            }
            Happened::HoleCut {
                holes,
                zone,
                area_m2,
                depths_mm,
                bottom_firm,
                sides_upright,
                wetness,
                drainage,
                ..
            } => {
                add_all(&mut known.holes, holes);
                known.cut.get_or_insert_with(|| by.clone());
                tell_some(&mut known.zone, zone.as_ref(), &by);
                tell_some(&mut known.area_m2, area_m2.as_ref(), &by);
                tell_some(&mut known.depths_mm, Some(depths_mm).filter(|depths| !depths.is_empty()), &by);
                tell_some(&mut known.bottom_firm, bottom_firm.as_ref(), &by);
                tell_some(&mut known.sides_upright, sides_upright.as_ref(), &by);
                tell_some(&mut known.wetness, wetness.as_ref(), &by);
                tell_some(&mut known.drainage, drainage.as_ref(), &by);
            }
            Happened::LayerPlaced {
                layer,
                thickness_mm,
                base_loose_m3,
                base,
                water_l,
                moisture,
                passes_still,
                passes_vibrating,
                ..
            } => {
                let layer = layer_of(&mut known.layers, *layer);
                tell_some(&mut layer.thickness_mm, thickness_mm.as_ref(), &by);
                tell_some(&mut layer.base_loose_m3, base_loose_m3.as_ref(), &by);
                tell_some(&mut layer.base, Some(base).filter(|base| !base.is_empty()), &by);
                tell_some(&mut layer.water_l, water_l.as_ref(), &by);
                tell_some(&mut layer.moisture, moisture.as_ref(), &by);
                tell_some(&mut layer.passes_still, passes_still.as_ref(), &by);
                tell_some(&mut layer.passes_vibrating, passes_vibrating.as_ref(), &by);
            }
            Happened::Sealed {
                binder_l,
                binder,
                cover_stone_m3,
                area_m2,
                crown_mm,
                dry,
                weather,
                air_temperature_c,
                ..
            } => {
                known.sealed.get_or_insert_with(|| by.clone());
                tell_some(&mut known.binder_l, binder_l.as_ref(), &by);
                tell_some(&mut known.binder, Some(binder).filter(|binder| !binder.is_empty()), &by);
                tell_some(&mut known.cover_stone_m3, cover_stone_m3.as_ref(), &by);
                tell_some(&mut known.sealed_area_m2, area_m2.as_ref(), &by);
                tell_some(&mut known.crown_mm, crown_mm.as_ref(), &by);
                tell_some(&mut known.dry, dry.as_ref(), &by);
                tell_some(&mut known.weather, weather.as_ref(), &by);
                tell_some(&mut known.air_temperature_c, air_temperature_c.as_ref(), &by);
            }
            Happened::OpenedToTraffic { .. } => {
                known.opened.get_or_insert(by);
            }
            Happened::Inspected { found, note, .. } => {
                if *found == Found::Failed {
                    known.failed.get_or_insert_with(|| by.clone());
                }
                known.inspections.push(KnownInspection { by, found: *found, note: note.clone() });
            }
            Happened::Failed { hole, how, .. } => {
                known.failed.get_or_insert(by);
                if known.failed_how.is_empty() {
                    known.failed_how.clone_from(how);
                }
                known.failed_hole = known.failed_hole.or(*hole);
            }
            Happened::TimeBooked { labour_min, plant_min, .. } => {
                known.labour_min += labour_min;
                known.plant_min += plant_min;
            }
            Happened::PhotoTaken { .. } => known.photos.extend(photo(stands, Subject::Repair(id))),
            Happened::Signed { role, note, .. } => {
                known.signatures.push(KnownSignature { by, role: role.clone(), note: note.clone() });
            }
            _ => {}
        }
    }
    let mut repair = repair?;
    for (stands, round, repairs) in last_plans(standing) {
        let by = teller(stands);
        for planned in repairs.iter().filter(|planned| planned.repair == id) {
            // a newer plan takes the place of an older one; that is no disagreement
            repair.planned = Some(Told { value: planned.clone(), by: by.clone(), otherwise: Vec::new() });
            repair.round = Some(Told { value: round, by: by.clone(), otherwise: Vec::new() });
        }
    }
    repair.position = repair.holes.iter().find_map(|id| hole::known(*id, standing)?.position).map(|told| told.value);
    repair.state = state(&repair);
    Some(repair)
}

fn state(repair: &KnownRepair) -> RepairState {
    if repair.failed.is_some() {
        RepairState::Failed
    } else if repair.opened.is_some() {
        RepairState::Open
    } else if repair.sealed.is_some() {
        RepairState::Sealed
    } else if !repair.layers.is_empty() {
        RepairState::Filling
    } else if repair.cut.is_some() {
        RepairState::CutOut
    } else {
        RepairState::Planned
    }
}

/// The layer of that number; layers stay in order.
fn layer_of(layers: &mut Vec<KnownLayer>, number: u32) -> &mut KnownLayer {
    let at = match layers.binary_search_by_key(&number, |layer| layer.layer) {
        Ok(at) => at,
        Err(at) => {
            let nothing_yet = KnownLayer {
                layer: number,
                thickness_mm: None,
                base_loose_m3: None,
                base: None,
                water_l: None,
                moisture: None,
                passes_still: None,
                passes_vibrating: None,
            };
            layers.insert(at, nothing_yet);
            at
        }
    };
    &mut layers[at]
}

fn tell_some<T: PartialEq + Clone>(place: &mut Option<Told<T>>, value: Option<&T>, by: &Teller) {
    if let Some(value) = value {
        tell(place, value, by);
    }
}

fn nothing_yet(id: Uuid, by: &Teller) -> KnownRepair {
    KnownRepair {
        repair: id,
        state: RepairState::Planned,
        holes: Vec::new(),
        position: None,
        zone: None,
        round: None,
        planned: None,
        area_m2: None,
        depths_mm: None,
        bottom_firm: None,
        sides_upright: None,
        wetness: None,
        drainage: None,
        layers: Vec::new(),
        binder_l: None,
        binder: None,
        cover_stone_m3: None,
        sealed_area_m2: None,
        crown_mm: None,
        dry: None,
        weather: None,
        air_temperature_c: None,
        cut: None,
        sealed: None,
        opened: None,
        inspections: Vec::new(),
        failed: None,
        failed_how: String::new(),
        failed_hole: None,
        labour_min: Decimal::ZERO,
        plant_min: Decimal::ZERO,
        photos: Vec::new(),
        signatures: Vec::new(),
        last_told: by.at,
    }
}
