//! A repair file laid over the default district, as TOML and as JSON.
#![no_main]

use common::said_in_words;
use exchange::district::{RepairLayer, read_repair};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    for name in ["repair.toml", "repair.json"] {
        match read_repair(None, &[RepairLayer { name: name.into(), text: text.to_owned() }]) {
            Ok(read) => said_in_words(&read.problems),
            Err(problems) => {
                assert!(!problems.is_empty());
                said_in_words(&problems);
            }
        }
    }
});
