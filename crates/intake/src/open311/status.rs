//! How far a reported hole has come, in the standard's form and in words. A hole that is the same as another has the status of
//! that other, so that everybody who told of one hole is told the same.

use jiff::Timestamp;
use jiff::civil::{Date, time};
use jiff::tz::TimeZone;
use model::record::known::{HoleState, KnownHole};
use uuid::Uuid;

use super::Office;
use super::answers::{RequestStatus, ServiceRequest};

/// Holes that are the same as each other are followed so far; in a circle nobody leads.
const SAME_MAX: usize = 32;

/// A report and what became of it.
///
/// `find` looks up another hole; `due` is the day by which the leading hole is expected to be mended, where one is promised.
pub fn request_of(
    hole: &KnownHole,
    find: &dyn Fn(Uuid) -> Option<KnownHole>,
    due: &dyn Fn(Uuid) -> Option<Date>,
    office: &Office,
) -> ServiceRequest {
    let leading = leading(hole, find);
    let counts = leading.as_ref().unwrap_or(hole);
    let (status, words) = status_of(counts);
    let is_other = counts.hole != hole.hole;
    let status_notes = if is_other {
        format!("Others told of the same hole; what holds for it holds for your report. {words}")
    } else {
        words
    };
    let zone = &office.district.zone;
    let position = hole.position.as_ref().map(|told| told.value);
    let told = hole.reports.first().map_or(hole.last_told, |report| report.by.at);
    let updated = counts.last_told.max(hole.last_told);
    let words_of = |hole: &KnownHole| hole.reports.first().map(|report| report.note.clone());
    ServiceRequest {
        service_request_id: hole.hole.to_string(),
        status,
        status_notes: Some(status_notes),
        service_name: Some(office.service.name.clone()),
        service_code: office.service.code.clone(),
        description: words_of(hole).filter(|words| office.shows_words && !words.is_empty()),
        agency_responsible: office.agency.clone(),
        service_notice: None,
        requested_datetime: moment(told, zone),
        updated_datetime: Some(moment(updated, zone)),
        expected_datetime: (status == RequestStatus::Open)
            .then(|| due(counts.hole))
            .flatten()
            .and_then(|day| zone.to_timestamp(day.to_datetime(time(23, 59, 59, 0))).ok())
            .map(|end| moment(end, zone)),
        address: None,
        address_id: None,
        zipcode: None,
        lat: position.map(|position| position.lat),
        long: position.map(|position| position.lon),
        media_url: None,
    }
}

/// The hole that another is the same as, and so on to the one that stays; `None` where it stays itself or the others are not
/// found.
fn leading(hole: &KnownHole, find: &dyn Fn(Uuid) -> Option<KnownHole>) -> Option<KnownHole> {
    let mut leading: Option<KnownHole> = None;
    for _ in 0..SAME_MAX {
        let last = leading.as_ref().unwrap_or(hole);
        match (last.state, &last.same_as) {
            (HoleState::SameAsOther, Some(other)) => match find(other.value) {
                Some(other) => leading = Some(other),
                None => return leading,
            },
            _ => return leading,
        }
    }
    None
}

/// Open or closed, and why.
fn status_of(hole: &KnownHole) -> (RequestStatus, String) {
    match hole.state {
        HoleState::Reported => {
            (RequestStatus::Open, "The road office has the report; no crew has it in its round yet.".into())
        }
        HoleState::Planned => (RequestStatus::Open, "The hole is in the round of a crew.".into()),
        HoleState::Begun => (RequestStatus::Open, "A crew has begun to mend the hole.".into()),
        HoleState::Resurfaced => (RequestStatus::Closed, "The road got a new surface there.".into()),
        HoleState::Mended => (RequestStatus::Closed, "The hole is mended.".into()),
        HoleState::SameAsOther => (RequestStatus::Open, "The hole is the same as another that was told of.".into()),
        HoleState::Dismissed => {
            let why = hole.dismissed.as_ref().map(|told| told.value.trim()).filter(|why| !why.is_empty());
            let words = why.map_or_else(
                || "The crew will not mend anything there.".to_owned(),
                |why| format!("The crew will not mend anything there: {why}"),
            );
            (RequestStatus::Closed, words)
        }
    }
}

/// A moment by RFC 3339 in the district's time, to the second.
pub fn moment(at: Timestamp, zone: &TimeZone) -> String {
    at.to_zoned_datetime(zone.clone()).strftime("%Y-%m-%dT%H:%M:%S%:z").to_string()
}
