//! Whether a new report is of a hole that is known already. The matching is `triage`'s; here is only what it needs to know.

use jiff::civil::Date;
use jiff::tz::TimeZone;
use model::district::UnitSystem;
use model::hole::HoleId;
use model::quantity::{InLength, Length, metres, millimetres};
use model::record::happened::{HoleSize, Position};
use model::record::known::{HoleState, KnownHole};
use model::road::SectionId;
use model::rules::matching::MatchingRules;
use triage::same_hole::{Report, farthest_apart, pair, pair_apart};
use uuid::Uuid;

use crate::ground::{METRES_PER_DEGREE, metres_between};

/// A hole as somebody saw it.
#[derive(Debug, Clone, PartialEq)]
pub struct Sighting {
    /// The hole's number.
    pub hole: Uuid,
    /// The hole that it is the same as, where it is merged.
    pub same_as: Option<Uuid>,
    /// Where.
    pub position: Position,
    /// Where on the roads, where it was located.
    pub on_road: Option<OnRoad>,
    /// As far as told.
    pub size: HoleSize,
    /// Day it was seen last.
    pub seen: Option<Date>,
    /// The word for its source.
    pub source: String,
}

/// A place on a road.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnRoad {
    /// The section.
    pub section: SectionId,
    /// Along it.
    pub chainage: Length,
    /// Across, positive to the right.
    pub across: Length,
}

/// What a new report is of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Match {
    /// A hole that is known.
    SameAs {
        /// Which: the one that stays of those that are merged.
        hole: Uuid,
        /// Why.
        why: String,
    },
    /// None of them.
    New,
}

impl Sighting {
    /// What is known of a hole; `None` where it is no longer there to be the same as (mended, dismissed, resurfaced) or has no place. A merged
    /// hole counts through the one it is merged into, which must be among the candidates.
    pub fn of(known: &KnownHole, on_road: Option<OnRoad>, zone: &TimeZone) -> Option<Sighting> {
        if matches!(known.state, HoleState::Mended | HoleState::Dismissed | HoleState::Resurfaced) {
            return None;
        }
        let last = known.reports.last();
        Some(Sighting {
            hole: known.hole,
            same_as: known.same_as.as_ref().filter(|_| known.state == HoleState::SameAsOther).map(|told| told.value),
            position: known.position.as_ref()?.value,
            on_road,
            size: HoleSize {
                length_mm: known.length_mm.as_ref().map(|told| told.value),
                width_mm: known.width_mm.as_ref().map(|told| told.value),
                depth_mm: known.depth_mm.as_ref().map(|told| told.value),
                lane_position: known.lane_position.as_ref().map(|told| told.value),
                wetness: known.wetness.as_ref().map(|told| told.value),
            },
            seen: last.map(|report| zone.to_datetime(report.by.at).date()).max(known.seen),
            source: last.map(|report| report.source.clone()).unwrap_or_default(),
        })
    }

    /// As `triage` takes it. Where it is not on a road, section, chainage and across say nothing.
    pub(crate) fn report(&self) -> Report {
        let told = |mm: Option<f64>| mm.map_or(metres(f64::NAN), millimetres);
        let off_road = OnRoad { section: SectionId(0), chainage: metres(0.0), across: metres(0.0) };
        let on_road = self.on_road.unwrap_or(off_road);
        Report {
            id: HoleId(self.hole.to_string()),
            section: on_road.section,
            chainage: on_road.chainage,
            across: on_road.across,
            lane_position: self.size.lane_position,
            length: told(self.size.length_mm),
            width: told(self.size.width_mm),
            depth: told(self.size.depth_mm),
            seen: self.seen,
            source: self.source.clone(),
        }
    }
}

/// The box that holds every hole a report at that place can be of: west, south, east, north, degrees; west is more than east where
/// it crosses the meridian of 180 degrees.
pub fn box_around(place: Position, rules: &MatchingRules) -> [f64; 4] {
    // a little more than the rules say, against rounding
    let north = 1.01 * farthest_apart(rules).in_metres() / METRES_PER_DEGREE;
    let east = (north / (place.lat.abs() + north).to_radians().cos().max(1e-9)).min(180.0);
    let round = |lon: f64| {
        if lon < -180.0 {
            lon + 360.0
        } else if lon > 180.0 {
            lon - 360.0
        } else {
            lon
        }
    };
    [round(place.lon - east), place.lat - north, round(place.lon + east), place.lat + north]
}

/// Whether a new report is of one of the holes that are known. It is of a hole when nothing tells it apart from any of the
/// sightings that are merged into that hole; of several holes the nearest counts, of equally near ones the lower number.
///
/// Where both are located on roads they are compared along and across the road, else by their distance alone.
pub fn match_report(new: &Sighting, candidates: &[Sighting], rules: &MatchingRules, units: UnitSystem) -> Match {
    let report = new.report();
    let close = |other: &Sighting| {
        if new.on_road.is_some() && other.on_road.is_some() {
            return pair(&report, &other.report(), rules, units);
        }
        let apart = metres(metres_between(new.position, other.position));
        pair_apart(&report, &other.report(), apart, rules, units)
    };
    let mut best: Option<(f64, Uuid, String)> = None;
    for hole in candidates.iter().filter(|hole| hole.same_as.is_none() && hole.hole != new.hole) {
        let Ok(nearness) = close(hole) else { continue };
        let mut merged = candidates.iter().filter(|other| other.same_as == Some(hole.hole) && other.hole != new.hole);
        if !merged.all(|other| close(other).is_ok()) {
            continue;
        }
        let is_better = best.as_ref().is_none_or(|(score, id, _)| (nearness.score, hole.hole) < (*score, *id));
        if is_better {
            best = Some((nearness.score, hole.hole, nearness.words));
        }
    }
    best.map_or(Match::New, |(_, hole, why)| Match::SameAs { hole, why })
}
