//! Heights of the ground onto the road around a section.

use model::place::LonLat;
use model::quantity::{InLength, Length, metres};
use model::road_around::{AxisPoint, RoadAround, RoadAxis};

use crate::axis::SAME_POINT_M;

/// Points are set at most so near to each other, metres: a step that is absurdly small would never end.
const STEP_MIN_M: f64 = 1.0;

/// Gives the points of the road, and of the roads that join, their heights by `height`; sets points between those that are
/// further than `step` from each other. On a bridge or in a tunnel the ground says nothing of the road: the height runs
/// straight from one end to the other there.
pub fn set_heights(around: &mut RoadAround, step: Length, height: &dyn Fn(LonLat) -> Option<Length>) {
    let step_m = step.in_metres();
    let step_m = if step_m >= STEP_MIN_M { step_m } else { STEP_MIN_M };
    set(&mut around.axis, step_m, height);
    for side in &mut around.side_roads {
        set(&mut side.axis, step_m, height);
    }
}

fn set(axis: &mut RoadAxis, step_m: f64, height: &dyn Fn(LonLat) -> Option<Length>) {
    let mut points: Vec<AxisPoint> = Vec::new();
    for &next in &axis.points {
        if let Some(&last) = points.last() {
            let parts = ((next.chainage - last.chainage).in_metres() / step_m - SAME_POINT_M).ceil().max(1.0) as u32;
            points.extend((1..parts).map(|part| between(&last, &next, f64::from(part) / f64::from(parts))));
        }
        points.push(next);
    }
    for point in &mut points {
        point.height = height(point.place).filter(|height| height.in_metres().is_finite());
    }
    for structure in &axis.structures {
        let is_on = |point: &AxisPoint| structure.from <= point.chainage && point.chainage <= structure.to;
        let first = points.iter().position(is_on).map(|index| points[index]);
        let last = points.iter().rposition(is_on).map(|index| points[index]);
        let (Some(first), Some(last)) = (first, last) else { continue };
        for point in points.iter_mut().filter(|point| is_on(point)) {
            let share = (point.chainage - first.chainage) / (last.chainage - first.chainage).max(metres(SAME_POINT_M));
            point.height = first.height.zip(last.height).map(|(low, high)| low + (high - low) * share);
        }
    }
    axis.points = points;
}

/// A point on the way from one to the next; they are so near that degrees may be divided evenly.
fn between(from: &AxisPoint, to: &AxisPoint, share: f64) -> AxisPoint {
    let part = |from: f64, to: f64| from + share * (to - from);
    // Over the date line the longitude jumps by a whole turn.
    let lon_to = from.place.lon + (to.place.lon - from.place.lon + 540.0).rem_euclid(360.0) - 180.0;
    let lon = (part(from.place.lon, lon_to) + 540.0).rem_euclid(360.0) - 180.0;
    AxisPoint {
        chainage: from.chainage + (to.chainage - from.chainage) * share,
        east_m: part(from.east_m, to.east_m),
        north_m: part(from.north_m, to.north_m),
        height: None,
        place: LonLat { lon, lat: part(from.place.lat, to.place.lat) },
    }
}
