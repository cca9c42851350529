//! Specimens of a compaction test.
#![no_main]

use common::said_in_words;
use exchange::soil_files::read_specimen_bytes;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let read = read_specimen_bytes("specimens", bytes);
    said_in_words(&read.problems);
    assert_eq!(read.rows, read.readings.len() + read.refused_rows);
});
