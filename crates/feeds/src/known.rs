//! What is known of holes, repairs and zones, as features.
//!
//! Who told something, remarks, reasons and references in anybody's own words, contacts, crews and signatures stay out.

use jiff::Timestamp;
use jiff::civil::Time;
use jiff::tz::TimeZone;
use model::place::LonLat;
use model::record::happened::Position;
use model::record::known::{HoleState, KnownHole, KnownPhoto, KnownRepair, KnownZone};
use model::record::stretch::ZoneStretch;
use model::record::told::Told;
use serde::Serialize;
use serde_json::{Map, Value};
use uuid::Uuid;

use crate::feature::{Feature, Geometry, utc};
use crate::query::Interval;

/// A hole as a feature.
pub fn hole_feature(known: &KnownHole) -> Feature {
    let mut is = Properties::default();
    is.put("state", &known.state);
    is.told("length_mm", known.length_mm.as_ref());
    is.told("width_mm", known.width_mm.as_ref());
    is.told("depth_mm", known.depth_mm.as_ref());
    is.told("lane_position", known.lane_position.as_ref());
    is.told("wetness", known.wetness.as_ref());
    is.put("seen", &known.seen);
    is.put("reports", &known.reports.len());
    is.told("same_as", known.same_as.as_ref());
    is.put("merged", &known.merged);
    is.put("repairs", &known.repairs);
    let seen = known.seen.and_then(|day| TimeZone::UTC.to_timestamp(day.to_datetime(Time::MIN)).ok());
    let first_told = known.reports.iter().map(|report| report.by.at).min();
    let over = matches!(
        known.state,
        HoleState::Mended | HoleState::SameAsOther | HoleState::Dismissed | HoleState::Resurfaced
    );
    let from = seen.into_iter().chain(first_told).min().unwrap_or(known.last_told);
    let time = Interval { from: Some(from), to: over.then_some(known.last_told.max(from)) };
    is.feature(known.hole, known.position.as_ref(), Some(time), &known.photos, known.last_told)
}

/// A repair as a feature.
pub fn repair_feature(known: &KnownRepair) -> Feature {
    let mut is = Properties::default();
    let told_at = |teller: &Option<model::record::told::Teller>| teller.as_ref().map(|teller| teller.at);
    let moment = |at: Option<Timestamp>| at.map(utc);
    is.put("state", &known.state);
    is.put("holes", &known.holes);
    is.told("zone", known.zone.as_ref());
    is.told("round", known.round.as_ref());
    is.told_as("planned_area_m2", known.planned.as_ref(), |planned| Some(planned.area_m2));
    is.put("road", &known.planned.as_ref().map(|told| &told.value.road).filter(|road| !road.is_empty()));
    is.told("area_m2", known.area_m2.as_ref());
    is.told_as("depth_mean_mm", known.depths_mm.as_ref(), |depths| {
        (!depths.is_empty()).then(|| depths.iter().sum::<f64>() / depths.len() as f64)
    });
    is.told_as("depth_max_mm", known.depths_mm.as_ref(), |depths| depths.iter().copied().reduce(f64::max));
    is.put("layers", &known.layers.len());
    let base: Vec<_> = known.layers.iter().filter_map(|layer| layer.base_loose_m3.as_ref()).collect();
    is.sum("base_loose_m3", &base);
    let water: Vec<_> = known.layers.iter().filter_map(|layer| layer.water_l.as_ref()).collect();
    is.sum("water_l", &water);
    is.told("binder", known.binder.as_ref());
    is.told_as("binder_l", known.binder_l.as_ref(), number);
    is.told_as("cover_stone_m3", known.cover_stone_m3.as_ref(), number);
    is.told("sealed_area_m2", known.sealed_area_m2.as_ref());
    is.told("crown_mm", known.crown_mm.as_ref());
    is.told("dry", known.dry.as_ref());
    is.told("weather", known.weather.as_ref());
    is.told("air_temperature_c", known.air_temperature_c.as_ref());
    is.told("drainage", known.drainage.as_ref());
    let (cut, sealed) = (told_at(&known.cut), told_at(&known.sealed));
    let (opened, failed) = (told_at(&known.opened), told_at(&known.failed));
    is.put("cut_at", &moment(cut));
    is.put("sealed_at", &moment(sealed));
    is.put("opened_at", &moment(opened));
    is.put("failed_at", &moment(failed));
    is.put("last_found", &known.inspections.last().map(|inspection| inspection.found));
    let begun = [cut, sealed, opened].into_iter().flatten().min();
    let time = begun.map(|from| Interval { from: Some(from), to: failed.map(|failed| failed.max(from)) });
    let mut feature = is.feature(known.repair, None, time, &known.photos, known.last_told);
    feature.geometry = known.position.and_then(point);
    feature
}

/// A zone as a feature.
pub fn zone_feature(known: &KnownZone) -> Feature {
    let mut is = Properties::default();
    let (opened, closed) = (known.opened.as_ref().map(|by| by.at), known.closed.as_ref().map(|by| by.at));
    let state = match (opened, closed) {
        (_, Some(_)) => "closed",
        (Some(_), None) => "open",
        (None, None) => "unknown",
    };
    is.put("state", &state);
    is.put("holes", &known.holes);
    is.told("round", known.round.as_ref());
    is.told("road", known.road.as_ref());
    is.told("layout", known.layout.as_ref());
    is.told("devices_out", known.devices_out.as_ref());
    is.told("devices_in", known.devices_in.as_ref());
    if let (Some(out), Some(taken_in), Some(_)) = (&known.devices_out, &known.devices_in, closed) {
        is.put("devices_missing", &out.value.saturating_sub(taken_in.value));
    }
    is.put("opened_at", &opened.map(utc));
    is.put("closed_at", &closed.map(utc));
    let from = opened.or(closed);
    let time = from.map(|from| Interval { from: Some(from), to: closed.map(|closed| closed.max(from)) });
    is.told_as("stretches", known.stretches.as_ref(), |stretches| Some(stretches.len()));
    let mut feature = is.feature(known.zone, known.position.as_ref(), time, &known.photos, known.last_told);
    // the other directions of a road lie on the same line, the other way round
    if let Some(line) = stretches(known).next().and_then(|stretch| line(&stretch.line)) {
        feature.geometry = Some(Geometry::Line(line));
    }
    feature
}

/// The stretches of a zone that are lines.
pub(crate) fn stretches(known: &KnownZone) -> impl Iterator<Item = &ZoneStretch> {
    let told = known.stretches.iter().flat_map(|told| &told.value);
    told.filter(|stretch| line(&stretch.line).is_some())
}

/// A line, where all its places are on the globe.
pub(crate) fn line(places: &[Position]) -> Option<Vec<LonLat>> {
    let line: Option<Vec<LonLat>> = places
        .iter()
        .map(|place| match point(*place)? {
            Geometry::Point(place) => Some(place),
            Geometry::Line(_) => None,
        })
        .collect();
    line.filter(|line| line.len() >= 2)
}

/// Properties as they come together, and which of them were told differently.
#[derive(Default)]
struct Properties {
    all: Map<String, Value>,
    told_differently: Vec<&'static str>,
}

impl Properties {
    /// Puts down a value; what is not known, and a list of nothing, is left out.
    fn put(&mut self, name: &'static str, value: &impl Serialize) {
        // A number that is none, or no text, is not known.
        if let Ok(value) = serde_json::to_value(value)
            && !value.is_null()
            && value.as_array().is_none_or(|all| !all.is_empty())
        {
            self.all.insert(name.to_owned(), value);
        }
    }

    fn told<T: Serialize>(&mut self, name: &'static str, told: Option<&Told<T>>) {
        self.told_as(name, told, Some);
    }

    /// Puts down what is seen of a value; it was told differently where something else is seen of what was told otherwise.
    fn told_as<'a, T, U: Serialize>(
        &mut self,
        name: &'static str,
        told: Option<&'a Told<T>>,
        seen: impl Fn(&'a T) -> Option<U>,
    ) {
        let Some(told) = told else { return };
        let see = |value| serde_json::to_value(seen(value)).unwrap_or_default();
        let own = see(&told.value);
        if told.otherwise.iter().any(|other| see(&other.value) != own) {
            self.told_differently.push(name);
        }
        self.put(name, &own);
    }

    /// Puts down the sum of amounts; where there is none it is not known.
    fn sum(&mut self, name: &'static str, amounts: &[&Told<rust_decimal::Decimal>]) {
        if amounts.iter().any(|told| !told.otherwise.is_empty()) {
            self.told_differently.push(name);
        }
        if !amounts.is_empty() {
            let sum = amounts.iter().try_fold(rust_decimal::Decimal::ZERO, |sum, told| sum.checked_add(told.value));
            self.put(name, &sum.as_ref().and_then(number));
        }
    }

    fn feature(
        mut self,
        id: Uuid,
        position: Option<&Told<Position>>,
        time: Option<Interval>,
        photos: &[KnownPhoto],
        last_told: Timestamp,
    ) -> Feature {
        if position.is_some_and(|told| !told.otherwise.is_empty()) {
            self.told_differently.push("geometry");
        }
        self.put("photos", &photos.len());
        self.put("last_told", &utc(last_told));
        if !self.told_differently.is_empty() {
            let names = std::mem::take(&mut self.told_differently);
            self.put("told_differently", &names);
        }
        Feature {
            id: id.to_string(),
            geometry: position.and_then(|told| point(told.value)),
            time,
            properties: self.all,
        }
    }
}

/// A point, where the position is one on the globe.
pub(crate) fn point(position: Position) -> Option<Geometry> {
    let Position { lon, lat } = position;
    let valid = (-180.0..=180.0).contains(&lon) && (-90.0..=90.0).contains(&lat);
    valid.then_some(Geometry::Point(LonLat { lon, lat }))
}

/// An exact decimal as a number, the nearest that a computer has.
fn number(amount: &rust_decimal::Decimal) -> Option<f64> {
    amount.to_string().parse().ok()
}
