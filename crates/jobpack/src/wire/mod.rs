//! `plan.json`: the plan as an open file. Its shape is that of the structs here, documented by a schema made from them.
//!
//! Field names carry SI units, whatever the district's display units are; every computed figure says how it was worked
//! out. The road network itself is not in it, only what the planned sites need of it.

mod crew_round;
mod day;
mod figures;
mod hole;
mod learnt;
mod load;
mod look;
mod patch;
mod repair;
mod totals;
mod work_plan;
mod zone;

use model::patch::PatchDecision;
use model::plan::{Explained, Plan, WorkPlan};
use model::repair::Repair;
use schemars::generate::SchemaSettings;
use serde_json::Value;

pub(crate) use zone::{device_word, side_word, travel_word};

/// Writes the plan as JSON, two spaces deep, with a final line break.
pub fn plan_json(plan: &Plan) -> String {
    let text = serde_json::to_string_pretty(&day::PlanFile::from(plan)).expect("plain data always serializes");
    text + "\n"
}

/// Writes the work of several crews over some days as JSON, likewise.
pub fn work_plan_json(work: &WorkPlan, explained: &Explained) -> String {
    let file = work_plan::WorkPlanFile::new(work, explained);
    let text = serde_json::to_string_pretty(&file).expect("plain data always serializes");
    text + "\n"
}

/// One repair as JSON: the `repair` block of `plan.json`.
pub fn repair_json(repair: &Repair) -> Value {
    serde_json::to_value(repair::RepairBlock::from(repair)).expect("plain data always serializes")
}

/// One decision whether a repair is a patch as JSON: the `patch` block of `plan.json`.
pub fn patch_json(decision: &PatchDecision) -> Value {
    serde_json::to_value(patch::patch(decision)).expect("plain data always serializes")
}

/// The JSON schema (draft 2020-12) of what [`plan_json`] writes, ready to be kept as a file.
pub fn plan_json_schema() -> String {
    let schema =
        SchemaSettings::draft2020_12().for_serialize().into_generator().into_root_schema_for::<day::PlanFile>();
    let text = serde_json::to_string_pretty(&schema).expect("a schema is plain data");
    text + "\n"
}
