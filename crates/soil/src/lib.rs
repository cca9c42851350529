//! Tests of the base worked out: compaction test, field density by sand replacement, grading.
//!
//! Each test is one function of plain readings and rules, and stands alone: [`compaction::compaction_test`],
//! [`field_density::field_density`], [`grading::sieve_analysis`]. Pure: no files, no clock, no chance.

pub mod check_rules;
pub mod compaction;
pub mod field_density;
pub mod grading;
pub mod least_squares;
mod show;
pub mod voids;

pub use check_rules::{check_gradation_rules, check_soil_rules};
pub use compaction::{DegreeChoice, compaction_test};
pub use field_density::field_density;
pub use grading::sieve_analysis;
