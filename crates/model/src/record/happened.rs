//! The kinds of events: what can happen to holes, repairs, zones, rounds, roads and stock.
//!
//! Numbers carry their unit in their names, since these are the words that devices send. Everything a crew may not know is
//! optional; what is not told stays as it was.

use jiff::civil::Date;
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::conditions::{Drainage, SealingWeather, StretchSide, SurfaceWork};
use super::stock::{Money, StockItem, StockLot, StockPlace};
use super::stretch::ZoneStretch;
use crate::hole::{LanePosition, Wetness};
use crate::learnt::{UseFactors, Yardstick};
use crate::moisture::HandFeel;
use crate::road_kind::RoadKind;

/// What happened.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Happened {
    /// Somebody told of a hole.
    HoleReported {
        /// The hole's own number, made where it was told of.
        hole: Uuid,
        /// Where it is.
        position: Position,
        /// Its size, as far as told.
        #[serde(default)]
        size: HoleSize,
        /// Day it was seen.
        #[schemars(with = "Option<String>", extend("format" = "date"))]
        #[serde(default, skip_serializing_if = "Option::is_none")]
        seen: Option<Date>,
        /// In the reporter's words.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        note: String,
        /// Who told of it, in a word: patrol, public, crew ...
        #[serde(default, skip_serializing_if = "String::is_empty")]
        source: String,
        /// Its number in the list or at the office it came from.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        reference: String,
        /// Where the reporter can be reached: a number in the book of contacts, which is kept apart and forgotten in time.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        contact: Option<Uuid>,
    },
    /// Somebody measured a hole or looked at it.
    HoleMeasured {
        /// Which.
        hole: Uuid,
        /// Where it really is.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        position: Option<Position>,
        /// What was measured.
        #[serde(default)]
        size: HoleSize,
        /// Remark.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        note: String,
    },
    /// Several reports are of one hole.
    HolesMerged {
        /// The hole that stays.
        into: Uuid,
        /// Those that are the same as it.
        merged: Vec<Uuid>,
        /// Why they are taken to be the same.
        why: String,
    },
    /// Nothing is to be mended there by the crew.
    HoleDismissed {
        /// Which.
        hole: Uuid,
        /// Why.
        why: String,
        /// There was a hole, and others have dealt with it; else there was none that counts.
        #[serde(default, skip_serializing_if = "std::ops::Not::not")]
        dealt_with: bool,
    },
    /// A crew's round of a day was planned.
    RoundPlanned {
        /// The round's number.
        round: Uuid,
        /// The day.
        #[schemars(with = "String", extend("format" = "date"))]
        date: Date,
        /// Name of the crew.
        crew: String,
        /// Its repairs, in the order of the round.
        repairs: Vec<PlannedRepair>,
        /// Zones that it needs, to be told on when they are opened.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        zones: Vec<PlannedZone>,
        /// SHA-256 of the plan file that it came from, hexadecimal.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        plan: String,
    },
    /// Signs stand and the crew works.
    ZoneOpened {
        /// The zone's number.
        zone: Uuid,
        /// Round it belongs to.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        round: Option<Uuid>,
        /// Holes inside.
        holes: Vec<Uuid>,
        /// Where.
        position: Position,
        /// Name of the road.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        road: String,
        /// Name of the layout.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        layout: String,
        /// Devices put out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        devices_out: Option<u32>,
        /// The stretch of road for each direction of traffic that it hinders.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        stretches: Vec<ZoneStretch>,
    },
    /// All signs are back in.
    ZoneClosed {
        /// Which.
        zone: Uuid,
        /// Devices taken in; fewer than were put out: something stands on the road.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        devices_in: Option<u32>,
    },
    /// The hole was cut out.
    HoleCut {
        /// The repair's number; with this event or the next of the repair it begins.
        repair: Uuid,
        /// Holes that it mends.
        holes: Vec<Uuid>,
        /// Zone it lies in.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        zone: Option<Uuid>,
        /// Area cut, square metres.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        area_m2: Option<f64>,
        /// Depth in several places, millimetres.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        depths_mm: Vec<f64>,
        /// Whether the bottom is firm.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        bottom_firm: Option<bool>,
        /// Whether the sides are upright and firm.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        sides_upright: Option<bool>,
        /// How wet it was below.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        wetness: Option<Wetness>,
        /// How water leaves the road there.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        drainage: Option<Drainage>,
    },
    /// A layer of base was placed and compacted.
    LayerPlaced {
        /// The repair.
        repair: Uuid,
        /// Which layer, from 1 at the bottom.
        layer: u32,
        /// Its thickness when compacted, millimetres.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        thickness_mm: Option<f64>,
        /// Base that went in, loose cubic metres.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        base_loose_m3: Option<Decimal>,
        /// Kind or source of the base.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        base: String,
        /// Water added, litres.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        water_l: Option<Decimal>,
        /// How moist it was in the hand.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        moisture: Option<HandFeel>,
        /// Passes without vibration.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        passes_still: Option<u32>,
        /// Passes with vibration, or of the plate or tamper.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        passes_vibrating: Option<u32>,
    },
    /// Binder and cover stone are on.
    Sealed {
        /// The repair.
        repair: Uuid,
        /// Binder, litres as sprayed.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        binder_l: Option<Decimal>,
        /// Grade or product of the binder.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        binder: String,
        /// Cover stone, loose cubic metres.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        cover_stone_m3: Option<Decimal>,
        /// Area sealed, square metres.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        area_m2: Option<f64>,
        /// Height above the road around, millimetres.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        crown_mm: Option<f64>,
        /// Whether the surface was dry.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        dry: Option<bool>,
        /// The weather around it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        weather: Option<SealingWeather>,
        /// Temperature of the air, degrees Celsius.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        air_temperature_c: Option<f64>,
    },
    /// Traffic runs over the repair.
    OpenedToTraffic {
        /// The repair.
        repair: Uuid,
    },
    /// Somebody looked at a repair afterwards.
    Inspected {
        /// The repair.
        repair: Uuid,
        /// What was found.
        found: Found,
        /// Remark.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        note: String,
    },
    /// A repair has failed.
    Failed {
        /// The repair.
        repair: Uuid,
        /// The hole that is there now.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        hole: Option<Uuid>,
        /// How.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        how: String,
    },
    /// A stretch of road got a new surface. Repairs under it are not watched any more, and holes named here are gone without the
    /// crew's doing.
    RoadResurfaced {
        /// The resurfacing's own number, made where it was told of.
        resurfacing: Uuid,
        /// The day on which it was done, the last one if there were several.
        #[schemars(with = "String", extend("format" = "date"))]
        date: Date,
        /// Where it begins, on the road.
        from: Position,
        /// Where it ends, on the road.
        to: Position,
        /// Name or number of the road.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        road: String,
        /// The side that was done; nothing: the whole width.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        side: Option<StretchSide>,
        /// What was done.
        work: SurfaceWork,
        /// Open holes that are gone with it.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        holes: Vec<Uuid>,
        /// Remark.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        note: String,
    },
    /// Stock went from one place to another.
    StockMoved {
        /// From where.
        from: StockPlace,
        /// To where.
        to: StockPlace,
        /// What.
        item: StockItem,
        /// How much, in the unit of the item; more than nothing.
        amount: Decimal,
        /// Price of one unit, where it was bought.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        unit_price: Option<Money>,
        /// The lot.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        lot: Option<StockLot>,
    },
    /// Stock was counted. The difference to the books is written off or found.
    StockCounted {
        /// Where.
        place: StockPlace,
        /// What.
        item: StockItem,
        /// How much there is.
        amount: Decimal,
    },
    /// Time of people and plant on a repair or a round.
    TimeBooked {
        /// On what.
        on: Subject,
        /// Name of the crew.
        crew: String,
        /// Minutes of people, all together.
        #[serde(default)]
        labour_min: Decimal,
        /// Minutes of trucks and plant, all together.
        #[serde(default)]
        plant_min: Decimal,
    },
    /// A photo was taken. The photo itself is sent by itself.
    PhotoTaken {
        /// SHA-256 of the file, hexadecimal: its name.
        photo: String,
        /// Of what.
        of: Subject,
        /// Where it was taken, where the camera knew.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        position: Option<Position>,
        /// What it shows.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        note: String,
    },
    /// An earlier event was wrong.
    Corrected {
        /// Which.
        event: Uuid,
        /// What happened instead; nothing: it did not happen at all.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        instead: Option<Box<Happened>>,
        /// Why.
        why: String,
    },
    /// Somebody answers for it.
    Signed {
        /// For what.
        of: Subject,
        /// As what: crew leader, engineer ...
        role: String,
        /// Remark.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        note: String,
    },
}

/// A place on the globe, WGS 84 degrees.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Position {
    /// Degrees east.
    pub lon: f64,
    /// Degrees north.
    pub lat: f64,
}

/// What is known of a hole's size and nature; what is absent is not known.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct HoleSize {
    /// Along the road, millimetres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub length_mm: Option<f64>,
    /// Across the road, millimetres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub width_mm: Option<f64>,
    /// Greatest depth, millimetres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub depth_mm: Option<f64>,
    /// Where across the road.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lane_position: Option<LanePosition>,
    /// How wet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wetness: Option<Wetness>,
}

/// A work zone as planned: what a crew tells on when it opens it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PlannedZone {
    /// Holes inside.
    pub holes: Vec<Uuid>,
    /// Name of the road.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub road: String,
    /// Name of the layout.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub layout: String,
    /// Devices to put out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub devices: Option<u32>,
    /// The stretch of road for each direction of traffic that it hinders.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub stretches: Vec<ZoneStretch>,
}

/// A repair as planned: what planned against actual is held to.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PlannedRepair {
    /// The repair's number, which the crew's events then carry.
    pub repair: Uuid,
    /// Holes that it mends.
    pub holes: Vec<Uuid>,
    /// Name of the road.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub road: String,
    /// Kind of road, where the planner knows it: `tertiary_without_shoulder`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>")]
    pub road_kind: Option<RoadKind>,
    /// Area of the cut, square metres.
    pub area_m2: f64,
    /// Base, loose cubic metres.
    pub base_loose_m3: Decimal,
    /// Water, litres.
    pub water_l: Decimal,
    /// Binder, litres.
    pub binder_l: Decimal,
    /// Cover stone, loose cubic metres.
    pub cover_stone_m3: Decimal,
    /// Minutes at the zone.
    pub minutes: Decimal,
    /// What it rests on, where the planner says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub basis: Option<PlannedBasis>,
}

/// What a planned repair rests on, so that plans can learn from how it turned out.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PlannedBasis {
    /// Depth as surveyed, millimetres.
    pub depth_mm: f64,
    /// Volume dug over volume surveyed that the rules expect, the median.
    pub growth: f64,
    /// Power of that growth which the minutes rise with.
    pub minutes_power: f64,
    /// What was learnt before and is in the planned amounts already.
    pub factors: UseFactors,
    /// What rules and settings then made of the same few holes. Not told: nobody knows what they expected, and the repair
    /// teaches nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub yardstick: Option<Yardstick>,
}

/// What was found at a repair.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Found {
    /// It holds.
    Holds,
    /// It holds but wears: stone lost, binder up, edges open.
    Worn,
    /// It has failed.
    Failed,
}

/// What something is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the words are the definition
pub enum Subject {
    Hole(Uuid),
    Repair(Uuid),
    Zone(Uuid),
    Round(Uuid),
    Resurfacing(Uuid),
}

impl Happened {
    /// Every hole, repair, zone, round and resurfacing that the event is about, each once. A correction is about what it puts right as well,
    /// which only the record knows.
    pub fn subjects(&self) -> Vec<Subject> {
        let mut subjects = match self {
            Happened::HoleReported { hole, .. }
            | Happened::HoleMeasured { hole, .. }
            | Happened::HoleDismissed { hole, .. } => vec![Subject::Hole(*hole)],
            Happened::HolesMerged { into, merged, .. } => {
                let mut holes = vec![Subject::Hole(*into)];
                holes.extend(merged.iter().copied().map(Subject::Hole));
                holes
            }
            Happened::RoundPlanned { round, repairs, .. } => {
                let mut all = vec![Subject::Round(*round)];
                for planned in repairs {
                    all.push(Subject::Repair(planned.repair));
                    all.extend(planned.holes.iter().copied().map(Subject::Hole));
                }
                all
            }
            Happened::ZoneOpened { zone, round, holes, .. } => {
                let mut all = vec![Subject::Zone(*zone)];
                all.extend(round.map(Subject::Round));
                all.extend(holes.iter().copied().map(Subject::Hole));
                all
            }
            Happened::ZoneClosed { zone, .. } => vec![Subject::Zone(*zone)],
            Happened::HoleCut { repair, holes, zone, .. } => {
                let mut all = vec![Subject::Repair(*repair)];
                all.extend(holes.iter().copied().map(Subject::Hole));
                all.extend(zone.map(Subject::Zone));
                all
            }
            Happened::LayerPlaced { repair, .. }
            | Happened::Sealed { repair, .. }
            | Happened::OpenedToTraffic { repair }
            | Happened::Inspected { repair, .. } => vec![Subject::Repair(*repair)],
            Happened::Failed { repair, hole, .. } => {
                let mut all = vec![Subject::Repair(*repair)];
                all.extend(hole.map(Subject::Hole));
                all
            }
            Happened::RoadResurfaced { resurfacing, holes, .. } => {
                let mut all = vec![Subject::Resurfacing(*resurfacing)];
                all.extend(holes.iter().copied().map(Subject::Hole));
                all
            }
            Happened::StockMoved { from, to, .. } => from.subject().into_iter().chain(to.subject()).collect(),
            Happened::StockCounted { place, .. } => place.subject().into_iter().collect(),
            Happened::TimeBooked { on, .. } => vec![*on],
            Happened::PhotoTaken { of, .. } | Happened::Signed { of, .. } => vec![*of],
            Happened::Corrected { instead, .. } => instead.as_ref().map_or_else(Vec::new, |instead| instead.subjects()),
        };
        subjects.sort_unstable();
        subjects.dedup();
        subjects
    }

    /// The word of its kind, as written in the `kind` field.
    pub fn kind(&self) -> &'static str {
        match self {
            Happened::HoleReported { .. } => "hole_reported",
            Happened::HoleMeasured { .. } => "hole_measured",
            Happened::HolesMerged { .. } => "holes_merged",
            Happened::HoleDismissed { .. } => "hole_dismissed",
            Happened::RoundPlanned { .. } => "round_planned",
            Happened::ZoneOpened { .. } => "zone_opened",
            Happened::ZoneClosed { .. } => "zone_closed",
            Happened::HoleCut { .. } => "hole_cut",
            Happened::LayerPlaced { .. } => "layer_placed",
            Happened::Sealed { .. } => "sealed",
            Happened::OpenedToTraffic { .. } => "opened_to_traffic",
            Happened::Inspected { .. } => "inspected",
            Happened::Failed { .. } => "failed",
            Happened::RoadResurfaced { .. } => "road_resurfaced",
            Happened::StockMoved { .. } => "stock_moved",
            Happened::StockCounted { .. } => "stock_counted",
            Happened::TimeBooked { .. } => "time_booked",
            Happened::PhotoTaken { .. } => "photo_taken",
            Happened::Corrected { .. } => "corrected",
            Happened::Signed { .. } => "signed",
        }
    }
}

impl StockPlace {
    /// The zone or repair that it is.
    pub fn subject(&self) -> Option<Subject> {
        match self {
            StockPlace::Zone { zone } => Some(Subject::Zone(*zone)),
            StockPlace::Repair { repair } => Some(Subject::Repair(*repair)),
            StockPlace::Supplier { .. }
            | StockPlace::Depot { .. }
            | StockPlace::Truck { .. }
            | StockPlace::Waste { .. } => None,
        }
    }
}

impl Subject {
    /// Its number.
    pub fn id(self) -> Uuid {
        match self {
            Subject::Hole(id)
            | Subject::Repair(id)
            | Subject::Zone(id)
            | Subject::Round(id)
            | Subject::Resurfacing(id) => id,
        }
    }

    /// The word for what it is.
    pub fn word(self) -> &'static str {
        match self {
            Subject::Hole(_) => "hole",
            Subject::Repair(_) => "repair",
            Subject::Zone(_) => "zone",
            Subject::Round(_) => "round",
            Subject::Resurfacing(_) => "resurfacing",
        }
    }
}
