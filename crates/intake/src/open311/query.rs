//! What is asked for: which reports, of what time and state.

use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use uuid::Uuid;

use super::Office;
use super::answers::RequestStatus;
use super::form::{jurisdiction, no_service};
use super::refusal::{Fault, Refusal};
use crate::text::{one_line, quoted};

/// The longest time that is looked back on at once, by the standard.
pub const DAYS_MAX: i64 = 90;
/// The most reports in one answer, by the standard.
pub const REQUESTS_MAX: usize = 1000;
/// The longest query that is read, bytes; numbers for an answer at its largest need less.
const QUERY_MAX: usize = 64 * 1024;
/// The longest value of a filter but the list of numbers, characters.
const VALUE_MAX: usize = 200;

/// The filters that are read.
const NAMES: [&str; 6] = ["jurisdiction_id", "service_request_id", "service_code", "start_date", "end_date", "status"];

/// The reports that are asked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Asked {
    /// These, whatever else was asked.
    Numbers(Vec<Uuid>),
    /// Those that were told in a time.
    Told {
        /// From then on.
        from: Timestamp,
        /// Until then.
        until: Timestamp,
        /// Only those in that state.
        status: Option<RequestStatus>,
    },
}

impl Asked {
    /// Whether a report that was told then and is in that state is asked for.
    pub fn holds(&self, hole: Uuid, told: Timestamp, is: RequestStatus) -> bool {
        match self {
            Asked::Numbers(numbers) => numbers.contains(&hole),
            Asked::Told { from, until, status } => {
                (*from..=*until).contains(&told) && status.is_none_or(|status| status == is)
            }
        }
    }
}

/// The number of one report as it stands in a path.
///
/// # Errors
/// 404: a number that is none belongs to no report.
pub fn number(text: &str) -> Result<Uuid, Refusal> {
    let read = Uuid::try_parse(text).ok();
    read.ok_or_else(|| Refusal::not_found(format!("service_request_id {} is not here", quoted(text, 40))))
}

/// Reads the query of GET requests. Without a time the last 90 days are asked for; with one end of it, the 90 days from or until
/// then; more than 90 days are refused. `service_request_id` goes before everything else.
///
/// # Errors
/// 404 for a jurisdiction, service or number that is not here, 400 with everything else that is wrong.
pub fn read_query(query: &str, office: &Office, now: Timestamp) -> Result<Asked, Refusal> {
    if query.len() > QUERY_MAX {
        return Err(Refusal::bad(format!("the query has {} bytes; at most {QUERY_MAX} are read", query.len())));
    }
    let mut faults = Vec::new();
    let mut told: [Option<String>; 6] = Default::default();
    for (name, value) in form_urlencoded::parse(query.as_bytes()) {
        let Some(index) = NAMES.iter().position(|known| *known == name) else { continue };
        let most = if NAMES[index] == "service_request_id" { QUERY_MAX } else { VALUE_MAX };
        match one_line(&value, most) {
            Ok(text) if text.is_empty() => {}
            Ok(_) if told[index].is_some() => {
                faults.push(Fault::bad(format!("{name} stands twice; part values by commas")));
            }
            Ok(text) => told[index] = Some(text),
            Err(fault) => faults.push(Fault::bad(format!("{name} {fault}"))),
        }
    }
    let [own, numbers, services, start, end, status] = told;
    jurisdiction(own.as_deref(), office)?;
    if let Some(numbers) = numbers {
        let numbers: Vec<Uuid> =
            numbers.split(',').map(str::trim).filter(|text| !text.is_empty()).map(number).collect::<Result<_, _>>()?;
        if numbers.len() > REQUESTS_MAX {
            let wrong = format!("{} numbers are asked for; at most {REQUESTS_MAX} at once", numbers.len());
            faults.push(Fault::bad(wrong));
        }
        return Refusal::of(faults).map_or(Ok(Asked::Numbers(numbers)), Err);
    }
    if let Some(services) = services {
        let mut codes = services.split(',').map(str::trim);
        if let Some(other) = codes.find(|code| *code != office.service.code) {
            return Err(no_service(other));
        }
    }
    let zone = &office.district.zone;
    let start = moment(start.as_deref(), "start_date", Edge::Begin, zone, &mut faults);
    let end = moment(end.as_deref(), "end_date", Edge::End, zone, &mut faults);
    let status = states(status.as_deref(), &mut faults);
    let days = SignedDuration::from_hours(24 * DAYS_MAX);
    let earlier = |at: Timestamp| at.checked_sub(days).unwrap_or(Timestamp::MIN);
    let (from, until) = match (start, end) {
        (Some(from), Some(until)) => (from, until),
        (Some(from), None) => (from, from.checked_add(days).unwrap_or(Timestamp::MAX)),
        (None, Some(until)) => (earlier(until), until),
        (None, None) => (earlier(now), now),
    };
    if from > until {
        faults.push(Fault::bad("start_date is after end_date"));
    } else if until.duration_since(from) > days {
        faults.push(Fault::bad(format!("start_date and end_date are more than {DAYS_MAX} days apart; ask in parts")));
    }
    Refusal::of(faults).map_or(Ok(Asked::Told { from, until, status }), Err)
}

/// Which end of a day a date without a time means.
#[derive(Clone, Copy)]
enum Edge {
    Begin,
    End,
}

fn moment(text: Option<&str>, name: &str, edge: Edge, zone: &TimeZone, faults: &mut Vec<Fault>) -> Option<Timestamp> {
    let text = text?;
    // A plus sign that is not escaped comes as a blank: before an offset nothing else can be meant.
    let unescaped = text.replacen(' ', "+", usize::from(text.contains('T')));
    let day = || {
        let day: Date = Some(text).filter(|text| text.len() == 10)?.parse().ok()?;
        let begin = |day: Date| zone.to_timestamp(day.to_datetime(Time::midnight())).ok();
        match edge {
            Edge::Begin => begin(day),
            Edge::End => begin(day.tomorrow().ok()?)?.checked_sub(SignedDuration::from_millis(1)).ok(),
        }
    };
    let read = unescaped.parse().ok().or_else(day);
    if read.is_none() {
        let wrong = format!("{name} {} is no moment: write 2026-11-20T08:00:00Z, or a day", quoted(text, 40));
        faults.push(Fault::bad(wrong));
    }
    read
}

/// One state, or `None` for both.
fn states(text: Option<&str>, faults: &mut Vec<Fault>) -> Option<RequestStatus> {
    let mut found = Vec::new();
    for word in text?.split(',').map(str::trim) {
        match word {
            "open" => found.push(RequestStatus::Open),
            "closed" => found.push(RequestStatus::Closed),
            _ => faults.push(Fault::bad(format!("status {} is none; write open, closed or both", quoted(word, 40)))),
        }
    }
    let first = *found.first()?;
    found.iter().all(|state| *state == first).then_some(first)
}
