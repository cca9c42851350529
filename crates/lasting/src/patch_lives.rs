//! Lives of repairs from what the record knows: when each began, when and how it ended, and under what conditions it was made.
//!
//! A life begins when traffic runs over the repair, or where that was not told when it was sealed. It ends when somebody tells that
//! it failed, or when a new hole is seen near it on the same side of the road; a hole ends one life only, that of the nearest
//! repair that still held, and a hole that was told to be a repair's failure ends no other's. It is cut short, whole, when the
//! road is resurfaced, or on the day of the study.

use std::collections::{BTreeMap, HashSet};

use jiff::Timestamp;
use jiff::tz::TimeZone;
use model::hole::Wetness;
use model::life::{LifeRow, LifeRows};
use model::moisture::HandFeel;
use model::place::Side;
use model::record::conditions::{Drainage, SealingWeather};
use model::record::happened::Found;
use model::record::known::{HoleState, KnownHole, KnownRepair};
use uuid::Uuid;

use crate::interval_censored::SeenBetween;
use crate::resurfaced::{Resurfaced, Resurfacings};

const SECONDS_OF_A_DAY: f64 = 86_400.0;

/// Where on the road something is.
#[derive(Debug, Clone, PartialEq)]
pub struct OnRoad {
    /// The road section, by whatever name is the same for all of the study.
    pub road: String,
    /// Along it, m.
    pub chainage_m: f64,
    /// Side of the road.
    pub side: Side,
}

/// A repair of the study: what its life needs, and no more, so that many fit into memory.
#[derive(Debug, Clone, PartialEq)]
pub struct StudiedRepair {
    /// The repair.
    pub repair: Uuid,
    /// Holes that it mends.
    pub holes: Vec<Uuid>,
    /// When its life begins.
    pub begin: Timestamp,
    /// The failure that was told of it, or found at a look.
    pub failure: Option<LifeEnd>,
    /// The hole that was told to be its failure.
    pub failed_hole: Option<Uuid>,
    /// Area cut, m², where told.
    pub area_m2: Option<f64>,
    /// Where it is; without, no new hole can be told to be its failure.
    pub place: Option<OnRoad>,
    /// Under what conditions it was made, see [`Conditions::of`].
    pub conditions: Conditions,
}

impl StudiedRepair {
    /// A repair of the record; `None` for one that was never opened nor sealed: it has no life.
    pub fn of(known: &KnownRepair, place: Option<OnRoad>, conditions: Conditions) -> Option<Self> {
        let begin = begin(known)?;
        Some(StudiedRepair {
            repair: known.repair,
            holes: known.holes.clone(),
            begin,
            failure: failure(known, begin),
            failed_hole: known.failed_hole,
            area_m2: known.area_m2.as_ref().map(|told| told.value),
            place,
            conditions,
        })
    }
}

/// A hole that may be a repair's failure.
#[derive(Debug, Clone, PartialEq)]
pub struct SeenHole {
    /// Its number.
    pub hole: Uuid,
    /// When it was seen first.
    pub seen: Timestamp,
    /// Where.
    pub place: OnRoad,
}

/// What lives are made of.
#[derive(Debug, Clone)]
pub struct Study {
    /// The repairs.
    pub repairs: Vec<StudiedRepair>,
    /// Holes seen.
    pub holes: Vec<SeenHole>,
    /// What was resurfaced.
    pub resurfaced: Vec<Resurfaced>,
    /// When the study is made: a repair of which nothing bad is told holds until then.
    pub at: Timestamp,
    /// How near a new hole is the repair's failure, m.
    pub same_place_m: f64,
}

/// What a repair and its place were like. What is not known is absent.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Conditions {
    /// Name of the crew.
    pub crew: Option<String>,
    /// Binder, its grade or product.
    pub binder: Option<String>,
    /// Source or kind of the base.
    pub base: Option<String>,
    /// Layers placed.
    pub layers: Option<u32>,
    /// Passes of the compactor over the layer that got fewest.
    pub fewest_passes: Option<u32>,
    /// Moisture of the layer that was furthest from right.
    pub moisture: Option<HandFeel>,
    /// How wet it was below.
    pub wetness: Option<Wetness>,
    /// Whether the surface was dry when it was sealed.
    pub dry: Option<bool>,
    /// The weather around the sealing.
    pub weather: Option<SealingWeather>,
    /// Temperature of the air then, degrees Celsius.
    pub air_temperature_c: Option<f64>,
    /// Month in which it was opened, from 1.
    pub month: Option<i8>,
    /// Road section.
    pub road: Option<String>,
    /// Class of the road, or any word by which roads are told apart.
    pub road_class: Option<String>,
    /// Vehicles a day.
    pub vehicles_per_day: Option<f64>,
    /// How water leaves the road there.
    pub drainage: Option<Drainage>,
    /// What was not done by the rules, in words.
    pub deviations: Vec<String>,
}

/// A property by which lives are grouped.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)] // the words are the definition
pub enum Property {
    Crew,
    Binder,
    Base,
    Layers,
    Moisture,
    Wetness,
    Dry,
    Weather,
    Temperature,
    Month,
    Season,
    Road,
    RoadClass,
    Traffic,
    Drainage,
    Deviations,
}

/// Vehicles a day at which bands of traffic end. Common practice, no source.
const TRAFFIC_BANDS: [f64; 3] = [200.0, 1000.0, 4000.0];

/// Temperatures of the air at which bands end, degrees Celsius: those by which the opening to traffic is told in the shipped rules.
const TEMPERATURE_BANDS: [f64; 3] = [10.0, 20.0, 30.0];

impl Property {
    /// All.
    pub const ALL: [Property; 16] = [
        Property::Crew,
        Property::Base,
        Property::Binder,
        Property::Layers,
        Property::Moisture,
        Property::Wetness,
        Property::Dry,
        Property::Weather,
        Property::Temperature,
        Property::Month,
        Property::Season,
        Property::Road,
        Property::RoadClass,
        Property::Traffic,
        Property::Drainage,
        Property::Deviations,
    ];

    /// The word that it is asked for by.
    pub fn word(self) -> &'static str {
        match self {
            Property::Crew => "crew",
            Property::Binder => "binder",
            Property::Base => "material",
            Property::Layers => "layers",
            Property::Moisture => "moisture",
            Property::Wetness => "wetness",
            Property::Dry => "surface",
            Property::Weather => "weather",
            Property::Temperature => "temperature",
            Property::Month => "month",
            Property::Season => "season",
            Property::Road => "road",
            Property::RoadClass => "road-class",
            Property::Traffic => "traffic",
            Property::Drainage => "drainage",
            Property::Deviations => "rules",
        }
    }

    /// The property of a word; `None` for others.
    pub fn of(word: &str) -> Option<Self> {
        Property::ALL.into_iter().find(|property| property.word() == word)
    }
}

/// One life.
#[derive(Debug, Clone, PartialEq)]
pub struct PatchLife {
    /// The repair.
    pub repair: Uuid,
    /// When it began.
    pub begin: Timestamp,
    /// How it ended.
    pub end: LifeEnd,
    /// Under what conditions it was made.
    pub conditions: Conditions,
}

/// How a life ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LifeEnd {
    /// Somebody told then that it failed.
    ToldFailed(Timestamp),
    /// A look found it failed; at the last one before, or when it was opened, it held.
    FoundFailed {
        /// It still held then.
        held: Timestamp,
        /// The look.
        found: Timestamp,
    },
    /// A new hole was seen there then.
    NewHole {
        /// When.
        seen: Timestamp,
        /// Which.
        hole: Uuid,
    },
    /// The road was resurfaced over it, whole.
    Resurfaced(Timestamp),
    /// It held on the day of the study.
    Holds(Timestamp),
}

impl LifeEnd {
    /// When.
    pub fn at(self) -> Timestamp {
        match self {
            LifeEnd::ToldFailed(at) | LifeEnd::Resurfaced(at) | LifeEnd::Holds(at) => at,
            LifeEnd::FoundFailed { found, .. } => found,
            LifeEnd::NewHole { seen, .. } => seen,
        }
    }

    /// Whether it failed.
    pub fn failed(self) -> bool {
        !matches!(self, LifeEnd::Resurfaced(_) | LifeEnd::Holds(_))
    }
}

impl PatchLife {
    /// From begin to end, days.
    pub fn days(&self) -> f64 {
        days(self.begin, self.end.at())
    }

    /// Between which days it failed, for the estimate that does not take the day of a look for the day of the failure.
    pub fn seen_between(&self) -> SeenBetween {
        let until = self.days();
        match self.end {
            LifeEnd::FoundFailed { held, .. } => SeenBetween { after: days(self.begin, held), until },
            end if end.failed() => SeenBetween { after: until, until },
            _ => SeenBetween { after: until, until: f64::INFINITY },
        }
    }
}

impl Conditions {
    /// What the record itself knows. The road, its traffic and the crew are for the caller to add. Sealed when the air was colder than
    /// the rules' least temperature, where they have one, it was not done by the rules.
    pub fn of(repair: &KnownRepair, zone: &TimeZone, least_air_c: Option<f64>) -> Self {
        let is = |told: &Option<model::record::told::Told<bool>>, wrong: bool| {
            told.as_ref().is_some_and(|told| told.value == wrong)
        };
        let moisture = repair.layers.iter().filter_map(|layer| layer.moisture.as_ref().map(|told| told.value));
        let moisture = moisture.max_by_key(|feel| match feel {
            HandFeel::KeepsShape => 0,
            HandFeel::FallsApart => 1,
            HandFeel::Oozes => 2,
        });
        let passes = repair.layers.iter().filter_map(|layer| {
            let told = |passes: &Option<model::record::told::Told<u32>>| passes.as_ref().map(|told| told.value);
            let (still, vibrating) = (told(&layer.passes_still), told(&layer.passes_vibrating));
            (still.is_some() || vibrating.is_some()).then(|| still.unwrap_or(0) + vibrating.unwrap_or(0))
        });
        let air_temperature_c = repair.air_temperature_c.as_ref().map(|told| told.value);
        let too_cold = air_temperature_c.zip(least_air_c).is_some_and(|(air, least)| air < least);
        let deviations = [
            (is(&repair.bottom_firm, false), "bottom not firm"),
            (is(&repair.sides_upright, false), "sides not upright"),
            (is(&repair.dry, false), "sealed on a wet surface"),
            (too_cold, "sealed too cold"),
            (moisture == Some(HandFeel::Oozes), "base too wet"),
            (moisture == Some(HandFeel::FallsApart), "base too dry"),
        ];
        Conditions {
            binder: repair.binder.as_ref().map(|told| told.value.clone()).filter(|name| !name.is_empty()),
            base: base(repair),
            layers: (!repair.layers.is_empty()).then_some(repair.layers.len() as u32),
            fewest_passes: passes.min(),
            moisture,
            wetness: repair.wetness.as_ref().map(|told| told.value),
            dry: repair.dry.as_ref().map(|told| told.value),
            weather: repair.weather.as_ref().map(|told| told.value),
            air_temperature_c,
            drainage: repair.drainage.as_ref().map(|told| told.value),
            month: begin(repair).map(|at| zone.to_datetime(at).month()),
            deviations: deviations.iter().filter(|(so, _)| *so).map(|(_, words)| (*words).to_owned()).collect(),
            ..Conditions::default()
        }
    }

    /// The group that a property puts it in.
    pub fn group(&self, by: Property) -> String {
        let word = |known: Option<String>| known.unwrap_or_else(|| "not known".into());
        match by {
            Property::Crew => word(self.crew.clone()),
            Property::Binder => word(self.binder.clone()),
            Property::Base => word(self.base.clone()),
            Property::Layers => word(self.layers.map(|n| format!("{n} layer{}", if n == 1 { "" } else { "s" }))),
            Property::Moisture => word(self.moisture.map(|feel| feel.words().to_owned())),
            Property::Wetness => word(self.wetness.map(|wetness| format!("{wetness:?}").to_lowercase())),
            Property::Dry => word(self.dry.map(|dry| if dry { "dry surface" } else { "wet surface" }.into())),
            Property::Weather => word(self.weather.map(|weather| weather.words().to_owned())),
            Property::Temperature => word(self.air_temperature_c.map(temperature_band)),
            Property::Month => word(self.month.map(|month| format!("month {month:02}"))),
            Property::Season => word(self.month.map(|month| season(month).to_owned())),
            Property::Road => word(self.road.clone()),
            Property::RoadClass => word(self.road_class.clone()),
            Property::Traffic => word(self.vehicles_per_day.map(traffic_band)),
            Property::Drainage => word(self.drainage.map(|drainage| drainage.words().to_owned())),
            Property::Deviations => {
                if self.deviations.is_empty() {
                    "by the rules".into()
                } else {
                    "not by the rules".into()
                }
            }
        }
    }
}

impl SeenHole {
    /// A hole of the record that may be a repair's failure; `None` for one that is the same as another or no hole, or whose first
    /// sight nobody told.
    pub fn of(known: &KnownHole, place: OnRoad) -> Option<Self> {
        let seen = known.reports.first().map(|report| report.by.at)?;
        was_hole(known.state, known.dealt_with).then_some(SeenHole { hole: known.hole, seen, place })
    }
}

/// Whether there was a hole, and none that another stands for. One that the office closed was: others dealt with it.
pub(crate) fn was_hole(state: HoleState, dealt_with: bool) -> bool {
    match state {
        HoleState::SameAsOther => false,
        HoleState::Dismissed => dealt_with,
        HoleState::Reported | HoleState::Planned | HoleState::Begun | HoleState::Mended | HoleState::Resurfaced => true,
    }
}

/// The lives of a study, in the order of its repairs. A repair that is opened after the study has none.
pub fn patch_lives(study: &Study) -> Vec<PatchLife> {
    let resurfacings = Resurfacings::of(&study.resurfaced);
    let alone = |repair| life_alone(study, &resurfacings, repair);
    let mut lives: Vec<Option<PatchLife>> = study.repairs.iter().map(alone).collect();
    let mut on_side: BTreeMap<(&str, bool), Vec<usize>> = BTreeMap::new();
    for (at, repair) in study.repairs.iter().enumerate() {
        if let (Some(place), Some(_)) = (&repair.place, &lives[at]) {
            on_side.entry(key(place)).or_default().push(at);
        }
    }
    let told: HashSet<Uuid> = study
        .repairs
        .iter()
        .filter(|repair| repair.failure.is_some_and(|end| end.at() <= study.at))
        .filter_map(|repair| repair.failed_hole)
        .collect();
    let may_end = |hole: &&SeenHole| hole.seen <= study.at && !told.contains(&hole.hole);
    let mut holes: Vec<&SeenHole> = study.holes.iter().filter(may_end).collect();
    holes.sort_by_key(|hole| (hole.seen, hole.hole));
    for hole in holes {
        let near = on_side.get(&key(&hole.place)).into_iter().flatten().filter_map(|at| {
            let (repair, life) = (&study.repairs[*at], lives[*at].as_ref()?);
            let away = (repair.place.as_ref()?.chainage_m - hole.place.chainage_m).abs();
            let stood = life.begin < hole.seen && hole.seen < life.end.at();
            let other = !repair.holes.contains(&hole.hole);
            (away <= study.same_place_m && stood && other).then_some((away, life.begin, *at))
        });
        let nearest = near.min_by(|a, b| a.0.total_cmp(&b.0).then(b.1.cmp(&a.1)));
        if let Some(life) = nearest.and_then(|(_, _, at)| lives[at].as_mut()) {
            life.end = LifeEnd::NewHole { seen: hole.seen, hole: hole.hole };
        }
    }
    lives.into_iter().flatten().collect()
}

/// Lives in groups, in thousands of vehicles that ran over each, in place of days. Lives of which the traffic is not known are left
/// out; how many, too.
pub fn rows_by_traffic(lives: &[PatchLife], by: Property) -> (LifeRows, usize) {
    let known: Vec<PatchLife> =
        lives.iter().filter(|life| life.conditions.vehicles_per_day.is_some()).cloned().collect();
    let mut of = rows_by(&known, by);
    for (row, life) in of.rows.iter_mut().zip(&known) {
        row.duration *= life.conditions.vehicles_per_day.unwrap_or_default() / 1000.0;
    }
    (of, lives.len() - known.len())
}

/// Lives in groups, days.
pub fn rows_by(lives: &[PatchLife], by: Property) -> LifeRows {
    let names: Vec<String> = lives.iter().map(|life| life.conditions.group(by)).collect();
    let mut groups = names.clone();
    groups.sort_unstable();
    groups.dedup();
    let rows = lives.iter().zip(&names).filter_map(|(life, name)| {
        let group = groups.binary_search(name).ok()? as u32;
        Some(LifeRow { duration: life.days(), group, failed: life.end.failed() })
    });
    LifeRows { rows: rows.collect(), groups }
}

/// Three months by their names: which season they are depends on the half of the globe.
pub(crate) fn season(month: i8) -> &'static str {
    match month {
        3..=5 => "March to May",
        6..=8 => "June to August",
        9..=11 => "September to November",
        _ => "December to February",
    }
}

fn traffic_band(vehicles_per_day: f64) -> String {
    let [low, middle, high] = TRAFFIC_BANDS;
    match vehicles_per_day {
        v if v < low => format!("under {low} a day"),
        v if v < middle => format!("{low} to {middle} a day"),
        v if v < high => format!("{middle} to {high} a day"),
        _ => format!("{high} a day and more"),
    }
}

fn temperature_band(air_c: f64) -> String {
    let [cold, mild, warm] = TEMPERATURE_BANDS;
    match air_c {
        c if c < cold => format!("under {cold} °C"),
        c if c < mild => format!("{cold} to {mild} °C"),
        c if c < warm => format!("{mild} to {warm} °C"),
        _ => format!("{warm} °C and more"),
    }
}

/// Kind or source of the base; of several, all, in the order in which they went in.
fn base(repair: &KnownRepair) -> Option<String> {
    let mut kinds: Vec<&str> = Vec::new();
    for told in repair.layers.iter().filter_map(|layer| layer.base.as_ref()) {
        let kind = told.value.trim();
        if !kind.is_empty() && !kinds.contains(&kind) {
            kinds.push(kind);
        }
    }
    (!kinds.is_empty()).then(|| kinds.join(" + "))
}

/// When a repair's life begins.
fn begin(repair: &KnownRepair) -> Option<Timestamp> {
    repair.opened.as_ref().or(repair.sealed.as_ref()).map(|by| by.at)
}

/// The life as the repair's own events and the resurfacings tell it.
fn life_alone(study: &Study, resurfacings: &Resurfacings, repair: &StudiedRepair) -> Option<PatchLife> {
    let begin = Some(repair.begin).filter(|begin| *begin <= study.at)?;
    let resurfaced = repair.place.as_ref().and_then(|place| resurfacings.first_after(place, begin));
    let whole = match resurfaced {
        Some(at) if at <= study.at => LifeEnd::Resurfaced(at),
        _ => LifeEnd::Holds(study.at),
    };
    let failed = repair.failure.filter(|end| end.at() <= whole.at());
    Some(PatchLife {
        repair: repair.repair,
        begin,
        end: failed.unwrap_or(whole),
        conditions: repair.conditions.clone(),
    })
}

/// The failure that was told of a repair itself, or found at a look.
fn failure(repair: &KnownRepair, begin: Timestamp) -> Option<LifeEnd> {
    let looks = || repair.inspections.iter().filter(|look| look.by.at >= begin);
    let found = looks().filter(|look| look.found == Found::Failed).map(|look| look.by.at).min();
    let told = repair.failed.as_ref().map(|by| by.at.max(begin));
    match (found, told) {
        // whoever tells it at the look tells of the look
        (Some(found), told) if told.is_none_or(|told| found <= told) => {
            let held = looks().filter(|look| look.found != Found::Failed && look.by.at < found);
            Some(LifeEnd::FoundFailed { held: held.map(|look| look.by.at).max().unwrap_or(begin), found })
        }
        (_, told) => told.map(LifeEnd::ToldFailed),
    }
}

fn key(place: &OnRoad) -> (&str, bool) {
    (&place.road, place.side == Side::Right)
}

fn days(from: Timestamp, to: Timestamp) -> f64 {
    (to.duration_since(from).as_secs_f64() / SECONDS_OF_A_DAY).max(0.0)
}
