//! What clients of the open feeds ask for: path, a space, and what is behind the `?`.
#![no_main]

use feeds::{Crs, LIMIT_MOST, Refusal, Request, read_request};
use libfuzzer_sys::fuzz_target;

const OFFERED: [Crs; 5] = [
    Crs::Crs84,
    Crs::Epsg4326,
    Crs::WebMercator,
    Crs::Utm { zone: 1, north: true },
    Crs::Utm { zone: 60, north: false },
];

fuzz_target!(|text: &str| {
    let (path, query) = text.split_once(' ').unwrap_or((text, ""));
    match read_request(path, query, &OFFERED) {
        Ok(Request::Items(_, query)) => {
            assert!((1..=LIMIT_MOST).contains(&query.limit));
            if let Some(bounds) = query.bounds {
                assert!([bounds.west, bounds.east].iter().all(|lon| (-180.0..=180.0).contains(lon)), "{bounds:?}");
                assert!(-90.0 <= bounds.south && bounds.south <= bounds.north && bounds.north <= 90.0, "{bounds:?}");
            }
            if let Some((from, to)) = query.time.and_then(|time| time.from.zip(time.to)) {
                assert!(from <= to);
            }
        }
        Ok(_) => {}
        Err(Refusal::NotFound(what)) => assert!(!what.is_empty()),
        Err(Refusal::BadParameters(bad)) => {
            assert!(!bad.is_empty());
            assert!(bad.iter().all(|bad| !bad.wrong.is_empty() && !bad.right.is_empty()));
        }
    }
});
