//! The cover of an event: who told it, on what device, when.

use jiff::{SignedDuration, Timestamp};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::happened::Happened;

/// The schema that events are written in today. Older ones are read and brought up to it.
pub const SCHEMA_VERSION: u32 = 1;

/// One thing that happened.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Event {
    /// Its own number, a `UUIDv7` made on the device. The same number sent twice is the same event.
    pub id: Uuid,
    /// Schema that it is written in, see [`SCHEMA_VERSION`].
    pub schema: u32,
    /// Account of the person who tells it, or the part of the program that does.
    pub actor: String,
    /// The device it was told on.
    pub device: String,
    /// What the device's clock said, in UTC.
    #[schemars(with = "String", extend("format" = "date-time"))]
    pub device_time: Timestamp,
    /// How far the device's clock was ahead of the server's when they last spoke, milliseconds; behind is negative.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub clock_ahead_ms: i64,
    /// What happened.
    pub happened: Happened,
}

/// An event as it stands in the record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Recorded {
    /// Its place in the record, from 1, without gaps.
    pub position: u64,
    /// When the server took it in, UTC.
    #[schemars(with = "String", extend("format" = "date-time"))]
    pub server_time: Timestamp,
    /// SHA-256, in hexadecimal digits, over the digest of the event before it and this event: nothing in the record can be
    /// changed unseen.
    pub digest: String,
    /// The event, as it was told.
    pub event: Event,
}

impl Event {
    /// When it happened by the server's clock, as well as that is known.
    pub fn happened_at(&self) -> Timestamp {
        let ahead = SignedDuration::from_millis(self.clock_ahead_ms);
        self.device_time.checked_sub(ahead).unwrap_or(self.device_time)
    }

    /// What orders events of one subject: when they happened, and where that is the same their numbers, so that everybody has
    /// the same order whatever came first.
    pub fn order(&self) -> (Timestamp, Uuid) {
        (self.happened_at(), self.id)
    }
}

#[allow(clippy::trivially_copy_pass_by_ref)] // as serde asks
fn is_zero(value: &i64) -> bool {
    *value == 0
}
