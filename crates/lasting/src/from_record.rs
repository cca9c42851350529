//! The study of lives from what the record knows, taken in piece by piece: of each repair and hole only what its life needs is
//! kept, so that the record can stream by.

use std::collections::HashMap;

use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use model::place::Side;
use model::record::conditions::StretchSide;
use model::record::happened::Position;
use model::record::known::{HoleState, Known, KnownHole, KnownRepair, KnownResurfacing};
use model::rules::lasting::LastingRules;
use uuid::Uuid;

use crate::patch_lives::{Conditions, OnRoad, SeenHole, StudiedRepair, Study, was_hole};
use crate::resurfaced::Resurfaced;

/// What the roads say of places: passed in, since roads are another crate's business.
pub trait RoadPlaces: Send + Sync {
    /// Where on a road a place is; `None` where no road is near enough.
    fn at(&self, position: Position) -> Option<RoadPlace>;

    /// The stretches of sections that lie between two places on one road, which may be named; nothing where they are on no road, or no
    /// road leads from one to the other.
    fn between(&self, from: Position, to: Position, road: &str) -> Vec<RoadStretch>;

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

/// A stretch of one section on the way from one place to another.
#[derive(Debug, Clone, PartialEq)]
pub struct RoadStretch {
    /// The section, as in [`OnRoad::road`].
    pub road: String,
    /// From and to along it, m, the smaller first.
    pub stretch_m: (f64, f64),
    /// Whether the way goes along it with increasing chainage.
    pub forward: bool,
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
    /// When the road got a new surface there before it was mended.
    pub resurfaced: Option<Timestamp>,
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

/// The record as far as it was taken in. Rounds, zones and resurfacings go first, since holes and repairs are told of by them.
pub struct RecordTaken<'t> {
    places: Option<&'t dyn RoadPlaces>,
    zone: &'t TimeZone,
    judge: Option<(&'t dyn HoleJudge, Date)>,
    least_air_c: Option<f64>,
    crews: HashMap<Uuid, String>,
    zone_roads: HashMap<Uuid, String>,
    zone_rounds: HashMap<Uuid, Uuid>,
    repairs: Vec<StudiedRepair>,
    seen: Vec<SeenHole>,
    holes: Vec<ToldHole>,
    resurfaced: Vec<Resurfaced>,
    resurfaced_at: HashMap<Uuid, Timestamp>,
    /// Resurfacings that lie on no road of ours.
    resurfaced_nowhere: u64,
    /// Repairs that have begun but whose life has not.
    not_opened: u64,
}

impl<'t> RecordTaken<'t> {
    /// Kinds of what is known, in the order in which they are taken.
    pub const ORDER: [&'static str; 5] = ["round", "zone", "resurfacing", "hole", "repair"];

    /// Nothing yet. Without roads no new hole can be told to be a repair's failure.
    pub fn new(places: Option<&'t dyn RoadPlaces>, zone: &'t TimeZone) -> Self {
        RecordTaken {
            places,
            zone,
            judge: None,
            least_air_c: None,
            crews: HashMap::new(),
            zone_roads: HashMap::new(),
            zone_rounds: HashMap::new(),
            repairs: Vec::new(),
            seen: Vec::new(),
            holes: Vec::new(),
            resurfaced: Vec::new(),
            resurfaced_at: HashMap::new(),
            resurfaced_nowhere: 0,
            not_opened: 0,
        }
    }

    /// Holes are judged as they stood on a day.
    #[must_use]
    pub fn judged_by(self, judge: &'t dyn HoleJudge, on: Date) -> Self {
        RecordTaken { judge: Some((judge, on)), ..self }
    }

    /// Sealed when the air was colder, a repair was not made by the rules.
    #[must_use]
    pub fn sealed_from(self, least_air_c: Option<f64>) -> Self {
        RecordTaken { least_air_c, ..self }
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
            Known::Resurfacing(resurfacing) => self.take_resurfacing(resurfacing),
        }
    }

    /// Repairs that were begun and neither opened nor sealed: they have no life yet.
    pub fn not_opened(&self) -> u64 {
        self.not_opened
    }

    /// Resurfacings whose stretch can't be found on the roads: no life is cut short by them.
    pub fn resurfaced_nowhere(&self) -> u64 {
        self.resurfaced_nowhere
    }

    /// The study of what was taken in, and the holes.
    pub fn study(self, at: Timestamp, rules: &LastingRules) -> (Study, Vec<ToldHole>) {
        let study = Study {
            repairs: self.repairs,
            holes: self.seen,
            resurfaced: self.resurfaced,
            at,
            same_place_m: rules.same_place_m.value,
        };
        (study, self.holes)
    }

    fn take_resurfacing(&mut self, known: &KnownResurfacing) {
        // patches made for it, on the same day or before, lie under it
        let end_of_day = self.zone.to_timestamp(known.date.value.at(23, 59, 59, 0));
        let Ok(at) = end_of_day else { return };
        self.resurfaced_at.insert(known.resurfacing, at);
        let road = known.road.as_ref().map_or("", |told| &told.value);
        let stretches = self.places.map(|places| places.between(known.from.value, known.to.value, road));
        let stretches = stretches.unwrap_or_default();
        self.resurfaced_nowhere += u64::from(stretches.is_empty());
        self.resurfaced.extend(stretches.into_iter().map(|stretch| Resurfaced {
            side: known.side.as_ref().map(|told| match (told.value, stretch.forward) {
                (StretchSide::Left, true) | (StretchSide::Right, false) => Side::Left,
                (StretchSide::Right, true) | (StretchSide::Left, false) => Side::Right,
            }),
            road: stretch.road,
            stretch_m: stretch.stretch_m,
            at,
        }));
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
            resurfaced: hole.resurfaced.as_ref().and_then(|told| self.resurfaced_at.get(&told.value)).copied(),
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
        let mut conditions = Conditions::of(repair, self.zone, self.least_air_c);
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
