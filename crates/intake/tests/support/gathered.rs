//! Everything an export told.

#![allow(dead_code)] // each test file uses its own part

use std::ops::ControlFlow;

use intake::bulk::{BulkOptions, BulkProgress, BulkRead, BulkRow, BulkSink, read_bulk};
use jiff::civil::date;
use model::problem::Problem;

use super::support::island;

#[derive(Default)]
pub struct Gathered {
    pub rows: Vec<BulkRow>,
    pub problems: Vec<Problem>,
    pub told: Vec<BulkProgress>,
    /// Stops when it is told this many times.
    pub stop_at: Option<usize>,
}

impl BulkSink for Gathered {
    fn row(&mut self, row: BulkRow) {
        self.rows.push(row);
    }

    fn problem(&mut self, problem: Problem) {
        self.problems.push(problem);
    }

    fn progress(&mut self, progress: BulkProgress) -> ControlFlow<()> {
        self.told.push(progress);
        if self.stop_at == Some(self.told.len()) { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    }
}

pub fn options() -> BulkOptions {
    BulkOptions {
        file: "export".into(),
        columns: std::collections::BTreeMap::new(),
        source: "public".into(),
        slashes: None,
        district: island(),
        today: date(2026, 11, 20),
    }
}

/// Reads bytes that come in pieces of `step`.
pub fn read_with(bytes: &[u8], options: &BulkOptions, step: usize) -> (BulkRead, Gathered) {
    let mut gathered = Gathered::default();
    let read = read_bulk(Pieces { bytes, step }, options, &mut gathered);
    (read, gathered)
}

pub fn read(bytes: &[u8]) -> (BulkRead, Gathered) {
    read_with(bytes, &options(), usize::MAX)
}

struct Pieces<'b> {
    bytes: &'b [u8],
    step: usize,
}

impl std::io::Read for Pieces<'_> {
    fn read(&mut self, to: &mut [u8]) -> std::io::Result<usize> {
        let count = self.bytes.len().min(to.len()).min(self.step);
        to[..count].copy_from_slice(&self.bytes[..count]);
        self.bytes = &self.bytes[count..];
        Ok(count)
    }
}
