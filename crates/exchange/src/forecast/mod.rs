//! A forecast as CSV, one row an hour (or a few). A bad row is refused with its place and what would be right; the rest
//! goes on, and nothing is lost: rows = hours + refused rows.

mod moment;

use std::collections::BTreeMap;
use std::path::Path;

use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use model::forecast::{Forecast, ForecastHour};
use model::problem::{Locator, Problem, ProblemSeverity};
use model::quantity::fraction;

use crate::limits;
use crate::measure::Measure;
use crate::table::{Column, Row, Table, fatal, refused};
use crate::text_file::read_bytes;
use moment::{moment, on_the_clock};

const FROM: &str = "from";
const TO: &str = "to";
const TEMPERATURE: &str = "air temperature";
const CHANCE: &str = "rain chance";
const RAIN: &str = "rain";

// The chance of rain before the rain: a header is taken for the first whose name it begins with.
static COLUMNS: [Column; 5] = [
    Column { names: &[FROM, "time", "start"], measure: Measure::Time, limit: ("forecast", "length") },
    Column { names: &[TO, "end"], measure: Measure::Time, limit: ("forecast", "length") },
    Column {
        names: &[TEMPERATURE, "temperature"],
        measure: Measure::Temperature,
        limit: ("forecast", "air_temperature"),
    },
    Column {
        names: &[CHANCE, "rain probability", "chance of rain"],
        measure: Measure::Share,
        limit: ("forecast", "rain_chance"),
    },
    Column { names: &[RAIN], measure: Measure::Rain, limit: ("forecast", "rain") },
];

/// Length of a row that names no end.
const HOUR: SignedDuration = SignedDuration::from_hours(1);

/// What a forecast file held.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ForecastFile {
    /// The usable hours.
    pub forecast: Forecast,
    /// Everything that was wrong: rows in the order of the file, then gaps in the order of time.
    pub problems: Vec<Problem>,
    /// Rows below the header, blank ones not counted.
    pub rows: usize,
    /// Rows that gave no hour.
    pub refused_rows: usize,
}

/// Reads a forecast. A time without an offset is a clock time of `zone`, the district's. Never fails: a file that can't
/// be used at all gives a fatal problem.
pub fn read_forecast(path: &Path, zone: &TimeZone) -> ForecastFile {
    match read_bytes(path) {
        Ok(bytes) => read_forecast_bytes(&path.display().to_string(), &bytes, zone),
        Err(problem) => ForecastFile { problems: vec![*problem], ..ForecastFile::default() },
    }
}

/// Reads a forecast from memory; `file` is its name for messages.
pub fn read_forecast_bytes(file: &str, bytes: &[u8], zone: &TimeZone) -> ForecastFile {
    let mut found = ForecastFile::default();
    let Some(mut table) = Table::open(file, bytes, &COLUMNS, &mut found.problems) else { return found };
    let absent = |(name, right): &(&str, &str)| (!table.has(name)).then(|| table.missing(name, right));
    let needed =
        [(FROM, "name it `from`"), (TEMPERATURE, "name it e.g. `air_temperature_c`"), (RAIN, "name it e.g. `rain_mm`")];
    let missing: Vec<Problem> = needed.iter().filter_map(absent).collect();
    if !missing.is_empty() {
        found.problems.extend(missing);
        return found;
    }
    let mut taken: BTreeMap<Timestamp, Taken> = BTreeMap::new();
    let mut order = Order::default();
    while let Some(row) = table.next_row() {
        found.rows += 1;
        match row.and_then(|row| take(&row, zone, &mut taken, &mut order).map_err(|problem| vec![*problem])) {
            Ok(()) => {}
            Err(problems) => {
                found.refused_rows += 1;
                found.problems.extend(problems);
            }
        }
    }
    if found.rows == 0 {
        let right = "write one row for each hour";
        found.problems.push(fatal("table.empty", table.header, "there are no rows below the header", right));
    }
    found.problems.extend(order.said());
    found.problems.sort_by(|a, b| a.at.cmp(&b.at));
    found.problems.extend(gaps(&taken, zone));
    found.forecast.hours = taken.into_values().map(|taken| taken.hour).collect();
    found
}

/// An hour with the place of its row.
struct Taken {
    hour: ForecastHour,
    at: Locator,
}

fn take(
    row: &Row,
    zone: &TimeZone,
    taken: &mut BTreeMap<Timestamp, Taken>,
    order: &mut Order,
) -> Result<(), Box<Problem>> {
    let hour = read_hour(row, zone)?;
    let before = taken.range(..hour.to).next_back().filter(|(_, other)| other.hour.to > hour.from);
    if let Some((_, other)) = before {
        let (code, wrong) = if (other.hour.from, other.hour.to) == (hour.from, hour.to) {
            ("forecast.row.repeated", format!("this hour stands in line {} already", other.at.line))
        } else {
            let [from, to] = [other.hour.from, other.hour.to].map(|time| on_the_clock(time, zone));
            let wrong = format!("it overlaps line {}, which is from {from} to {to}", other.at.line);
            ("forecast.row.overlaps", wrong)
        };
        return Err(told(refused(code, row.at.clone(), wrong, "keep one of the two".into()), row));
    }
    order.next(hour.from, &row.at);
    taken.insert(hour.from, Taken { hour, at: row.at.clone() });
    Ok(())
}

fn read_hour(row: &Row, zone: &TimeZone) -> Result<ForecastHour, Box<Problem>> {
    let lacks = |what: &str| {
        let wrong = format!("there is no {what}");
        told(refused("forecast.row.incomplete", row.at.clone(), wrong, "write it, or delete the row".into()), row)
    };
    let time = |name| row.text(name).map(|(text, at, _)| moment(text, at, zone).map(|time| (time, at))).transpose();
    let number = |name| row.number(name).transpose().map_err(|problem| told(*problem, row));
    let (from, from_at) = time(FROM)?.ok_or_else(|| lacks("begin"))?;
    let (to, to_at) = match time(TO)? {
        Some(found) => found,
        // The last hour that a clock can show has no end.
        None => (from.checked_add(HOUR).map_err(|_| lacks("end"))?, from_at),
    };
    is_span(from, to, to_at, zone).map_err(|problem| told(*problem, row))?;
    Ok(ForecastHour {
        from,
        to,
        air_temperature_c: number(TEMPERATURE)?.ok_or_else(|| lacks("air temperature"))?,
        rain_mm: number(RAIN)?.ok_or_else(|| lacks("rain"))?,
        rain_chance: number(CHANCE)?.map(fraction),
    })
}

fn is_span(from: Timestamp, to: Timestamp, at: &Locator, zone: &TimeZone) -> Result<(), Box<Problem>> {
    if to <= from {
        let [from, to] = [from, to].map(|time| on_the_clock(time, zone));
        let wrong = format!("its end, {to}, is not after its begin, {from}");
        let right = "write the end of the same hour, or leave it empty for one hour".into();
        return Err(Box::new(refused("forecast.row.backwards", at.clone(), wrong, right)));
    }
    let minutes = from.duration_until(to).as_secs_f64() / 60.0;
    match limits::of("forecast", "length").filter(|limit| !limit.holds(minutes)) {
        None => Ok(()),
        Some(limit) => {
            let right = format!("{} ({})", limit.words(), limit.source);
            let wrong = format!("the row lasts {minutes:.1} min");
            Err(Box::new(refused("forecast.row.length", at.clone(), wrong, right)))
        }
    }
}

/// Names the row by what it says of its begin.
fn told(problem: Problem, row: &Row) -> Box<Problem> {
    let subject = row.text(FROM).map(|(text, ..)| text.to_owned()).filter(|text| text.chars().count() <= 40);
    match subject {
        Some(subject) if problem.subject.is_empty() => Box::new(Problem { subject, ..problem }),
        _ => Box::new(problem),
    }
}

/// Whether the rows stand in the order of time; said once, however many do not.
#[derive(Default)]
struct Order {
    last: Option<Timestamp>,
    first_out: Option<Locator>,
    count: usize,
}

impl Order {
    fn next(&mut self, from: Timestamp, at: &Locator) {
        if self.last.is_some_and(|last| from < last) {
            self.count += 1;
            self.first_out.get_or_insert_with(|| at.clone());
        }
        self.last = Some(from);
    }

    fn said(self) -> Option<Problem> {
        let at = self.first_out?;
        let wrong = match self.count {
            1 => "this row is earlier than the one above it".to_owned(),
            count => format!("this row and {} more are earlier than those above them", count - 1),
        };
        let right = "put the rows in the order of time, if the file was not meant so".to_owned();
        Some(warning("forecast.row.out_of_order", at, wrong, right))
    }
}

/// Times between the first hour and the last that no row covers, each told where the row after it stands.
fn gaps(taken: &BTreeMap<Timestamp, Taken>, zone: &TimeZone) -> Vec<Problem> {
    let pairs = taken.values().zip(taken.values().skip(1));
    pairs
        .filter(|(before, after)| before.hour.to < after.hour.from)
        .map(|(before, after)| {
            let [from, to] = [before.hour.to, after.hour.from].map(|time| on_the_clock(time, zone));
            let wrong = format!("nothing is said of the time from {from} to {to}");
            let right = "add the rows that are missing; without them those hours are not known".to_owned();
            warning("forecast.gap", after.at.clone(), wrong, right)
        })
        .collect()
}

fn warning(code: &'static str, at: Locator, wrong: String, right: String) -> Problem {
    Problem { severity: ProblemSeverity::Warning, ..refused(code, at, wrong, right) }
}
