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
use crate::laid::Laid;
use crate::merge::Group;
use crate::outer::{dot, turned_right};
use crate::outline::{HoleOnPavement, closed_line};
use crate::search::Choice;

/// Sides that differ by less than this make a square; then the angle nearer to the road is given.
const SQUARE_M: f64 = 1e-9;

/// Works out everything about one cut.
pub(crate) fn cut_out(group: &Group, holes: &[HoleOnPavement], pavement: &Pavement, rules: &MarkOutRules) -> CutOut {
    let laid = &group.choice.laid;
    let lie = Lie::of(laid);
    let corners = corners_from_first(laid, lie.direction);
    let inside: Vec<&HoleOnPavement> = group.holes.iter().map(|&index| &holes[index]).collect();
    let outlines: Vec<FrameOutline> = inside.iter().map(|hole| hole.outline.clone()).collect();
    let farthest_m = farthest_from(&corners, &outlines);
    CutOut {
        holes: outlines.iter().map(|outline| outline.hole.clone()).collect(),
        corners: corners.iter().map(|c| FramePoint { along_m: c.x, across_m: c.y }).collect(),
        length: metres(lie.length),
        width: metres(lie.width),
        narrowest: metres(laid.shape.narrowest().arm),
        angle_deg: lie.direction.y.atan2(lie.direction.x).to_degrees(),
        area: area(&group.choice, &lie, rules),
        perimeter: perimeter(laid, &lie),
        wasted: wasted(laid, &outlines, corners[0]),
        farthest: metres(farthest_m),
        remarks: remarks(group, &inside, farthest_m, pavement, rules),
        outlines,
    }
}

/// How the rectangle around a cut lies: its direction is along the longer side and within (-90, 90] degrees of the road's.
struct Lie {
    direction: Coord,
    length: f64,
    width: f64,
}

impl Lie {
    fn of(laid: &Laid) -> Self {
        let halves_turn = |d: Coord| if d.x < 0.0 || (d.x == 0.0 && d.y < 0.0) { d * -1.0 } else { d };
        let (along, across) = laid.sides();
        let (first, second) = (halves_turn(laid.outer.direction), halves_turn(turned_right(laid.outer.direction)));
        let difference = along - across;
        let nearer_to_road = first.y.abs() <= second.y.abs();
        let is_along = difference > SQUARE_M || (difference >= -SQUARE_M && nearer_to_road);
        let direction = if is_along { first } else { second };
        Lie { direction, length: along.max(across), width: along.min(across) }
    }
}

/// Corners in the road frame, turning right, from the one furthest behind and to the left of `direction`.
fn corners_from_first(laid: &Laid, direction: Coord) -> Vec<Coord> {
    let mut corners = laid.corners();
    let back_left = direction + turned_right(direction);
    let ahead = |corner: &Coord| dot(*corner, back_left);
    let first = (0..corners.len()).min_by(|&a, &b| ahead(&corners[a]).total_cmp(&ahead(&corners[b]))).unwrap_or(0);
    corners.rotate_left(first);
    corners
}

fn area(choice: &Choice, lie: &Lie, rules: &MarkOutRules) -> Figure<Area> {
    let shape = &choice.laid.shape;
    let corners = shape.corner_count();
    let source = rules.margin_m.source.clone();
    let why = if corners == 4 {
        Why::new("A = l * w; l, w: least rectangle around the hole grown by m", source)
    } else {
        Why::new("A = l * w - n; l, w: rectangle around the cut; n: notches; the hole grown by m lies inside", source)
    };
    let mut why = why.with("l", metres_text(lie.length)).with("w", metres_text(lie.width));
    if corners > 4 {
        why = why.with("n", square_metres_text(lie.length * lie.width - shape.area()));
    }
    why = why.with("m", millimetres_text(rules.margin_m.value));
    if corners > 4 {
        let rectangle = choice.rectangle.shape.area();
        why = why.with("corners", corners).with("best rectangle", square_metres_text(rectangle));
    }
    Figure::exact(square_metres(shape.area()), why)
}

fn perimeter(laid: &Laid, lie: &Lie) -> Figure<Length> {
    let around = 2.0 * (lie.length + lie.width);
    let notch = laid.shape.perimeter() - around;
    let rule = if notch > SQUARE_M {
        "P = 2 * (l + w) + d - e; d: both sides of a notch in a side; e: sides on the pavement's edge"
    } else {
        "P = 2 * (l + w) - e; e: sides on the pavement's edge"
    };
    let mut why =
        Why::new(rule, Source::definition()).with("l", metres_text(lie.length)).with("w", metres_text(lie.width));
    if notch > SQUARE_M {
        why = why.with("d", metres_text(notch));
    }
    why = why.with("e", metres_text(laid.on_edge()));
    Figure::exact(metres(laid.edge_to_cut()), why)
}

fn wasted(laid: &Laid, outlines: &[FrameOutline], near: Coord) -> Figure<Area> {
    let (cut_m2, holes_m2) = (laid.shape.area(), area_of_union(outlines, near));
    // Rounding of the union may exceed the cut by a hair where the hole is the cut.
    let wasted_m2 = (cut_m2 - holes_m2).max(0.0);
    let why = Why::new("W = A - A_h; A_h: area of the holes, overlaps once", Source::definition())
        .with("A", square_metres_text(cut_m2))
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

fn farthest_from(corners: &[Coord], outlines: &[FrameOutline]) -> f64 {
    let origin = corners[0];
    let edges: Vec<Line> =
        outlines.iter().flat_map(|o| closed_line(&o.ring, origin).lines().collect::<Vec<_>>()).collect();
    farthest(&corners.iter().map(|&corner| corner - origin).collect::<Vec<_>>(), &edges)
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
    let limits = &group.choice.laid.outer.limits;
    let edges = [(limits.left_edge, "left"), (limits.right_edge, "right")];
    remarks.extend(edges.iter().filter(|(on_edge, _)| on_edge.is_some()).map(|(_, side)| {
        format!("cut square to the pavement's {side} edge (looking along increasing chainage); no saw cut on that side")
    }));
    remarks.extend(corners_remark(&group.choice, farthest_m, rules));
    if group.choice.joint_in_wheel_path {
        let shift = millimetres_text(rules.wheel_path.greatest_shift_m.value);
        remarks
            .push(format!("a joint along the road lies in a wheel path: no side could be moved out by up to {shift}"));
    }
    let limit_m = rules.far_limit_m.value;
    if farthest_m > limit_m + ACCURACY_M {
        remarks.push(format!(
            "the cut's edge lies up to {} from the hole, more than the limit of {}: straight sides follow this shape no closer",
            millimetres_text(farthest_m),
            millimetres_text(limit_m)
        ));
    }
    let corners = group.choice.laid.corners();
    if corners.iter().any(|corner| corner.x < pavement.along_min_m || corner.x > pavement.along_max_m) {
        remarks.push("the cut reaches past the section's end, into the road that joins there".to_owned());
    }
    remarks
}

/// What the corners beyond four are good for.
fn corners_remark(choice: &Choice, farthest_m: f64, rules: &MarkOutRules) -> Option<String> {
    let (laid, rectangle) = (&choice.laid, &choice.rectangle);
    let corners = laid.shape.corner_count();
    if corners == 4 {
        return None;
    }
    let saved = rectangle.shape.area() - laid.shape.area();
    let price = laid.cost - laid.shape.area() - (rectangle.cost - rectangle.shape.area());
    let words = format!("{corners} corners save {saved:.2} m² for {price:.2} m²");
    Some(if laid.cost <= rectangle.cost {
        words
    } else if farthest_m <= rules.far_limit_m.value + ACCURACY_M {
        let limit = millimetres_text(rules.far_limit_m.value);
        format!("{words}: taken to keep the cut within {limit} of the hole")
    } else {
        format!("{words}: taken because no rectangle fits here")
    })
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
