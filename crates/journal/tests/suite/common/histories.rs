//! Invented histories: crews that find, plan, mend, look again, err and correct themselves.

use jiff::{Timestamp, ToSpan as _};
use model::record::conditions::{Drainage, SealingWeather, StretchSide, SurfaceWork};
use model::record::event::{Event, SCHEMA_VERSION};
use model::record::happened::{Found, Happened, HoleSize, PlannedRepair, Position, Subject};
use model::record::stock::{StockItem, StockKind, StockPlace};
use model::record::stretch::{Heading, LaneKind, LaneStatus, TrafficImpact, ZoneKind, ZoneLane, ZoneStretch};
use rand::seq::IndexedRandom as _;
use rand::{Rng as _, RngExt as _};
use rand_pcg::Pcg64Mcg;
use rust_decimal::Decimal;
use uuid::Uuid;

/// A number that the seed determines.
pub fn number(random: &mut Pcg64Mcg) -> Uuid {
    uuid::Builder::from_random_bytes(random.random()).into_uuid()
}

/// A stretch of some metres to the east of a place.
fn stretch(from: Position) -> ZoneStretch {
    ZoneStretch {
        line: vec![from, Position { lon: from.lon + 0.000_1, ..from }],
        heading: Heading::Eastbound,
        impact: TrafficImpact::Flagging,
        kind: ZoneKind::Static,
        lanes: vec![ZoneLane { order: 1, kind: LaneKind::General, status: LaneStatus::Closed }],
    }
}

/// So many events of a few holes, repairs, zones, rounds and resurfacings on a few devices, in the order in which they happened.
pub fn history(random: &mut Pcg64Mcg, count: usize) -> Vec<Event> {
    let holes: Vec<Uuid> = (0..4).map(|_| number(random)).collect();
    let repairs: Vec<Uuid> = (0..3).map(|_| number(random)).collect();
    let zones: Vec<Uuid> = (0..2).map(|_| number(random)).collect();
    let rounds: Vec<Uuid> = (0..2).map(|_| number(random)).collect();
    let resurfacings: Vec<Uuid> = (0..2).map(|_| number(random)).collect();
    let begin: Timestamp = "2026-05-04T06:00:00Z".parse().unwrap();
    let mut events: Vec<Event> = Vec::new();
    let mut minutes = 0_i64;
    while events.len() < count {
        minutes += 1;
        let hole = *holes.choose(random).unwrap();
        let repair = *repairs.choose(random).unwrap();
        let zone = *zones.choose(random).unwrap();
        let round = *rounds.choose(random).unwrap();
        let resurfacing = *resurfacings.choose(random).unwrap();
        let position = Position { lon: 7.0 + random.random_range(0.0..0.1), lat: 47.0 + random.random_range(0.0..0.1) };
        let size = HoleSize {
            length_mm: random.random_bool(0.7).then(|| f64::from(random.random_range(200..900))),
            depth_mm: random.random_bool(0.7).then(|| f64::from(random.random_range(40..200))),
            ..HoleSize::default()
        };
        let amount = Decimal::new(random.random_range(1..500), 2);
        let happened = match random.random_range(0..19) {
            0 | 1 => Happened::HoleReported {
                hole,
                position,
                size,
                seen: None,
                note: "at the <b>gate</b>; DROP TABLE event; --".into(),
                source: "patrol".into(),
                reference: String::new(),
                contact: None,
            },
            2 => Happened::HoleMeasured { hole, position: Some(position), size, note: String::new() },
            3 => Happened::HolesMerged { into: holes[0], merged: vec![hole], why: "3 m apart".into() },
            4 => Happened::HoleDismissed { hole, why: "a manhole".into(), dealt_with: false },
            5 | 6 => Happened::RoundPlanned {
                round,
                date: "2026-05-05".parse().unwrap(),
                crew: "Crew A".into(),
                repairs: vec![PlannedRepair {
                    repair,
                    holes: vec![hole],
                    road: "Fennow Road".into(),
                    area_m2: 0.8,
                    base_loose_m3: amount,
                    water_l: amount,
                    binder_l: amount,
                    cover_stone_m3: amount,
                    minutes: Decimal::from(55),
                    road_kind: None,
                    basis: None,
                }],
                zones: Vec::new(),
                plan: String::new(),
            },
            7 => Happened::ZoneOpened {
                zone,
                round: Some(round),
                holes: vec![hole],
                position,
                road: "Fennow Road".into(),
                layout: String::new(),
                devices_out: Some(9),
                stretches: if random.random_bool(0.5) { vec![stretch(position)] } else { Vec::new() },
            },
            8 => Happened::ZoneClosed { zone, devices_in: Some(random.random_range(8..10)) },
            9 => Happened::HoleCut {
                repair,
                holes: vec![hole],
                zone: Some(zone),
                area_m2: Some(random.random_range(0.3..2.0)),
                depths_mm: vec![100.0, 110.0],
                bottom_firm: Some(random.random_bool(0.9)),
                sides_upright: None,
                wetness: None,
                drainage: random.random_bool(0.5).then_some(Drainage::DitchBlocked),
            },
            10 => Happened::LayerPlaced {
                repair,
                layer: random.random_range(1..4),
                thickness_mm: Some(80.0),
                base_loose_m3: Some(amount),
                base: if random.random_bool(0.5) { "pit run".into() } else { String::new() },
                water_l: None,
                moisture: None,
                passes_still: Some(2),
                passes_vibrating: Some(random.random_range(8..13)),
            },
            11 => Happened::Sealed {
                repair,
                binder_l: Some(amount),
                binder: "emulsion".into(),
                cover_stone_m3: None,
                area_m2: None,
                crown_mm: Some(7.0),
                dry: Some(true),
                weather: random.random_bool(0.5).then_some(SealingWeather::Damp),
                air_temperature_c: random.random_bool(0.5).then(|| f64::from(random.random_range(5..30))),
            },
            12 => Happened::OpenedToTraffic { repair },
            13 => Happened::Inspected {
                repair,
                found: *[Found::Holds, Found::Worn, Found::Failed].choose(random).unwrap(),
                note: String::new(),
            },
            14 => Happened::StockMoved {
                from: StockPlace::Truck { crew: "Crew A".into() },
                to: StockPlace::Repair { repair },
                item: StockItem { what: StockKind::Base, which: String::new() },
                amount,
                unit_price: None,
                lot: None,
            },
            15 => Happened::RoadResurfaced {
                resurfacing,
                date: "2026-05-06".parse().unwrap(),
                from: position,
                to: Position { lon: position.lon + 0.001, ..position },
                road: if random.random_bool(0.5) { "Fennow Road".into() } else { String::new() },
                side: random.random_bool(0.3).then_some(StretchSide::Left),
                work: *[SurfaceWork::Reseal, SurfaceWork::Overlay].choose(random).unwrap(),
                holes: if random.random_bool(0.5) { vec![hole] } else { Vec::new() },
                note: String::new(),
            },
            16 => Happened::PhotoTaken {
                photo: "00".repeat(32),
                of: if random.random_bool(0.7) { Subject::Repair(repair) } else { Subject::Resurfacing(resurfacing) },
                position: None,
                note: String::new(),
            },
            _ => {
                let Some(wrong) = events.choose(random) else { continue };
                let instead = random
                    .random_bool(0.5)
                    .then(|| Box::new(Happened::HoleMeasured { hole, position: None, size, note: "put right".into() }));
                Happened::Corrected { event: wrong.id, instead, why: "typed wrong".into() }
            }
        };
        let device = format!("phone-{}", random.random_range(1..4));
        events.push(Event {
            id: number(random),
            schema: SCHEMA_VERSION,
            actor: "mara".into(),
            device,
            device_time: begin + (minutes * 7).minutes(),
            clock_ahead_ms: random.random_range(-2..3) * 60_000,
            happened,
        });
    }
    events
}

/// Any other order, with some of them twice.
pub fn shuffled(events: &[Event], random: &mut Pcg64Mcg) -> Vec<Event> {
    use rand::seq::SliceRandom as _;
    let mut other = events.to_vec();
    other.extend(events.iter().filter(|_| random.next_u32().is_multiple_of(5)).cloned());
    other.shuffle(random);
    other
}
