//! The chain of digests: each link covers all before it, so that nothing in it can be changed, taken out or put in unseen.
//!
//! A link is `SHA-256(link before ‖ position ‖ server time ‖ text)`, position and time (microseconds since 1970) as eight bytes,
//! the most significant first. The link before the first is 32 zero bytes. Whoever can write the database can write a chain
//! anew: to be sure of more, the last digest has to be written down elsewhere, on a signed sheet of paper for one.

use sha2::{Digest as _, Sha256};

/// A link.
pub type Digest = [u8; 32];

/// The link before the first.
pub const NOTHING: Digest = [0; 32];

/// The next link.
pub fn link(before: &Digest, position: u64, server_time_us: i64, text: &str) -> Digest {
    let mut hasher = Sha256::new();
    hasher.update(before);
    hasher.update(position.to_be_bytes());
    hasher.update(server_time_us.to_be_bytes());
    hasher.update(text.as_bytes());
    hasher.finalize().into()
}

/// SHA-256 of some bytes.
pub fn sha256(bytes: &[u8]) -> Digest {
    Sha256::digest(bytes).into()
}

/// In hexadecimal digits.
pub fn hexadecimal(digest: &[u8]) -> String {
    use std::fmt::Write as _;
    digest.iter().fold(String::with_capacity(digest.len() * 2), |mut text, byte| {
        let _ = write!(text, "{byte:02x}");
        text
    })
}

/// Where a chain is broken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Broken {
    /// Position of the first link that does not hold.
    pub position: u64,
    /// How.
    pub words: String,
}

/// Follows a chain link by link.
#[derive(Debug, Clone)]
pub struct Follower {
    position: u64,
    digest: Digest,
}

impl Default for Follower {
    fn default() -> Self {
        Self { position: 0, digest: NOTHING }
    }
}

impl Follower {
    /// Takes the next link.
    pub fn next(&mut self, position: u64, server_time_us: i64, text: &str, digest: &[u8]) -> Result<(), Broken> {
        let broken = |words: String| Broken { position: self.position + 1, words };
        if position != self.position + 1 {
            return Err(broken(format!("number {} is missing, {position} comes next", self.position + 1)));
        }
        let expected = link(&self.digest, position, server_time_us, text);
        if expected != digest {
            return Err(broken("its digest is not that of what it says and all before it".to_owned()));
        }
        self.position = position;
        self.digest = expected;
        Ok(())
    }

    /// The last link taken: its position and digest.
    pub fn last(&self) -> (u64, Digest) {
        (self.position, self.digest)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Check values of SHA-256: FIPS 180-2, appendix B.1, `abc`.
    #[test]
    fn sha256_is_the_published_one() {
        assert_eq!(hexadecimal(&sha256(b"abc")), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }

    #[test]
    fn a_changed_text_a_gap_and_an_exchange_are_found() {
        let texts = ["one", "two", "three"];
        let mut before = NOTHING;
        let links: Vec<(u64, &str, Digest)> = (1..)
            .zip(texts)
            .map(|(position, text)| {
                before = link(&before, position, 7, text);
                (position, text, before)
            })
            .collect();
        let follow = |links: &[(u64, &str, Digest)]| {
            let mut follower = Follower::default();
            links.iter().try_for_each(|(position, text, digest)| follower.next(*position, 7, text, digest))
        };
        assert_eq!(follow(&links), Ok(()));
        let mut changed = links.clone();
        changed[1].1 = "twice";
        assert_eq!(follow(&changed).unwrap_err().position, 2);
        assert_eq!(follow(&[links[0], links[2]]).unwrap_err().position, 2);
        let exchanged = [links[0], (2, links[2].1, links[2].2), (3, links[1].1, links[1].2)];
        assert_eq!(follow(&exchanged).unwrap_err().position, 2);
    }
}
