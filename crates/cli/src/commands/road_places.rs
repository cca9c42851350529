//! What the district's roads say of places of the record.

use std::path::Path;

use exchange::rules::{RuleKind, load_rules};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use lasting::from_record::{HoleJudge, JudgedHole, KeptSection, RoadPlace, RoadPlaces, RoadStretch};
use lasting::patch_lives::OnRoad;
use model::district::{DrivingSide, Paper, UnitSystem};
use model::month_report::ReportSheet;
use model::place::{LonLat, RoadPosition, Travel};
use model::problem::Problem;
use model::quantity::{InLength as _, Length, millimetres};
use model::record::happened::Position;
use model::record::known::KnownHole;
use model::record::told::Told;
use model::road::{RoadNetwork, RoadSection};
use model::rules::planning::PlanningRules;
use model::rules::severity::SeverityRules;
use model::triage::Severity;
use plan::is_kept_up;
use roads::{Network, TruckSpeeds};
use server::reporting::Reporting;
use triage::TriageInput;

use super::lasting::RULES;
use crate::input::{self, PLANNING_RULES, Setting};
use crate::progress::Progress;

/// The district of a data folder, as far as there is one.
pub(crate) struct RecordDistrict {
    /// Its file with its rules; `None`: there is no file.
    pub setting: Option<Setting>,
    /// Its roads; `None` without a file.
    pub places: Option<DistrictRoads>,
    /// Its time zone; UTC without a file.
    pub zone: TimeZone,
}

impl RecordDistrict {
    /// Reads `district.toml` in the folder of a record, and its roads.
    pub(crate) fn of_folder(folder: &Path, progress: &mut Progress) -> Result<Self, Vec<Problem>> {
        let file = folder.join("district.toml");
        if !file.exists() {
            return Ok(Self { setting: None, places: None, zone: TimeZone::UTC });
        }
        let setting = input::setting(&file)?;
        let network = input::roads(&setting, None, progress)?.network;
        let places = DistrictRoads::new(network, &setting);
        let zone = TimeZone::get(&setting.district.time_zone).unwrap_or(TimeZone::UTC);
        Ok(Self { setting: Some(setting), places, zone })
    }

    /// What reports need; without a district file, nothing but the rules.
    pub(crate) fn reporting(&self, folder: &Path) -> Result<Reporting<'_>, Vec<Problem>> {
        let Some(setting) = &self.setting else {
            let rules = load_rules(RuleKind::Lasting, RULES, Some(folder))?;
            let planning: PlanningRules = load_rules(RuleKind::Planning, PLANNING_RULES, Some(folder))?;
            let least_air_c = Some(planning.weather.air_temperature_c_min.value);
            let (units, paper) = (UnitSystem::Si, Paper::A4);
            return Ok(Reporting { roads: None, judge: None, rules, least_air_c, units, paper, print });
        };
        reporting(setting, self.places.as_ref())
    }
}

/// What reports need of a district and its roads.
pub(crate) fn reporting<'p>(
    setting: &Setting,
    places: Option<&'p DistrictRoads>,
) -> Result<Reporting<'p>, Vec<Problem>> {
    Ok(Reporting {
        roads: places.map(|places| places as &dyn RoadPlaces),
        judge: places.map(|places| places as &dyn HoleJudge),
        rules: load_rules(RuleKind::Lasting, RULES, Some(&setting.folder))?,
        least_air_c: Some(setting.rules.planning.weather.air_temperature_c_min.value),
        units: setting.district.units,
        paper: setting.district.paper,
        print,
    })
}

fn print(sheet: &ReportSheet, until: Date) -> Result<Vec<u8>, String> {
    jobpack::month_report_pdf(sheet, until).map_err(|error| error.to_string())
}

/// The roads, ready to be asked.
pub(crate) struct DistrictRoads {
    network: Network,
    /// By section.
    kept_up: Vec<bool>,
    snap_limit: Length,
    driving_side: DrivingSide,
    severity: SeverityRules,
    units: UnitSystem,
    zone: TimeZone,
}

impl DistrictRoads {
    /// `None` for roads that can't be made ready.
    pub(crate) fn new(network: RoadNetwork, setting: &Setting) -> Option<Self> {
        let district = &setting.district;
        let kept_up = network.sections.iter().map(|section| is_kept_up(section, district)).collect();
        let truck = &district.truck;
        let speeds = TruckSpeeds { factor: truck.speed_factor, max: truck.speed_max };
        let network = Network::prepare(network, speeds).ok()?;
        let (snap_limit, driving_side) = (district.planning.snap_limit, district.driving_side);
        let zone = TimeZone::get(&district.time_zone).unwrap_or(TimeZone::UTC);
        let (severity, units) = (setting.rules.severity.clone(), district.units);
        Some(Self { network, kept_up, snap_limit, driving_side, severity, units, zone })
    }

    fn snap(&self, position: Position) -> Option<(RoadPosition, &RoadSection)> {
        self.snap_to(position, &|section| self.is_kept_up(section))
    }

    fn snap_to(
        &self,
        position: Position,
        accept: &dyn Fn(&RoadSection) -> bool,
    ) -> Option<(RoadPosition, &RoadSection)> {
        let place = LonLat { lon: position.lon, lat: position.lat };
        let found = self.network.snap(place, None, self.snap_limit, self.driving_side, accept).ok()?;
        let section = self.network.section(found.section);
        Some((found, section))
    }

    fn is_kept_up(&self, section: &RoadSection) -> bool {
        self.kept_up[section.id.0 as usize]
    }
}

impl RoadPlaces for DistrictRoads {
    fn at(&self, position: Position) -> Option<RoadPlace> {
        let (found, section) = self.snap(position)?;
        Some(RoadPlace {
            on: OnRoad { road: key(section), chainage_m: found.chainage.in_metres(), side: found.side },
            name: section.label(),
            class: section.class.word().to_owned(),
            vehicles_per_day: section.vehicles_per_day,
        })
    }

    fn between(&self, from: Position, to: Position, road: &str) -> Vec<RoadStretch> {
        let wanted = road.trim().to_lowercase();
        let is_named = |section: &RoadSection| {
            let texts = [&section.name, &section.number, &section.source_id, &section.label()];
            self.is_kept_up(section) && texts.iter().any(|text| !text.is_empty() && text.to_lowercase() == wanted)
        };
        // near a junction the name says which of the roads is meant
        let end = |position| self.snap_to(position, &is_named).or_else(|| self.snap(position));
        let (Some((from, _)), Some((to, _))) = (end(from), end(to)) else { return Vec::new() };
        let stretches = self.network.stretches_between(&from, &to, &|section| self.is_kept_up(section));
        let of_section = |stretch: roads::SectionStretch| RoadStretch {
            road: key(self.network.section(stretch.section)),
            stretch_m: (stretch.from.in_metres(), stretch.to.in_metres()),
            forward: stretch.direction == Travel::Forward,
        };
        stretches.into_iter().map(of_section).collect()
    }

    fn all(&self) -> Vec<KeptSection> {
        let kept_up = |section: &&RoadSection| self.is_kept_up(section);
        let kept = self.network.roads().sections.iter().filter(kept_up).map(|section| KeptSection {
            key: key(section),
            name: section.label(),
            length_m: section.length.in_metres(),
            width_m: section.width.in_metres(),
        });
        kept.collect()
    }
}

impl HoleJudge for DistrictRoads {
    fn judge(&self, hole: &KnownHole, on: Date) -> Option<JudgedHole> {
        let (position, size) = (hole.position.as_ref()?.value, |told: &Option<Told<f64>>| Some(told.as_ref()?.value));
        let (_, section) = self.snap(position)?;
        let (length, width) = (millimetres(size(&hole.length_mm)?), millimetres(size(&hole.width_mm)?));
        let input = TriageInput {
            depth: millimetres(size(&hole.depth_mm)?),
            area: length * width,
            least_plan_dimension: length.min(width),
            lane_position: hole.lane_position.as_ref().map(|told| told.value),
            wetness: hole.wetness.as_ref().map(|told| told.value),
            speed: section.speed,
            class: section.class,
            vehicles_per_day: section.vehicles_per_day,
            seen: hole.seen.or_else(|| {
                let told = hole.reports.first()?.by.at;
                Some(self.zone.to_datetime(told).date())
            }),
            sized: None,
        };
        let judgement = triage::judge(&input, &self.severity, on, self.units);
        Some(JudgedHole {
            risk: judgement.risk.value,
            severity: Severity::word(judgement.severity).to_owned(),
            due: judgement.due,
            sentence: judgement.sentence,
        })
    }
}

fn key(section: &RoadSection) -> String {
    format!("{} {}", section.source_id, section.id.0)
}
