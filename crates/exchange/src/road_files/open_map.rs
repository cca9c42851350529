//! What both readers of the open map share: which ways are roads, where their nodes are, and the lines made of them.

use std::collections::BTreeSet;

use model::place::LonLat;
use model::problem::Locator;
use model::road::{RawLine, RoadAttributes};
use model::rules::roads::{SpeedUnit, WidthUnit};

use super::Reading;
use super::attributes::{Habits, SaidOfLimits, SaidOfRoad};
use super::restrictions::Restrictions;

/// Bare numbers in the open map are km/h and metres, and a way without a oneway tag is two-way (from memory:
/// OpenStreetMap wiki, Map features/Units, Key:oneway).
const HABITS: Habits = Habits {
    speed_unit: SpeedUnit::KilometresPerHour,
    width_unit: WidthUnit::Metres,
    zero_is_unknown: false,
    silent_is_two_way: true,
};

/// A way that is a road, before its nodes' places are known.
pub(super) struct PendingWay {
    id: i64,
    at: Locator,
    nodes: Vec<i64>,
    attributes: RoadAttributes,
}

/// The roads of the first pass.
#[derive(Default)]
pub(super) struct Ways {
    pending: Vec<PendingWay>,
    ids: BTreeSet<i64>,
    /// Restrictions of turns between them.
    pub(super) restrictions: Restrictions,
}

impl Ways {
    /// Takes one way in, if it is a road.
    pub(super) fn take(
        &mut self,
        id: i64,
        at: Locator,
        nodes: impl FnOnce() -> Vec<i64>,
        tags: &[(&str, &str)],
        reading: &mut Reading<'_>,
    ) {
        let Some(highway) = tag(tags, "highway") else { return };
        if reading.words.class.get(highway).is_none() {
            reading.leave_out(format!("highway={highway}"));
            return;
        }
        if let Some(why) = left_out_by(tags, reading) {
            reading.leave_out(why);
            return;
        }
        let subject = format!("way {id}");
        if !self.ids.insert(id) {
            let wrong = "the way is in the file twice".to_owned();
            reading.findings.refuse(
                "road.way.twice",
                at,
                &subject,
                wrong,
                "a file that holds each way once; the first is used",
            );
            return;
        }
        let attributes = reading.attributes(&said_of(tags, reading), HABITS, &at, &subject);
        self.pending.push(PendingWay { id, at, nodes: nodes(), attributes });
    }

    /// The nodes whose places are needed.
    pub(super) fn needed(&self) -> Nodes {
        let mut ids: Vec<i64> = self.pending.iter().flat_map(|way| way.nodes.iter().copied()).collect();
        ids.sort_unstable();
        ids.dedup();
        let places = vec![MISSING; ids.len()];
        Nodes { ids, places }
    }

    /// Makes the lines.
    pub(super) fn into_lines(self, nodes: &Nodes, reading: &mut Reading<'_>) {
        reading.restrictions = self.restrictions.into_known(&self.ids, reading);
        for way in self.pending {
            let subject = format!("way {}", way.id);
            let points: Vec<(i64, Option<LonLat>)> = way.nodes.iter().map(|&id| (id, nodes.place(id))).collect();
            let missing = points.iter().filter(|(_, place)| place.is_none()).count();
            if missing > 0 {
                let first = points.iter().find(|(_, place)| place.is_none()).map_or(0, |(id, _)| *id);
                reading.findings.warn(
                    "road.node.missing",
                    way.at.clone(),
                    &subject,
                    format!(
                        "{missing} of its {} nodes are missing or have no usable place, the first is node {first}",
                        points.len()
                    ),
                    "an extract with complete ways; the parts in between are used",
                );
            }
            let mut used = false;
            for run in points.split(|(_, place)| place.is_none()) {
                let mut run: Vec<(i64, LonLat)> = run.iter().filter_map(|&(id, place)| Some((id, place?))).collect();
                run.dedup_by(|a, b| a.0 == b.0);
                if run.len() >= 2 {
                    used = true;
                    reading.lines.push(RawLine {
                        source_id: way.id.to_string(),
                        at: way.at.clone(),
                        points: run.iter().map(|(_, place)| *place).collect(),
                        node_keys: Some(run.iter().map(|(id, _)| id.cast_unsigned()).collect()),
                        attributes: way.attributes.clone(),
                    });
                }
            }
            if !used {
                let wrong = "fewer than two of its nodes can be used".to_owned();
                reading.findings.refuse(
                    "road.line.too_short",
                    way.at,
                    &subject,
                    wrong,
                    "a way with at least two nodes in a row",
                );
            }
        }
    }
}

/// Places of the needed nodes: sorted by number, 16 bytes each, so that a whole country fits in memory.
pub(super) struct Nodes {
    ids: Vec<i64>,
    /// Longitude and latitude in units of 1e-7 degree, the open map's own resolution.
    places: Vec<[i32; 2]>,
}

const MISSING: [i32; 2] = [i32::MAX; 2];
const UNITS_PER_DEGREE: f64 = 1e7;

impl Nodes {
    /// Takes one node in, if it is needed. `false`: it is, but the place is not on the globe.
    pub(super) fn take(&mut self, id: i64, lon: f64, lat: f64) -> bool {
        let Ok(index) = self.ids.binary_search(&id) else { return true };
        let on_globe = (-180.0..=180.0).contains(&lon) && (-90.0..=90.0).contains(&lat);
        if on_globe {
            self.places[index] = [lon, lat].map(|degrees| (degrees * UNITS_PER_DEGREE).round() as i32);
        }
        on_globe
    }

    fn place(&self, id: i64) -> Option<LonLat> {
        let index = self.ids.binary_search(&id).ok()?;
        let place = self.places[index];
        (place != MISSING).then(|| {
            let [lon, lat] = place.map(|units| f64::from(units) / UNITS_PER_DEGREE);
            LonLat { lon, lat }
        })
    }
}

/// Reports a needed node that is not on the globe.
pub(super) fn refuse_node(reading: &mut Reading<'_>, at: Locator, id: i64, lon: f64, lat: f64) {
    reading.findings.refuse(
        "road.node.out_of_range",
        at,
        &format!("node {id}"),
        format!("longitude {lon}, latitude {lat} is not on the globe"),
        "longitude from -180 to 180, latitude from -90 to 90 degrees",
    );
}

fn left_out_by(tags: &[(&str, &str)], reading: &Reading<'_>) -> Option<String> {
    let rule = &reading.rules.open_map;
    let has = |pair: &&String| pair.split_once('=').is_some_and(|(key, value)| tag(tags, key) == Some(value));
    let why = rule.leave_out.value.iter().find(has)?;
    if rule.keep_anyway.value.iter().any(|pair| has(&pair)) { None } else { Some(why.clone()) }
}

fn said_of(tags: &[(&str, &str)], reading: &Reading<'_>) -> SaidOfRoad {
    let first = |keys: &[&str]| keys.iter().find_map(|key| tag(tags, key)).map(str::to_owned);
    let one_way_by_nature = reading
        .rules
        .open_map
        .one_way
        .value
        .iter()
        .any(|pair| pair.split_once('=').is_some_and(|(key, value)| tag(tags, key) == Some(value)));
    let both_directions = || match (tag(tags, "maxspeed:forward"), tag(tags, "maxspeed:backward")) {
        (None, None) => None,
        (one, other) => Some([one, other].into_iter().flatten().collect::<Vec<_>>().join(";")),
    };
    // Of several limits the lowest counts, so all are handed on.
    let every = |keys: &[&str]| {
        let said: Vec<&str> = keys.iter().filter_map(|key| tag(tags, key)).collect();
        (!said.is_empty()).then(|| said.join(";"))
    };
    let living_street = (tag(tags, "highway") == Some("living_street")).then(|| "living_street".to_owned());
    SaidOfRoad {
        class: first(&["highway"]),
        name: first(&["name"]),
        number: first(&["ref"]),
        speed: first(&["maxspeed"]).or_else(both_directions),
        lanes: first(&["lanes"]),
        width: first(&["width", "est_width"]),
        shoulder: first(&["shoulder:width", "shoulder:both:width", "shoulder"]),
        one_way: first(&["oneway"]),
        surface: first(&["surface"]),
        vehicles_per_day: first(&["aadt"]),
        setting: first(&["zone:traffic", "source:maxspeed", "maxspeed:type", "zone:maxspeed"]).or(living_street),
        bridge: first(&["bridge"]),
        tunnel: first(&["tunnel"]),
        junction: first(&["junction"]),
        one_way_by_nature,
        limits: SaidOfLimits {
            mass: every(&["maxweight", "maxweight:hgv", "maxweightrating", "maxweightrating:hgv"]),
            height: every(&["maxheight", "maxheight:physical"]),
            width: every(&["maxwidth", "maxwidth:physical"]),
            length: every(&["maxlength", "maxlength:hgv"]),
            heavy: first(&["hgv"]),
            driving_speed: None,
        },
    }
}

pub(super) fn tag<'t>(tags: &[(&'t str, &'t str)], key: &str) -> Option<&'t str> {
    tags.iter().find(|(name, _)| *name == key).map(|(_, value)| *value)
}
