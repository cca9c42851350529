//! The district file.
#![no_main]

use common::said_in_words;
use exchange::district::read_district_text;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| match read_district_text("district.toml", text) {
    Ok(read) => said_in_words(&read.problems),
    Err(problems) => {
        assert!(!problems.is_empty());
        said_in_words(&problems);
    }
});
