//! The finished cut: corners, figures with their reasons, remarks.

use geo::orient::Direction;
use geo::{Area as _, BooleanOps, Coord, Line, MultiPolygon, Orient, Polygon, unary_union};
use model::cut_out::{CutOut, FrameOutline};
use model::figure::{Figure, Source, Why};
use model::place::FramePoint;
use model::quantity::{Area, Length, metres, square_metres};
use model::rules::markout::MarkOutRules;

use crate::Pavement;
use crate::farthest::{ACCURACY_M, farthest};
use crate::merge::Group;
use crate::outline::{HoleOnPavement, closed_line};
use crate::rectangle::Rectangle;

/// Sides that differ by less than this make a square; then the angle nearer to the road is given.
const SQUARE_M: f64 = 1e-9;

/// Works out everything about one cut.
pub(crate) fn cut_out(group: &Group, holes: &[HoleOnPavement], pavement: &Pavement, rules: &MarkOutRules) -> CutOut {
    let rectangle = with_longer_side_first(group.rectangle);
    let inside: Vec<&HoleOnPavement> = group.holes.iter().map(|&index| &holes[index]).collect();
    let outlines: Vec<FrameOutline> = inside.iter().map(|hole| hole.outline.clone()).collect();
    let farthest_m = farthest_from(&rectangle, &outlines);
    CutOut {
        holes: outlines.iter().map(|outline| outline.hole.clone()).collect(),
        corners: rectangle.corners().iter().map(|c| FramePoint { along_m: c.x, across_m: c.y }).collect(),
        length: metres(rectangle.along),
        width: metres(rectangle.across),
        angle_deg: rectangle.direction.y.atan2(rectangle.direction.x).to_degrees(),
        area: area(&rectangle, rules),
        perimeter: perimeter(&rectangle, group.rectangle),
        wasted: wasted(&rectangle, &outlines),
        farthest: metres(farthest_m),
        remarks: remarks(group, &inside, farthest_m, pavement, rules),
        outlines,
    }
}

/// The same rectangle, its direction along the longer side and within (-90, 90] degrees of the road's.
fn with_longer_side_first(rectangle: Rectangle) -> Rectangle {
    let halves_turn = |d: Coord| if d.x < 0.0 || (d.x == 0.0 && d.y < 0.0) { d * -1.0 } else { d };
    let same = Rectangle { direction: halves_turn(rectangle.direction), ..rectangle };
    let turned = Rectangle {
        direction: halves_turn(Coord { x: -rectangle.direction.y, y: rectangle.direction.x }),
        along: rectangle.across,
        across: rectangle.along,
        ..rectangle
    };
    let difference = rectangle.along - rectangle.across;
    let nearer_to_road = same.direction.y.abs() <= turned.direction.y.abs();
    if difference > SQUARE_M || (difference >= -SQUARE_M && nearer_to_road) { same } else { turned }
}

fn area(rectangle: &Rectangle, rules: &MarkOutRules) -> Figure<Area> {
    let why = Why::new("A = l * w; l, w: least rectangle around the hole grown by m", rules.margin_m.source.clone())
        .with("l", metres_text(rectangle.along))
        .with("w", metres_text(rectangle.across))
        .with("m", millimetres_text(rules.margin_m.value));
    Figure::exact(square_metres(rectangle.area()), why)
}

/// `laid` still has its sides on the pavement's edge parallel to its direction, the road's.
fn perimeter(rectangle: &Rectangle, laid: Rectangle) -> Figure<Length> {
    let on_edge_m = laid.along * f64::from(u8::from(laid.on_left_edge) + u8::from(laid.on_right_edge));
    let why = Why::new("P = 2 * (l + w) - e; e: sides on the pavement's edge", Source::definition())
        .with("l", metres_text(rectangle.along))
        .with("w", metres_text(rectangle.across))
        .with("e", metres_text(on_edge_m));
    Figure::exact(metres(2.0 * (rectangle.along + rectangle.across) - on_edge_m), why)
}

fn wasted(rectangle: &Rectangle, outlines: &[FrameOutline]) -> Figure<Area> {
    let holes_m2 = area_of_union(outlines, rectangle.centre);
    // Rounding of the union may exceed the cut by a hair where the hole is the cut.
    let wasted_m2 = (rectangle.area() - holes_m2).max(0.0);
    let why = Why::new("W = A - A_h; A_h: area of the holes, overlaps once", Source::definition())
        .with("A", square_metres_text(rectangle.area()))
        .with("A_h", square_metres_text(holes_m2));
    Figure::exact(square_metres(wasted_m2), why)
}

/// Area that the outlines cover together; a ring that crosses itself counts by the even-odd rule.
fn area_of_union(outlines: &[FrameOutline], origin: Coord) -> f64 {
    let clean: Vec<MultiPolygon> = outlines
        .iter()
        .map(|outline| {
            let polygon = Polygon::new(closed_line(&outline.ring, origin), Vec::new());
            polygon.union(&MultiPolygon::new(Vec::new())).orient(Direction::Default)
        })
        .collect();
    match clean.as_slice() {
        [one] => one.unsigned_area(),
        several => unary_union(several).unsigned_area(),
    }
}

fn farthest_from(rectangle: &Rectangle, outlines: &[FrameOutline]) -> f64 {
    let edges: Vec<Line> =
        outlines.iter().flat_map(|o| closed_line(&o.ring, rectangle.centre).lines().collect::<Vec<_>>()).collect();
    farthest(&rectangle.corners().map(|corner| corner - rectangle.centre), &edges)
}

fn remarks(
    group: &Group,
    inside: &[&HoleOnPavement],
    farthest_m: f64,
    pavement: &Pavement,
    rules: &MarkOutRules,
) -> Vec<String> {
    let mut remarks: Vec<String> = inside
        .iter()
        .filter(|hole| hole.past_edge_m > 0.0)
        .map(|hole| {
            let (id, past) = (&hole.outline.hole.0, millimetres_text(hole.past_edge_m));
            format!("hole {id} reaches {past} past the pavement's edge; only the part on the pavement is marked out")
        })
        .collect();
    let edges = [(group.rectangle.on_left_edge, "left"), (group.rectangle.on_right_edge, "right")];
    remarks.extend(edges.iter().filter(|(on_edge, _)| *on_edge).map(|(_, side)| {
        format!("cut square to the pavement's {side} edge (looking along increasing chainage); no saw cut on that side")
    }));
    let limit_m = rules.far_limit_m.value;
    if farthest_m > limit_m + ACCURACY_M {
        remarks.push(format!(
            "the cut's edge lies up to {} from the hole, more than the limit of {}: the shape is far from a rectangle",
            millimetres_text(farthest_m),
            millimetres_text(limit_m)
        ));
    }
    let corners = group.rectangle.corners();
    if corners.iter().any(|corner| corner.x < pavement.along_min_m || corner.x > pavement.along_max_m) {
        remarks.push("the cut reaches past the section's end, into the road that joins there".to_owned());
    }
    remarks
}

fn metres_text(value: f64) -> String {
    format!("{value:.3} m")
}

fn millimetres_text(value_m: f64) -> String {
    format!("{:.0} mm", value_m * 1000.0)
}

fn square_metres_text(value: f64) -> String {
    format!("{value:.4} m²")
}
