//! A table beside the road file that corrects surface and width, joined by the road's identifier: many agencies keep
//! the lines in one place and the ratings in another.

use std::collections::{BTreeMap, BTreeSet};
use std::fs::File;
use std::path::Path;

use csv::ByteRecord;
use model::problem::{Locator, Problem};
use model::quantity::{InLength, InVelocity, Length, Velocity};
use model::road::{RawLine, Surface};
use model::rules::roads::{PlausibleRanges, RoadJoinRule, SpeedUnit, WidthUnit};

use super::attributes::WordTable;
use super::findings::Findings;
use super::values;

/// What a join table says, by identifier.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RoadJoin {
    /// Rows by identifier; of several rows with one identifier the first that says something counts.
    pub rows: BTreeMap<String, RoadJoinRow>,
    /// What could not be used, and why.
    pub problems: Vec<Problem>,
}

/// What a join table says of one road; `None` where it says nothing usable.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct RoadJoinRow {
    /// Surface.
    pub surface: Option<Surface>,
    /// Sealed width.
    pub width: Option<Length>,
    /// Speed limit.
    pub speed: Option<Velocity>,
    /// How fast a truck drives there.
    pub driving_speed: Option<Velocity>,
}

/// What came of a join.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct JoinReport {
    /// Lines whose identifier the table has.
    pub lines_matched: usize,
    /// Lines that it does not have.
    pub lines_unmatched: usize,
    /// Identifiers of the table that no line has.
    pub rows_unmatched: usize,
}

/// Reads a join table (CSV, UTF-8, first line the column names) by the rule: which column is the key, which says the
/// surface and by which words, which says the width and in which unit. A width outside the plausible range is reported
/// and not used. A table that can't be read gives no rows and a fatal problem.
pub fn read_road_join(path: &Path, rule: &RoadJoinRule, plausible: &PlausibleRanges) -> RoadJoin {
    let mut findings = Findings::new(path.display().to_string());
    let rows = read_rows(path, rule, plausible, &mut findings).unwrap_or_default();
    RoadJoin { rows, problems: findings.finish() }
}

/// Corrects surface, width and speeds of the lines that the table knows; what it says is no longer a default.
pub fn apply_road_join(lines: &mut [RawLine], join: &RoadJoin) -> JoinReport {
    let mut report = JoinReport::default();
    let mut used = BTreeSet::new();
    for line in lines {
        let Some(row) = join.rows.get(&line.source_id) else {
            report.lines_unmatched += 1;
            continue;
        };
        report.lines_matched += 1;
        used.insert(line.source_id.as_str());
        let attributes = &mut line.attributes;
        if let Some(surface) = row.surface {
            attributes.surface = surface;
            attributes.defaulted.retain(|name| *name != "surface");
        }
        if let Some(width) = row.width {
            attributes.width = width;
            attributes.defaulted.retain(|name| *name != "width");
        }
        if let Some(speed) = row.speed {
            attributes.speed = speed;
            attributes.defaulted.retain(|name| *name != "speed");
        }
        attributes.truck.driving_speed = row.driving_speed.or(attributes.truck.driving_speed);
    }
    report.rows_unmatched = join.rows.len() - used.len();
    report
}

/// The columns of a join table by place.
struct Columns {
    key: usize,
    surface: Option<usize>,
    width: Option<usize>,
    speed: Option<usize>,
    driving_speed: Option<usize>,
}

fn read_rows(
    path: &Path,
    rule: &RoadJoinRule,
    plausible: &PlausibleRanges,
    findings: &mut Findings,
) -> Option<BTreeMap<String, RoadJoinRow>> {
    let file = File::open(path)
        .map_err(|error| {
            findings.fatal(
                "road.join.unreadable",
                format!("can't be read: {error}"),
                "name a CSV file that can be read",
            );
        })
        .ok()?;
    let mut reader = csv::ReaderBuilder::new().flexible(true).from_reader(file);
    let header = reader
        .byte_headers()
        .map(|header| header.iter().map(|cell| String::from_utf8_lossy(cell).trim().to_owned()).collect::<Vec<_>>())
        .map_err(|error| {
            findings.fatal("road.join.unreadable", error.to_string(), "a CSV table with a line of column names");
        })
        .ok()?;
    let columns = columns_by(&header, rule, findings)?;
    let surfaces = rule.surface_words.as_ref().map(|words| WordTable::new(words.value.clone()));
    let mut rows: BTreeMap<String, RoadJoinRow> = BTreeMap::new();
    for record in reader.byte_records() {
        let record = match record {
            Ok(record) => record,
            Err(error) => {
                let line = error.position().map_or(0, |position| position.line() as usize);
                let at = findings.at(line, 0);
                findings.refuse(
                    "road.join.row",
                    at,
                    "",
                    format!("the row can't be read: {error}"),
                    "a whole row of CSV",
                );
                continue;
            }
        };
        let at = findings.at(record.position().map_or(0, |position| position.line() as usize), 0);
        let Some(id) = cell(&record, columns.key) else {
            let wrong = format!("the column {:?} is empty", rule.key.value);
            findings.refuse("road.join.no_key", at, "", wrong, "the road's identifier");
            continue;
        };
        let row = RoadJoinRow {
            surface: columns
                .surface
                .and_then(|column| cell(&record, column))
                .and_then(|word| surfaces.as_ref().and_then(|words| words.get(&word))),
            width: columns
                .width
                .and_then(|column| cell(&record, column))
                .and_then(|text| width_of(&text, rule, plausible, &at, &id, findings)),
            speed: columns
                .speed
                .and_then(|column| cell(&record, column))
                .and_then(|text| speed_of(&text, rule, plausible, &at, &id, findings)),
            driving_speed: columns
                .driving_speed
                .and_then(|column| cell(&record, column))
                .and_then(|text| speed_of(&text, rule, plausible, &at, &id, findings)),
        };
        enter(&mut rows, &id, row, &at, findings);
    }
    Some(rows)
}

fn columns_by(header: &[String], rule: &RoadJoinRule, findings: &mut Findings) -> Option<Columns> {
    let mut place = |name: &str| {
        let found =
            header.iter().position(|column| column.trim_start_matches('\u{FEFF}').eq_ignore_ascii_case(name.trim()));
        if found.is_none() {
            let wrong = format!("there is no column {name:?}; there are {}", header.join(", "));
            findings.fatal("road.join.no_column", wrong, "the column names that the rule set's [join] gives");
        }
        found
    };
    let key = place(&rule.key.value);
    let surface = rule.surface.as_ref().map(|column| place(&column.value));
    let width = rule.width.as_ref().map(|column| place(&column.value));
    let speed = rule.speed.as_ref().map(|column| place(&column.value));
    let driving_speed = rule.driving_speed.as_ref().map(|column| place(&column.value));
    if [surface, width, speed, driving_speed].contains(&Some(None)) {
        return None;
    }
    let (surface, width) = (surface.flatten(), width.flatten());
    Some(Columns { key: key?, surface, width, speed: speed.flatten(), driving_speed: driving_speed.flatten() })
}

fn speed_of(
    text: &str,
    rule: &RoadJoinRule,
    plausible: &PlausibleRanges,
    at: &Locator,
    id: &str,
    findings: &mut Findings,
) -> Option<Velocity> {
    if is_unsaid(text, rule) {
        return None;
    }
    let unit = rule.speed_unit.as_ref().map_or(SpeedUnit::KilometresPerHour, |unit| unit.value);
    let [least, most] = plausible.speed_km_h.value;
    let good = values::speed(text, unit).filter(|speed| (least..=most).contains(&speed.in_kilometres_per_hour()));
    if good.is_none() {
        let right =
            format!("a speed from {least} to {most} km/h, or a word listed under join.width_unsaid; it is not used");
        findings.warn("road.join.speed", at.clone(), id, format!("the speed is {text:?}"), &right);
    }
    good
}

fn is_unsaid(text: &str, rule: &RoadJoinRule) -> bool {
    rule.width_unsaid.iter().flat_map(|words| &words.value).any(|word| word.eq_ignore_ascii_case(text))
}

fn width_of(
    text: &str,
    rule: &RoadJoinRule,
    plausible: &PlausibleRanges,
    at: &Locator,
    id: &str,
    findings: &mut Findings,
) -> Option<Length> {
    if is_unsaid(text, rule) {
        return None;
    }
    let unit = rule.width_unit.as_ref().map_or(WidthUnit::Metres, |unit| unit.value);
    let [least, most] = plausible.width_m.value;
    let good = values::width(text, unit).filter(|width| (least..=most).contains(&width.in_metres()));
    if good.is_none() {
        let right =
            format!("a width from {least} to {most} m, or a word listed under join.width_unsaid; it is not used");
        findings.warn("road.join.width", at.clone(), id, format!("the width is {text:?}"), &right);
    }
    good
}

fn enter(rows: &mut BTreeMap<String, RoadJoinRow>, id: &str, row: RoadJoinRow, at: &Locator, findings: &mut Findings) {
    let known = rows.entry(id.to_owned()).or_default();
    let differs = |differs: bool, what: &str, findings: &mut Findings| {
        if differs {
            let wrong = format!("an earlier row of this identifier says another {what}");
            findings.warn("road.join.twice", at.clone(), id, wrong, "one row for each identifier; the first is used");
        }
    };
    differs(known.surface.zip(row.surface).is_some_and(|(a, b)| a != b), "surface", findings);
    differs(known.width.zip(row.width).is_some_and(|(a, b)| a != b), "width", findings);
    differs(known.speed.zip(row.speed).is_some_and(|(a, b)| a != b), "speed", findings);
    differs(known.driving_speed.zip(row.driving_speed).is_some_and(|(a, b)| a != b), "driving speed", findings);
    known.speed = known.speed.or(row.speed);
    known.driving_speed = known.driving_speed.or(row.driving_speed);
    known.surface = known.surface.or(row.surface);
    known.width = known.width.or(row.width);
}

fn cell(record: &ByteRecord, column: usize) -> Option<String> {
    let text = String::from_utf8_lossy(record.get(column)?).trim().to_owned();
    (!text.is_empty()).then_some(text)
}
