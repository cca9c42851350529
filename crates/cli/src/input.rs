//! Everything a command may need to read: district, rules, roads, holes.

use std::path::{Path, PathBuf};

use exchange::district::{DistrictFile, DistrictFiles};
use exchange::growth_records::read_growth_records;
use exchange::holes::HoleOptions;
use exchange::road_cache::{KeptRoads, RoadCache, RoadCacheKey};
use exchange::rules::{RuleKind, load_rules};
use jiff::civil::Date;
use model::district::{District, RuleSetNames};
use model::learnt::Learnt;
use model::problem::{Locator, Problem, ProblemSeverity};
use model::road::RoadNetwork;
use model::rules::roads::RoadDefaults;
use plan::{HeightLookup, Rules};
use roads::Network;
use words::Language;

use crate::progress::Progress;

/// The planning rule set; an agency overrides it with `planning/common-practice.toml` beside its district
/// file, which `extends = "common-practice"`.
pub(crate) const PLANNING_RULES: &str = "common-practice";
const MARK_OUT_RULES: &str = "common-practice";
const MATCHING_RULES: &str = "common-practice";

/// A district file with the rules it names.
pub(crate) struct Setting {
    pub district: District,
    pub files: DistrictFiles,
    pub rules: Rules,
    pub roads: RoadDefaults,
    /// Warnings.
    pub problems: Vec<Problem>,
    /// Folder of the district file.
    pub folder: PathBuf,
}

/// Reads a district file, all rule sets it names and the records of growth, which move the rules; every problem at once.
pub(crate) fn setting(path: &Path) -> Result<Setting, Vec<Problem>> {
    setting_on(path, None)
}

/// The same on a day: a record dated later is refused.
pub(crate) fn setting_on(path: &Path, day: Option<Date>) -> Result<Setting, Vec<Problem>> {
    let file = exchange::district::read_district_file(path)?;
    with_rules(file, Some(path), day)
}

/// A district with the rules it names, moved by its records of growth; `path` is the file it is from, if any.
pub(crate) fn with_rules(file: DistrictFile, path: Option<&Path>, day: Option<Date>) -> Result<Setting, Vec<Problem>> {
    let DistrictFile { district, files, mut problems } = file;
    let folder = path.and_then(Path::parent);
    let (mut rules, roads) = rules(&district.rule_sets, folder)?;
    let folder = folder.map(Path::to_path_buf).unwrap_or_default();
    if let Err(error) = repair::check_binder(&district.binder, &rules.repair) {
        return Err(vec![residue_unknown(path.unwrap_or(Path::new("")), &error)]);
    }
    if let Some(name) = &files.growth_records {
        let file = read_growth_records(&folder.join(name), &rules.repair.growth, day);
        if file.problems.iter().any(|problem| problem.severity == ProblemSeverity::Fatal) {
            return Err(file.problems);
        }
        problems.extend(file.problems);
        rules.repair.growth = repair::learn(&rules.repair.growth, &file.records, name).rules;
    }
    Ok(Setting { district, files, rules, roads, problems, folder })
}

/// The district and rules of a file, or neutral defaults where none is given.
pub(crate) fn setting_or_defaults(path: Option<&Path>) -> Result<(District, Rules), Vec<Problem>> {
    if let Some(path) = path {
        return setting(path).map(|setting| (setting.district, setting.rules));
    }
    let district = exchange::district::default_district();
    let (rules, _) = rules(&district.rule_sets, None)?;
    Ok((district, rules))
}

/// A day for a flag, within the years for which sunrise and the calendar are worth anything.
pub(crate) fn day(text: &str) -> Result<Date, String> {
    let years = 1950..=2150;
    match text.parse::<Date>() {
        Ok(date) if years.contains(&date.year()) => Ok(date),
        Ok(date) => Err(format!("the year {} is not between {} and {}", date.year(), years.start(), years.end())),
        Err(_) => Err("write year-month-day with leading zeros, e.g. 2026-06-09".into()),
    }
}

/// How to read this district's hole lists.
pub(crate) fn hole_options(setting: &Setting) -> HoleOptions {
    HoleOptions { columns: setting.files.hole_columns.clone(), depot: Some(setting.district.depot.position) }
}

/// The rule sets of that name; `beside` is the folder with the agency's own files.
pub(crate) fn rules(names: &RuleSetNames, beside: Option<&Path>) -> Result<(Rules, RoadDefaults), Vec<Problem>> {
    let mut problems = Vec::new();
    let mark_out = keep(load_rules(RuleKind::MarkOut, MARK_OUT_RULES, beside), &mut problems);
    let repair = keep(load_rules(RuleKind::Repair, &names.repair, beside), &mut problems);
    let traffic = keep(load_rules(RuleKind::Traffic, &names.traffic, beside), &mut problems);
    let matching = keep(load_rules(RuleKind::Matching, MATCHING_RULES, beside), &mut problems);
    let severity = keep(load_rules(RuleKind::Severity, &names.severity, beside), &mut problems);
    let planning = keep(load_rules(RuleKind::Planning, PLANNING_RULES, beside), &mut problems);
    let roads = keep(load_rules(RuleKind::Roads, &names.roads, beside), &mut problems);
    match (mark_out, repair, traffic, matching, severity, planning, roads) {
        (Some(mark_out), Some(repair), Some(traffic), Some(matching), Some(severity), Some(planning), Some(roads)) => {
            let learnt = Learnt::default();
            let rules = Rules { mark_out, repair, traffic, matching, severity, planning, learnt };
            let faults = faults(&rules, names);
            if faults.is_empty() { Ok((rules, roads)) } else { Err(faults) }
        }
        _ => Err(problems),
    }
}

/// Rules that can be read but not worked with: a rate of zero, a table out of order.
fn faults(rules: &Rules, names: &RuleSetNames) -> Vec<Problem> {
    let words = |list: Vec<String>, name: &str| -> Vec<Problem> {
        let file = format!("rule set `{name}`");
        let at = |file: &str| Locator { file: file.to_owned(), line: 0, column: 0 };
        list.into_iter()
            .map(|wrong| Problem {
                code: "rules.value",
                severity: ProblemSeverity::Fatal,
                at: at(&file),
                subject: String::new(),
                wrong,
                right: "correct the value in the rule file beside the district file".into(),
            })
            .collect()
    };
    let repair = repair::check_rules(&rules.repair).err().unwrap_or_default();
    let severity = triage::check_rules(&rules.severity).err().unwrap_or_default();
    [
        words(rules.traffic.faults(), &names.traffic),
        words(rules.mark_out.faults(), MARK_OUT_RULES),
        words(rules.matching.faults(), MATCHING_RULES),
        words(rules.planning.faults(), PLANNING_RULES),
        words(repair.iter().map(ToString::to_string).collect(), &names.repair),
        words(severity.iter().map(ToString::to_string).collect(), &names.severity),
    ]
    .concat()
}

/// Neither the district nor the grade says what stays of the binder.
fn residue_unknown(path: &Path, error: &repair::InputError) -> Problem {
    Problem {
        code: "district.binder.residue_unknown",
        severity: ProblemSeverity::Fatal,
        at: Locator { file: path.display().to_string(), line: 0, column: 0 },
        subject: "binder".into(),
        wrong: format!("{} is {}", error.what, error.found),
        right: error.right.clone(),
    }
}

fn keep<T>(read: Result<T, Vec<Problem>>, problems: &mut Vec<Problem>) -> Option<T> {
    read.map_err(|found| problems.extend(found)).ok()
}

/// The roads of a district.
pub(crate) struct Roads {
    pub network: RoadNetwork,
    /// What could not be used, and why.
    pub problems: Vec<Problem>,
    /// What must be printed wherever they are drawn.
    pub attribution: Option<String>,
}

/// Reads the roads named by the flag or the district file.
pub(crate) fn roads(setting: &Setting, flag: Option<&Path>, progress: &mut Progress) -> Result<Roads, Vec<Problem>> {
    let path = match (flag, &setting.district.roads_file) {
        (Some(path), _) => path.to_path_buf(),
        (None, Some(name)) => setting.folder.join(name),
        (None, None) => return Err(vec![no_roads()]),
    };
    let kept = kept_roads(setting, &path);
    let mut notice = None;
    if let Some((cache, key)) = &kept {
        match cache.load(key) {
            Ok(Some(roads)) => {
                let KeptRoads { network, problems, attribution, .. } = roads;
                return Ok(Roads { network, problems, attribution });
            }
            Ok(None) => {}
            Err(problem) => notice = Some(*problem),
        }
    }
    let mut file = exchange::road_files::read_roads(&path, &setting.roads, &mut |at| {
        progress.at("reading roads", at.done_bytes as f64 / at.total_bytes.max(1) as f64);
    });
    let (network, problems) = roads::network_with_restrictions(file.lines, &file.restrictions);
    file.problems.extend(problems);
    if network.sections.is_empty() {
        if file.problems.is_empty() {
            file.problems.push(no_sections(&path));
        }
        return Err(file.problems);
    }
    let mut roads =
        KeptRoads { network, problems: file.problems, attribution: file.attribution, left_out: file.left_out };
    if let Some((cache, key)) = &kept {
        roads.network.contraction_order = Network::order_of(&roads.network);
        notice = cache.save(key, &roads).err().map(|problem| *problem).or(notice);
    }
    let KeptRoads { network, mut problems, attribution, .. } = roads;
    problems.extend(notice);
    Ok(Roads { network, problems, attribution })
}

/// Where the roads of that file are kept, if the district names a folder for it. A file that can't be read is kept nowhere.
fn kept_roads(setting: &Setting, path: &Path) -> Option<(RoadCache, RoadCacheKey)> {
    let folder = setting.files.roads_cache_folder.as_ref()?;
    let key = RoadCacheKey::new(path, &setting.roads).ok()?;
    Some((RoadCache::new(setting.folder.join(folder)), key))
}

/// Reads the height tiles that the roads need, if the district names a folder of them.
pub(crate) fn heights(setting: &Setting, network: &RoadNetwork) -> (HeightLookup, Vec<Problem>) {
    let Some(folder) = &setting.files.heights_folder else { return (HeightLookup::default(), Vec::new()) };
    let places = network.sections.iter().flat_map(|section| section.line.iter().copied());
    let mut heights = exchange::heights::read_heights(&setting.folder.join(folder), places);
    let problems = std::mem::take(&mut heights.problems);
    (HeightLookup::new(move |place| heights.at(place)), problems)
}

fn no_roads() -> Problem {
    Problem {
        code: "roads.not_given",
        severity: ProblemSeverity::Fatal,
        at: Locator::default(),
        subject: String::new(),
        wrong: "no road file is given".into(),
        right: "name it with --roads, or write roads_file in the district file".into(),
    }
}

fn no_sections(path: &Path) -> Problem {
    Problem {
        code: "roads.none",
        severity: ProblemSeverity::Fatal,
        at: Locator { file: path.display().to_string(), line: 0, column: 0 },
        subject: String::new(),
        wrong: "no road in this file can be used".into(),
        right: "give a file with at least one road line of a known class".into(),
    }
}

/// A language for a flag.
pub(crate) fn language(code: &str) -> Result<Language, String> {
    let known = Language::ALL.map(Language::code).join(", ");
    Language::of_code(code).ok_or_else(|| format!("known languages: {known}"))
}
