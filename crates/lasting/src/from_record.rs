//! The study of lives from what the record knows, taken in piece by piece: of each repair and hole only what its life needs is
//! kept, so that the record can stream by.

use std::collections::HashMap;

use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use model::record::happened::Position;
use model::record::known::{HoleState, Known, KnownHole, KnownRepair};
use model::rules::lasting::LastingRules;
use uuid::Uuid;

use crate::patch_lives::{Conditions, OnRoad, SeenHole, StudiedRepair, Study, was_hole};

/// What the roads say of places: passed in, since roads are another crate's business.
pub trait RoadPlaces: Send + Sync {
    /// Where on a road a place is; `None` where no road is near enough.
    fn at(&self, position: Position) -> Option<RoadPlace>;

    /// All sections of road that are kept up.
    fn all(&self) -> Vec<KeptSection>;
}

/// Judges a hole as it stood on a day; passed in likewise.
pub trait HoleJudge: Send + Sync {
    /// `None` for a hole that is not measured or lies on no road.
    fn judge(&self, hole: &KnownHole, on: Date) -> Option<JudgedHole>;
}

/// How bad a hole was judged to be.
#[derive(Debug, Clone, PartialEq)]
pub struct JudgedHole {
    /// Points of risk.
    pub risk: f64,
    /// Severity in a word.
    pub severity: String,
    /// Day by which it is to be mended; `None`: no time is set.
    pub due: Option<Date>,
    /// The judgement in a sentence.
    pub sentence: String,
}

/// A place on a road.
#[derive(Debug, Clone, PartialEq)]
pub struct RoadPlace {
    /// Section, chainage, side.
    pub on: OnRoad,
    /// The road's name, as in [`KeptSection`].
    pub name: String,
    /// Its class in a word.
    pub class: String,
    /// Vehicles a day, where known.
    pub vehicles_per_day: Option<f64>,
}

/// A section of road that is kept up.
#[derive(Debug, Clone, PartialEq)]
pub struct KeptSection {
    /// What it is called in [`OnRoad::road`].
    pub key: String,
    /// The road's name.
    pub name: String,
    /// Length, m.
    pub length_m: f64,
    /// Sealed width, m.
    pub width_m: f64,
}

/// A hole as it was first told of, and how far it has come.
#[derive(Debug, Clone, PartialEq)]
pub struct ToldHole {
    /// Which.
    pub hole: Uuid,
    /// When it was first told of; `None`: nobody reported it.
    pub told: Option<Timestamp>,
    /// The road, by name; empty where not known.
    pub road: String,
    /// Where on it, where known.
    pub place: Option<OnRoad>,
    /// How far it has come.
    pub state: HoleState,
    /// It was dismissed because others have dealt with it.
    pub dealt_with: bool,
    /// How bad it was judged to be, where somebody judges and it is measured.
    pub judged: Option<JudgedHole>,
}

impl ToldHole {
    /// Whether it is a hole at all, and none that another stands for.
    pub fn counts(&self) -> bool {
        was_hole(self.state, self.dealt_with)
    }

    /// Whether the office said that nothing is to be mended there.
    pub fn is_dismissed(&self) -> bool {
        self.state == HoleState::Dismissed
    }
}

/// The record as far as it was taken in. Rounds and zones go first, since repairs are told of by them; then holes, repairs.
pub struct RecordTaken<'t> {
    places: Option<&'t dyn RoadPlaces>,
    zone: &'t TimeZone,
    judge: Option<(&'t dyn HoleJudge, Date)>,
    crews: HashMap<Uuid, String>,
    zone_roads: HashMap<Uuid, String>,
    zone_rounds: HashMap<Uuid, Uuid>,
    repairs: Vec<StudiedRepair>,
    seen: Vec<SeenHole>,
    holes: Vec<ToldHole>,
    /// Repairs that have begun but whose life has not.
    not_opened: u64,
}

impl<'t> RecordTaken<'t> {
    /// Kinds of what is known, in the order in which they are taken.
    pub const ORDER: [&'static str; 4] = ["round", "zone", "hole", "repair"];

    /// Nothing yet. Without roads no new hole can be told to be a repair's failure.
    pub fn new(places: Option<&'t dyn RoadPlaces>, zone: &'t TimeZone) -> Self {
        RecordTaken {
            places,
            zone,
            judge: None,
            crews: HashMap::new(),
            zone_roads: HashMap::new(),
            zone_rounds: HashMap::new(),
            repairs: Vec::new(),
            seen: Vec::new(),
            holes: Vec::new(),
            not_opened: 0,
        }
    }

    /// Holes are judged as they stood on a day.
    #[must_use]
    pub fn judged_by(self, judge: &'t dyn HoleJudge, on: Date) -> Self {
        RecordTaken { judge: Some((judge, on)), ..self }
    }

    /// Takes one in.
    pub fn take(&mut self, known: &Known) {
        match known {
            Known::Round(round) => {
                if let Some(crew) = &round.crew {
                    self.crews.insert(round.round, crew.value.clone());
                }
            }
            Known::Zone(zone) => {
                if let Some(road) = &zone.road {
                    self.zone_roads.insert(zone.zone, road.value.clone());
                }
                if let Some(round) = &zone.round {
                    self.zone_rounds.insert(zone.zone, round.value);
                }
            }
            Known::Hole(hole) => self.take_hole(hole),
            Known::Repair(repair) => self.take_repair(repair),
            Known::Resurfacing(_) => {}
        }
    }

    /// Repairs that were begun and neither opened nor sealed: they have no life yet.
    pub fn not_opened(&self) -> u64 {
        self.not_opened
    }

    /// The study of what was taken in, and the holes. Resurfacings are in no record yet: there are none.
    pub fn study(self, at: Timestamp, rules: &LastingRules) -> (Study, Vec<ToldHole>) {
        let study = Study {
            repairs: self.repairs,
            holes: self.seen,
            resurfaced: Vec::new(),
            at,
            same_place_m: rules.same_place_m.value,
        };
        (study, self.holes)
    }

    fn take_hole(&mut self, hole: &KnownHole) {
        let place = hole.position.as_ref().and_then(|told| self.places?.at(told.value));
        self.holes.push(ToldHole {
            hole: hole.hole,
            told: hole.reports.first().map(|report| report.by.at),
            road: place.as_ref().map(|place| place.name.clone()).unwrap_or_default(),
            place: place.as_ref().map(|place| place.on.clone()),
            state: hole.state,
            dealt_with: hole.dealt_with,
            judged: self.judge.and_then(|(judge, on)| judge.judge(hole, on)),
        });
        self.seen.extend(place.and_then(|place| SeenHole::of(hole, place.on)));
    }

    fn take_repair(&mut self, repair: &KnownRepair) {
        let place = repair.position.and_then(|position| self.places?.at(position));
        let zone = repair.zone.as_ref().map(|told| told.value);
        let planned = repair.planned.as_ref().map(|told| told.value.road.clone()).filter(|road| !road.is_empty());
        let of_zone = || zone.and_then(|zone| self.zone_roads.get(&zone)).cloned();
        let round = repair.round.as_ref().map(|told| told.value);
        let round = round.or_else(|| zone.and_then(|zone| self.zone_rounds.get(&zone)).copied());
        let mut conditions = Conditions::of(repair, self.zone);
        conditions.crew = round.and_then(|round| self.crews.get(&round)).cloned();
        conditions.road = place.as_ref().map(|place| place.name.clone()).or(planned).or_else(of_zone);
        if let Some(place) = &place {
            conditions.road_class = Some(place.class.clone());
            conditions.vehicles_per_day = place.vehicles_per_day;
        }
        match StudiedRepair::of(repair, place.map(|place| place.on), conditions) {
            Some(studied) => self.repairs.push(studied),
            None => self.not_opened += u64::from(repair.cut.is_some()),
        }
    }
}
