//! What a plan takes from the record: read repair by repair, so that it need not fit into memory.

use std::path::Path;

use exchange::rules::{RuleKind, load_rules};
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use journal::Journal;
use journal::store::Location;
use lasting::follow_up::{DueLook, due_looks};
use lasting::plan_lessons::Lessons;
use model::district::District;
use model::learnt::{Factored, Learnt, Yardstick};
use model::look::{LooksWanted, WantedLook};
use model::place::LonLat;
use model::problem::{Locator, Problem, ProblemSeverity};
use model::quantity::square_metres;
use model::record::known::{Known, KnownRepair};
use model::rules::lasting::LastingRules;

use crate::commands::plan::failed;
use crate::input::Setting;

/// An agency overrides it with `lasting/common-practice.toml` beside its district file.
const RULES: &str = "common-practice";

/// What is read of a record for a plan.
pub(crate) struct FromRecord {
    rules: LastingRules,
    zone: TimeZone,
    /// What rules and settings expect today, by crew.
    today: Vec<(String, Yardstick)>,
    /// Nothing that happened from then on counts.
    before: Timestamp,
    lessons: Lessons,
    looks: Vec<WantedLook>,
}

impl FromRecord {
    /// For a plan from that day on.
    pub(crate) fn new(setting: &Setting, date: Date) -> Result<Self, Vec<Problem>> {
        let beside = Some(setting.folder.as_path());
        let rules: LastingRules = load_rules(RuleKind::Lasting, RULES, beside)?;
        let faults = rules.faults();
        if !faults.is_empty() {
            return Err(faults.into_iter().map(fault).collect());
        }
        let zone = TimeZone::get(&setting.district.time_zone).unwrap_or(TimeZone::UTC);
        let before = zone.to_timestamp(date.at(0, 0, 0, 0));
        let today: Vec<(String, Yardstick)> = (0..setting.district.crew_count())
            .map(|index| {
                let view = setting.district.of_crew(index);
                let District { plant, base, cover_stone, binder, .. } = &view;
                let expected = repair::yardstick(plant, base, cover_stone, binder, &setting.rules.repair);
                (view.crew.name, expected)
            })
            .collect();
        Ok(FromRecord {
            rules,
            zone,
            before: before.unwrap_or(Timestamp::MAX),
            lessons: Lessons::new(today.clone()),
            today,
            looks: Vec::new(),
        })
    }

    /// Takes up what is known of one round or repair; rounds come first.
    pub(crate) fn take(&mut self, known: &Known) {
        match known {
            Known::Round(round) => self.lessons.take_round(round),
            Known::Repair(repair) => {
                self.lessons.take_repair(repair, self.before);
                let due = due_looks(std::slice::from_ref(repair), self.before, &self.rules);
                self.looks.extend(due.iter().filter_map(|due| wanted(due, repair, &self.zone)));
            }
            Known::Hole(_) | Known::Zone(_) | Known::Resurfacing(_) => {}
        }
    }

    /// What rules and settings expect of that crew's repairs.
    pub(crate) fn yardstick(&self, crew: &str) -> Option<Yardstick> {
        self.today.iter().find(|(name, _)| name == crew).map(|(_, yardstick)| *yardstick)
    }

    /// Looks that plans put on the way.
    pub(crate) fn looks(&self) -> LooksWanted {
        LooksWanted { looks: self.looks.clone(), rules: self.rules.look_stop.clone() }
    }

    /// What plans learn, without what is turned off.
    pub(crate) fn learnt(&self, off: &[Factored]) -> Learnt {
        self.lessons.learnt(&self.rules, off)
    }
}

/// Reads a record that is there; makes none by mistake.
pub(crate) fn read(
    setting: &Setting,
    date: Date,
    folder: &Path,
    store: Option<&String>,
) -> Result<FromRecord, Vec<Problem>> {
    let mut from_record = FromRecord::new(setting, date)?;
    let location = store.map_or_else(|| Location::in_folder(folder), |url| Location::Server(url.clone()));
    if let Location::File(file) = &location
        && !file.exists()
    {
        return Err(vec![unreadable(file, "there is no record here")]);
    }
    let told = |error: &dyn std::fmt::Display| vec![unreadable(folder, &error.to_string())];
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().map_err(|error| told(&error))?;
    let read = async {
        let journal = Journal::open(&location).await?;
        for what in ["round", "repair"] {
            journal.each(what, &mut |known| from_record.take(&known)).await?;
        }
        Ok::<(), journal::JournalError>(())
    };
    runtime.block_on(read).map_err(|error| told(&error))?;
    Ok(from_record)
}

/// A look at a repair whose place is known.
fn wanted(due: &DueLook, known: &KnownRepair, zone: &TimeZone) -> Option<WantedLook> {
    let DueLook { repair, position, is_due, why, .. } = *due;
    let place = position.map(|at| LonLat { lon: at.lon, lat: at.lat })?;
    let opened = known.opened.as_ref().or(known.sealed.as_ref()).map(|by| zone.to_datetime(by.at).date());
    let area = known.area_m2.as_ref().map(|told| square_metres(told.value));
    Some(WantedLook { repair, place, opened, area, is_due, why })
}

fn unreadable(path: &Path, wrong: &str) -> Problem {
    failed(path, "record.read", wrong, "name the folder that `lengthsman serve` keeps the record in")
}

fn fault(wrong: String) -> Problem {
    Problem {
        code: "rules.value",
        severity: ProblemSeverity::Fatal,
        at: Locator { file: format!("rule set `{RULES}` of lasting"), line: 0, column: 0 },
        subject: String::new(),
        wrong,
        right: "correct the value in the rule file beside the district file".into(),
    }
}
