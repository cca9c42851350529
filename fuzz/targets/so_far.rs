//! How far the crews are.
#![no_main]

use std::collections::BTreeSet;

use common::said_in_words;
use exchange::so_far::read_so_far_bytes;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let read = read_so_far_bytes("noon.toml", bytes, &["Crew Fulmar", "Crew Dunlin"]);
    said_in_words(&read.problems);
    let Some(so_far) = read.so_far else {
        assert!(!read.problems.is_empty());
        return;
    };
    assert!(so_far.time.0 < 86_400);
    assert_eq!(so_far.crews.len() + read.refused_crews, read.crews);
    let mut seen = BTreeSet::new();
    for crew in &so_far.crews {
        let begun = crew.half_done.iter().map(|half| &half.hole);
        assert!(crew.done.iter().chain(begun).chain(&crew.next).all(|hole| seen.insert(hole)), "a hole twice");
    }
});
