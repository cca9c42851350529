//! Shape of `rules/severity/*.toml`: how bad a hole is, how risky, and by when it must be mended.

use std::collections::BTreeMap;

use jiff::civil::Date;
use serde::Deserialize;

use super::Sourced;
use crate::hole::Wetness;
use crate::road::RoadClass;
use crate::triage::Severity;

/// One way to judge holes.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SeverityRules {
    /// Name of the rule set.
    pub name: String,
    /// One sentence on what the rule set is for.
    pub about: String,
    /// The rating system; stored with every rating, since systems differ on the same hole.
    pub system: String,
    /// Severity by depth and diameter.
    pub rating: RatingRules,
    /// Factors of the risk points.
    pub risk: RiskRules,
    /// Days until a hole must be mended.
    pub due: DueRules,
    /// How a hole that is left alone gets worse.
    pub worsening: WorseningRules,
}

/// Severity by depth and diameter.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RatingRules {
    /// Holes less deep are not rated, m.
    pub least_depth_m: Sourced<f64>,
    /// Holes of smaller equivalent diameter are not rated, m.
    pub least_diameter_m: Sourced<f64>,
    /// Holes narrower than this in any direction are not rated, m.
    pub least_plan_dimension_m: Sourced<f64>,
    /// Bands of depth, ascending.
    pub depth_bands: Sourced<Vec<Band>>,
    /// Bands of equivalent diameter, ascending.
    pub diameter_bands: Sourced<Vec<Band>>,
    /// One row for each depth band, one column for each diameter band.
    pub table: Sourced<Vec<Vec<Severity>>>,
}

/// A band of depth or diameter; it begins where the one before it ends.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Band {
    /// Its end, m; none in the last band, which has no end.
    pub up_to_m: Option<f64>,
    /// Whether the end itself belongs to this band, or to the next.
    #[serde(default)]
    pub end_included: bool,
    /// A hole in this band counts as its area divided by this many holes, m²; none where it counts as one.
    pub area_per_hole_m2: Option<f64>,
}

/// Factors of the risk points: risk is their product. An aid to put holes in order, nothing more.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RiskRules {
    /// By severity; the base of the product.
    pub severity: Sourced<SeverityFactors>,
    /// By depth, m.
    pub depth_m: Sourced<Vec<Step>>,
    /// By place across the road.
    pub position: Sourced<PositionFactors>,
    /// By the road's speed, km/h.
    pub speed_km_h: Sourced<Vec<Step>>,
    /// By vehicles a day.
    pub vehicles_per_day: Sourced<Vec<Step>>,
    /// Vehicles a day assumed for a road without a count.
    pub vehicles_assumed: Sourced<BTreeMap<RoadClass, f64>>,
    /// By wetness.
    pub wetness: Sourced<WetnessFactors>,
    /// By days since the hole was seen.
    pub age_days: Sourced<Vec<Step>>,
}

/// A factor that holds from a value on, up to the next step.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// From this value on, itself included; unit as the table's name says.
    pub from: f64,
    /// The factor.
    pub factor: f64,
}

/// Factors by severity.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs)] // the words are the definition
pub struct SeverityFactors {
    pub not_rated: f64,
    pub low: f64,
    pub medium: f64,
    pub high: f64,
}

/// Factors by place across the road.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs)] // the words are the definition
pub struct PositionFactors {
    pub unknown: f64,
    pub lane: f64,
    pub wheel_path: f64,
    pub edge: f64,
    pub shoulder: f64,
    pub centre: f64,
}

/// Factors by wetness.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs)] // the words are the definition
pub struct WetnessFactors {
    pub unknown: f64,
    pub dry: f64,
    pub damp: f64,
    pub wet: f64,
    pub seepage: f64,
    pub pumping: f64,
}

/// Days until a hole must be mended.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DueRules {
    /// Groups of roads, the most pressing first; the first that fits a road decides. The last one takes every road.
    pub groups: Sourced<Vec<DueGroup>>,
    /// Whether every day counts or working days only.
    pub counted_in: Sourced<DayCount>,
    /// Days of the week on which nobody works.
    pub rest_days: Sourced<Vec<WeekDay>>,
    /// Single days on which nobody works, e.g. `"2026-12-25"`.
    pub holidays: Sourced<Vec<Day>>,
}

/// Which days count.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum DayCount {
    /// Every day.
    CalendarDays,
    /// Neither rest days nor holidays.
    WorkingDays,
}

/// A day of the week.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the words are the definition
pub enum WeekDay {
    Monday,
    Tuesday,
    Wednesday,
    Thursday,
    Friday,
    Saturday,
    Sunday,
}

/// A day of the calendar, written year-month-day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(try_from = "String")]
pub struct Day(pub Date);

impl TryFrom<String> for Day {
    type Error = String;

    fn try_from(text: String) -> Result<Self, String> {
        text.parse().map(Day).map_err(|_| format!("`{text}` is not a day: write year-month-day, e.g. 2026-12-25"))
    }
}

/// Days for one group of roads.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DueGroup {
    /// What the group is called.
    pub name: String,
    /// Roads of these classes belong to it...
    #[serde(default)]
    pub classes: Vec<RoadClass>,
    /// ... and roads of at least this speed, km/h. With neither said, every road belongs to it.
    pub speed_from_km_h: Option<f64>,
    /// Days for high severity; none: no time set.
    pub high_days: Option<u16>,
    /// Days for medium severity.
    pub medium_days: Option<u16>,
    /// Days for low severity.
    pub low_days: Option<u16>,
    /// Days for holes too small to be rated: the longest.
    pub not_rated_days: Option<u16>,
}

/// How a hole that is left alone gets worse, to tell which holes can wait; no forecast.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WorseningRules {
    /// Depth gained in 30 days where all factors are 1, m.
    pub depth_m_per_month: Sourced<f64>,
    /// Area gained in 30 days, as a share of what it was, where all factors are 1.
    pub area_share_per_month: Sourced<f64>,
    /// No hole gets deeper than this by itself: the bottom of the base, m.
    pub greatest_depth_m: Sourced<f64>,
    /// Days looked ahead at most.
    pub horizon_days: Sourced<u16>,
    /// Factor on both rates by vehicles a day.
    pub vehicles_per_day: Sourced<Vec<Step>>,
    /// Factor on both rates by wetness.
    pub wetness: Sourced<WetnessFactors>,
}

impl WetnessFactors {
    /// The factor for a wetness, or for none known.
    pub fn of(&self, wetness: Option<Wetness>) -> f64 {
        match wetness {
            None => self.unknown,
            Some(Wetness::Dry) => self.dry,
            Some(Wetness::Damp) => self.damp,
            Some(Wetness::Wet) => self.wet,
            Some(Wetness::Seepage) => self.seepage,
            Some(Wetness::Pumping) => self.pumping,
        }
    }
}
