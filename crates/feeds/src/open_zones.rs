//! The work zones that stand on the road now, as a work-zone feed: the open standard `WZDx`, version 4.2.
//!
//! What a plan means to set up is another feed, with lanes and devices; here is what crews told that they did set up.

use jiff::{Timestamp, Unit};
use model::place::LonLat;
use model::record::known::KnownZone;
use model::record::stretch::{Heading, TrafficImpact, ZoneKind, ZoneLane};
use serde_json::{Value, json};
use uuid::Uuid;

use crate::feature::Geometry;
use crate::known::{line, point, stretches};

/// Version of the standard.
const VERSION: &str = "4.2";
/// What the number of the source is made under.
const NAMESPACE: &str = "urn:lengthsman:open-zone-feed";

/// Who publishes the feed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FeedPublisher {
    /// Name of the organisation: the district's.
    pub name: String,
    /// What the licence of the roads asks to be said, where their lines are in the feed.
    pub road_attribution: Option<String>,
}

/// A zone, and what else the feed has to say of it.
#[derive(Debug, Clone, Copy)]
pub struct OpenZone<'a> {
    /// What is known of it.
    pub zone: &'a KnownZone,
    /// Until when it is expected to stand: by the plan, or the end of the crew's day.
    pub expected_end: Timestamp,
}

/// Writes those of the zones whose signs stand as a `WZDx` 4.2 work-zone feed (`GeoJSON`, WGS 84), and gives the numbers of those that
/// stand but have no place, which the standard can't tell of.
///
/// A zone whose stretches were told becomes a road event for each of them, with its lanes; one without becomes a point with an unknown
/// direction. `now` is when the
/// feed is written: an end that was expected earlier is past, but the signs stand, so that `now` takes its place.
pub fn open_zone_feed(zones: &[OpenZone<'_>], publisher: &FeedPublisher, now: Timestamp) -> (Value, Vec<Uuid>) {
    let updated = seconds(now);
    let namespace = Uuid::new_v5(&Uuid::NAMESPACE_URL, NAMESPACE.as_bytes());
    let source = Uuid::new_v5(&namespace, publisher.name.as_bytes()).to_string();
    let mut features = Vec::new();
    let mut without_place = Vec::new();
    for open in zones {
        let Some(begun) = open.zone.opened.as_ref().filter(|_| open.zone.closed.is_none()) else { continue };
        let events = events(open);
        if events.is_empty() {
            without_place.push(open.zone.zone);
        }
        for event in &events {
            let related: Vec<Value> = events
                .iter()
                .filter(|other| other.id != event.id)
                .map(|other| json!({"type": "related-work-zone", "id": other.id.to_string()}))
                .collect();
            let mut core = json!({
                "event_type": "work-zone",
                "data_source_id": source,
                "road_names": [road_name(open.zone)],
                "direction": event.heading,
                "name": format!("Work zone {}", open.zone.zone),
                "description": description(open.zone),
                "update_date": seconds(open.zone.last_told),
            });
            if !related.is_empty() {
                core["related_road_events"] = related.into();
            }
            let mut properties = json!({
                "core_details": core,
                "start_date": seconds(begun.at),
                "end_date": seconds(open.expected_end.max(now)),
                // A crew told that signs stand; nobody told when they will be in, or measured where they stand.
                "is_start_date_verified": true,
                "is_end_date_verified": false,
                "is_start_position_verified": false,
                "is_end_position_verified": false,
                // The fields that came before those; kept for readers of 4.0 and 4.1.
                "start_date_accuracy": "verified",
                "end_date_accuracy": "estimated",
                "beginning_accuracy": "estimated",
                "ending_accuracy": "estimated",
                "event_status": "active",
                "location_method": "other",
                "vehicle_impact": event.impact,
                "types_of_work": [{"type_name": "minor-road-defect-repair", "is_architectural_change": false}],
            });
            if let Some(kind) = event.kind {
                properties["work_zone_type"] = json!(kind);
            }
            if !event.lanes.is_empty() {
                properties["lanes"] = json!(event.lanes);
            }
            features.push(json!({
                "id": event.id.to_string(),
                "type": "Feature",
                "properties": properties,
                "geometry": event.geometry,
            }));
        }
    }
    let mut feed = json!({
        "feed_info": {
            "publisher": publisher.name,
            "version": VERSION,
            "update_date": updated,
            "data_sources": [{"data_source_id": source, "organization_name": publisher.name, "update_date": updated}],
        },
        "type": "FeatureCollection",
        "features": features,
    });
    if let Some(attribution) = &publisher.road_attribution {
        feed["attribution"] = attribution.clone().into();
    }
    (feed, without_place)
}

/// A road event: a zone for the traffic of one direction.
struct RoadEvent<'a> {
    id: Uuid,
    heading: Heading,
    impact: TrafficImpact,
    kind: Option<ZoneKind>,
    lanes: &'a [ZoneLane],
    geometry: Value,
}

/// The road events of a zone.
fn events<'a>(open: &OpenZone<'a>) -> Vec<RoadEvent<'a>> {
    let of_stretches: Vec<RoadEvent<'_>> = stretches(open.zone)
        .enumerate()
        .filter_map(|(index, stretch)| {
            let line = line(&stretch.line)?;
            let coordinates: Vec<[f64; 2]> = line.iter().map(|place| [place.lon, place.lat]).collect();
            let heading = if stretch.heading == Heading::Unknown { heading(&line) } else { stretch.heading };
            Some(RoadEvent {
                id: Uuid::new_v5(&open.zone.zone, index.to_string().as_bytes()),
                heading,
                impact: stretch.impact,
                kind: Some(stretch.kind),
                lanes: &stretch.lanes,
                geometry: json!({"type": "LineString", "coordinates": coordinates}),
            })
        })
        .collect();
    if !of_stretches.is_empty() {
        return of_stretches;
    }
    let place = open.zone.position.as_ref().and_then(|told| point(told.value));
    let event = |at: &LonLat| RoadEvent {
        id: open.zone.zone,
        heading: Heading::Unknown,
        impact: TrafficImpact::Unknown,
        kind: None,
        lanes: &[],
        geometry: json!({"type": "MultiPoint", "coordinates": [[at.lon, at.lat]]}),
    };
    place.iter().flat_map(Geometry::places).map(event).collect()
}

/// The quarter of the sky that a line goes to as a whole.
fn heading(line: &[LonLat]) -> Heading {
    let [first, .., last] = line else { return Heading::Unknown };
    let east = (last.lon - first.lon + 540.0).rem_euclid(360.0) - 180.0;
    let east = east * f64::midpoint(first.lat, last.lat).to_radians().cos();
    let north = last.lat - first.lat;
    if east == 0.0 && north == 0.0 { Heading::Unknown } else { Heading::of_azimuth(east.atan2(north).to_degrees()) }
}

fn road_name(zone: &KnownZone) -> String {
    let name = zone.road.as_ref().map(|told| told.value.trim()).filter(|name| !name.is_empty());
    name.unwrap_or("name not known").to_owned()
}

fn description(zone: &KnownZone) -> String {
    match zone.layout.as_ref().map(|told| told.value.trim().trim_end_matches('.')).filter(|layout| !layout.is_empty()) {
        Some(layout) => format!("Repair of holes. {layout}."),
        None => "Repair of holes.".to_owned(),
    }
}

/// In universal time, whole seconds.
fn seconds(time: Timestamp) -> String {
    time.round(Unit::Second).unwrap_or(time).to_string()
}
