//! What is known of each hole, repair, zone, round and resurfacing from the events.

use jiff::Timestamp;
use jiff::civil::Date;
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::conditions::{Drainage, SealingWeather, StretchSide, SurfaceWork};
use super::happened::{Found, PlannedRepair, PlannedZone, Position};
use super::stock::Money;
use super::stretch::ZoneStretch;
use super::told::{Teller, Told};
use crate::hole::{LanePosition, Wetness};
use crate::moisture::HandFeel;

/// What is known of a hole.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KnownHole {
    /// Its number.
    pub hole: Uuid,
    /// How far it has come.
    pub state: HoleState,
    /// Where it is.
    pub position: Option<Told<Position>>,
    /// Along the road, millimetres.
    pub length_mm: Option<Told<f64>>,
    /// Across the road, millimetres.
    pub width_mm: Option<Told<f64>>,
    /// Greatest depth, millimetres.
    pub depth_mm: Option<Told<f64>>,
    /// Where across the road.
    pub lane_position: Option<Told<LanePosition>>,
    /// How wet.
    pub wetness: Option<Told<Wetness>>,
    /// First day it was seen.
    #[schemars(with = "Option<String>", extend("format" = "date"))]
    pub seen: Option<Date>,
    /// Every report and remark, in order.
    pub reports: Vec<KnownReport>,
    /// The hole that it is the same as.
    pub same_as: Option<Told<Uuid>>,
    /// Holes that are the same as it.
    pub merged: Vec<Uuid>,
    /// Why nothing is to be mended.
    pub dismissed: Option<Told<String>>,
    /// It was dismissed because others have dealt with it: there was a hole.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub dealt_with: bool,
    /// The resurfacing that it is gone with.
    #[serde(default)]
    pub resurfaced: Option<Told<Uuid>>,
    /// Repairs that mend it, planned or made, the first first.
    pub repairs: Vec<Uuid>,
    /// Photos, by the SHA-256 of their files.
    pub photos: Vec<KnownPhoto>,
    /// When something was last told of it.
    #[schemars(with = "String", extend("format" = "date-time"))]
    pub last_told: Timestamp,
}

/// How far a hole has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum HoleState {
    /// Somebody told of it.
    Reported,
    /// It is in a round.
    Planned,
    /// It is cut out or further.
    Begun,
    /// It is sealed, or traffic runs over it.
    Mended,
    /// It is the same as another.
    SameAsOther,
    /// Nothing is to be mended.
    Dismissed,
    /// The road got a new surface there before the hole was mended.
    Resurfaced,
}

/// One report of a hole or remark on it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KnownReport {
    /// Who told it.
    pub by: Teller,
    /// In the reporter's words.
    pub note: String,
    /// Who told of it, in a word.
    pub source: String,
    /// Its number in the list or at the office it came from.
    pub reference: String,
    /// Where the reporter can be reached.
    pub contact: Option<Uuid>,
}

/// A photo.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KnownPhoto {
    /// SHA-256 of the file, hexadecimal.
    pub photo: String,
    /// Who took it.
    pub by: Teller,
    /// Where it was taken.
    pub position: Option<Position>,
    /// What it shows.
    pub note: String,
}

/// What is known of a repair.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KnownRepair {
    /// Its number.
    pub repair: Uuid,
    /// How far it has come.
    pub state: RepairState,
    /// Holes that it mends.
    pub holes: Vec<Uuid>,
    /// Where it is: where the first of its holes is whose place is known.
    pub position: Option<Position>,
    /// Zone it lies in.
    pub zone: Option<Told<Uuid>>,
    /// Round it was planned in last.
    pub round: Option<Told<Uuid>>,
    /// As planned last.
    pub planned: Option<Told<PlannedRepair>>,
    /// Area cut, square metres.
    pub area_m2: Option<Told<f64>>,
    /// Depths measured, millimetres.
    pub depths_mm: Option<Told<Vec<f64>>>,
    /// Whether the bottom is firm.
    pub bottom_firm: Option<Told<bool>>,
    /// Whether the sides are upright and firm.
    pub sides_upright: Option<Told<bool>>,
    /// How wet it was below.
    pub wetness: Option<Told<Wetness>>,
    /// How water leaves the road there.
    #[serde(default)]
    pub drainage: Option<Told<Drainage>>,
    /// The layers, from the bottom.
    pub layers: Vec<KnownLayer>,
    /// Binder, litres as sprayed.
    pub binder_l: Option<Told<Decimal>>,
    /// Grade or product of the binder.
    pub binder: Option<Told<String>>,
    /// Cover stone, loose cubic metres.
    pub cover_stone_m3: Option<Told<Decimal>>,
    /// Area sealed, square metres.
    pub sealed_area_m2: Option<Told<f64>>,
    /// Height above the road around, millimetres.
    pub crown_mm: Option<Told<f64>>,
    /// Whether the surface was dry when it was sealed.
    pub dry: Option<Told<bool>>,
    /// The weather around the sealing.
    #[serde(default)]
    pub weather: Option<Told<SealingWeather>>,
    /// Temperature of the air then, degrees Celsius.
    #[serde(default)]
    pub air_temperature_c: Option<Told<f64>>,
    /// When it was cut, sealed, opened.
    pub cut: Option<Teller>,
    /// When it was sealed.
    pub sealed: Option<Teller>,
    /// When traffic ran over it.
    pub opened: Option<Teller>,
    /// What was found afterwards, in order.
    pub inspections: Vec<KnownInspection>,
    /// Since when it is known to have failed.
    pub failed: Option<Teller>,
    /// How it failed.
    pub failed_how: String,
    /// The hole that is there now.
    pub failed_hole: Option<Uuid>,
    /// Minutes of people booked.
    pub labour_min: Decimal,
    /// Minutes of trucks and plant booked.
    pub plant_min: Decimal,
    /// Photos.
    pub photos: Vec<KnownPhoto>,
    /// Who answers for it.
    pub signatures: Vec<KnownSignature>,
    /// When something was last told of it.
    #[schemars(with = "String", extend("format" = "date-time"))]
    pub last_told: Timestamp,
}

/// How far a repair has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the words are the definition
pub enum RepairState {
    Planned,
    CutOut,
    Filling,
    Sealed,
    Open,
    Failed,
}

/// A layer of base.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KnownLayer {
    /// Which, from 1 at the bottom.
    pub layer: u32,
    /// Its thickness when compacted, millimetres.
    pub thickness_mm: Option<Told<f64>>,
    /// Base that went in, loose cubic metres.
    pub base_loose_m3: Option<Told<Decimal>>,
    /// Kind or source of the base.
    #[serde(default)]
    pub base: Option<Told<String>>,
    /// Water added, litres.
    pub water_l: Option<Told<Decimal>>,
    /// How moist it was in the hand.
    pub moisture: Option<Told<HandFeel>>,
    /// Passes without vibration.
    pub passes_still: Option<Told<u32>>,
    /// Passes with vibration, or of the plate or tamper.
    pub passes_vibrating: Option<Told<u32>>,
}

/// What was found at a repair.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KnownInspection {
    /// Who looked.
    pub by: Teller,
    /// What was found.
    pub found: Found,
    /// Remark.
    pub note: String,
}

/// Somebody answers for it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KnownSignature {
    /// Who.
    pub by: Teller,
    /// As what.
    pub role: String,
    /// Remark.
    pub note: String,
}

/// What is known of a zone.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KnownZone {
    /// Its number.
    pub zone: Uuid,
    /// Round it belongs to.
    pub round: Option<Told<Uuid>>,
    /// Holes inside.
    pub holes: Vec<Uuid>,
    /// Where.
    pub position: Option<Told<Position>>,
    /// Name of the road.
    pub road: Option<Told<String>>,
    /// Name of the layout.
    pub layout: Option<Told<String>>,
    /// Devices put out.
    pub devices_out: Option<Told<u32>>,
    /// The stretch of road for each direction of traffic that it hinders.
    #[serde(default)]
    pub stretches: Option<Told<Vec<ZoneStretch>>>,
    /// Devices taken in.
    pub devices_in: Option<Told<u32>>,
    /// Since when signs stand.
    pub opened: Option<Teller>,
    /// Since when they are in.
    pub closed: Option<Teller>,
    /// Photos.
    pub photos: Vec<KnownPhoto>,
    /// Who answers for it.
    pub signatures: Vec<KnownSignature>,
    /// When something was last told of it.
    #[schemars(with = "String", extend("format" = "date-time"))]
    pub last_told: Timestamp,
}

/// What is known of a crew's round.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KnownRound {
    /// Its number.
    pub round: Uuid,
    /// The day.
    #[schemars(with = "Option<Told<String>>")]
    pub date: Option<Told<Date>>,
    /// Name of the crew.
    pub crew: Option<Told<String>>,
    /// Its repairs as planned last, in order.
    pub repairs: Option<Told<Vec<PlannedRepair>>>,
    /// Zones that it needs, as planned last.
    #[serde(default)]
    pub planned_zones: Vec<PlannedZone>,
    /// SHA-256 of the plan file.
    pub plan: Option<Told<String>>,
    /// Zones opened on it.
    pub zones: Vec<Uuid>,
    /// Minutes of people booked on the round itself.
    pub labour_min: Decimal,
    /// Minutes of trucks and plant booked on the round itself.
    pub plant_min: Decimal,
    /// Who answers for it.
    pub signatures: Vec<KnownSignature>,
    /// When something was last told of it.
    #[schemars(with = "String", extend("format" = "date-time"))]
    pub last_told: Timestamp,
}

/// What is known of a stretch of road that got a new surface.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KnownResurfacing {
    /// Its number.
    pub resurfacing: Uuid,
    /// Who told of it first.
    pub told: Teller,
    /// The day on which it was done.
    #[schemars(with = "Told<String>")]
    pub date: Told<Date>,
    /// Where it begins.
    pub from: Told<Position>,
    /// Where it ends.
    pub to: Told<Position>,
    /// Name or number of the road.
    pub road: Option<Told<String>>,
    /// The side that was done, looking from begin to end; nothing: the whole width.
    pub side: Option<Told<StretchSide>>,
    /// What was done.
    pub work: Told<SurfaceWork>,
    /// Holes that are gone with it.
    pub holes: Vec<Uuid>,
    /// Remark.
    pub note: String,
    /// Photos.
    pub photos: Vec<KnownPhoto>,
    /// Who answers for it.
    pub signatures: Vec<KnownSignature>,
    /// When something was last told of it.
    #[schemars(with = "String", extend("format" = "date-time"))]
    pub last_told: Timestamp,
}

/// What is known of one subject.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "what", rename_all = "snake_case")]
#[allow(clippy::large_enum_variant)] // one at a time, soon written down
#[allow(missing_docs)]
pub enum Known {
    Hole(KnownHole),
    Repair(KnownRepair),
    Zone(KnownZone),
    Round(KnownRound),
    Resurfacing(KnownResurfacing),
}

/// Prices of labour and plant, for the books.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct TimePrices {
    /// Of an hour of one person.
    pub labour_per_h: Money,
    /// Of an hour of the truck and its plant.
    pub plant_per_h: Money,
}
