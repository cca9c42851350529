//! Exports, CSV and `GeoJSON` told apart by content; every row has a fate.
#![no_main]

use std::collections::BTreeMap;
use std::ops::ControlFlow;

use common::said_in_words;
use intake::bulk::{BulkOptions, BulkProgress, BulkRow, BulkSink, SlashOrder, read_bulk};
use intake::place::{Bounds, District};
use jiff::civil::date;
use jiff::tz::TimeZone;
use libfuzzer_sys::fuzz_target;
use model::problem::Problem;

const BOUNDS: Bounds = Bounds { west: -28.7, south: 47.1, east: -28.1, north: 47.5 };

#[derive(Default)]
struct Counted {
    rows: u64,
    problems: Vec<Problem>,
}

impl BulkSink for Counted {
    fn row(&mut self, row: BulkRow) {
        assert!(BOUNDS.holds(row.position) && row.line > 0);
        self.rows += 1;
    }

    fn problem(&mut self, problem: Problem) {
        self.problems.push(problem);
    }

    fn progress(&mut self, _: BulkProgress) -> ControlFlow<()> {
        ControlFlow::Continue(())
    }
}

fuzz_target!(|bytes: &[u8]| {
    let options = BulkOptions {
        file: "export".into(),
        columns: BTreeMap::new(),
        source: "public".into(),
        slashes: Some(SlashOrder::DayFirst),
        district: District { bounds: Some(BOUNDS), zone: TimeZone::UTC },
        today: date(2026, 6, 9),
    };
    let mut counted = Counted::default();
    let read = read_bulk(bytes, &options, &mut counted);
    assert_eq!(read.rows, read.refused + counted.rows);
    assert!(read.refused <= counted.problems.len() as u64);
    said_in_words(&counted.problems);
});
