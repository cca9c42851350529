//! A sieve analysis.
#![no_main]

use common::said_in_words;
use exchange::soil_files::read_sieve_bytes;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let read = read_sieve_bytes("sieves", bytes);
    said_in_words(&read.problems);
    assert!(read.refused_rows <= read.rows);
});
