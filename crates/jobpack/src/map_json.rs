//! Holes and cuts as `GeoJSON`.

use model::figure::Figure;
use model::hole::Shape;
use model::place::{FramePoint, LonLat};
use model::plan::{Plan, PlannedJob};
use model::quantity::{InArea, InLength};
use serde_json::{Value, json};

use crate::drawing::{job_number, stop_number};
use crate::flat;
use crate::geo_json::{coordinates, point, rounded};
use model::triage::Severity;

/// Writes every located hole as a point (a polygon where an outline was given), every cut as a polygon, and every hole
/// that is not in the round with its reason, as one `FeatureCollection` (RFC 7946, WGS 84).
///
/// The cut's corners are laid out flat around its centre along the road's direction: good to the centimetre over the
/// few metres of a cut, while the centre itself is as good as the report.
pub fn holes_geojson(plan: &Plan) -> String {
    let mut features: Vec<Value> = Vec::new();
    for hole in &plan.holes {
        let job = plan.jobs.get(hole.job);
        let left = plan.left_out.iter().find(|l| l.hole == hole.hole.id);
        let geometry = match &hole.hole.shape {
            Shape::Outline(ring) if ring.len() >= 3 => polygon(ring.clone()),
            _ => point(hole.hole.position),
        };
        features.push(json!({
            "type": "Feature",
            "geometry": geometry,
            "properties": {
                "kind": "hole",
                "id": hole.hole.id.0,
                "road": plan.network.section(hole.position.section).label(),
                "chainage_m": rounded(hole.position.chainage.in_metres(), 2),
                "depth_m": rounded(hole.hole.depth.in_metres(), 4),
                "severity": Severity::word(hole.judgement.severity),
                "due": hole.judgement.due.map(|d| d.to_string()),
                "stop": job.and_then(|j| stop_number(plan, j.site)),
                "left_out": left.map(|l| l.words.clone()),
            },
        }));
    }
    for (index, job) in plan.jobs.iter().enumerate() {
        features.push(cut_feature(plan, index, job));
    }
    format!("{:#}\n", json!({"type": "FeatureCollection", "features": features}))
}

fn cut_feature(plan: &Plan, index: usize, job: &PlannedJob) -> Value {
    let azimuth = job.holes.first().map_or(0.0, |&h| plan.holes[h].position.azimuth_deg);
    let middle = FramePoint::middle(&job.cut.corners);
    let ring: Vec<LonLat> =
        job.cut.corners.iter().map(|c| flat::frame_to_globe(job.centre, middle, azimuth, *c)).collect();
    let area = |f: &Figure<model::quantity::Area>| rounded(f.value.in_square_metres(), 4);
    json!({
        "type": "Feature",
        "geometry": polygon(ring),
        "properties": {
            "kind": "cut",
            "number": job_number(plan, index),
            "holes": job.cut.holes.iter().map(|h| h.0.clone()).collect::<Vec<_>>(),
            "stop": stop_number(plan, job.site),
            "cut_area_m2": area(&job.cut.area),
            "depth_m": rounded(job.repair.depth.value.in_metres(), 4),
            "layer_count": job.repair.layer_count.value,
        },
    })
}

/// A closed ring, counter-clockwise as RFC 7946 asks.
fn polygon(mut ring: Vec<LonLat>) -> Value {
    let twice_area: f64 = (0..ring.len())
        .map(|i| {
            let (a, b) = (ring[i], ring[(i + 1) % ring.len()]);
            // From the first corner, so that small rings keep their digits.
            (a.lon - ring[0].lon) * (b.lat - ring[0].lat) - (b.lon - ring[0].lon) * (a.lat - ring[0].lat)
        })
        .sum();
    if twice_area < 0.0 {
        ring.reverse();
    }
    if let Some(first) = ring.first().copied() {
        ring.push(first);
    }
    json!({"type": "Polygon", "coordinates": [ring.into_iter().map(coordinates).collect::<Vec<_>>()]})
}
