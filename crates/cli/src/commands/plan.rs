//! `lengthsman plan`: one day of one crew, or some days of all crews, from files to the job packs.

mod work_plan;

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use model::district::District;
use model::forecast::Forecast;
use model::learnt::{Factored, Learnt};
use model::look::{LookLeft, LooksWanted};
use model::plan::{Fate, LeftOut, Plan};
use model::problem::{Problem, ProblemSeverity};
use model::so_far::SoFar;
use plan::{PlanInput, ProgrammeInput, Step, plan_day};
use words::{Language, Words};

use crate::input::{self, Setting};
use crate::outcome::Outcome;
use crate::progress::Progress;
use crate::report;
use crate::show::Summary;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    /// The district file.
    district: PathBuf,
    /// The list of holes: CSV or GeoJSON.
    #[arg(long)]
    holes: PathBuf,
    /// The day, e.g. 2026-06-09.
    #[arg(long, value_parser = input::day)]
    date: Date,
    /// Folder for the job pack; made if it is not there.
    #[arg(long)]
    out: PathBuf,
    /// Road file in place of the district's.
    #[arg(long)]
    roads: Option<PathBuf>,
    /// Seed of the search: the same seed gives the same plan.
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// How many days, one after the other; with more than one, or with several crews in the district, each round gets a
    /// folder of its own.
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u32).range(1..=31))]
    days: u32,
    /// The weather to come: a CSV of hours. Wet hours and hours too cold for the binder are kept free of work.
    #[arg(long, value_name = "FILE")]
    forecast: Option<PathBuf>,
    /// How far the crews are, where the day is under way: plans the rest of it.
    #[arg(long, value_name = "FILE")]
    so_far: Option<PathBuf>,
    /// Also say what one more crew, hour or cubic metre would bring (searches once more for each).
    #[arg(long)]
    what_more: bool,
    /// Folder of the record that `lengthsman serve` keeps: the plan takes over what repairs that were planned and then
    /// measured teach of growth, materials and time, road by road and crew by crew, and puts looks at repairs on the way.
    #[arg(long, value_name = "DIR")]
    record: Option<PathBuf>,
    /// Database of that record in place of the file in the folder: a URL that begins with `postgres:`.
    #[arg(long, value_name = "URL", requires = "record")]
    store: Option<String>,
    /// Does without what the record teaches of these: growth, base, water, binder, `cover_stone`, time; or of all.
    #[arg(long, value_name = "WHAT", value_delimiter = ',', num_args = 0.., default_missing_value = "all", requires = "record",
        value_parser = learnt_off)]
    without_learnt: Vec<Vec<Factored>>,
    /// Puts no looks at repairs of the record on the way.
    #[arg(long, requires = "record")]
    without_looks: bool,
    /// Language of the job pack and of what is said here, in place of the district's: en, es, fr, pt or ar.
    #[arg(long, value_name = "CODE", value_parser = input::language)]
    language: Option<Language>,
    /// When the zone feed says it was written, e.g. 2026-06-08T18:20:00Z; without it the midnight the day begins with.
    #[arg(long, value_name = "TIME")]
    feed_updated: Option<Timestamp>,
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    match produce(arguments) {
        Ok(outcome) => outcome,
        Err(problems) => {
            report::print(&problems);
            Outcome::NothingProduced
        }
    }
}

fn produce(arguments: &Arguments) -> Result<Outcome, Vec<Problem>> {
    let mut progress = Progress::new();
    let mut setting = input::setting_on(&arguments.district, Some(arguments.date))?;
    if let Some(language) = arguments.language {
        language.code().clone_into(&mut setting.district.language);
    }
    let roads = input::roads(&setting, arguments.roads.as_deref(), &mut progress)?;
    let list = exchange::holes::read_holes(&arguments.holes, &input::hole_options(&setting), arguments.date);
    if list.holes.is_empty() {
        return Err(list.problems);
    }
    let rows = list.rows;
    let (learnt, looks) = from_record(arguments, &setting)?;
    let (heights, height_problems) = input::heights(&setting, &roads.network);
    let (forecast, forecast_problems) = forecast(arguments.forecast.as_deref(), &setting.district)?;
    let (so_far, so_far_problems) = so_far(arguments.so_far.as_deref(), &setting.district)?;
    let problems =
        [setting.problems, roads.problems, height_problems, forecast_problems, so_far_problems, list.problems].concat();
    setting.rules.learnt = learnt;
    let input = PlanInput {
        district: setting.district,
        network: roads.network,
        heights,
        road_attribution: roads.attribution,
        holes: list.holes,
        problems,
        rules: setting.rules,
        date: arguments.date,
        seed: arguments.seed,
        looks,
    };
    let several = arguments.days > 1
        || input.district.crew_count() > 1
        || !input.district.supply_places.is_empty()
        || forecast.is_some()
        || so_far.is_some()
        || arguments.what_more;
    if several {
        let input = ProgrammeInput { plan: input, days: arguments.days, forecast, so_far, pins: Vec::new() };
        let (feed_updated, more) = (arguments.feed_updated, arguments.what_more);
        return work_plan::produce(input, &arguments.district, &arguments.out, rows, more, feed_updated, &mut progress);
    }
    let plan = plan_day(input, &mut |step, done| {
        progress.at(step_words(step), done);
        true
    })
    .map_err(|error| {
        vec![failed(
            &arguments.district,
            "plan.impossible",
            &error.to_string(),
            "correct the district file or the roads",
        )]
    })?;
    progress.at("setting the job pack", 0.0);
    write(&plan, arguments.feed_updated, &arguments.out)?;
    progress.done();
    report::print(&plan.problems);
    Ok(tell(&plan, rows, &arguments.out))
}

/// What the record teaches and which looks it wants, where one is given.
fn from_record(arguments: &Arguments, setting: &Setting) -> Result<(Learnt, Option<LooksWanted>), Vec<Problem>> {
    let Some(folder) = &arguments.record else { return Ok((Learnt::default(), None)) };
    let read = crate::from_record::read(setting, arguments.date, folder, arguments.store.as_ref())?;
    let off = [setting.files.record.learnt_off.as_slice(), &arguments.without_learnt.concat()].concat();
    let looks = (setting.files.record.looks && !arguments.without_looks).then(|| read.looks());
    Ok((read.learnt(&off), looks))
}

/// Says what the plan does otherwise because of the record.
fn tell_learnt(told: &mut Summary, words: Words, learnt: &Learnt) {
    for factor in learnt.factors.iter().filter(|factor| factor.is_told) {
        told.row(words.say("command-learnt"), jobpack::learnt_words(factor, words));
    }
}

/// Says how many looks are on the way, and why others are not.
fn tell_looks(told: &mut Summary, words: Words, made: usize, left: &[LookLeft]) {
    if made + left.len() == 0 {
        return;
    }
    let numbers = [("made", made.into()), ("left", left.len().into())];
    told.row(words.say("command-looks"), words.say_with("command-looks-made", numbers));
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    // which road it is stands in the plan, look by look
    for look in left {
        let why = look.words.split_once(" (").map_or(look.words.as_str(), |(why, _)| why);
        *counts.entry(why).or_default() += 1;
    }
    for (why, count) in counts {
        told.below(format!("{count:>6}  {why}"));
    }
}

/// What is left out of what a record teaches, for a flag.
fn learnt_off(word: &str) -> Result<Vec<Factored>, String> {
    let known: Vec<&str> = Factored::ALL.into_iter().map(Factored::word).collect();
    Factored::named(word).ok_or_else(|| format!("known: all, {}", known.join(", ")))
}

/// The forecast, where one is given.
fn forecast(file: Option<&Path>, district: &District) -> Result<(Option<Forecast>, Vec<Problem>), Vec<Problem>> {
    let Some(file) = file else { return Ok((None, Vec::new())) };
    let Ok(zone) = TimeZone::get(&district.time_zone) else { return Ok((None, Vec::new())) };
    let read = exchange::forecast::read_forecast(file, &zone);
    if read.forecast.hours.is_empty() { Err(read.problems) } else { Ok((Some(read.forecast), read.problems)) }
}

/// How far the crews are, where that is told.
fn so_far(file: Option<&Path>, district: &District) -> Result<(Option<SoFar>, Vec<Problem>), Vec<Problem>> {
    let Some(file) = file else { return Ok((None, Vec::new())) };
    let crews: Vec<String> = (0..district.crew_count()).map(|crew| district.of_crew(crew).crew.name).collect();
    let crews: Vec<&str> = crews.iter().map(String::as_str).collect();
    let read = exchange::so_far::read_so_far(file, &crews);
    match read.so_far {
        Some(so_far) => Ok((Some(so_far), read.problems)),
        None => Err(read.problems),
    }
}

/// Writes the files of one crew's day.
fn write(plan: &Plan, feed_updated: Option<Timestamp>, folder: &Path) -> Result<(), Vec<Problem>> {
    let pdf = jobpack::pdf(plan).map_err(|error| trouble(folder, &error))?;
    let feed = jobpack::work_zone_feed(plan, feed_updated).map_err(|error| trouble(folder, &error))?;
    fs::create_dir_all(folder).map_err(|error| trouble(folder, &error))?;
    let files: [(&str, Vec<u8>); 6] = [
        ("job-pack.pdf", pdf),
        ("plan.json", jobpack::plan_json(plan).into_bytes()),
        ("holes.geojson", jobpack::holes_geojson(plan).into_bytes()),
        ("zones.geojson", jobpack::zones_geojson(plan).into_bytes()),
        ("zones-feed.geojson", feed.into_bytes()),
        ("load.csv", jobpack::load_csv(plan).into_bytes()),
    ];
    files.into_iter().try_for_each(|(name, bytes)| write_file(folder, name, bytes))
}

/// Finishes a file under another name first, so that a broken-off run leaves no half file.
fn write_file(folder: &Path, name: &str, bytes: Vec<u8>) -> Result<(), Vec<Problem>> {
    let path = folder.join(name);
    let unfinished = folder.join(format!("{name}.part"));
    fs::write(&unfinished, bytes).and_then(|()| fs::rename(&unfinished, &path)).map_err(|error| trouble(&path, &error))
}

fn trouble(path: &Path, error: &dyn std::fmt::Display) -> Vec<Problem> {
    vec![failed(path, "out.write", &error.to_string(), "give a folder that can be written to")]
}

/// Says what came of it, on standard output, and gives the exit code. Each row of the list is counted once.
fn tell(plan: &Plan, rows: usize, folder: &Path) -> Outcome {
    let sites: Vec<usize> = plan.round.trips.iter().flatten().copied().collect();
    let jobs = sites.iter().flat_map(|&site| &plan.sites[site].jobs);
    let done: usize = jobs.map(|&job| plan.jobs[job].holes.len()).sum();
    let later = plan.left_out.len();
    let joined = plan.fates.iter().filter(|report| matches!(report.fate, Fate::SameHoleAs(..))).count();
    let refused = rows.saturating_sub(done + later + joined);
    let words = jobpack::words_of(&plan.district);
    let mut told = Summary::default();
    told.row(words.say("command-rows"), rows.to_string());
    let (zones, trips) = (sites.len(), plan.round.trips.len());
    let in_round = [("holes", done.into()), ("zones", zones.into()), ("trips", trips.into())];
    told.row(words.say("command-holes-in-round"), words.say_with("command-in-round", in_round));
    told.row(words.say("command-holes-later"), later.to_string());
    for line in reasons(words, &plan.left_out) {
        told.below(line);
    }
    told.row(words.say("command-more-reports"), joined.to_string());
    told.row(words.say("command-rows-refused"), refused.to_string());
    if let (Some(last), Some(late)) = (plan.round.timetable.last(), plan.back_p90) {
        let times = [("median", last.to.to_string().into()), ("late", late.to_string().into())];
        told.row(words.say("command-back"), words.say_with("command-back-at", times));
    }
    tell_looks(&mut told, words, plan.looks.len(), &plan.looks_left);
    tell_learnt(&mut told, words, &plan.learnt);
    told.row(words.say("command-job-pack"), folder.join("job-pack.pdf").display().to_string());
    say!("{}: {}", plan.district.name, plan.date);
    told.print();
    for breach in check::check(plan) {
        eprintln!("this plan breaks a rule (a fault of the program, please report it): {breach}");
    }
    let any_refused = plan.problems.iter().any(|problem| problem.severity != ProblemSeverity::Warning);
    match (done, any_refused) {
        (0, _) => Outcome::NothingProduced,
        (_, false) => Outcome::AllUsed,
        (_, true) => Outcome::SomeRefused,
    }
}

/// The reasons why holes are left for later, the most frequent first, each with its count.
fn reasons(words: Words, left_out: &[LeftOut]) -> Vec<String> {
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for left_out in left_out {
        *counts.entry(&left_out.words).or_default() += 1;
    }
    let mut counts: Vec<(&str, usize)> = counts.into_iter().collect();
    counts.sort_by_key(|&(_, count)| std::cmp::Reverse(count));
    let said = |reason: &str| words.of_rule(reason).unwrap_or_else(|| reason.to_owned());
    counts.into_iter().map(|(reason, count)| format!("{count:>6}  {}", said(reason))).collect()
}

/// A problem of a whole file.
pub(crate) fn failed(path: &Path, code: &'static str, wrong: &str, right: &str) -> Problem {
    Problem {
        code,
        severity: ProblemSeverity::Fatal,
        at: model::problem::Locator { file: path.display().to_string(), line: 0, column: 0 },
        subject: String::new(),
        wrong: wrong.to_owned(),
        right: right.to_owned(),
    }
}

pub(crate) fn step_words(step: Step) -> &'static str {
    match step {
        Step::Roads => "making the road network ready",
        Step::Holes => "finding holes on the roads",
        Step::Repairs => "working out repairs",
        Step::Distances => "measuring ways",
        Step::Search => "searching for the round",
    }
}
