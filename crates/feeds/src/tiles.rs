//! Roads as vector tiles for a map on the screen (Mapbox Vector Tile specification 2.1), in the usual square tiling of the web
//! Mercator projection (OGC 17-083r4, `WebMercatorQuad`).

use std::f64::consts::PI;

use geo::{Coord, LineString, Simplify};
use model::place::LonLat;
use model::road::{RoadClass, RoadNetwork, Surface};
use mvt::{GeomEncoder, GeomType, Tile};
use rstar::primitives::{GeomWithData, Rectangle};
use rstar::{AABB, RTree};

/// The deepest tiles; maps enlarge them where they go nearer.
pub const DEEPEST_TILES: u8 = 16;

/// Tile units across a tile; what clients are used to.
const EXTENT: f64 = 4096.0;

/// Lines go on so many tile units beyond the tile, so that none ends where a wide stroke would show it.
const BUFFER: f64 = 128.0;

/// Bends of less than so many tile units are left out where the map is not at its nearest: half a pixel of a tile of 512.
const BEND: f64 = 4.0;

/// The projection's square ends there.
const MOST_LATITUDE: f64 = 85.051_128_779_806_59;

/// The roads of a district, ready to be cut into tiles.
#[derive(Debug)]
pub struct RoadTiles {
    lines: Vec<TileLine>,
    /// Boxes around the lines, with the line's index.
    index: RTree<GeomWithData<Rectangle<[f64; 2]>, usize>>,
}

/// A line on the unit square: x to the east, y to the south.
#[derive(Debug)]
struct TileLine {
    points: Vec<[f64; 2]>,
    name: String,
    class: RoadClass,
    section: String,
    surface: &'static str,
}

impl RoadTiles {
    /// Makes a network ready.
    pub fn new(network: &RoadNetwork) -> Self {
        let lines: Vec<TileLine> = network
            .sections
            .iter()
            .map(|section| TileLine {
                points: section.line.iter().map(|place| on_square(*place)).collect(),
                name: section.label(),
                class: section.class,
                section: section.source_id.clone(),
                surface: surface_word(section.surface),
            })
            .collect();
        let boxes = lines.iter().enumerate().filter_map(|(number, line)| {
            let (first, rest) = line.points.split_first()?;
            let around = rest.iter().fold((*first, *first), |(low, high), point| {
                ([low[0].min(point[0]), low[1].min(point[1])], [high[0].max(point[0]), high[1].max(point[1])])
            });
            Some(GeomWithData::new(Rectangle::from_corners(around.0, around.1), number))
        });
        let index = RTree::bulk_load(boxes.collect());
        RoadTiles { lines, index }
    }

    /// A tile with the one layer `roads`; `None` where it is empty, or where there is no tile of that number.
    pub fn tile(&self, zoom: u8, column: u32, row: u32) -> Option<Vec<u8>> {
        let across = 2_f64.powi(i32::from(zoom));
        if zoom > DEEPEST_TILES || f64::from(column) >= across || f64::from(row) >= across {
            return None;
        }
        let corner = [f64::from(column) / across, f64::from(row) / across];
        let margin = BUFFER / EXTENT / across;
        let whole = AABB::from_corners(corner.map(|at| at - margin), corner.map(|at| at + 1.0 / across + margin));
        let mut found: Vec<usize> = self.index.locate_in_envelope_intersecting(whole).map(|entry| entry.data).collect();
        // the index has an order of its own
        found.sort_unstable();
        let mut tile = Tile::new(EXTENT as u32);
        let mut layer = tile.create_layer("roads");
        let mut is_empty = true;
        for line in found.into_iter().map(|number| &self.lines[number]) {
            if zoom < least_zoom(line.class) {
                continue;
            }
            let in_tile = |point: &[f64; 2]| Coord {
                x: (point[0] - corner[0]) * across * EXTENT,
                y: (point[1] - corner[1]) * across * EXTENT,
            };
            let points = LineString::new(line.points.iter().map(in_tile).collect());
            let points = if zoom < DEEPEST_TILES { points.simplify(BEND) } else { points };
            let runs = runs_inside(&points.0);
            if runs.is_empty() {
                continue;
            }
            let Some(geometry) = encoded(&runs) else { continue };
            let mut feature = layer.into_feature(geometry);
            if !line.name.is_empty() {
                feature.add_tag_string("name", &line.name);
            }
            feature.add_tag_string("class", line.class.word());
            feature.add_tag_string("section", &line.section);
            feature.add_tag_string("surface", line.surface);
            layer = feature.into_layer();
            is_empty = false;
        }
        if is_empty {
            return None;
        }
        tile.add_layer(layer).ok()?;
        tile.to_bytes().ok()
    }
}

/// The surface's word in what is given out.
pub(crate) fn surface_word(surface: Surface) -> &'static str {
    match surface {
        Surface::SurfaceTreated => "surface_treated",
        Surface::Paved => "paved",
        Surface::Rigid => "rigid",
        Surface::Unpaved => "unpaved",
        Surface::Unknown => "unknown",
    }
}

/// From which zoom on a class is drawn: a district's whole map stays readable.
fn least_zoom(class: RoadClass) -> u8 {
    match class {
        RoadClass::Motorway | RoadClass::Trunk | RoadClass::Primary => 0,
        RoadClass::Secondary => 8,
        RoadClass::Tertiary | RoadClass::Unclassified => 10,
        RoadClass::Residential => 12,
        RoadClass::Service | RoadClass::Track => 13,
    }
}

/// Spherical Mercator onto the unit square.
fn on_square(place: LonLat) -> [f64; 2] {
    let latitude = place.lat.clamp(-MOST_LATITUDE, MOST_LATITUDE).to_radians();
    [(place.lon + 180.0) / 360.0, (1.0 - latitude.tan().asinh() / PI) / 2.0]
}

/// The pieces of a line inside the tile and its margin, on whole tile units, each of two points or more.
fn runs_inside(points: &[Coord]) -> Vec<Vec<(i32, i32)>> {
    let mut runs: Vec<Vec<(i32, i32)>> = Vec::new();
    let mut goes_on = false;
    for pair in points.windows(2) {
        let Some((from, to)) = inside(pair[0], pair[1]) else {
            goes_on = false;
            continue;
        };
        if !goes_on {
            runs.push(vec![whole(from)]);
        }
        if let Some(run) = runs.last_mut()
            && run.last() != Some(&whole(to))
        {
            run.push(whole(to));
        }
        goes_on = to == pair[1];
    }
    runs.retain(|run| run.len() >= 2);
    runs
}

fn whole(point: Coord) -> (i32, i32) {
    (point.x.round() as i32, point.y.round() as i32)
}

/// The part of a straight line inside the tile and its margin (Liang and Barsky 1984).
fn inside(from: Coord, to: Coord) -> Option<(Coord, Coord)> {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let (low, high) = (-BUFFER, EXTENT + BUFFER);
    let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
    for (step, room) in [(-dx, from.x - low), (dx, high - from.x), (-dy, from.y - low), (dy, high - from.y)] {
        if step == 0.0 {
            if room < 0.0 {
                return None;
            }
        } else if step < 0.0 {
            enter = enter.max(room / step);
        } else {
            leave = leave.min(room / step);
        }
    }
    if enter > leave {
        return None;
    }
    let at = |share: f64| Coord { x: from.x + share * dx, y: from.y + share * dy };
    let begin = if enter > 0.0 { at(enter) } else { from };
    let end = if leave < 1.0 { at(leave) } else { to };
    Some((begin, end))
}

fn encoded(runs: &[Vec<(i32, i32)>]) -> Option<mvt::GeomData> {
    let mut encoder = GeomEncoder::new(GeomType::Linestring);
    for run in runs {
        for &(x, y) in run {
            encoder.add_point(f64::from(x), f64::from(y)).ok()?;
        }
        encoder.complete_geom().ok()?;
    }
    encoder.encode().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_cut_where_the_margin_ends() {
        let at = |x: f64, y: f64| Coord { x, y };
        // through and through, out and in again, a corner missed, one point
        assert_eq!(runs_inside(&[at(-9000.0, 10.0), at(9000.0, 10.0)]), [[(-128, 10), (4224, 10)]]);
        let twice = runs_inside(&[at(0.0, 0.0), at(0.0, 9000.0), at(50.0, 9000.0), at(50.0, 0.0)]);
        assert_eq!(twice, [[(0, 0), (0, 4224)], [(50, 4224), (50, 0)]]);
        assert_eq!(runs_inside(&[at(-4000.0, 0.0), at(0.0, -4000.0)]), Vec::<Vec<(i32, i32)>>::new());
        assert_eq!(runs_inside(&[at(5.1, 5.1), at(5.2, 5.2)]), Vec::<Vec<(i32, i32)>>::new());
        assert_eq!(runs_inside(&[at(5.0, 7000.0), at(9.0, 7000.0)]), Vec::<Vec<(i32, i32)>>::new());
    }

    #[test]
    fn places_lie_on_the_square_as_the_standard_has_them() {
        // OGC 17-083r4, annex D: the square's corners and its middle
        let near = |found: [f64; 2], x: f64, y: f64| {
            assert!((found[0] - x).abs() < 1e-9 && (found[1] - y).abs() < 1e-9, "{found:?}");
        };
        near(on_square(LonLat { lon: 0.0, lat: 0.0 }), 0.5, 0.5);
        near(on_square(LonLat { lon: -180.0, lat: MOST_LATITUDE }), 0.0, 0.0);
        near(on_square(LonLat { lon: 180.0, lat: -90.0 }), 1.0, 1.0);
    }
}
