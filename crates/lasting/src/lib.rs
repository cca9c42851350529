//! Which repairs last, where holes come, and when patching no longer pays.

pub mod accelerated;
pub mod arrivals;
pub mod follow_up;
pub mod groups;
pub mod hole_growth;
pub mod interval_censored;
pub mod learnt;
pub mod life_table;
pub mod log_rank;
mod maximise;
pub mod patch_lives;
pub mod plot;
pub mod product_limit;
pub mod proportional;
pub mod refills;
pub mod regression;
pub mod stop_patching;
