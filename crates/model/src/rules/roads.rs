//! Shape of `rules/roads/*.toml`: what is assumed of a road where its data are silent, and which words and columns of
//! road files mean what.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::Sourced;
use crate::road::{RoadClass, Setting, Surface};

/// One rule set for reading roads.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RoadDefaults {
    /// Name of the rule set.
    pub name: String,
    /// What it is for, in words.
    pub about: String,
    /// What is assumed by class.
    pub classes: ByClass<ClassDefaults>,
    /// Class of a line whose file says none that is known.
    pub class_unsaid: Sourced<RoadClass>,
    /// When a road counts as built-up.
    pub urban: UrbanRule,
    /// Values beyond these are taken as slips and the default is used.
    pub plausible: PlausibleRanges,
    /// What the words in the data mean.
    pub words: RoadWords,
    /// Ways of the open map that are not read although their class is a road's.
    pub open_map: OpenMapRule,
    /// Which columns (shapefile) or properties (GeoJSON) carry what.
    pub columns: RoadColumns,
    /// A table beside the road file that corrects it, joined by the road's identifier.
    pub join: Option<RoadJoinRule>,
}

/// One value for each class of road.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs)] // the words are the definition
pub struct ByClass<T> {
    pub motorway: T,
    pub trunk: T,
    pub primary: T,
    pub secondary: T,
    pub tertiary: T,
    pub unclassified: T,
    pub residential: T,
    pub service: T,
    pub track: T,
}

/// What is assumed of a road of one class.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClassDefaults {
    /// Speed limit in open country, km/h.
    pub speed_rural_km_h: Sourced<f64>,
    /// Speed limit in a built-up area, km/h.
    pub speed_urban_km_h: Sourced<f64>,
    /// Lanes of a two-way road, both directions; a one-way road has half of them, rounded up.
    pub lanes: Sourced<u32>,
    /// Width of a lane, m; the sealed width is lanes times this.
    pub lane_width_m: Sourced<f64>,
    /// Shoulder on each side, m.
    pub shoulder_m: Sourced<f64>,
    /// Surface.
    pub surface: Sourced<Surface>,
    /// How fast a truck really drives on such roads, km/h, where an agency knows it; else a part of the limit. Travel times
    /// only: a work zone goes by the limit.
    pub driving_speed_km_h: Option<Sourced<f64>>,
    /// Whether traffic is one-way, in the direction of the line, unless the data say otherwise.
    pub one_way: Sourced<bool>,
}

/// When a road counts as built-up, where the data do not say it.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct UrbanRule {
    /// A posted limit of at most this counts as built-up, km/h.
    pub speed_at_most_km_h: Sourced<f64>,
    /// Classes that count as built-up.
    pub classes: Sourced<Vec<RoadClass>>,
}

/// Least and greatest value taken as meant, both included.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlausibleRanges {
    /// Speed limit, km/h.
    pub speed_km_h: Sourced<[f64; 2]>,
    /// Lanes.
    pub lanes: Sourced<[u32; 2]>,
    /// Sealed width, m.
    pub width_m: Sourced<[f64; 2]>,
    /// Shoulder, m.
    pub shoulder_m: Sourced<[f64; 2]>,
    /// Vehicles a day.
    pub vehicles_per_day: Sourced<[f64; 2]>,
    /// Limit of gross mass, t.
    pub limit_mass_t: Sourced<[f64; 2]>,
    /// Limit of height, width or length, m.
    pub limit_length_m: Sourced<[f64; 2]>,
}

/// What the words in the data mean. Compared without case; a key that ends in `*` stands for every word that begins
/// with the rest, and an exact key wins over such a one.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RoadWords {
    /// Class of road.
    pub class: Sourced<BTreeMap<String, RoadClass>>,
    /// Words in the class column of a table that say the line is not a road for vehicles.
    pub not_a_road: Sourced<Vec<String>>,
    /// Surface.
    pub surface: Sourced<BTreeMap<String, Surface>>,
    /// One-way with the line.
    pub one_way_forward: Sourced<Vec<String>>,
    /// One-way against the line.
    pub one_way_backward: Sourced<Vec<String>>,
    /// Both ways.
    pub two_way: Sourced<Vec<String>>,
    /// Speeds that are words, km/h.
    pub speed_km_h: Sourced<BTreeMap<String, f64>>,
    /// Words in the place of a speed that name none: the default is used.
    pub speed_unsaid: Sourced<Vec<String>>,
    /// Built-up or open country.
    pub setting: Sourced<BTreeMap<String, Setting>>,
    /// Words in the place of a bridge or tunnel that say there is none; every other word says there is.
    pub no_structure: Sourced<Vec<String>>,
    /// Words in the place of a junction's kind that mean a roundabout.
    pub roundabout: Sourced<Vec<String>>,
    /// Words of heavy vehicles that bar them.
    pub heavy_barred: Sourced<Vec<String>>,
    /// Words in the place of a limit of mass or size that say there is none.
    pub limit_unsaid: Sourced<Vec<String>>,
}

/// Which ways of the open map are left out, and under which licence the rest may be shown.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OpenMapRule {
    /// Tags, written `key=value`, that leave a way out.
    pub leave_out: Sourced<Vec<String>>,
    /// Tags that keep it all the same.
    pub keep_anyway: Sourced<Vec<String>>,
    /// Tags that make a way one-way.
    pub one_way: Sourced<Vec<String>>,
    /// A truck of more gross mass than this is a heavy vehicle, t.
    pub heavy_from_t: Sourced<f64>,
    /// Vehicle classes that mean every truck, in restrictions of turns and their exceptions.
    pub trucks: Sourced<Vec<String>>,
    /// Those that mean heavy ones only.
    pub heavy_trucks: Sourced<Vec<String>>,
    /// Those that mean light ones only.
    pub light_trucks: Sourced<Vec<String>>,
    /// Line to be printed wherever the data are shown, where the file brings none of its own.
    pub attribution: Sourced<String>,
}

/// Names of the columns that carry each attribute, the first one present is used. Compared without case, blanks,
/// hyphens and underscores.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RoadColumns {
    /// Identifier of the road.
    pub id: Sourced<Vec<String>>,
    /// Class.
    pub class: Sourced<Vec<String>>,
    /// Name.
    pub name: Sourced<Vec<String>>,
    /// Road number.
    pub number: Sourced<Vec<String>>,
    /// Speed limit.
    pub speed: Sourced<Vec<String>>,
    /// Unit of a bare number in the speed column.
    pub speed_unit: Sourced<SpeedUnit>,
    /// Lanes.
    pub lanes: Sourced<Vec<String>>,
    /// Sealed width.
    pub width: Sourced<Vec<String>>,
    /// Unit of a bare number in the width and shoulder columns.
    pub width_unit: Sourced<WidthUnit>,
    /// Shoulder.
    pub shoulder: Sourced<Vec<String>>,
    /// Direction of traffic.
    pub one_way: Sourced<Vec<String>>,
    /// Surface.
    pub surface: Sourced<Vec<String>>,
    /// Vehicles a day.
    pub vehicles_per_day: Sourced<Vec<String>>,
    /// Built-up or open country.
    pub setting: Sourced<Vec<String>>,
    /// Whether the road is on a bridge.
    pub bridge: Sourced<Vec<String>>,
    /// Whether it is in a tunnel.
    pub tunnel: Sourced<Vec<String>>,
    /// Whether it is part of a roundabout.
    pub junction: Sourced<Vec<String>>,
    /// Greatest gross mass, tonnes where bare.
    pub mass_limit: Sourced<Vec<String>>,
    /// Greatest height, in the unit of widths where bare.
    pub height_limit: Sourced<Vec<String>>,
    /// Greatest width.
    pub width_limit: Sourced<Vec<String>>,
    /// Greatest length.
    pub length_limit: Sourced<Vec<String>>,
    /// Whether heavy vehicles may drive there.
    pub heavy_vehicles: Sourced<Vec<String>>,
    /// How fast a truck drives there.
    pub driving_speed: Sourced<Vec<String>>,
    /// Whether a number of zero or less means "not known" (many tables have no empty cell for numbers).
    pub zero_is_unknown: Sourced<bool>,
}

/// Unit of a bare number that is a speed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
pub enum SpeedUnit {
    /// Kilometres an hour.
    #[serde(rename = "km/h")]
    KilometresPerHour,
    /// Miles an hour.
    #[serde(rename = "mph")]
    MilesPerHour,
}

/// Unit of a bare number that is a width.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
pub enum WidthUnit {
    /// Metres.
    #[serde(rename = "m")]
    Metres,
    /// International feet.
    #[serde(rename = "ft")]
    Feet,
}

/// How a table corrects the roads that have been read.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RoadJoinRule {
    /// The table, a CSV file, relative to the road file's folder.
    pub file: Sourced<String>,
    /// Column of the table that holds the road's identifier.
    pub key: Sourced<String>,
    /// Column that says the surface, if any.
    pub surface: Option<Sourced<String>>,
    /// What its words mean; a word that is not listed says nothing.
    pub surface_words: Option<Sourced<BTreeMap<String, Surface>>>,
    /// Column that says the sealed width, if any.
    pub width: Option<Sourced<String>>,
    /// Unit of a bare number there.
    pub width_unit: Option<Sourced<WidthUnit>>,
    /// Words in the width and speed columns that mean "not known".
    pub width_unsaid: Option<Sourced<Vec<String>>>,
    /// Column that says the speed limit, if any.
    pub speed: Option<Sourced<String>>,
    /// Column that says how fast a truck drives there, if any.
    pub driving_speed: Option<Sourced<String>>,
    /// Unit of a bare number in either.
    pub speed_unit: Option<Sourced<SpeedUnit>>,
}

impl<T> ByClass<T> {
    /// The value for one class.
    pub fn of(&self, class: RoadClass) -> &T {
        match class {
            RoadClass::Motorway => &self.motorway,
            RoadClass::Trunk => &self.trunk,
            RoadClass::Primary => &self.primary,
            RoadClass::Secondary => &self.secondary,
            RoadClass::Tertiary => &self.tertiary,
            RoadClass::Unclassified => &self.unclassified,
            RoadClass::Residential => &self.residential,
            RoadClass::Service => &self.service,
            RoadClass::Track => &self.track,
        }
    }
}
