//! The cheapest cut around the holes of a body, over all directions and shapes.

use std::cell::OnceCell;

use geo::{Coord, Distance, Euclidean, Line};
use model::rules::markout::MarkOutRules;

use crate::Pavement;
use crate::body::{Body, by_place};
use crate::farthest::{ACCURACY_M, farthest};
use crate::laid::Laid;
use crate::notches::{KINDS, Notches};
use crate::outer::{Outer, dot};

/// Directions tried at even steps over a right angle, from the longest side of the hull.
const EVEN_DIRECTIONS: u32 = 18;
/// So many of the longest sides of the hull, and of the longest edges of the holes, are tried as directions too.
const LONGEST_EDGES: usize = 8;
/// So many of the best coarse cuts of each kind are looked at on a finer grid.
const STARTS: usize = 3;
/// So many of the best of these are turned.
const REFINED: usize = 5;
/// Corners of a cut with one notch, which are refined on their own account too.
const FEWER_CORNERS: usize = 6;
/// Finer grids while the direction is still being sought, and for a cut that may be taken.
const FIRST_ROUNDS: usize = 1;
const LAST_ROUNDS: usize = 4;
/// A cut on a coarse grid that costs more than the best by this part does not get better by refining.
const STILL_WORTH: f64 = 0.1;
/// Turns below this gain no more than this part of a cut's cost.
const SMALL_TURN_DEG: f64 = 1.0;
const NO_LONGER_WORTH: f64 = 0.02;
/// Turning stops when its step is below this.
const LEAST_TURN_DEG: f64 = 0.05;
/// Two directions nearer than this (sine) lead to the same cut.
const SAME_DIRECTION: f64 = 0.06;

/// The cut taken, and what it was weighed against.
#[derive(Debug, Clone)]
pub(crate) struct Choice {
    pub laid: Laid,
    /// The cheapest rectangle.
    pub rectangle: Laid,
    /// A joint lies in a wheel path although it should not.
    pub joint_in_wheel_path: bool,
}

/// Takes the cheapest cut that keeps the rules.
///
/// Rectangles are exact: only directions along the hull's sides, and the road's own, can be the least. With notches, even
/// steps and the longest edges are tried on a coarse grid, and the best of them turned and refined.
pub(crate) fn cheapest(body: &Body, pavement: &Pavement, rules: &MarkOutRules) -> Choice {
    let square = Outer::square(body, pavement, rules);
    let square_rectangle = Laid::rectangle(body, &square, rules);
    let mut cuts = vec![square_rectangle.clone()];
    if !square.is_on_edge() {
        let turned = hull_directions(body).map(|direction| Outer::around(body, direction, rules));
        cuts.extend(turned.map(|outer| Laid::rectangle(body, &outer, rules)));
    }
    let may_lie = |laid: &Laid| laid.keeps_from_edges(pavement, rules);
    cuts.retain(may_lie);
    let keeps_clear = |laid: &Laid| !rules.wheel_path.keep_clear.value || !laid.has_joint_in(&pavement.wheel_paths);
    let rectangle = cuts.iter().min_by(|a, b| a.cost.total_cmp(&b.cost)).unwrap_or(&square_rectangle).clone();

    let mut coarse = Vec::new();
    if rules.most_corners.value > 4 {
        let may_be_taken = |laid: &Laid| may_lie(laid) && keeps_clear(laid);
        let (refined, tried) = with_notches(body, &square, rules, &rectangle, may_be_taken);
        cuts.extend(refined.into_iter().filter(may_lie));
        coarse = tried;
    }
    if cuts.is_empty() {
        cuts.push(square_rectangle);
    }
    let joint_in_wheel_path = !cuts.iter().any(keeps_clear);
    if !joint_in_wheel_path {
        cuts.retain(keeps_clear);
    }
    if !cuts.iter().any(|laid| lies_near(laid, body, rules)) {
        // None so far keeps the far limit; one of those not refined may.
        let nearer = coarse.iter().filter(|laid| lies_near(laid, body, rules));
        let nearer = nearer.filter_map(|laid| Notches::new(body, &laid.outer, rules).near(laid, LAST_ROUNDS));
        let mut nearer = nearer.filter(|laid| may_lie(laid) && keeps_clear(laid) && lies_near(laid, body, rules));
        cuts.extend(nearer.next());
    }
    let laid = pick(cuts, body, rules);
    let laid = finer(&laid, body, rules).filter(|finer| may_lie(finer) && keeps_clear(finer)).unwrap_or(laid);
    Choice { laid, rectangle, joint_in_wheel_path }
}

/// The same on finer grids, where that makes it no worse.
fn finer(laid: &Laid, body: &Body, rules: &MarkOutRules) -> Option<Laid> {
    if laid.shape.corner_count() == 4 {
        return None;
    }
    let finer = Notches::new(body, &laid.outer, rules).near(laid, LAST_ROUNDS)?;
    let is_no_further = !lies_near(laid, body, rules) || lies_near(&finer, body, rules);
    (finer.cost < laid.cost && is_no_further).then_some(finer)
}

/// Of cuts that may all be taken: the cheapest within the far limit where there is one, or one squarer to the road where
/// that costs little more.
fn pick(mut cuts: Vec<Laid>, body: &Body, rules: &MarkOutRules) -> Laid {
    cuts.sort_by(|a, b| a.cost.total_cmp(&b.cost));
    let near: Vec<OnceCell<bool>> = vec![OnceCell::new(); cuts.len()];
    let is_near = |index: usize| *near[index].get_or_init(|| lies_near(&cuts[index], body, rules));
    let nearest = (0..cuts.len()).find(|&index| is_near(index));
    let affordable = cuts[nearest.unwrap_or(0)].cost * (1.0 + rules.square_tolerance.value);
    let chosen = (0..cuts.len())
        .take_while(|&index| cuts[index].cost <= affordable)
        .filter(|&index| nearest.is_none() || is_near(index))
        .min_by(|&a, &b| cuts[a].skew().total_cmp(&cuts[b].skew()));
    cuts.swap_remove(chosen.unwrap_or(0))
}

/// Whether the whole edge of a cut is within the far limit of the holes.
fn lies_near(laid: &Laid, body: &Body, rules: &MarkOutRules) -> bool {
    let limit = rules.far_limit_m.value;
    let corners: Vec<Coord> = laid.corners().into_iter().map(|corner| corner - body.origin).collect();
    // A corner far away says no at once; only then the whole edge is worth its time.
    let reaches = |corner: &Coord| body.edges.iter().any(|edge| within(*corner, edge, limit + ACCURACY_M));
    corners.iter().all(reaches) && farthest(&corners, &body.edges) <= limit + ACCURACY_M
}

fn within(point: Coord, edge: &Line, distance: f64) -> bool {
    // The box around the edge says no to most.
    let beyond = |at: f64, a: f64, b: f64| at < a.min(b) - distance || at > a.max(b) + distance;
    !beyond(point.x, edge.start.x, edge.end.x)
        && !beyond(point.y, edge.start.y, edge.end.y)
        && Euclidean.distance(point, edge) <= distance
}

/// The best cuts with notches, those square to the road among them; and all coarse ones, the cheapest first.
fn with_notches(
    body: &Body,
    square: &Outer,
    rules: &MarkOutRules,
    rectangle: &Laid,
    may_be_taken: impl Fn(&Laid) -> bool,
) -> (Vec<Laid>, Vec<Laid>) {
    let directions = if square.is_on_edge() { Vec::new() } else { directions_to_try(body) };
    let coarse = |outer: &Outer| -> [Option<Laid>; KINDS] {
        // No cut is smaller than the holes: where even that could not pay, nothing is tried.
        let least = least_cost(outer, body, rules);
        if Notches::find_room(outer, rules) && least < rectangle.cost {
            Notches::new(body, outer, rules).coarse()
        } else {
            [const { None }; KINDS]
        }
    };
    // By kind of notches: what is best on the coarse grid need not be on a fine one.
    let mut tried = [const { Vec::new() }; KINDS];
    for &direction in &directions {
        for (kind, laid) in tried.iter_mut().zip(coarse(&Outer::around(body, direction, rules))) {
            kind.extend(laid);
        }
    }
    for kind in &mut tried {
        kind.sort_by(|a, b| a.cost.total_cmp(&b.cost));
    }
    let mut starts: Vec<Laid> = Vec::new();
    for kind in &tried {
        let mut of_kind: Vec<&Laid> = Vec::new();
        for laid in kind {
            if of_kind.len() < STARTS
                && !of_kind.iter().any(|other| are_alike(other.outer.direction, laid.outer.direction, SAME_DIRECTION))
            {
                of_kind.push(laid);
            }
        }
        starts
            .extend(of_kind.into_iter().filter_map(|laid| near(laid, laid.outer.direction, body, rules, FIRST_ROUNDS)));
    }
    starts.sort_by(|a, b| a.cost.total_cmp(&b.cost));
    let worth = |cost: f64, best: f64| cost <= best * (1.0 + STILL_WORTH);
    let best_of = |most_corners: usize| -> Vec<&Laid> {
        let of: Vec<&Laid> = starts.iter().filter(|start| start.shape.corner_count() <= most_corners).collect();
        let least = of.first().map_or(f64::INFINITY, |start| start.cost);
        of.into_iter().take(REFINED).take_while(|start| worth(start.cost, least)).collect()
    };
    // What would be refined if no more corners than six were allowed is not pushed out by what has more.
    let mut refined = best_of(usize::MAX);
    for start in best_of(FEWER_CORNERS) {
        if !refined.iter().any(|other| std::ptr::eq(*other, start)) {
            refined.push(start);
        }
    }
    let mut cuts: Vec<Laid> = Vec::new();
    let mut cheapest = f64::INFINITY;
    for start in refined {
        let Some(cut) = turned_to_best(start, cheapest, body, rules) else { continue };
        cheapest = cheapest.min(cut.cost);
        cuts.push(cut);
    }
    let least = cuts.iter().filter(|laid| may_be_taken(laid)).map(|laid| laid.cost).fold(f64::INFINITY, f64::min);
    let square_cuts = coarse(square);
    let squares = square_cuts.iter().flatten().filter(|laid| worth(laid.cost, least));
    let squares = squares.filter_map(|laid| Notches::new(body, square, rules).near(laid, LAST_ROUNDS));
    cuts.extend(squares);
    cuts.extend(starts);
    let mut tried: Vec<Laid> = tried.into_iter().flatten().chain(square_cuts.into_iter().flatten()).collect();
    tried.sort_by(|a, b| a.cost.total_cmp(&b.cost));
    (cuts, tried)
}

fn near(like: &Laid, direction: Coord, body: &Body, rules: &MarkOutRules, rounds: usize) -> Option<Laid> {
    let outer = Outer::around(body, direction, rules);
    Notches::new(body, &outer, rules).near(like, rounds)
}

/// What a cut with notches costs at least in a direction: the holes' area, the edge of the rectangle around it, two
/// corners.
fn least_cost(outer: &Outer, body: &Body, rules: &MarkOutRules) -> f64 {
    let half_edge = outer.high.x - outer.low.x + outer.high.y - outer.low.y;
    let edge = if outer.is_on_edge() { 0.0 } else { 2.0 * half_edge };
    body.least_area + rules.edge_price_m2_per_m.value * edge + 2.0 * rules.corner_price_m2.value
}

/// Turns a cut by ever smaller steps as long as that makes it cheaper; given up where small steps are left to go and another
/// is `cheapest` by far.
fn turned_to_best(start: &Laid, cheapest: f64, body: &Body, rules: &MarkOutRules) -> Option<Laid> {
    let mut best = start.clone();
    let mut turn_deg = 90.0 / f64::from(EVEN_DIRECTIONS) / 2.0;
    while turn_deg.abs() > LEAST_TURN_DEG {
        if turn_deg.abs() < SMALL_TURN_DEG && best.cost > cheapest * (1.0 + NO_LONGER_WORTH) {
            return Some(best);
        }
        let turned = |deg: f64| near(&best, turned(best.outer.direction, deg), body, rules, FIRST_ROUNDS);
        let is_better = |laid: &Laid| laid.cost < best.cost;
        // On in the same sense first: the other way lies what was better before.
        match turned(turn_deg).filter(is_better).or_else(|| turned(-turn_deg).filter(is_better)) {
            Some(better) => {
                let sine = best.outer.direction.x * better.outer.direction.y
                    - best.outer.direction.y * better.outer.direction.x;
                turn_deg = turn_deg.abs() * sine.signum();
                best = better;
            }
            None => turn_deg /= 2.0,
        }
    }
    near(&best, best.outer.direction, body, rules, LAST_ROUNDS)
}

/// Whether two directions are the same or square to each other, up to a sine.
fn are_alike(a: Coord, b: Coord, sine: f64) -> bool {
    (a.x * b.y - a.y * b.x).abs().min(dot(a, b).abs()) < sine
}

/// Unit vectors along the sides of the hull.
fn hull_directions(body: &Body) -> impl Iterator<Item = Coord> {
    let next = body.hull.iter().cycle().skip(1);
    body.hull.iter().zip(next).filter_map(|(from, to)| unit(*to - *from))
}

/// The longest sides and edges, then even steps from the longest side.
fn directions_to_try(body: &Body) -> Vec<Coord> {
    let next = body.hull.iter().cycle().skip(1);
    let sides: Vec<Coord> = body.hull.iter().zip(next).map(|(from, to)| *to - *from).collect();
    let edges = body.edges.iter().map(|edge| edge.end - edge.start).collect();
    let mut directions = longest(sides);
    let first = directions.first().copied().unwrap_or(Coord { x: 1.0, y: 0.0 });
    directions.extend(longest(edges));
    let between = |step: u32| turned(first, 90.0 * f64::from(step) / f64::from(EVEN_DIRECTIONS));
    directions.extend((1..EVEN_DIRECTIONS).map(between));
    let mut apart: Vec<Coord> = Vec::new();
    for direction in directions {
        if !apart.iter().any(|&other| are_alike(other, direction, SAME_DIRECTION / 2.0)) {
            apart.push(direction);
        }
    }
    apart
}

fn longest(mut vectors: Vec<Coord>) -> Vec<Coord> {
    vectors.sort_by(|a, b| dot(*b, *b).total_cmp(&dot(*a, *a)).then(by_place(a, b)));
    vectors.into_iter().take(LONGEST_EDGES).filter_map(unit).collect()
}

fn unit(vector: Coord) -> Option<Coord> {
    let length = vector.x.hypot(vector.y);
    (length > 0.0).then(|| vector / length)
}

fn turned(direction: Coord, degrees: f64) -> Coord {
    let (sin, cos) = degrees.to_radians().sin_cos();
    Coord { x: direction.x * cos - direction.y * sin, y: direction.x * sin + direction.y * cos }
}
