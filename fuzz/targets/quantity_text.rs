//! Lengths and speeds as people write them.
#![no_main]

use exchange::quantity_text::{read_length, read_speed};
use libfuzzer_sys::fuzz_target;
use model::quantity::{InLength, InVelocity};

fuzz_target!(|text: &str| {
    if let Ok(length) = read_length(text) {
        assert!(length.in_metres().is_finite());
    }
    if let Ok(speed) = read_speed(text) {
        assert!(speed.in_metres_per_second().is_finite());
    }
});
