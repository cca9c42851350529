//! Which jobs are patches, and which are the engineer's.

use jiff::civil::Date;
use model::district::District;
use model::patch::PatchDecision;
use model::place::FramePoint;
use model::quantity::{InLength, Length, metres};
use roads::Network;
use triage::{CutAlong, FoundAtHole, PatchInput, cut_share, patch_or_not};

use crate::Rules;
use crate::jobs::Job;
use crate::locate::Located;

/// One decision for each job.
pub(crate) fn decide(
    jobs: &[Job],
    located: &[Located],
    network: &Network,
    district: &District,
    rules: &Rules,
    date: Date,
) -> Vec<PatchDecision> {
    let limits = &rules.repair.limits;
    let along: Vec<CutAlong> = jobs.iter().map(cut_along).collect();
    let decision = |(job, own): (&Job, &CutAlong)| {
        let width = lane_width(job, network);
        let lane: Vec<CutAlong> =
            jobs.iter().zip(&along).filter(|(other, _)| in_one_lane(job, other, width)).map(|(_, cut)| *cut).collect();
        let found = |&hole: &usize| FoundAtHole {
            wetness: located[hole].hole.wetness,
            repairs: located[hole].hole.repairs.as_ref(),
        };
        let holes: Vec<FoundAtHole> = job.holes.iter().map(found).collect();
        let input = PatchInput {
            depth: &job.repair.depth,
            area: &job.repair.cut_area,
            cut_share: cut_share(own, &lane, width, limits),
            units: district.units,
            holes: &holes,
        };
        patch_or_not(&input, &rules.repair, date)
    };
    jobs.iter().zip(&along).map(decision).collect()
}

fn cut_along(job: &Job) -> CutAlong {
    let along = |pick: fn(f64, f64) -> f64, start: f64| job.cut.corners.iter().map(|c| c.along_m).fold(start, pick);
    CutAlong {
        from: metres(along(f64::min, f64::INFINITY)),
        to: metres(along(f64::max, f64::NEG_INFINITY)),
        area: job.cut.area.value,
    }
}

/// Width of the job's lane, or of the shoulder it is on.
fn lane_width(job: &Job, network: &Network) -> Length {
    let section = network.section(job.section);
    let lane = section.width / f64::from(section.lanes.max(1));
    if job.shoulder && section.shoulder.in_metres() > 0.0 { section.shoulder } else { lane }
}

/// Cuts of one carriageway side are in one lane when their middles are less than a lane apart across.
fn in_one_lane(one: &Job, other: &Job, lane_width: Length) -> bool {
    let lane = |job: &Job| (job.section, job.side, job.travel, job.shoulder);
    let across = |job: &Job| FramePoint::middle(&job.cut.corners).across_m;
    lane(one) == lane(other) && (across(one) - across(other)).abs() < lane_width.in_metres()
}
