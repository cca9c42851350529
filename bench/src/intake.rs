//! `bench intake --rows 1000000 --file export.csv --json`: an export of an invented city written to the file, then read as a
//! stream and its repeats found. `--format geojson` writes and reads that. `intake_peers.py` reads the same file.
//!
//! Streets in a grid of 200 m over an island of 45 by 44 km and five years; two rows of five are of a hole that was told before, a
//! few metres beside it and up to 30 days later. One row of 20 has a note of two lines, one of 250 can't be used.

use std::f64::consts::TAU;
use std::fs::File;
use std::io::{BufReader, BufWriter, Write};
use std::ops::ControlFlow;

use ::intake::bulk::{BulkOptions, BulkProgress, BulkRow, BulkSink, read_bulk};
use ::intake::place::{Bounds, District};
use ::intake::repeats::Repeats;
use exchange::rules::{RuleKind, load_rules};
use jiff::civil::{Date, date};
use jiff::tz::TimeZone;
use model::problem::Problem;
use model::record::happened::Happened;
use model::rules::matching::MatchingRules;
use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;
use uuid::Uuid;

use crate::now;
use crate::usage::{cpu_seconds, peak_memory_mb, rounded};

pub const USAGE: &str = "intake [--rows 1000000] [--file export.csv] [--format csv|geojson] [--seed 1] [--json]";

pub const ISLAND: Bounds = Bounds { west: -28.7, south: 47.1, east: -28.1, north: 47.5 };
/// Metres of a degree along a meridian, and along the island's middle parallel.
const NORTH_M: f64 = 111_195.0;
const EAST_M: f64 = 75_460.0;
const STREETS_M: f64 = 200.0;
const FIRST_DAY: Date = date(2021, 1, 1);
const DAYS: i64 = 1826;
/// Holes that are told of again.
const REMEMBERED: usize = 100_000;

/// Runs the command; an error is a sentence for the reader.
pub fn run(arguments: impl Iterator<Item = String>) -> Result<(), String> {
    let (mut rows, mut file, mut seed, mut json, mut is_geojson) =
        (1_000_000_u32, "export.csv".to_owned(), 1, false, false);
    let given: Vec<String> = arguments.collect();
    let parsed = (|| {
        let mut given = given.iter();
        while let Some(name) = given.next() {
            if name == "--json" {
                json = true;
                continue;
            }
            let value = given.next()?;
            match name.as_str() {
                "--rows" => rows = value.parse().ok()?,
                "--file" => file.clone_from(value),
                "--seed" => seed = value.parse().ok()?,
                "--format" => is_geojson = value == "geojson",
                _ => return None,
            }
        }
        Some(())
    })();
    parsed.ok_or_else(|| format!("usage: bench {USAGE}"))?;
    write(&file, rows, seed, is_geojson).map_err(|error| format!("{file}: {error}"))?;
    let before = peak_memory_mb();
    let rules: MatchingRules =
        load_rules(RuleKind::Matching, "common-practice", None).map_err(|_| "no matching rules")?;
    let zone = TimeZone::get("Atlantic/Azores").map_err(|error| error.to_string())?;
    let options = BulkOptions {
        file: file.clone(),
        columns: std::collections::BTreeMap::new(),
        source: "public".into(),
        slashes: None,
        district: District { bounds: Some(ISLAND), zone },
        today: date(2026, 6, 9),
    };
    let (start, cpu) = (now(), cpu_seconds());
    let mut sink = Counting { repeats: Repeats::new(&rules), problems: 0, notes: 0 };
    let from = BufReader::new(File::open(&file).map_err(|error| format!("{file}: {error}"))?);
    let read = read_bulk(from, &options, &mut sink);
    let read_seconds = start.elapsed().as_secs_f64();
    let found = sink.repeats.find(&mut |_| ControlFlow::Continue(()));
    let repeats: usize = found.same.iter().map(|same| same.others.len()).sum();
    let table = serde_json::json!({
        "file": file,
        "rows": read.rows,
        "refused": read.refused,
        "problems": sink.problems,
        "seconds_read": rounded(read_seconds),
        "seconds": rounded(start.elapsed().as_secs_f64()),
        "cpu_seconds": rounded(cpu_seconds() - cpu),
        "holes_told_again": found.same.len(),
        "repeats": repeats,
        "given_up": found.is_given_up,
        "memory_mb": rounded(peak_memory_mb()),
        "memory_before_mb": rounded(before),
        "events_with_notes": sink.notes,
    });
    if json {
        println!("{table}");
    } else {
        println!("{table:#}");
    }
    Ok(())
}

/// Keeps what the matching needs; every row is made an event, which nobody keeps.
struct Counting<'r> {
    repeats: Repeats<'r>,
    problems: u64,
    notes: usize,
}

impl BulkSink for Counting<'_> {
    fn row(&mut self, row: BulkRow) {
        let number = self.repeats.add(&row);
        let happened = row.happened(Uuid::from_u128(number as u128));
        // Made as an importer makes them, one at a time.
        self.notes += usize::from(matches!(&happened, Happened::HoleReported { note, .. } if !note.is_empty()));
    }

    fn problem(&mut self, _: Problem) {
        self.problems += 1;
    }

    fn progress(&mut self, _: BulkProgress) -> ControlFlow<()> {
        ControlFlow::Continue(())
    }
}

#[derive(Clone, Copy)]
struct Told {
    east_m: f64,
    north_m: f64,
    day: i64,
}

/// Writes the export.
pub fn write(file: &str, rows: u32, seed: u64, is_geojson: bool) -> std::io::Result<()> {
    let mut random = Pcg64Mcg::seed_from_u64(seed);
    let mut to = BufWriter::new(File::create(file)?);
    let (width, height) = ((ISLAND.east - ISLAND.west) * EAST_M, (ISLAND.north - ISLAND.south) * NORTH_M);
    to.write_all(if is_geojson {
        b"{\"type\":\"FeatureCollection\",\"features\":[\n"
    } else {
        b"Case ID,Opened,Status,Longitude,Latitude,Location,Details\n"
    })?;
    let mut earlier: Vec<Told> = Vec::new();
    for row in 0..rows {
        let told = if random.random_range(0..5) < 2 && !earlier.is_empty() {
            let first = &earlier[random.random_range(0..earlier.len())];
            let (angle, off) = (random.random_range(0.0..TAU), 4.0 * random.random_range(0.0_f64..1.0).sqrt());
            let day = first.day + random.random_range(0..30);
            Told { east_m: first.east_m + off * angle.cos(), north_m: first.north_m + off * angle.sin(), day }
        } else {
            let street = |length: f64, random: &mut Pcg64Mcg| {
                STREETS_M * f64::from(random.random_range(1..(length / STREETS_M) as u32))
            };
            let day = random.random_range(0..DAYS);
            let (east_m, north_m) = if random.random() {
                (street(width, &mut random), random.random_range(0.0..height))
            } else {
                (random.random_range(0.0..width), street(height, &mut random))
            };
            // Of so many of the last people tell again.
            let slot = row as usize % REMEMBERED;
            let told = Told { east_m, north_m, day };
            match earlier.get_mut(slot) {
                Some(remembered) => *remembered = told,
                None => earlier.push(told),
            }
            told
        };
        let (lon, lat) = (ISLAND.west + told.east_m / EAST_M, ISLAND.south + told.north_m / NORTH_M);
        let (lon, lat) = match random.random_range(0..1000) {
            0 | 1 => (format!("{lat:.7}"), format!("{lon:.7}")),
            2 => ("0".into(), "0".into()),
            3 => (String::new(), format!("{lat:.7}")),
            _ => (format!("{lon:.7}"), format!("{lat:.7}")),
        };
        let day = FIRST_DAY.saturating_add(jiff::Span::new().days(told.day));
        let (hour, minute) = (random.random_range(6..22), random.random_range(0..60));
        let break_or_blank = if random.random_range(0..20) == 0 { "\n" } else { " " };
        if is_geojson {
            let comma = if row == 0 { "" } else { ",\n" };
            let lon = if lon.is_empty() { "null" } else { &lon };
            let note = format!("Deep,{break_or_blank}near the gate").replace('\n', "\\n");
            write!(
                to,
                "{comma}{{\"type\":\"Feature\",\"geometry\":{{\"type\":\"Point\",\"coordinates\":[{lon},{lat}]}},\"properties\":{{\"case_id\":{row},\
                 \"opened\":\"{day} {hour:02}:{minute:02}:00\",\"status\":\"open\",\"location\":\"{} Kiln Lane\",\"details\":\"{note}\"}}}}",
                row % 200
            )?;
        } else {
            writeln!(
                to,
                "{row},{day} {hour:02}:{minute:02}:00,open,{lon},{lat},{} Kiln Lane,\"Deep,{break_or_blank}near the gate\"",
                row % 200
            )?;
        }
    }
    if is_geojson {
        to.write_all(b"\n]}\n")?;
    }
    to.flush()
}
