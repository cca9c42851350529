//! Which repairs last, where holes come, and when patching no longer pays: the record becomes knowledge, and knowledge changes the
//! plan.
//!
//! [`from_record`] takes the record in and [`patch_lives`] makes lives of it, [`refills`] of a bare list of fills; [`resurfaced`] is where
//! both begin anew. [`groups`] is where to begin with lives: curves
//! of several groups, whether they differ, both in words, and [`plot`] draws them. Below it lie [`life_table`],
//! [`product_limit`] and [`log_rank`]; [`interval_censored`] is for failures seen only at looks; [`accelerated`] and
//! [`proportional`] tell what makes repairs last. [`arrivals`] and [`hole_growth`] tell of holes to come, [`learnt`] what
//! was used against what was planned, [`plan_lessons`] what plans take over from that, [`stop_patching`] when to renew, [`follow_up`] who should look again.
//!
//! Pure: no files, no clock, no chance but from the seed that is passed in.

pub mod accelerated;
pub mod arrivals;
pub mod effects;
pub mod follow_up;
pub mod from_record;
pub mod groups;
pub mod hole_growth;
pub mod hole_rates;
pub mod interval_censored;
pub mod learnt;
pub mod life_table;
pub mod log_rank;
mod maximise;
pub mod patch_lives;
pub mod plan_lessons;
pub mod plot;
pub mod product_limit;
pub mod proportional;
pub mod refills;
pub mod regression;
pub mod resurfaced;
pub mod stop_patching;
