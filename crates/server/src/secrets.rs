//! Secrets that let somebody in: 256 random bits, of which the server keeps a digest only.

use journal::chain::{Digest, hexadecimal};
use journal::people::digest_of_secret;
use uuid::Uuid;

/// A secret.
pub struct Secret(String);

impl Secret {
    /// A new one.
    pub fn new() -> Self {
        let mut bytes = [0; 32];
        fill(&mut bytes);
        Self(hexadecimal(&bytes))
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
    let mut bytes = [0; 10];
    fill(&mut bytes);
    let millis = u64::try_from(now.as_millisecond()).unwrap_or_default();
    uuid::Builder::from_unix_timestamp_millis(millis, &bytes).into_uuid()
}

/// Random bytes of the operating system. A system that has none can't keep anybody out, so the request ends there.
fn fill(bytes: &mut [u8]) {
    getrandom::fill(bytes).expect("the operating system gives random bytes");
}
