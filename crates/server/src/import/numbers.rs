//! Numbers that come from what stands in a row, so that the same row has the same numbers again.

use intake::bulk::BulkRow;
use jiff::Timestamp;
use jiff::civil::Time;
use jiff::tz::TimeZone;
use journal::chain::sha256;
use model::record::told::Teller;
use uuid::Uuid;

use crate::secrets::number_of;

/// The numbers of a row.
pub struct RowNumbers {
    /// Of the hole: by its number at the office, place and time. A row whose words have changed tells of the same hole again.
    pub hole: Uuid,
    /// Of the event: by all of it.
    pub event: Uuid,
}

impl RowNumbers {
    /// `begin` as of [`begin_of`].
    pub fn of(row: &BulkRow, begin: Option<Timestamp>) -> Self {
        // what has no time comes first, whenever it is imported
        let at = begin.unwrap_or(Timestamp::UNIX_EPOCH);
        let mut content = Content::new(b"hole");
        content.add(row.reference.as_bytes());
        content.add(&row.position.lon.to_be_bytes());
        content.add(&row.position.lat.to_be_bytes());
        content.add(&begin.map_or(i64::MIN, Timestamp::as_microsecond).to_be_bytes());
        if row.reference.is_empty() {
            content.add(row.note.as_bytes());
        }
        let hole = content.number(at);
        content.add(b"told");
        content.add(row.note.as_bytes());
        content.add(row.address.as_bytes());
        content.add(row.source.as_bytes());
        if let Some(size) = &row.size {
            for side in [size.length_mm, size.width_mm, size.depth_mm] {
                content.add(&side.unwrap_or_default().to_be_bytes());
            }
        }
        Self { hole, event: content.number(at) }
    }

    /// The number of the event that closes it.
    pub fn closing(&self, row: &BulkRow, at: Option<Timestamp>) -> Uuid {
        let mut content = Content::new(b"closed");
        content.add(self.hole.as_bytes());
        content.add(row.closed.as_ref().map_or("", |closed| &closed.status).as_bytes());
        content.add(&at.map_or(i64::MIN, Timestamp::as_microsecond).to_be_bytes());
        content.number(at.unwrap_or(Timestamp::UNIX_EPOCH))
    }
}

/// The number of the event that takes the closing of a hole back.
pub fn reopening_number(hole: Uuid, closing: &Teller) -> Uuid {
    let mut content = Content::new(b"reopened");
    content.add(hole.as_bytes());
    content.add(closing.event.as_bytes());
    content.number(closing.at)
}

/// When a row was closed: where only the day is known its beginning, but never before the row was told.
pub fn closed_at(row: &BulkRow, begin: Option<Timestamp>, zone: &TimeZone) -> Option<Timestamp> {
    let closed = row.closed.as_ref()?;
    let of_day = || zone.to_timestamp(closed.day?.to_datetime(Time::midnight())).ok();
    closed.at.or_else(of_day).max(begin)
}

/// When a row was told; the beginning of its day where nothing else is known.
pub fn begin_of(row: &BulkRow, zone: &TimeZone) -> Option<Timestamp> {
    let of_day = || zone.to_timestamp(row.day?.to_datetime(Time::midnight())).ok();
    row.at.or_else(of_day)
}

/// The number of a merge of these holes, sorted, into that one.
pub fn merge_number(into: Uuid, merged: &[Uuid]) -> Uuid {
    let mut content = Content::new(b"merged");
    content.add(into.as_bytes());
    for hole in merged {
        content.add(hole.as_bytes());
    }
    // in the order of time with the events of the hole that stays
    let millis = into.get_timestamp().map_or(0, |at| {
        let (seconds, nanoseconds) = at.to_unix();
        i64::try_from(seconds * 1000 + u64::from(nanoseconds / 1_000_000)).unwrap_or_default()
    });
    content.number(Timestamp::from_millisecond(millis).unwrap_or_default())
}

/// Pieces that can't be taken for each other.
struct Content(Vec<u8>);

impl Content {
    fn new(what: &[u8]) -> Self {
        Self(what.to_vec())
    }

    fn add(&mut self, piece: &[u8]) {
        self.0.extend((piece.len() as u64).to_be_bytes());
        self.0.extend(piece);
    }

    fn number(&self, at: Timestamp) -> Uuid {
        let digest = sha256(&self.0);
        let mut bytes = [0; 10];
        bytes.copy_from_slice(&digest[..10]);
        number_of(at, bytes)
    }
}
