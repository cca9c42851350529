//! From a chainage on an axis to a section, its chainage, and a place on the globe.

use model::place::{LonLat, Travel};
use model::quantity::{InLength, Length};
use model::road_around::{AxisPiece, RoadAxis};
use model::work_zone::RoadSpot;

/// Metres in a degree of latitude, on the sphere of the earth's mean radius: good to a few centimetres over a road's width.
const METRES_PER_DEGREE: f64 = 111_195.0;

/// The piece at a chainage; `None` beyond the axis.
pub(crate) fn piece_at(axis: &RoadAxis, chainage: Length) -> Option<&AxisPiece> {
    // A chainage that went through another unit may miss an end by a last digit.
    let forgiven = Length { value: 1e-6, ..chainage };
    axis.pieces.iter().find(|piece| piece.from - forgiven <= chainage && chainage <= piece.to + forgiven)
}

/// The spot at a chainage, so far to the right of the axis.
pub(crate) fn spot_at(axis: &RoadAxis, chainage: Length, across: Length) -> Option<RoadSpot> {
    let piece = piece_at(axis, chainage)?;
    let way = chainage - piece.from;
    let own =
        if piece.direction == Travel::Forward { piece.section_at_from + way } else { piece.section_at_from - way };
    Some(RoadSpot {
        section: piece.section,
        chainage: own,
        place: beside(axis, chainage, across)?,
        side_road: None,
        moved: Length { value: 0.0, ..chainage },
    })
}

fn beside(axis: &RoadAxis, chainage: Length, across: Length) -> Option<LonLat> {
    let after = axis.points.partition_point(|point| point.chainage <= chainage);
    let index = after.saturating_sub(1).min(axis.points.len().checked_sub(2)?);
    let (a, b) = (axis.points[index], axis.points[index + 1]);
    let length = (b.chainage - a.chainage).in_metres();
    let share = ((chainage - a.chainage).in_metres() / length).clamp(0.0, 1.0);
    let right = across.in_metres();
    // East, north: right of (e, n) is (n, -e).
    let (east, north) = (right * (b.north_m - a.north_m) / length, -right * (b.east_m - a.east_m) / length);
    // Over the date line the longitude jumps by a whole turn.
    let turned = |degrees: f64| (degrees + 540.0).rem_euclid(360.0) - 180.0;
    let lat = a.place.lat + share * (b.place.lat - a.place.lat);
    let lon = a.place.lon + share * turned(b.place.lon - a.place.lon);
    let per_degree_east = METRES_PER_DEGREE * lat.to_radians().cos().max(1e-6);
    Some(LonLat { lon: turned(lon + east / per_degree_east), lat: lat + north / METRES_PER_DEGREE })
}
