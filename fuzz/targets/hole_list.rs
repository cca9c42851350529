//! Hole lists, CSV and GeoJSON told apart by content.
#![no_main]

use common::said_in_words;
use exchange::holes::{HoleOptions, read_hole_bytes};
use jiff::civil::date;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let read = read_hole_bytes("holes", bytes, &HoleOptions::default(), date(2026, 6, 9));
    said_in_words(&read.problems);
    for hole in &read.holes {
        assert!(!hole.id.0.is_empty());
        assert!(hole.depth.value.is_finite() && hole.depth.value > 0.0);
        assert!(hole.position.lon.is_finite() && hole.position.lat.is_finite());
    }
});
