//! The numbers by which the record knows a round, its repairs and its zones. Each is made of what it is of (UUID, version 5), so
//! that the same plan has the same.

use model::plan::{Plan, PlannedSite};
use serde::Serialize;
use uuid::Uuid;

/// Of a crew's day.
pub fn round_number(plan: &Plan) -> Uuid {
    // the district as the work plan has it bears the same name as each crew's
    named(&format!("{} {} {}", plan.district.name, plan.date, plan.district.crew.name))
}

/// Of a job's repair: the same on whatever day it is planned.
///
/// # Panics
/// If `job` is not an index into `plan.jobs`.
pub fn repair_number(plan: &Plan, job: usize) -> Uuid {
    named(&words(&hole_numbers(plan, job)))
}

/// Of a site's zone in this round.
///
/// # Panics
/// If `site` is not an index into `plan.sites`.
pub fn zone_number(plan: &Plan, site: usize) -> Uuid {
    let holes = words(&zone_holes(&plan.sites[site]));
    named(&format!("zone {} {holes}", round_number(plan)))
}

/// Holes of a job that the record knows by number, in order.
///
/// # Panics
/// If `job` is not an index into `plan.jobs`.
pub fn hole_numbers(plan: &Plan, job: usize) -> Vec<Uuid> {
    plan.jobs[job].holes.iter().filter_map(|&hole| plan.holes[hole].hole.id.0.parse().ok()).collect()
}

fn zone_holes(site: &PlannedSite) -> Vec<Uuid> {
    site.zone.holes.iter().filter_map(|hole| hole.0.parse().ok()).collect()
}

fn words(holes: &[Uuid]) -> String {
    holes.iter().map(Uuid::to_string).collect::<Vec<_>>().join(" ")
}

fn named(name: &str) -> Uuid {
    Uuid::new_v5(&Uuid::NAMESPACE_URL, format!("lengthsman:{name}").as_bytes())
}

#[derive(Serialize)]
struct Numbers {
    round: Uuid,
    date: String,
    crew: String,
    repairs: Vec<RepairNumber>,
    zones: Vec<ZoneNumber>,
}

#[derive(Serialize)]
struct RepairNumber {
    /// Index into `jobs` of `plan.json`.
    job: usize,
    repair: Uuid,
    holes: Vec<Uuid>,
}

#[derive(Serialize)]
struct ZoneNumber {
    /// Index into `sites` of `plan.json`.
    site: usize,
    zone: Uuid,
    holes: Vec<Uuid>,
}

/// `numbers.json`: what of `plan.json` bears which number in the record; what the round visits, in the order of work.
pub fn numbers_json(plan: &Plan) -> String {
    let sites: Vec<usize> = crate::drawing::visited(plan).collect();
    let jobs = sites.iter().flat_map(|&site| &plan.sites[site].jobs);
    let numbers = Numbers {
        round: round_number(plan),
        date: plan.date.to_string(),
        crew: plan.district.crew.name.clone(),
        repairs: jobs
            .map(|&job| RepairNumber { job, repair: repair_number(plan, job), holes: hole_numbers(plan, job) })
            .collect(),
        zones: sites
            .iter()
            .map(|&site| ZoneNumber { site, zone: zone_number(plan, site), holes: zone_holes(&plan.sites[site]) })
            .collect(),
    };
    serde_json::to_string_pretty(&numbers).expect("plain data always serializes") + "\n"
}
