//! Problems in the VRPLIB format, the dialect of the benchmark sets: `KEY : value` lines and `..._SECTION` tables.

mod build;
mod text;

use tours::Problem;

pub use text::ReadError;

/// A problem with the convention of its benchmark set.
#[derive(Debug)]
pub struct Instance {
    /// In whole units.
    pub problem: Problem,
    /// How many units of our cost make one unit of the set's published costs.
    pub cost_scale: i64,
}

/// How a set of benchmarks makes whole numbers of distances, times and prizes.
#[derive(Debug, Clone, Copy)]
struct Convention {
    /// What numbers are multiplied by.
    scale: f64,
    /// Rounded to the nearest; else cut off.
    rounds: bool,
    /// As [`Instance::cost_scale`].
    cost_scale: i64,
}

/// By the file's `TYPE`. Read off the published costs: recomputing the published solutions with these gives them exactly.
const CONVENTIONS: &[(&str, Convention)] = &[
    ("CVRP", Convention { scale: 1.0, rounds: true, cost_scale: 1 }),
    ("VRPB", Convention { scale: 1.0, rounds: true, cost_scale: 1 }),
    // Costs per distance come in hundredths.
    ("HFVRP", Convention { scale: 1000.0, rounds: true, cost_scale: 100_000 }),
    ("MDVRPTW", Convention { scale: 1000.0, rounds: true, cost_scale: 1 }),
    ("PCVRPTW", Convention { scale: 10.0, rounds: false, cost_scale: 1 }),
    ("MTVRPTWR", Convention { scale: 10.0, rounds: false, cost_scale: 1 }),
    ("VRPTW", Convention { scale: 10.0, rounds: false, cost_scale: 10 }),
];

/// Reads a problem from the text of its file.
pub fn read(text: &str) -> Result<Instance, ReadError> {
    build::instance(&text::Fields::parse(text)?)
}

#[cfg(test)]
mod tests;
