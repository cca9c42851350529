//! Laboratory and field sheets as CSV: specimens of a compaction test, a sieve analysis.
//!
//! Units stand in the header (`wet density (kg/m3)`) and are never guessed. A bad row is refused with its place and what
//! would be right; the rest goes on.

mod sieves;
mod specimens;

pub use sieves::{SieveFile, read_sieve_bytes, read_sieves};
pub use specimens::{SpecimenFile, read_specimen_bytes, read_specimens};
