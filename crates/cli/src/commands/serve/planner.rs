//! Plans what waits in the record with the district's own file, roads and rules.

use std::path::PathBuf;
use std::sync::OnceLock;

use jiff::civil::Date;
use jobpack::DayFile;
use model::hole::{Hole, HoleId, Shape};
use model::learnt::Factored;
use model::pin::{Pin, PinnedTo};
use model::place::LonLat;
use model::plan::{CrewDay, Plan, PlannedJob};
use model::problem::{Locator, Problem, ProblemSeverity};
use model::quantity::{InArea as _, InLength as _, InMass as _, InTime as _, InVolume as _, millimetres};
use model::record::happened::{Happened, PlannedBasis, PlannedRepair, PlannedZone};
use model::record::known::{Known, KnownHole};
use model::road::RoadNetwork;
use model::road_kind::RoadKind;
use plan::{PlanInput, ProgrammeInput, plan_programme};
use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;
use server::reporting::Reporting;
use server::{CutAsked, CutShown, EachKnown, PlanFile, Planner, Weather};
use uuid::Uuid;

use super::{cut, weather};
use crate::commands::plan::step_words;
use crate::commands::road_places::{DistrictRoads, reporting};
use crate::from_record::FromRecord;
use crate::input;
use crate::progress::Progress;

/// Share of the work that planning takes, by the progress told; the rest goes to the job packs.
const PLAN_SHARE: f64 = 0.8;

/// Plans with a district file.
pub(super) struct DistrictPlanner {
    district: PathBuf,
    /// The roads as they were at the start, for what can't wait until they are read.
    network: Option<RoadNetwork>,
    /// The same, ready to be asked for places; made when somebody first asks.
    places: OnceLock<Option<DistrictRoads>>,
}

/// What is asked for.
#[derive(Deserialize)]
struct Input {
    asked: Asked,
    holes: Vec<Known>,
}

#[derive(Deserialize)]
struct Asked {
    date: Date,
    days: u32,
    seed: u64,
    #[serde(default)]
    changes: Vec<Change>,
    #[serde(default)]
    without_learnt: Vec<String>,
    #[serde(default)]
    without_looks: bool,
}

/// What is wanted otherwise for some holes.
#[derive(Deserialize, Serialize)]
struct Change {
    holes: Vec<Uuid>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    date: Option<Date>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    crew: Option<String>,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    out: bool,
}

impl Change {
    fn pin(&self) -> Pin {
        let to = if self.out { PinnedTo::Out } else { PinnedTo::Round { date: self.date, crew: self.crew.clone() } };
        Pin { holes: self.holes.iter().map(|hole| HoleId(hole.to_string())).collect(), to }
    }
}

/// What comes of it.
#[derive(Serialize)]
struct Output {
    work_plan: Box<RawValue>,
    rounds: Vec<Happened>,
    /// Holes that can't be planned, and changes that can't be made, and why.
    refused: Vec<String>,
    /// As they were asked for.
    changes: Vec<Change>,
}

impl DistrictPlanner {
    pub(super) fn new(district: PathBuf, network: Option<RoadNetwork>) -> Self {
        Self { district, network, places: OnceLock::new() }
    }
}

impl Planner for DistrictPlanner {
    fn plan(
        &self,
        input: &str,
        record: &mut EachKnown,
        keep: &mut dyn FnMut(Vec<PlanFile>) -> Result<(), String>,
        progress: &mut dyn FnMut(f64, &str) -> bool,
    ) -> Result<String, String> {
        let Input { asked, holes } = serde_json::from_str(input).map_err(|error| error.to_string())?;
        if !self.district.exists() {
            return Err(format!("put the district file at {}", self.district.display()));
        }
        let mut setting =
            input::setting_on(&self.district, Some(asked.date)).map_err(|problems| in_words(&problems))?;
        progress(0.0, "reading the record");
        let mut from_record = FromRecord::new(&setting, asked.date).map_err(|problems| in_words(&problems))?;
        record(&mut |known| from_record.take(&known))?;
        let mut off = setting.files.record.learnt_off.clone();
        off.extend(asked.without_learnt.iter().filter_map(|word| Factored::named(word)).flatten());
        setting.rules.learnt = from_record.learnt(&off);
        let looks = (setting.files.record.looks && !asked.without_looks).then(|| from_record.looks());
        progress(0.0, "reading the roads");
        let roads = input::roads(&setting, None, &mut Progress::new()).map_err(|problems| in_words(&problems))?;
        let (heights, _) = input::heights(&setting, &roads.network);
        let forecast = weather::forecast(&setting)?;
        let mut refused = Vec::new();
        let holes: Vec<Hole> = holes
            .iter()
            .filter_map(|known| match known {
                Known::Hole(hole) => hole_of(hole).map_err(|why| refused.push(why)).ok(),
                _ => None,
            })
            .collect();
        if holes.is_empty() {
            return Err(format!("no hole waits that is measured; {} are not", refused.len()));
        }
        let input = ProgrammeInput {
            plan: PlanInput {
                district: setting.district,
                network: roads.network,
                heights,
                road_attribution: roads.attribution,
                holes,
                problems: Vec::new(),
                rules: setting.rules,
                date: asked.date,
                seed: asked.seed,
                looks,
            },
            days: asked.days,
            forecast,
            so_far: None,
            pins: asked.changes.iter().map(Change::pin).collect(),
        };
        let mut wanted = true;
        let work = plan_programme(input, &mut |step, done| {
            wanted = progress(PLAN_SHARE * done, step_words(step));
            wanted
        })
        .map_err(|error| error.to_string())?;
        if !wanted {
            return Err("stopped".to_owned());
        }
        for breach in check::pin_breaches(&work).into_iter().chain(check::look_breaches(&work)) {
            tracing::error!(%breach, "a plan is not as it should be: a fault of the program");
        }
        for not in &work.pins_refused {
            let holes: Vec<&str> = not.holes.iter().map(|hole| hole.0.as_str()).collect();
            refused.push(format!("hole {} can't be as asked: {}", holes.join(", "), not.words));
        }
        for (index, day) in work.rounds.iter().enumerate() {
            let done = index as f64 / work.rounds.len() as f64;
            if !progress(PLAN_SHARE + (1.0 - PLAN_SHARE) * done, "setting the job packs") {
                return Err("stopped".to_owned());
            }
            let round = jobpack::round_number(&day.plan);
            let files = jobpack::day_files(&day.plan).map_err(|error| error.to_string())?;
            let of_round = |file: DayFile| PlanFile {
                round,
                name: file.name,
                media_type: file.media_type.to_owned(),
                content: file.content,
            };
            keep(files.into_iter().map(of_round).collect())?;
        }
        let explained = plan::explain(&work, None, asked.seed, &mut |_| true);
        let work_plan = RawValue::from_string(jobpack::work_plan_json(&work, &explained));
        let output = Output {
            work_plan: work_plan.map_err(|error| error.to_string())?,
            rounds: work.rounds.iter().map(|day| round_of(day, &from_record)).collect(),
            refused,
            changes: asked.changes,
        };
        serde_json::to_string(&output).map_err(|error| error.to_string())
    }

    fn weather(&self) -> Result<Weather, String> {
        if !self.district.exists() {
            return Ok(Weather::default());
        }
        weather::shown(&input::setting(&self.district).map_err(|problems| in_words(&problems))?)
    }

    fn cut(&self, asked: &CutAsked) -> Result<CutShown, String> {
        let file = self.district.exists().then_some(self.district.as_path());
        let (district, rules) = input::setting_or_defaults(file).map_err(|problems| in_words(&problems))?;
        cut::cut(asked, &district, &rules, self.network.as_ref())
    }

    fn reporting(&self) -> Result<Reporting<'_>, String> {
        if !self.district.exists() {
            return Err(format!("put the district file at {}", self.district.display()));
        }
        let setting = input::setting(&self.district).map_err(|problems| in_words(&problems))?;
        let places = self.places.get_or_init(|| DistrictRoads::new(self.network.clone()?, &setting));
        reporting(&setting, places.as_ref()).map_err(|problems| in_words(&problems))
    }
}

/// A hole of the record as the stages take it. It has to be measured: nobody guesses a size.
fn hole_of(known: &KnownHole) -> Result<Hole, String> {
    let missing = |what: &str| format!("hole {}: its {what} is not known; measure it", known.hole);
    let position = known.position.as_ref().ok_or_else(|| missing("place"))?.value;
    let length = known.length_mm.as_ref().ok_or_else(|| missing("length"))?.value;
    let width = known.width_mm.as_ref().ok_or_else(|| missing("width"))?.value;
    let depth = known.depth_mm.as_ref().ok_or_else(|| missing("depth"))?.value;
    let first = known.reports.first();
    Ok(Hole {
        id: HoleId(known.hole.to_string()),
        position: LonLat { lon: position.lon, lat: position.lat },
        shape: Shape::Size { length: millimetres(length), width: millimetres(width) },
        depth: millimetres(depth),
        seen: known.seen,
        note: first.map(|report| report.note.clone()).unwrap_or_default(),
        lane_position: known.lane_position.as_ref().map(|told| told.value),
        wetness: known.wetness.as_ref().map(|told| told.value),
        source: first.map(|report| report.source.clone()).unwrap_or_default(),
        repairs: None,
        from: Locator { file: "the record".to_owned(), line: 0, column: 0 },
    })
}

/// A crew's day as it is told to the record.
fn round_of(day: &CrewDay, from_record: &FromRecord) -> Happened {
    let plan = &day.plan;
    let yardstick = from_record.yardstick(&plan.district.crew.name);
    let repairs = plan
        .round
        .trips
        .iter()
        .flatten()
        .flat_map(|&site| &plan.sites[site].jobs)
        .map(|&number| {
            let job = &plan.jobs[number];
            let repair = &job.repair;
            let road = plan.holes.get(job.holes[0]).map(|hole| hole.position.section);
            let road = road.and_then(|section| plan.network.sections.get(section.0 as usize));
            PlannedRepair {
                repair: jobpack::repair_number(plan, number),
                holes: jobpack::hole_numbers(plan, number),
                road: road.map_or_else(String::new, |section| section.name.clone()),
                road_kind: road.map(RoadKind::of),
                area_m2: repair.cut_area.value.in_square_metres(),
                base_loose_m3: decimal(repair.loose_volume.value.in_cubic_metres()),
                water_l: decimal(repair.water_to_add.value.in_kilograms()),
                binder_l: decimal(repair.binder_volume_hot.value.in_litres()),
                cover_stone_m3: decimal(repair.cover_volume.value.in_cubic_metres()),
                minutes: decimal(repair.duration.value.in_minutes()),
                basis: basis(job).map(|basis| PlannedBasis { yardstick, ..basis }),
            }
        })
        .collect();
    let zones = plan.round.trips.iter().flatten().map(|&site| zone_of(plan, site)).collect();
    let (round, crew) = (jobpack::round_number(plan), plan.district.crew.name.clone());
    Happened::RoundPlanned { round, date: plan.date, crew, repairs, zones, plan: String::new() }
}

/// What a repair rests on. Growth and power are read off the spreads: all are at the same growths, and nothing of the hole is
/// known to be open already, so that the spoil is what is dug.
fn basis(job: &PlannedJob) -> Option<PlannedBasis> {
    let repair = &job.repair;
    let (minutes, volume) = (repair.duration.spread?, repair.spoil_volume.spread?);
    let surveyed = repair.spoil_volume.value;
    let rise = (volume.p90 / volume.p10).value.ln();
    let power = (minutes.p90 / minutes.p10).value.ln() / rise;
    Some(PlannedBasis {
        depth_mm: repair.depth.value.in_millimetres(),
        growth: (volume.p50 / surveyed).value / job.factors.growth,
        minutes_power: if power.is_finite() { power.clamp(0.0, 1.0) } else { 0.0 },
        factors: job.factors,
        yardstick: None,
    })
}

/// A site's zone, as its crew tells it on when the signs stand.
fn zone_of(plan: &Plan, site: usize) -> PlannedZone {
    let zone = &plan.sites[site].zone;
    let mut stretches = jobpack::zone_stretches(plan, site);
    // one place is no stretch
    stretches.retain(|stretch| stretch.line.len() >= 2);
    PlannedZone {
        holes: zone.holes.iter().filter_map(|hole| hole.0.parse().ok()).collect(),
        road: plan.network.section(zone.section).label(),
        layout: zone.layout_name.clone(),
        devices: u32::try_from(zone.devices.len()).ok(),
        stretches,
    }
}

/// To the thousandth: no crew measures finer.
fn decimal(value: f64) -> Decimal {
    Decimal::try_from(value).unwrap_or_default().round_dp(3)
}

pub(super) fn in_words(problems: &[Problem]) -> String {
    let fatal: Vec<String> = problems
        .iter()
        .filter(|problem| problem.severity == ProblemSeverity::Fatal)
        .map(|problem| format!("{}: {}; {}", problem.at, problem.wrong, problem.right))
        .collect();
    fatal.join("\n")
}
