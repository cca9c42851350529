//! A feature, and a page of features.

use jiff::Timestamp;
use model::place::LonLat;
use serde_json::{Map, Value};

use crate::lon_lat_box::LonLatBox;
use crate::query::{FeatureQuery, Interval};

/// One hole, repair, zone or road section as other software reads it.
#[derive(Debug, Clone, PartialEq)]
pub struct Feature {
    /// Its number, unique in its collection.
    pub id: String,
    /// Where it is, where that is known.
    pub geometry: Option<Geometry>,
    /// When it is or was so; `None`: it has no time.
    pub time: Option<Interval>,
    /// Flat properties, see [`crate::Collection::properties`]. What is not known is absent.
    pub properties: Map<String, Value>,
}

/// Where a feature is, WGS 84 degrees.
#[derive(Debug, Clone, PartialEq)]
pub enum Geometry {
    /// A point.
    Point(LonLat),
    /// A line of at least two points.
    Line(Vec<LonLat>),
}

/// Features that answer one query, and where to go on from there.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Page {
    /// The features of this page, in the order of their numbers.
    pub features: Vec<Feature>,
    /// How many match on all pages together, where that is counted.
    pub matched: Option<usize>,
    /// `cursor` of the page after this one.
    pub next: Option<String>,
    /// `cursor` of the page before this one; empty where that is the first.
    pub previous: Option<String>,
}

/// Where and when the features of a collection are.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Extent {
    /// Box around all of them.
    pub bounds: Option<LonLatBox>,
    /// From the first to the last; open where one of them lasts.
    pub time: Option<Interval>,
}

impl Geometry {
    /// Its points.
    pub fn places(&self) -> &[LonLat] {
        match self {
            Geometry::Point(place) => std::slice::from_ref(place),
            Geometry::Line(places) => places,
        }
    }
}

impl Feature {
    /// Whether a query asks for it. Without a geometry it is in no box, without a time in no interval (OGC 17-069r4, 7.15.3 and 7.15.4).
    pub fn answers(&self, query: &FeatureQuery) -> bool {
        let inside = |bounds: &LonLatBox| self.geometry.as_ref().is_some_and(|geometry| bounds.touches(geometry));
        let then = |time: &Interval| self.time.as_ref().is_some_and(|own| own.meets(time));
        query.bounds.as_ref().is_none_or(inside)
            && query.time.as_ref().is_none_or(then)
            && query.filters.iter().all(|filter| self.properties.get(filter.property) == Some(&filter.value))
    }

    /// What orders features: numbers of the same length as text, shorter ones first, so that 9 comes before 10.
    pub fn order(&self) -> (usize, &str) {
        order(&self.id)
    }
}

fn order(id: &str) -> (usize, &str) {
    (id.len(), id)
}

impl Extent {
    /// Of these features.
    pub fn of<'a>(features: impl IntoIterator<Item = &'a Feature>) -> Extent {
        let mut places = Vec::new();
        let mut time: Option<Interval> = None;
        for feature in features {
            places.extend(feature.geometry.iter().flat_map(Geometry::places));
            if let Some(own) = feature.time {
                time = Some(time.map_or(own, |so_far| so_far.with(&own)));
            }
        }
        Extent { bounds: LonLatBox::around(places), time }
    }
}

/// The page that a query asks for, of features that are all at hand; only those of the page are copied.
///
/// The cursor is the number of the last feature of the page before: when features come or go between two pages, none is given
/// twice and none left out that was there all the time.
pub fn page_of<'a>(features: impl IntoIterator<Item = &'a Feature>, query: &FeatureQuery) -> Page {
    let mut all: Vec<&Feature> = features.into_iter().filter(|feature| feature.answers(query)).collect();
    all.sort_by(|a, b| a.order().cmp(&b.order()));
    let matched = all.len();
    let from = query.cursor.as_deref().map_or(0, |cursor| all.partition_point(|f| f.order() <= order(cursor)));
    let to = from.saturating_add(query.limit).min(matched);
    let next = (to < matched && to > from).then(|| all[to - 1].id.clone());
    let previous = (from > 0).then(|| match from.saturating_sub(query.limit) {
        0 => String::new(),
        before => all[before - 1].id.clone(),
    });
    let features = all[from..to].iter().map(|feature| (*feature).clone()).collect();
    Page { features, matched: Some(matched), next, previous }
}

/// In universal time, as RFC 3339 writes it.
pub(crate) fn utc(time: Timestamp) -> String {
    time.to_string()
}
