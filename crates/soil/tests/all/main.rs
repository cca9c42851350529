//! All tests of the public surface in one binary.

mod against_numpy;
mod compaction;
mod field_density;
mod grading;
mod handbook;
mod rules;
mod support;
