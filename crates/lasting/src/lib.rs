//! Which repairs last, where holes come, and when patching no longer pays.

pub mod accelerated;
pub mod groups;
pub mod interval_censored;
pub mod life_table;
pub mod log_rank;
mod maximise;
pub mod plot;
pub mod product_limit;
pub mod proportional;
pub mod regression;
