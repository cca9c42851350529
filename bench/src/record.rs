//! `bench record --seconds 20 --senders 64 --json`: batches of ten events, of one repair each, sent to a new record by so many
//! senders at a time, each waiting for its answer.

use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use jiff::Timestamp;
use journal::Journal;
use journal::store::Location;
use model::record::event::{Event, SCHEMA_VERSION};
use model::record::happened::{Happened, HoleSize, Position, Subject};
use uuid::Uuid;

use crate::now;
use crate::usage::{cpu_seconds, peak_memory_mb, rounded};

pub const USAGE: &str = "record [--seconds 20] [--senders 64] [--folder FOLDER | --store postgres://...] [--json]";

/// Runs the command; an error is a sentence for the reader.
pub fn run(arguments: impl Iterator<Item = String>) -> Result<(), String> {
    let (mut seconds, mut senders, mut json) = (20.0, 64_u64, false);
    let mut location = Location::in_folder(std::path::Path::new("."));
    let given: Vec<String> = arguments.collect();
    let parsed = (|| {
        let mut given = given.iter();
        while let Some(name) = given.next() {
            match name.as_str() {
                "--json" => json = true,
                "--seconds" => seconds = given.next()?.parse().ok()?,
                "--senders" => senders = given.next()?.parse().ok()?,
                "--folder" => location = Location::in_folder(std::path::Path::new(given.next()?)),
                "--store" => location = Location::Server(given.next()?.clone()),
                _ => return None,
            }
        }
        Some(())
    })();
    parsed.ok_or_else(|| format!("usage: bench {USAGE}"))?;
    let runtime = tokio::runtime::Runtime::new().map_err(|error| error.to_string())?;
    let (mut took, begun, cpu) = runtime.block_on(async {
        let journal = Journal::open(&location).await.map_err(|error| error.to_string())?;
        let next = Arc::new(AtomicU64::new(0));
        let (begin, cpu) = (now(), cpu_seconds());
        let tasks: Vec<_> = (0..senders)
            .map(|_| {
                let (journal, next) = (journal.clone(), Arc::clone(&next));
                tokio::spawn(async move {
                    let mut took = Vec::new();
                    while begin.elapsed().as_secs_f64() < seconds {
                        let events = repair(next.fetch_add(1, Ordering::Relaxed));
                        let sent = now();
                        journal.append(events, Timestamp::UNIX_EPOCH).await.map_err(|error| error.to_string())?;
                        took.push(sent.elapsed().as_secs_f64() * 1000.0);
                    }
                    Ok::<_, String>(took)
                })
            })
            .collect();
        let mut took = Vec::new();
        for task in tasks {
            took.extend(task.await.map_err(|error| error.to_string())??);
        }
        let spent = begin.elapsed().as_secs_f64();
        journal.close().await;
        Ok::<_, String>((took, spent, cpu_seconds() - cpu))
    })?;
    took.sort_by(f64::total_cmp);
    let at = |share: f64| took.get(((took.len() as f64) * share) as usize).copied().unwrap_or_default();
    let table = serde_json::json!({
        "batches": took.len(),
        "batches_per_second": rounded(took.len() as f64 / begun),
        "median_ms": rounded(at(0.5)),
        "p99_ms": rounded(at(0.99)),
        "worst_ms": rounded(at(1.0 - f64::EPSILON)),
        "cpu_seconds": rounded(cpu),
        "memory_mb": rounded(peak_memory_mb()),
    });
    println!("{}", if json { table.to_string() } else { format!("{table:#}") });
    Ok(())
}

/// What a crew tells of one hole from the report to the open road.
fn repair(count: u64) -> Vec<Event> {
    let id = |kind: u128, of: u64| Uuid::from_u128((u128::from(of) << 32) | (kind << 4));
    let (hole, repair, zone) = (id(1, count), id(2, count), id(3, count));
    let layer = |layer: u32| Happened::LayerPlaced {
        repair,
        layer,
        thickness_mm: Some(90.0),
        base_loose_m3: Some(1.into()),
        base: String::new(),
        water_l: Some(4.into()),
        moisture: None,
        passes_still: Some(2),
        passes_vibrating: Some(10),
    };
    let position = Position { lon: -28.4 + (count % 1000) as f64 * 1e-4, lat: 47.2 };
    let happened = [
        Happened::HoleReported {
            hole,
            position,
            size: HoleSize {
                length_mm: Some(600.0),
                width_mm: Some(400.0),
                depth_mm: Some(180.0),
                ..HoleSize::default()
            },
            seen: None,
            note: "by the gate".into(),
            source: "patrol".into(),
            reference: String::new(),
            contact: None,
        },
        Happened::ZoneOpened {
            zone,
            round: None,
            holes: vec![hole],
            position,
            road: "Fennow Road".into(),
            layout: String::new(),
            devices_out: Some(14),
            stretches: Vec::new(),
        },
        Happened::HoleCut {
            repair,
            holes: vec![hole],
            zone: Some(zone),
            area_m2: Some(0.6),
            depths_mm: vec![180.0, 190.0, 185.0],
            bottom_firm: Some(true),
            sides_upright: Some(true),
            wetness: None,
            drainage: None,
        },
        layer(1),
        layer(2),
        Happened::Sealed {
            repair,
            binder_l: Some(2.into()),
            binder: "emulsion".into(),
            cover_stone_m3: None,
            area_m2: Some(0.8),
            crown_mm: Some(7.0),
            dry: Some(true),
            weather: None,
            air_temperature_c: None,
        },
        Happened::OpenedToTraffic { repair },
        Happened::ZoneClosed { zone, devices_in: Some(14) },
        Happened::PhotoTaken {
            photo: "0".repeat(64),
            of: Subject::Repair(repair),
            position: None,
            note: String::new(),
        },
        Happened::Signed { of: Subject::Repair(repair), role: "crew leader".into(), note: String::new() },
    ];
    (10..)
        .zip(happened)
        .map(|(kind, happened)| Event {
            id: id(kind, count),
            schema: SCHEMA_VERSION,
            actor: "ole".into(),
            device: "phone 1".into(),
            device_time: Timestamp::UNIX_EPOCH,
            clock_ahead_ms: 0,
            happened,
        })
        .collect()
}
