//! A tile of heights, plain or zipped.
#![no_main]

use exchange::heights::quarter_heights;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    if let Err(wrong) = quarter_heights(bytes) {
        assert!(!wrong.is_empty());
    }
});
