//! How subjects and times are written in the database.

use jiff::Timestamp;
use model::record::happened::Subject;
use uuid::Uuid;

/// Seventeen bytes: what it is, and its number.
pub(crate) type Key = [u8; 17];

/// Events stand among the subjects of their corrections.
const EVENT: u8 = b'e';

pub(crate) fn key(subject: Subject) -> Key {
    let what = match subject {
        Subject::Hole(_) => b'h',
        Subject::Repair(_) => b'r',
        Subject::Zone(_) => b'z',
        Subject::Round(_) => b't',
        Subject::Resurfacing(_) => b's',
    };
    with(what, subject.id())
}

pub(crate) fn event_key(event: Uuid) -> Key {
    with(EVENT, event)
}

/// The subject of a key; `None`: an event, or nothing of ours.
pub(crate) fn subject(key: &[u8]) -> Option<Subject> {
    let (what, id) = key.split_first()?;
    let id = Uuid::from_slice(id).ok()?;
    match what {
        b'h' => Some(Subject::Hole(id)),
        b'r' => Some(Subject::Repair(id)),
        b'z' => Some(Subject::Zone(id)),
        b't' => Some(Subject::Round(id)),
        b's' => Some(Subject::Resurfacing(id)),
        _ => None,
    }
}

fn with(what: u8, id: Uuid) -> Key {
    let mut key = [what; 17];
    key[1..].copy_from_slice(id.as_bytes());
    key
}

/// Microseconds since 1970.
pub(crate) fn micros(time: Timestamp) -> i64 {
    time.as_microsecond()
}

/// Back from microseconds; what was written by us is always a time.
pub(crate) fn time(micros: i64) -> Timestamp {
    Timestamp::from_microsecond(micros).unwrap_or_default()
}
