//! Lists of lives.
#![no_main]

use common::said_in_words;
use exchange::lives::{LifeColumns, read_lives_bytes};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    match read_lives_bytes("lives", bytes, LifeColumns::default()) {
        Ok(read) => {
            said_in_words(&read.problems);
            for row in &read.lives.rows {
                assert!(row.duration >= 0.0 && (row.group as usize) < read.lives.groups.len());
            }
        }
        Err(problems) => said_in_words(&problems),
    }
});
