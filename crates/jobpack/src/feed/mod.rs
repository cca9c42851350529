//! The day's work zones as a work-zone feed: the open standard `WZDx`, version 4.2, for those who warn drivers.
//!
//! One road event for each direction of traffic that a zone hinders, as the standard wants it. Everything is planned: nobody
//! has measured a place or confirmed a time, and the feed says so.

mod extent;
mod lanes;
mod times;

use jiff::Timestamp;
use model::place::{LonLat, Travel};
use model::plan::{Plan, PlannedSite};
use model::record::happened::Position;
use model::record::stretch::{Heading, ZoneKind, ZoneStretch};
use model::road::{Flow, RoadSection};
use model::round::StopKind;
use model::work_zone::{Layout, WorkZone};
use serde_json::{Value, json};
use uuid::Uuid;

use crate::centre_line::CentreLine;
use crate::drawing::visited;
use crate::error::JobPackError;
use crate::geo_json;
use crate::printable::printable;
use times::Clock;

/// Version of the standard.
const VERSION: &str = "4.2";
/// What the identifiers are made under, so that they are the same whenever the same plan is made.
const NAMESPACE: &str = "urn:lengthsman:work-zone-feed";

/// Writes the zones of the day's round as a `WZDx` 4.2 work-zone feed (`GeoJSON`, WGS 84), in the order they are worked.
///
/// `updated` is the time the feed says it was written; without it the midnight that the plan's day begins with. Identifiers
/// are made from district, day, holes and direction: planning the day again, with the same holes together, keeps them.
///
/// # Errors
/// [`JobPackError::TimeZone`] when the district's time zone is not in the zone database.
pub fn work_zone_feed(plan: &Plan, updated: Option<Timestamp>) -> Result<String, JobPackError> {
    let clock = Clock::new(plan)?;
    let updated = times::utc(updated.map_or_else(|| clock.start_of_day(), Ok)?);
    let source = identifier(plan, &["source"]);
    let mut features: Vec<Value> = Vec::new();
    for site in visited(plan) {
        let Some(work) = plan.round.timetable.iter().find(|s| s.kind == StopKind::Work(site)) else { continue };
        let planned = &plan.sites[site];
        let road = plan.network.section(planned.zone.section);
        let hindered = hindered(&planned.zone, road);
        for (&travel, stretch) in hindered.iter().zip(zone_stretches(plan, site)) {
            let mut core = core_details(plan, planned, road, stretch.heading, travel);
            core["data_source_id"] = source.clone().into();
            core["update_date"] = updated.clone().into();
            let others = hindered.iter().filter(|t| **t != travel);
            let related: Vec<Value> = others
                .map(|other| json!({"type": "related-work-zone", "id": event_identifier(plan, &planned.zone, *other)}))
                .collect();
            if !related.is_empty() {
                core["related_road_events"] = related.into();
            }
            let mut properties = json!({
                "core_details": core,
                "start_date": times::utc(clock.at(work.from)?),
                "end_date": times::utc(clock.at(work.to)?),
                "is_start_date_verified": false,
                "is_end_date_verified": false,
                "is_start_position_verified": false,
                "is_end_position_verified": false,
                // The four fields that came before those; kept for readers of 4.0 and 4.1.
                "start_date_accuracy": "estimated",
                "end_date_accuracy": "estimated",
                "beginning_accuracy": "estimated",
                "ending_accuracy": "estimated",
                "event_status": "planned",
                "location_method": extent::method(&planned.zone),
                "work_zone_type": stretch.kind,
                "vehicle_impact": stretch.impact,
                "types_of_work": [{"type_name": "minor-road-defect-repair", "is_architectural_change": false}],
                "worker_presence": {
                    "are_workers_present": true,
                    "method": "scheduled",
                    "definition": ["workers-in-work-zone-working"],
                },
            });
            if !stretch.lanes.is_empty() {
                properties["lanes"] = json!(stretch.lanes);
            }
            let places: Vec<LonLat> =
                stretch.line.iter().map(|place| LonLat { lon: place.lon, lat: place.lat }).collect();
            let line = geo_json::line(&places);
            // The standard wants a geometry; a line without length is none, but never happens on a road that a truck found.
            let geometry = if line.is_null() { json!({"type": "MultiPoint", "coordinates": []}) } else { line };
            features.push(json!({
                "id": event_identifier(plan, &planned.zone, travel),
                "type": "Feature",
                "properties": properties,
                "geometry": geometry,
            }));
        }
    }
    let mut feed = json!({
        "feed_info": {
            "publisher": plan.district.name,
            "version": VERSION,
            "update_date": updated,
            "data_sources": [{
                "data_source_id": source,
                "organization_name": plan.district.name,
                "update_date": updated,
            }],
        },
        "type": "FeatureCollection",
        "features": features,
    });
    if let Some(licence) = &plan.road_attribution {
        feed["attribution"] = licence.clone().into();
    }
    Ok(format!("{feed:#}\n"))
}

/// The stretch of road for each direction of traffic that a site's zone hinders, that of the worked lane first; none for a number that is
/// no site's. Its places are to the millimetre.
pub fn zone_stretches(plan: &Plan, site: usize) -> Vec<ZoneStretch> {
    let Some(planned) = plan.sites.get(site) else { return Vec::new() };
    let road = plan.network.section(planned.zone.section);
    let axis = CentreLine::of(road);
    let stretch = |travel: Travel| {
        let lanes = lanes::lanes(plan, site, travel);
        let place = |place: LonLat| Position {
            lon: geo_json::rounded(place.lon, geo_json::DIGITS),
            lat: geo_json::rounded(place.lat, geo_json::DIGITS),
        };
        ZoneStretch {
            line: extent::line(&planned.zone, &axis, travel).into_iter().map(place).collect(),
            heading: heading(axis.azimuth_deg(), travel),
            impact: lanes::impact(&planned.zone, &lanes),
            kind: kind(planned.zone.layout),
            lanes,
        }
    };
    hindered(&planned.zone, road).into_iter().map(stretch).collect()
}

/// Whether the zone stays where it is, or is the stretch along which work will move.
fn kind(layout: Layout) -> ZoneKind {
    match layout {
        Layout::MobileTwoWay | Layout::MobileMultilane => ZoneKind::PlannedMovingArea,
        Layout::Shoulder
        | Layout::ShoulderEncroachment
        | Layout::LaneClosureTwoWay
        | Layout::LaneClosureOneFlagger
        | Layout::LaneClosureSelfRegulating
        | Layout::LaneClosureMultilane
        | Layout::JunctionApproachTwoWay
        | Layout::JunctionApproachMultilane
        | Layout::ShortDurationTwoWay
        | Layout::ShortDurationMultilane => ZoneKind::Static,
    }
}

/// Directions of traffic that feel the zone, that of the worked lane first.
fn hindered(zone: &WorkZone, road: &RoadSection) -> Vec<Travel> {
    let both = match zone.layout {
        Layout::LaneClosureTwoWay
        | Layout::LaneClosureOneFlagger
        | Layout::LaneClosureSelfRegulating
        | Layout::JunctionApproachTwoWay
        | Layout::ShortDurationTwoWay
        | Layout::MobileTwoWay => road.flow == Flow::Both,
        Layout::Shoulder
        | Layout::ShoulderEncroachment
        | Layout::LaneClosureMultilane
        | Layout::JunctionApproachMultilane
        | Layout::ShortDurationMultilane
        | Layout::MobileMultilane => false,
    };
    if both { vec![zone.travel, zone.travel.opposite()] } else { vec![zone.travel] }
}

fn core_details(plan: &Plan, site: &PlannedSite, road: &RoadSection, heading: Heading, travel: Travel) -> Value {
    let mut names: Vec<String> =
        [&road.name, &road.number].into_iter().filter(|n| !n.is_empty()).map(|n| printable(n).into_owned()).collect();
    if names.is_empty() {
        names.push(printable(&road.label()).into_owned());
    }
    let side = if travel == site.zone.travel { "lane worked in" } else { "lane beside the work" };
    json!({
        "event_type": "work-zone",
        "road_names": names,
        "direction": heading,
        "name": format!("{}, {}", plan.date, names_of_holes(&site.zone)),
        "description": format!("Repair of holes; {side}. {}.", printable(site.zone.layout_name.trim_end_matches('.'))),
    })
}

fn names_of_holes(zone: &WorkZone) -> String {
    let names: Vec<&str> = zone.holes.iter().map(|h| h.0.as_str()).collect();
    printable(&names.join(", ")).into_owned()
}

/// The quarter of the sky that traffic goes to along the section as a whole.
fn heading(azimuth_deg: Option<f64>, travel: Travel) -> Heading {
    let turned = if travel == Travel::Backward { 180.0 } else { 0.0 };
    azimuth_deg.map_or(Heading::Unknown, |azimuth| Heading::of_azimuth(azimuth + turned))
}

fn event_identifier(plan: &Plan, zone: &WorkZone, travel: Travel) -> String {
    let day = plan.date.to_string();
    let mut parts: Vec<&str> = zone.holes.iter().map(|h| h.0.as_str()).collect();
    parts.sort_unstable();
    parts.insert(0, if travel == Travel::Forward { "forward" } else { "backward" });
    parts.insert(0, &day);
    parts.insert(0, "event");
    identifier(plan, &parts)
}

/// A version 5 UUID (RFC 9562) of the district's name and what is said of the thing.
fn identifier(plan: &Plan, parts: &[&str]) -> String {
    let namespace = Uuid::new_v5(&Uuid::NAMESPACE_URL, NAMESPACE.as_bytes());
    // A name may hold any separator; as JSON no two lists read alike.
    let name = json!([plan.district.name, parts]).to_string();
    Uuid::new_v5(&namespace, name.as_bytes()).to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn traffic_the_other_way_goes_to_the_other_quarter() {
        for (azimuth, forward, backward) in [
            (Some(44.9), Heading::Northbound, Heading::Southbound),
            (Some(-91.0), Heading::Westbound, Heading::Eastbound),
            (None, Heading::Unknown, Heading::Unknown),
        ] {
            assert_eq!(heading(azimuth, Travel::Forward), forward, "{azimuth:?}");
            assert_eq!(heading(azimuth, Travel::Backward), backward, "{azimuth:?}");
        }
    }
}
