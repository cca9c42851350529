//! The whole file.

use model::place::LonLat;
use model::plan::{Fate, LeftOut, Plan, PlannedJob, PlannedSite, ReportFate};
use model::problem::{Problem, ProblemSeverity};
use model::quantity::{InArea, InLength, InMass};
use model::round::{LeftOutReason, SecondOfDay, StopKind};
use schemars::JsonSchema;
use serde::Serialize;

use super::figures::{FigureJson, figure, round, round_degrees};
use super::hole::{HoleJson, hole};
use super::learnt::{FactorsJson, LearntJson};
use super::load::{DemandJson, DeviceNeedJson, LoadJson, demand};
use super::look::{LookJson, LookLeftJson};
use super::patch::{PatchJson, patch};
use super::repair::RepairBlock;
use super::totals::DayTotalsJson;
use super::zone::ZoneBlock;

/// The plan of one day for one crew. All field names carry SI units; times of day are local, `HH:MM:SS`; places are
/// WGS 84 `[longitude, latitude]`; every index counts from 0.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "plan.json", rename = "Plan")]
pub struct PlanFile {
    /// Version of this file's shape; grows when a field changes its meaning or goes away.
    format_version: u32,
    district: DistrictJson,
    /// The day.
    date: String,
    /// Seed of the search.
    seed: u64,
    daylight: Option<DaylightJson>,
    /// Back at the depot by then in nine days of ten; the timetable itself counts on median times.
    back_p90: Option<String>,
    /// What must be said wherever the roads are drawn.
    road_attribution: Option<String>,
    holes: Vec<HoleJson>,
    jobs: Vec<JobJson>,
    sites: Vec<SiteJson>,
    round: RoundJson,
    /// Looks at repairs made before, on the way, in the order in which they are made.
    looks: Vec<LookJson>,
    /// Wanted looks that are not on this round; of a round of a work plan empty, which tells them itself.
    looks_left: Vec<LookLeftJson>,
    loads: Vec<LoadJson>,
    /// Chance that nothing runs out all day, 0 to 1; null when nothing is done.
    suffices: Option<f64>,
    /// It is one round of a work plan: `work-plan.json` tells what is left out and what was wrong with the input.
    of_work_plan: bool,
    /// The most of each device and of each sign that stands on the roads at one time.
    devices_at_once: Vec<DeviceNeedJson>,
    totals: DayTotalsJson,
    /// What of the record the repairs are worked out with; empty where the plan was not given it, or it is turned off.
    learnt: Vec<LearntJson>,
    left_out: Vec<LeftOutJson>,
    /// Every usable report of the list, in its order, and what became of it.
    fates: Vec<FateJson>,
    problems: Vec<ProblemJson>,
}

/// What was chosen for the district.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "District")]
struct DistrictJson {
    name: String,
    time_zone: String,
    depot: String,
    depot_place: [f64; 2],
    crew: String,
    people: u32,
    truck: String,
    payload_kg: f64,
    shift_start: String,
    shift_end: String,
    traffic_rules: String,
    repair_rules: String,
    severity_rules: String,
    road_rules: String,
    load_confidence: f64,
}

/// Sun at the depot.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Daylight")]
struct DaylightJson {
    sunrise: String,
    sunset: String,
}

/// What became of one report.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Fate")]
pub(super) struct FateJson {
    report: String,
    /// File, line and column.
    from: String,
    /// `in_round`, `left_out`, `same_hole_as` or `refused`.
    fate: &'static str,
    /// For `same_hole_as`: the report whose hole it is.
    of: Option<String>,
    /// For `same_hole_as`: why.
    words: String,
}

/// A cut with its repair.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Job")]
struct JobJson {
    /// Indexes into `holes`.
    holes: Vec<usize>,
    /// Index into `sites`.
    site: usize,
    centre: [f64; 2],
    cut: CutJson,
    repair: RepairBlock,
    patch: PatchJson,
    factors: FactorsJson,
}

/// Where to saw or pick.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Cut")]
struct CutJson {
    /// Corners in order: along the section, across it (positive to the right of increasing chainage).
    /// 4, 6 or 8 of them, all right angles.
    corners_m: Vec<[f64; 2]>,
    /// Longer side of the cut, or of the rectangle around it.
    length_m: f64,
    width_m: f64,
    /// Width of the narrowest part: the width itself, or that of an arm.
    narrowest_m: f64,
    /// Longer side against the road, positive turning right.
    angle_deg: f64,
    cut_area_m2: FigureJson,
    perimeter_m: FigureJson,
    wasted_m2: FigureJson,
    farthest_m: f64,
    remarks: Vec<String>,
}

/// One stop of the round.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Site")]
struct SiteJson {
    /// Indexes into `jobs`, in working order.
    jobs: Vec<usize>,
    place: [f64; 2],
    /// Where the section's chainage counts from, in words.
    chainage_from: String,
    /// Where the section ends, in words.
    chainage_towards: String,
    service_s: u32,
    worth: f64,
    windows: Vec<[String; 2]>,
    demand: DemandJson,
    zone: ZoneBlock,
}

/// The day's round.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Round")]
struct RoundJson {
    /// Trips in order, each indexes into `sites`.
    trips: Vec<Vec<usize>>,
    timetable: Vec<StopJson>,
    driving_s: u32,
    driving_m: f64,
    objective: f64,
    /// One for each `drive` of the timetable, in order.
    ways: Vec<WayJson>,
}

/// One line of the timetable.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Stop")]
struct StopJson {
    /// `load`, `drive`, `wait`, `work`, `rest`, `tip` or `look`.
    kind: &'static str,
    /// Index into `sites` for `work` and for a `drive` to a site; null: the depot, or no place.
    site: Option<usize>,
    /// Index of the trip for `load` and `tip`.
    trip: Option<usize>,
    /// Index into `looks` for `look` and for a `drive` to one.
    look: Option<usize>,
    from: String,
    to: String,
}

/// A way driven.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Way")]
struct WayJson {
    travel_s: u32,
    distance_m: f64,
    line: Vec<[f64; 2]>,
}

/// A hole that is not in the round.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "LeftOut")]
pub(super) struct LeftOutJson {
    hole: String,
    reason: Option<&'static str>,
    words: String,
    road: String,
    distance_m: Option<f64>,
}

/// One thing that was wrong with the input.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Problem")]
pub(super) struct ProblemJson {
    code: &'static str,
    severity: &'static str,
    file: String,
    line: usize,
    column: usize,
    subject: String,
    wrong: String,
    right: String,
}

impl From<&Plan> for PlanFile {
    fn from(plan: &Plan) -> Self {
        PlanFile {
            format_version: 1,
            district: district(plan),
            date: plan.date.to_string(),
            seed: plan.seed,
            daylight: plan.daylight.map(|(rise, set)| DaylightJson { sunrise: clock(rise), sunset: clock(set) }),
            back_p90: plan.back_p90.map(clock),
            road_attribution: plan.road_attribution.clone(),
            holes: plan.holes.iter().map(|h| hole(plan, h)).collect(),
            jobs: plan.jobs.iter().map(JobJson::from).collect(),
            sites: plan.sites.iter().enumerate().map(|(index, s)| site(plan, index, s)).collect(),
            round: round_block(plan),
            looks: plan.looks.iter().map(LookJson::from).collect(),
            looks_left: plan.looks_left.iter().map(LookLeftJson::from).collect(),
            loads: plan.loads.iter().map(LoadJson::from).collect(),
            suffices: plan.suffices.map(round),
            of_work_plan: plan.of_work_plan,
            devices_at_once: plan.devices_at_once.iter().map(DeviceNeedJson::from).collect(),
            totals: DayTotalsJson::from(&plan.totals),
            learnt: plan.learnt.factors.iter().map(LearntJson::from).collect(),
            left_out: plan.left_out.iter().map(LeftOutJson::from).collect(),
            fates: plan.fates.iter().map(FateJson::from).collect(),
            problems: plan.problems.iter().map(ProblemJson::from).collect(),
        }
    }
}

impl From<&LeftOut> for LeftOutJson {
    fn from(left_out: &LeftOut) -> Self {
        LeftOutJson {
            hole: left_out.hole.0.clone(),
            reason: left_out.reason.map(reason_word),
            words: left_out.words.clone(),
            road: left_out.road.clone(),
            distance_m: left_out.distance.map(|distance| round(distance.in_metres())),
        }
    }
}

fn district(plan: &Plan) -> DistrictJson {
    let district = &plan.district;
    DistrictJson {
        name: district.name.clone(),
        time_zone: district.time_zone.clone(),
        depot: district.depot.name.clone(),
        depot_place: place(district.depot.position),
        crew: district.crew.name.clone(),
        people: district.crew.people,
        truck: district.truck.name.clone(),
        payload_kg: round(district.truck.payload.in_kilograms()),
        shift_start: district.shift.start.to_string(),
        shift_end: district.shift.end.to_string(),
        traffic_rules: district.rule_sets.traffic.clone(),
        repair_rules: district.rule_sets.repair.clone(),
        severity_rules: district.rule_sets.severity.clone(),
        road_rules: district.rule_sets.roads.clone(),
        load_confidence: round(district.planning.load_confidence.value),
    }
}

impl From<&ReportFate> for FateJson {
    fn from(report: &ReportFate) -> Self {
        let (fate, of, words) = match &report.fate {
            Fate::InRound => ("in_round", None, String::new()),
            Fate::LeftOut => ("left_out", None, String::new()),
            Fate::SameHoleAs(of, why) => ("same_hole_as", Some(of.0.clone()), why.clone()),
            Fate::Refused => ("refused", None, String::new()),
        };
        FateJson { report: report.report.0.clone(), from: report.from.to_string(), fate, of, words }
    }
}

impl From<&PlannedJob> for JobJson {
    fn from(job: &PlannedJob) -> Self {
        JobJson {
            holes: job.holes.clone(),
            site: job.site,
            centre: place(job.centre),
            cut: CutJson {
                corners_m: job.cut.corners.iter().map(|c| [round(c.along_m), round(c.across_m)]).collect(),
                length_m: round(job.cut.length.in_metres()),
                width_m: round(job.cut.width.in_metres()),
                narrowest_m: round(job.cut.narrowest.in_metres()),
                angle_deg: round(job.cut.angle_deg),
                cut_area_m2: figure(&job.cut.area, InArea::in_square_metres),
                perimeter_m: figure(&job.cut.perimeter, InLength::in_metres),
                wasted_m2: figure(&job.cut.wasted, InArea::in_square_metres),
                farthest_m: round(job.cut.farthest.in_metres()),
                remarks: job.cut.remarks.clone(),
            },
            repair: RepairBlock::from(&job.repair),
            patch: patch(&job.patch),
            factors: FactorsJson::from(&job.factors),
        }
    }
}

fn site(plan: &Plan, index: usize, planned: &PlannedSite) -> SiteJson {
    let given = plan.problem.sites.get(index);
    SiteJson {
        jobs: planned.jobs.clone(),
        place: place(planned.place),
        chainage_from: planned.chainage_from.clone(),
        chainage_towards: planned.chainage_towards.clone(),
        service_s: given.map_or(0, |s| s.service_s),
        worth: given.map_or(0.0, |s| round(s.worth)),
        windows: given
            .map_or_else(Vec::new, |s| s.windows.iter().map(|(from, to)| [clock(*from), clock(*to)]).collect()),
        demand: demand(&given.map(|s| s.demand).unwrap_or_default()),
        zone: ZoneBlock::from(&planned.zone),
    }
}

fn round_block(plan: &Plan) -> RoundJson {
    RoundJson {
        trips: plan.round.trips.clone(),
        timetable: plan
            .round
            .timetable
            .iter()
            .map(|stop| {
                let (kind, site, trip) = match stop.kind {
                    StopKind::Load(trip) => ("load", None, Some(trip)),
                    StopKind::Drive(place) => ("drive", plan.problem.site_at(place), None),
                    StopKind::Wait => ("wait", None, None),
                    StopKind::Work(site) => ("work", Some(site), None),
                    StopKind::Rest => ("rest", None, None),
                    StopKind::Tip(trip) => ("tip", None, Some(trip)),
                    StopKind::Look(_) => ("look", None, None),
                };
                let look = match stop.kind {
                    StopKind::Look(look) => Some(look),
                    StopKind::Drive(place) => plan.problem.look_at(place),
                    _ => None,
                };
                StopJson { kind, site, trip, look, from: clock(stop.from), to: clock(stop.to) }
            })
            .collect(),
        driving_s: plan.round.driving_s,
        driving_m: round(plan.round.driving.in_metres()),
        objective: round(plan.round.objective),
        ways: plan
            .ways
            .iter()
            .map(|way| WayJson {
                travel_s: way.travel_s,
                distance_m: round(way.distance.in_metres()),
                line: way.line.iter().map(|p| place(*p)).collect(),
            })
            .collect(),
    }
}

impl From<&Problem> for ProblemJson {
    fn from(problem: &Problem) -> Self {
        ProblemJson {
            code: problem.code,
            severity: match problem.severity {
                ProblemSeverity::Warning => "warning",
                ProblemSeverity::Refused => "refused",
                ProblemSeverity::Fatal => "fatal",
            },
            file: problem.at.file.clone(),
            line: problem.at.line,
            column: problem.at.column,
            subject: problem.subject.clone(),
            wrong: problem.wrong.clone(),
            right: problem.right.clone(),
        }
    }
}

pub(super) fn reason_word(reason: LeftOutReason) -> &'static str {
    match reason {
        LeftOutReason::ExceedsTruck(_) => "exceeds_truck",
        LeftOutReason::NoWindow => "no_window",
        LeftOutReason::ExceedsShift => "exceeds_shift",
        LeftOutReason::Unreachable => "unreachable",
        LeftOutReason::LessUrgent => "less_urgent",
        LeftOutReason::NotWorthTheTime => "not_worth_the_time",
        LeftOutReason::NoCrew => "no_crew",
        LeftOutReason::NotAPatch => "not_a_patch",
        LeftOutReason::AsAsked => "as_asked",
    }
}

/// Longitude and latitude.
pub fn place(place: LonLat) -> [f64; 2] {
    [round_degrees(place.lon), round_degrees(place.lat)]
}

pub(super) fn clock(time: SecondOfDay) -> String {
    format!("{:02}:{:02}:{:02}", time.0 / 3600, time.0 / 60 % 60, time.0 % 60)
}
