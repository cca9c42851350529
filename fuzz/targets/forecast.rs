//! A forecast.
#![no_main]

use common::said_in_words;
use exchange::forecast::read_forecast_bytes;
use jiff::tz::TimeZone;
use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;

// A zone whose clock is changed, so that times that come twice or never are reached.
static ZONE: LazyLock<TimeZone> = LazyLock::new(|| TimeZone::get("Europe/Berlin").expect("comes with the program"));

fuzz_target!(|bytes: &[u8]| {
    let read = read_forecast_bytes("forecast", bytes, &ZONE);
    said_in_words(&read.problems);
    let hours = &read.forecast.hours;
    assert_eq!(read.rows, hours.len() + read.refused_rows);
    assert!(hours.iter().all(|hour| hour.from < hour.to && hour.rain_mm_per_h() >= 0.0));
    assert!(hours.windows(2).all(|pair| pair[0].to <= pair[1].from));
});
