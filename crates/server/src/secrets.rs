//! Secrets that let somebody in: 256 random bits, of which the server keeps a digest only.

use journal::chain::{Digest, hexadecimal};
use journal::people::digest_of_secret;
use uuid::Uuid;

/// A secret.
pub struct Secret(String);

impl Secret {
    /// A new one.
    pub fn new() -> Self {
        Self(hexadecimal(&random::<32>()))
    }

    /// What the one who gets it keeps.
    pub fn text(&self) -> &str {
        &self.0
    }

    /// What the server keeps.
    pub fn digest(&self) -> Digest {
        digest_of_secret(&self.0)
    }
}

impl Default for Secret {
    fn default() -> Self {
        Self::new()
    }
}

/// A new number, in the order of time.
pub(crate) fn number(now: jiff::Timestamp) -> Uuid {
    number_of(now, random())
}

/// A number of version 7 of that time, with the bytes given where others have random ones.
pub(crate) fn number_of(at: jiff::Timestamp, bytes: [u8; 10]) -> Uuid {
    let millis = u64::try_from(at.as_millisecond()).unwrap_or_default();
    uuid::Builder::from_unix_timestamp_millis(millis, &bytes).into_uuid()
}

/// Random bytes of the operating system. A system that has none can't keep anybody out, so the request ends there.
pub(crate) fn random<const COUNT: usize>() -> [u8; COUNT] {
    let mut bytes = [0; COUNT];
    getrandom::fill(&mut bytes).expect("the operating system gives random bytes");
    bytes
}
