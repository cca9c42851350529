//! `bench import --rows 1000000 --folder FOLDER --json`: an export of an invented city (`bench intake`) written to the folder, then
//! imported into a new record there, and imported again, which adds nothing.

use std::fs::File;
use std::io::BufReader;
use std::ops::ControlFlow;
use std::path::Path;

use ::intake::bulk::BulkOptions;
use ::intake::place::District;
use exchange::rules::{RuleKind, load_rules};
use jiff::civil::date;
use jiff::tz::TimeZone;
use journal::Journal;
use journal::store::Location;
use model::district::UnitSystem;
use model::problem::Problem;
use server::import::{ImportOptions, ImportProgress, ImportSink, import};

use crate::intake::{ISLAND, write};
use crate::now;
use crate::usage::{cpu_seconds, peak_memory_mb, rounded};

pub const USAGE: &str =
    "import [--rows 1000000] [--folder FOLDER] [--store postgres://...] [--again] [--seed 1] [--json]";

/// Runs the command; an error is a sentence for the reader.
pub fn run(arguments: impl Iterator<Item = String>) -> Result<(), String> {
    let (mut rows, mut folder, mut store, mut seed) = (1_000_000_u32, ".".to_owned(), None, 1);
    let (mut json, mut again) = (false, false);
    let given: Vec<String> = arguments.collect();
    let parsed = (|| {
        let mut given = given.iter();
        while let Some(name) = given.next() {
            match name.as_str() {
                "--json" => json = true,
                "--again" => again = true,
                "--rows" => rows = given.next()?.parse().ok()?,
                "--folder" => folder.clone_from(given.next()?),
                "--store" => store = Some(given.next()?.clone()),
                "--seed" => seed = given.next()?.parse().ok()?,
                _ => return None,
            }
        }
        Some(())
    })();
    parsed.ok_or_else(|| format!("usage: bench {USAGE}"))?;
    let file = Path::new(&folder).join("export.csv").display().to_string();
    write(&file, rows, seed, false).map_err(|error| format!("{file}: {error}"))?;
    let location = store.map_or_else(|| Location::in_folder(Path::new(&folder)), Location::Server);
    let options = ImportOptions {
        bulk: BulkOptions {
            file: file.clone(),
            columns: std::collections::BTreeMap::new(),
            source: "public".into(),
            slashes: None,
            district: District {
                bounds: Some(ISLAND),
                zone: TimeZone::get("Atlantic/Azores").map_err(|error| error.to_string())?,
            },
            today: date(2026, 6, 9),
        },
        matching: load_rules(RuleKind::Matching, "common-practice", None).map_err(|_| "no matching rules")?,
        units: UnitSystem::Si,
        actor: "bench".into(),
        device: "bench".into(),
    };
    let runtime = tokio::runtime::Runtime::new().map_err(|error| error.to_string())?;
    let journal = runtime.block_on(Journal::open(&location)).map_err(|error| error.to_string())?;
    let day = "2026-06-09T12:00:00Z".parse().map_err(|_| "no time")?;
    for _ in 0..=u8::from(again) {
        let mut stages = Stages { begin: now(), read: 0.0, matched: 0.0, problems: 0 };
        let cpu = cpu_seconds();
        let from = BufReader::new(File::open(&file).map_err(|error| format!("{file}: {error}"))?);
        let imported =
            import(&journal, runtime.handle(), from, &options, day, &mut stages).map_err(|error| error.to_string())?;
        let seconds = stages.begin.elapsed().as_secs_f64();
        let table = serde_json::json!({
            "rows": imported.read.rows,
            "refused": imported.read.refused,
            "problems": stages.problems,
            "added": imported.added,
            "known_before": imported.known_before,
            "repeats": imported.repeats,
            "of_known_holes": imported.of_known_holes,
            "seconds_read": rounded(stages.read),
            "seconds_matched": rounded(stages.matched),
            "seconds": rounded(seconds),
            "cpu_seconds": rounded(cpu_seconds() - cpu),
            "memory_mb": rounded(peak_memory_mb()),
        });
        println!("{}", if json { table.to_string() } else { format!("{table:#}") });
    }
    runtime.block_on(journal.close());
    Ok(())
}

/// When each stage ended, seconds from the begin.
struct Stages {
    begin: std::time::Instant,
    read: f64,
    matched: f64,
    problems: u64,
}

impl ImportSink for Stages {
    fn problem(&mut self, _: Problem) {
        self.problems += 1;
    }

    fn progress(&mut self, progress: ImportProgress) -> ControlFlow<()> {
        let seconds = self.begin.elapsed().as_secs_f64();
        match progress {
            ImportProgress::Reading(_) => self.read = seconds,
            ImportProgress::Matching(_) => self.matched = seconds,
            ImportProgress::Writing { .. } => {}
        }
        ControlFlow::Continue(())
    }
}
