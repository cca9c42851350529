//! The collections, and what each of their properties is.

use PropertyKind::{Boolean, Date, DateTime, Integer, Number, Text, TextList};

/// What features are put together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[allow(missing_docs)] // the words are the definition
pub enum Collection {
    Holes,
    Repairs,
    Zones,
    Roads,
}

/// A property of a collection's features.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Property {
    /// Its name, with the unit where it has one.
    pub name: &'static str,
    /// What its values are.
    pub kind: PropertyKind,
    /// Whether features can be asked for by its value.
    pub filter: bool,
    /// What it says.
    pub about: &'static str,
}

/// What the values of a property are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PropertyKind {
    /// Text.
    Text,
    /// A list of texts.
    TextList,
    /// A number.
    Number,
    /// A whole number.
    Integer,
    /// Yes or no.
    Boolean,
    /// A day, `2026-06-09`.
    Date,
    /// A moment in universal time, `2026-06-09T07:15:00Z`.
    DateTime,
}

const fn said(name: &'static str, kind: PropertyKind, about: &'static str) -> Property {
    Property { name, kind, filter: false, about }
}

const fn asked(name: &'static str, kind: PropertyKind, about: &'static str) -> Property {
    Property { name, kind, filter: true, about }
}

const TOLD_DIFFERENTLY: Property =
    said("told_differently", TextList, "properties for which another device told another value: somebody has to look");
const LAST_TOLD: Property = said("last_told", DateTime, "when something was last told of it");
const PHOTOS: Property = said("photos", Integer, "number of photos");

const HOLES: &[Property] = &[
    asked("state", Text, "reported, planned, begun, mended, same_as_other, dismissed or resurfaced"),
    said("length_mm", Number, "along the road"),
    said("width_mm", Number, "across the road"),
    said("depth_mm", Number, "greatest depth"),
    asked("lane_position", Text, "lane, wheel_path, edge, shoulder or centre"),
    asked("wetness", Text, "dry, damp, wet, seepage or pumping"),
    asked("seen", Date, "first day it was seen"),
    said("reports", Integer, "number of reports and remarks"),
    asked("same_as", Text, "number of the hole that it is the same as"),
    said("merged", TextList, "numbers of the holes that are the same as it"),
    said("repairs", TextList, "numbers of the repairs that mend it"),
    PHOTOS,
    LAST_TOLD,
    TOLD_DIFFERENTLY,
];

const REPAIRS: &[Property] = &[
    asked("state", Text, "planned, cut_out, filling, sealed, open (to traffic) or failed"),
    said("holes", TextList, "numbers of the holes that it mends"),
    asked("zone", Text, "number of the zone it lies in"),
    asked("round", Text, "number of the round it was planned in last"),
    asked("road", Text, "name of the road, by the plan"),
    said("planned_area_m2", Number, "area of the cut, by the plan"),
    said("area_m2", Number, "area cut"),
    said("depth_mean_mm", Number, "mean of the depths measured in the cut"),
    said("depth_max_mm", Number, "greatest depth measured in the cut"),
    said("layers", Integer, "number of layers of base placed"),
    said("base_loose_m3", Number, "base that went in, loose"),
    said("water_l", Number, "water added"),
    said("binder", Text, "grade or product of the binder"),
    said("binder_l", Number, "binder as sprayed"),
    said("cover_stone_m3", Number, "cover stone, loose"),
    said("sealed_area_m2", Number, "area sealed"),
    said("crown_mm", Number, "height above the road around"),
    said("dry", Boolean, "whether the surface was dry when it was sealed"),
    asked("weather", Text, "weather around the sealing: dry, damp, rain_within_a_day or frost"),
    said("air_temperature_c", Number, "temperature of the air when it was sealed"),
    asked(
        "drainage",
        Text,
        "how water leaves the road there: ditch_works, ditch_blocked, kerb_and_gully, gully_blocked, high_verge, no_drainage or \
         standing_water",
    ),
    said("cut_at", DateTime, "when it was cut out"),
    said("sealed_at", DateTime, "when it was sealed"),
    said("opened_at", DateTime, "when traffic ran over it"),
    said("failed_at", DateTime, "since when it is known to have failed"),
    asked("last_found", Text, "what the last inspection found: holds, worn or failed"),
    PHOTOS,
    LAST_TOLD,
    TOLD_DIFFERENTLY,
];

const ZONES: &[Property] = &[
    asked("state", Text, "open (signs stand) or closed (all signs are in), or unknown"),
    said("holes", TextList, "numbers of the holes inside"),
    asked("round", Text, "number of the round it belongs to"),
    asked("road", Text, "name of the road"),
    asked("layout", Text, "name of the layout"),
    said("stretches", Integer, "directions of traffic that it hinders, where their stretches of road were told"),
    said("devices_out", Integer, "devices put out"),
    said("devices_in", Integer, "devices taken in"),
    said(
        "devices_missing",
        Integer,
        "put out and not taken in, where the zone is closed: something may stand on the road",
    ),
    said("opened_at", DateTime, "since when signs stand"),
    said("closed_at", DateTime, "since when they are in"),
    PHOTOS,
    LAST_TOLD,
    TOLD_DIFFERENTLY,
];

const ROADS: &[Property] = &[
    asked("name", Text, "name of the road"),
    asked("number", Text, "number of the road"),
    asked("class", Text, "motorway, trunk, primary, secondary, tertiary, unclassified, residential, service or track"),
    asked("source_id", Text, "identifier in the road file"),
    asked("surface", Text, "surface_treated, paved, rigid, unpaved or unknown"),
    said("length_m", Number, "along the line on the ellipsoid"),
    said("speed_km_h", Number, "speed limit, or what the class has"),
    asked("lanes", Integer, "lanes in all"),
    said("width_m", Number, "sealed width"),
    said("shoulder_m", Number, "shoulder on each side"),
    asked("flow", Text, "both, forward (one-way along the line) or backward"),
    said("vehicles_per_day", Number, "where known"),
    asked("setting", Text, "rural or urban"),
    said("defaulted", TextList, "properties that the road file does not have: the class's values stand there"),
];

impl Collection {
    /// All, in the order they are listed.
    pub const ALL: [Collection; 4] = [Collection::Holes, Collection::Repairs, Collection::Zones, Collection::Roads];

    /// Its identifier in paths.
    pub fn id(self) -> &'static str {
        match self {
            Collection::Holes => "holes",
            Collection::Repairs => "repairs",
            Collection::Zones => "zones",
            Collection::Roads => "roads",
        }
    }

    /// The collection of that identifier.
    pub fn of_id(id: &str) -> Option<Collection> {
        Collection::ALL.into_iter().find(|collection| collection.id() == id)
    }

    /// Its name for people.
    pub fn title(self) -> &'static str {
        match self {
            Collection::Holes => "Holes",
            Collection::Repairs => "Repairs",
            Collection::Zones => "Work zones",
            Collection::Roads => "Roads",
        }
    }

    /// What it holds.
    pub fn about(self) -> &'static str {
        match self {
            Collection::Holes => {
                "Holes that were reported or measured, where they are by what was told last. A hole's time is from when it was seen or first \
                 told of; it ends when it is mended, dismissed or found to be another."
            }
            Collection::Repairs => {
                "Repairs planned and made, at the first of their holes whose place is known. A repair's time begins when it is cut out; it \
                 ends when it is known to have failed."
            }
            Collection::Zones => {
                "Work zones that were set up: the stretch of road, or a place where nobody told more. A zone's time is from when its signs stand to when they are in. Not a traffic-control plan, and \
                 nothing to drive by."
            }
            Collection::Roads => {
                "Sections of road between junctions, as the program took them from the road file. They have no time."
            }
        }
    }

    /// The properties that its features may have, in order.
    pub fn properties(self) -> &'static [Property] {
        match self {
            Collection::Holes => HOLES,
            Collection::Repairs => REPAIRS,
            Collection::Zones => ZONES,
            Collection::Roads => ROADS,
        }
    }

    /// Kinds of geometry, as GeoJSON names them.
    pub fn geometries(self) -> &'static [&'static str] {
        match self {
            Collection::Holes | Collection::Repairs => &["Point"],
            Collection::Zones => &["LineString", "Point"],
            Collection::Roads => &["LineString"],
        }
    }

    /// Whether its features have a time.
    pub fn has_time(self) -> bool {
        self != Collection::Roads
    }
}
