//! The words of the trade as plain data: what a road section, a hole, a cut-out, a repair, a work zone and a round
//! are, with units.
//!
//! Depends on nothing of ours; computes nothing of the trade. Every stage crate speaks in these types only, so that a
//! stage can be run, tested and read alone. Units are typed ([`quantity`]); a figure carries its spread and the way it
//! was worked out ([`figure`]); a rule is data with a source ([`rules`]).

pub mod crew_move;
pub mod crews;
pub mod cut_out;
pub mod district;
pub mod figure;
pub mod forecast;
pub mod growth;
pub mod hole;
pub mod learnt;
pub mod life;
pub mod look;
pub mod moisture;
pub mod month_report;
pub mod patch;
pub mod pin;
pub mod place;
pub mod plan;
pub mod problem;
pub mod programme;
pub mod quantity;
pub mod queue;
pub mod record;
pub mod repair;
pub mod road;
pub mod road_around;
pub mod road_kind;
pub mod round;
pub mod rules;
pub mod sharing;
pub mod site_unit;
pub mod so_far;
pub mod soil;
pub mod total;
pub mod triage;
pub mod work_zone;
