//! The district: depot, crew, truck, plant, materials, and the settings an agency chooses. Crews, depots and supply places
//! beside these are in [`crate::crews`].

use jiff::civil::Time as ClockTime;
use serde::Deserialize;

pub use crate::crews::{FurtherCrew, Prices, SuppliedGood, SupplyPlace};
use crate::moisture::Weather;
use crate::place::LonLat;
use crate::quantity::{Length, Mass, MassDensity, Ratio, Time, Velocity, Volume};
use crate::road::RoadClass;
use crate::site_unit::SiteUnit;

/// Everything about one district that the plan needs besides roads and holes.
#[derive(Debug, Clone, PartialEq)]
pub struct District {
    /// Name for the cover sheet.
    pub name: String,
    /// IANA time zone, e.g. `Etc/GMT+2`; known to the zone database.
    pub time_zone: String,
    /// Road file, relative to the district file.
    pub roads_file: Option<String>,
    /// Which rule sets.
    pub rule_sets: RuleSetNames,
    /// Side of the road traffic keeps to.
    pub driving_side: DrivingSide,
    /// Units for display.
    pub units: UnitSystem,
    /// Paper.
    pub paper: Paper,
    /// Language of the job pack.
    pub language: String,
    /// Where the crew starts and ends.
    pub depot: Depot,
    /// The crew.
    pub crew: Crew,
    /// Working time.
    pub shift: Shift,
    /// Hours in which work may not stop traffic.
    pub barred_hours: Vec<BarredHours>,
    /// The truck.
    pub truck: Truck,
    /// Plant.
    pub plant: Plant,
    /// Base material.
    pub base: BaseMaterial,
    /// Weather of the day or of the season, where it is told.
    pub weather: Option<Weather>,
    /// Cover stone.
    pub cover_stone: CoverStone,
    /// Binder.
    pub binder: Binder,
    /// What the crew counts in on the site.
    pub site_units: Vec<SiteUnit>,
    /// Traffic devices owned.
    pub devices_owned: DevicesOwned,
    /// Crews beside the one above.
    pub further_crews: Vec<FurtherCrew>,
    /// Depots beside the one above.
    pub further_depots: Vec<Depot>,
    /// Where a truck may load or tip besides its depot.
    pub supply_places: Vec<SupplyPlace>,
    /// Work and risk in money.
    pub prices: Prices,
    /// Settings of the planning itself.
    pub planning: Planning,
}

/// Names of the rule sets chosen; each a file in `rules/` or beside the district file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RuleSetNames {
    /// Traffic control.
    pub traffic: String,
    /// Repair practice.
    pub repair: String,
    /// Severity and due times.
    pub severity: String,
    /// Road defaults.
    pub roads: String,
}

/// Side of the road traffic keeps to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the words are the definition
pub enum DrivingSide {
    Left,
    Right,
}

/// Units for display.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum UnitSystem {
    /// Metres, litres, kilograms, km/h.
    Si,
    /// Feet and inches, US gallons, pounds, mph.
    UsCustomary,
}

/// Paper of the job pack.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Paper {
    /// ISO 216 A4.
    A4,
    /// US Letter.
    UsLetter,
}

/// The depot.
#[derive(Debug, Clone, PartialEq)]
pub struct Depot {
    /// Name.
    pub name: String,
    /// Where.
    pub position: LonLat,
}

/// The crew.
#[derive(Debug, Clone, PartialEq)]
pub struct Crew {
    /// Name.
    pub name: String,
    /// People in all, flaggers included.
    pub people: u32,
}

/// Working time.
#[derive(Debug, Clone, PartialEq)]
pub struct Shift {
    /// Start at the depot.
    pub start: ClockTime,
    /// Back at the depot.
    pub end: ClockTime,
    /// Break, if any.
    pub rest: Option<ShiftBreak>,
    /// Work on the road starts not sooner than this after sunrise and ends this before sunset.
    pub daylight_margin: Time,
}

/// A break in the shift.
#[derive(Debug, Clone, PartialEq)]
pub struct ShiftBreak {
    /// Not before.
    pub earliest: ClockTime,
    /// Not after.
    pub latest: ClockTime,
    /// How long.
    pub length: Time,
}

/// Hours in which work may not stop traffic on some classes of road.
#[derive(Debug, Clone, PartialEq)]
pub struct BarredHours {
    /// Classes it holds for.
    pub classes: Vec<RoadClass>,
    /// From.
    pub from: ClockTime,
    /// To.
    pub to: ClockTime,
}

/// The truck.
#[derive(Debug, Clone, PartialEq)]
pub struct Truck {
    /// Name.
    pub name: String,
    /// Greatest mass of everything loaded.
    pub payload: Mass,
    /// Bins on the body.
    pub compartments: Vec<Compartment>,
    /// Tanks.
    pub tanks: Vec<Tank>,
    /// Truck speed as a fraction of the speed limit.
    pub speed_factor: Ratio,
    /// Truck's greatest speed.
    pub speed_max: Velocity,
    /// Mass and measures, where roads have limits.
    pub size: TruckSize,
}

/// A truck's mass and outer measures, laden and with everything that sticks out. What is not given is within every limit.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct TruckSize {
    /// Greatest mass of the laden truck, with its trailer if it pulls one.
    pub gross_mass: Option<Mass>,
    /// Height.
    pub height: Option<Length>,
    /// Width.
    pub width: Option<Length>,
    /// Length, with the trailer.
    pub length: Option<Length>,
}

/// A bin on the body. What may lie in it; base and spoil together means a movable partition.
#[derive(Debug, Clone, PartialEq)]
pub struct Compartment {
    /// Name.
    pub name: String,
    /// Struck volume.
    pub volume: Volume,
    /// What it may hold: `[Base]`, `[Spoil]`, `[CoverStone]`, or `[Base, Spoil]`.
    pub holds: Vec<Cargo>,
}

/// Loose goods on the body.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the words are the definition
pub enum Cargo {
    Base,
    CoverStone,
    Spoil,
}

/// A tank.
#[derive(Debug, Clone, PartialEq)]
pub struct Tank {
    /// Name.
    pub name: String,
    /// Usable volume.
    pub volume: Volume,
    /// What it holds.
    pub holds: Liquid,
}

/// Liquids.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the words are the definition
pub enum Liquid {
    Binder,
    Water,
}

/// Plant aboard. The best compactor that fits is used.
#[derive(Debug, Clone, PartialEq)]
pub struct Plant {
    /// Compactors the crew owns. A hand tamper is always aboard, listed or not.
    pub compactors: Vec<Compactor>,
    /// How binder is applied.
    pub applicator: Applicator,
    /// What binder is carried to the cut in; empty: as the rules say.
    pub containers: Vec<Container>,
}

/// A pot or can that binder is carried in.
#[derive(Debug, Clone, PartialEq)]
pub struct Container {
    /// Name.
    pub name: String,
    /// What it is filled to, not its brim.
    pub volume: Volume,
}

/// A compactor the crew owns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Compactor {
    /// Which kind.
    pub kind: CompactorKind,
    /// Width of drum, plate or foot; `None`: as usual for its kind.
    pub width: Option<Length>,
    /// Working speed; `None`: as usual for its kind.
    pub speed: Option<Velocity>,
}

/// Kinds of compactor, by the trade's names.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CompactorKind {
    /// A weight on a handle.
    HandTamper,
    /// Plate with a vibrator, light enough for two to lift.
    VibratingPlate,
    /// Reversible plate of some hundred kilograms.
    HeavyPlate,
    /// Rammer on a narrow foot.
    TrenchRammer,
    /// Small vibratory roller walked behind, or steered from beside the trench.
    PedestrianRoller,
    /// Ride-on vibratory roller with one steel drum.
    SingleDrumRoller,
    /// Ride-on roller with two steel drums.
    TandemRoller,
}

impl CompactorKind {
    /// All, the lightest first.
    pub const ALL: [CompactorKind; 7] = [
        CompactorKind::HandTamper,
        CompactorKind::TrenchRammer,
        CompactorKind::VibratingPlate,
        CompactorKind::HeavyPlate,
        CompactorKind::PedestrianRoller,
        CompactorKind::TandemRoller,
        CompactorKind::SingleDrumRoller,
    ];

    /// The trade's name.
    pub fn words(self) -> &'static str {
        match self {
            CompactorKind::HandTamper => "hand tamper",
            CompactorKind::VibratingPlate => "vibrating plate",
            CompactorKind::HeavyPlate => "heavy plate",
            CompactorKind::TrenchRammer => "trench rammer",
            CompactorKind::PedestrianRoller => "pedestrian roller",
            CompactorKind::SingleDrumRoller => "single-drum vibratory roller",
            CompactorKind::TandemRoller => "tandem steel roller",
        }
    }

    /// Its key in district and rule files.
    pub fn key(self) -> &'static str {
        match self {
            CompactorKind::HandTamper => "hand_tamper",
            CompactorKind::VibratingPlate => "vibrating_plate",
            CompactorKind::HeavyPlate => "heavy_plate",
            CompactorKind::TrenchRammer => "trench_rammer",
            CompactorKind::PedestrianRoller => "pedestrian_roller",
            CompactorKind::SingleDrumRoller => "single_drum_roller",
            CompactorKind::TandemRoller => "tandem_roller",
        }
    }
}

/// How binder is applied.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the words are the definition
pub enum Applicator {
    Sprayer,
    PouringPot,
}

/// Base material in the stockpile.
#[derive(Debug, Clone, PartialEq)]
pub struct BaseMaterial {
    /// Name.
    pub name: String,
    /// Maximum dry density (laboratory).
    pub maximum_dry_density: MassDensity,
    /// Optimum moisture content, by dry mass.
    pub optimum_moisture: Ratio,
    /// Moisture of the stock now, by dry mass.
    pub stock_moisture: Ratio,
    /// Loose density, moist as loaded.
    pub loose_density: MassDensity,
    /// Largest stone, if known: no layer may be thinner than some of them.
    pub largest_stone: Option<Length>,
}

/// Cover stone.
#[derive(Debug, Clone, PartialEq)]
pub struct CoverStone {
    /// Name.
    pub name: String,
    /// Nominal size.
    pub nominal_size: Length,
    /// Median size (half passes), if measured.
    pub median_size: Option<Length>,
    /// Average least dimension, if measured.
    pub average_least_dimension: Option<Length>,
    /// Flakiness index.
    pub flakiness: Ratio,
    /// Loose density.
    pub loose_density: MassDensity,
    /// Bulk density of the particles.
    pub particle_density: MassDensity,
}

/// Binder.
#[derive(Debug, Clone, PartialEq)]
pub struct Binder {
    /// Grade, e.g. `CRS-2`.
    pub grade: String,
    /// Cutback or emulsion.
    pub kind: BinderKind,
    /// Residual part of the product, if measured or stated; otherwise the grade's least.
    pub residue: Option<Residue>,
    /// Spraying temperature, degrees Celsius.
    pub spray_temperature_c: f64,
    /// Density at 15 °C.
    pub density: MassDensity,
}

/// Residual part of a binder: what stays when water or solvent have gone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Residue {
    /// Of the volume, as it is measured for cutback.
    ByVolume(Ratio),
    /// Of the mass, as it is measured for emulsion.
    ByMass(Ratio),
}

/// Kinds of liquid asphalt.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the words are the definition
pub enum BinderKind {
    Cutback,
    Emulsion,
}

/// Traffic devices owned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DevicesOwned {
    /// Cones.
    pub cones: u32,
    /// Signs with stands.
    pub signs: u32,
}

/// Settings of the planning itself.
#[derive(Debug, Clone, PartialEq)]
pub struct Planning {
    /// Chance that the materials of a trip suffice, e.g. 0.9; room is kept for every site turning out that large.
    pub load_confidence: Ratio,
    /// Furthest a hole may be from a road.
    pub snap_limit: Length,
    /// Points that one hour of crew time costs.
    pub points_per_hour: f64,
    /// Rounds of the search.
    pub iterations: u32,
    /// Time to load at the depot before each trip.
    pub loading: Time,
    /// Time to tip at the depot after each trip.
    pub tipping: Time,
    /// Classes of road this crew does not work on.
    pub classes_left_out: Vec<RoadClass>,
    /// Surfaces that are not this crew's trade are left out.
    pub surface_treated_only: bool,
}
