//! Map of the round, drawn from the road data: all roads thin and grey, the way driven black, each trip in its own line
//! style, stops numbered in order, looks at earlier repairs as lettered diamonds.

use model::place::LonLat;
use model::plan::Plan;
use model::road::{RoadClass, RoadNetwork};
use model::round::StopKind;

use super::frame::{FRAME, Frame, Line, licence, licence_height, scale_bar};
use super::{look_letter, visited};
use crate::display::Units;
use crate::flat::to_flat;
use crate::svg::{Drawing, Type, clip, stroke, text_width};

const WIDTH: f64 = 92.0;
const HEIGHT: f64 = 92.0;
const MAP: Frame = Frame { width: WIDTH, height: HEIGHT };
/// Lines are drawn no finer than this, millimetres on paper.
const FINEST: f64 = 0.25;
/// Points of background roads at most; beyond that the lowest classes are left out.
const BACKGROUND_POINTS: usize = 30_000;
/// Width and dash pattern of each trip's line; trips beyond the last share its style.
const TRIPS: [(f64, &str); 4] = [(0.9, ""), (0.9, "2.6 1.6"), (0.9, "0.2 1.7"), (0.9, "4 1.5 0.2 1.5")];

/// Draws the map of the day's round; without any stop, the depot and the sites that were left out.
pub fn route_map_svg(plan: &Plan) -> String {
    let view = View::new(plan);
    let attribution = plan.road_attribution.as_deref();
    let mut drawing = Drawing::new(WIDTH, HEIGHT + licence_height(attribution, WIDTH));
    MAP.ground(&mut drawing);
    background(&mut drawing, &plan.network, &view);
    let trips = trips_of_ways(plan);
    for (way, trip) in plan.ways.iter().zip(&trips) {
        view.way(&mut drawing, &way.line, *trip);
    }
    left_out(&mut drawing, plan, &view);
    stops(&mut drawing, plan, &view);
    furniture(&mut drawing, plan, &view, trips.iter().max().map_or(0, |t| t + 1));
    MAP.outline(&mut drawing);
    licence(&mut drawing, attribution, MAP);
    drawing.finish()
}

struct View {
    origin: LonLat,
    scale: f64,
    centre: (f64, f64),
}

impl View {
    fn new(plan: &Plan) -> Self {
        let origin = plan.district.depot.position;
        let mut points: Vec<(f64, f64)> = vec![(0.0, 0.0)];
        points.extend(plan.ways.iter().flat_map(|w| &w.line).map(|p| to_flat(origin, *p)));
        let sites: Vec<usize> = visited(plan).collect();
        let all = sites.is_empty();
        points.extend(
            plan.sites
                .iter()
                .enumerate()
                .filter(|(i, _)| all || sites.contains(i))
                .map(|(_, s)| to_flat(origin, s.place)),
        );
        points.extend(plan.looks.iter().map(|look| to_flat(origin, look.place)));
        points.retain(|p| p.0.is_finite() && p.1.is_finite());
        let bound = |get: fn(&(f64, f64)) -> f64| {
            points.iter().map(get).fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| (l.min(v), h.max(v)))
        };
        let ((west, east), (south, north)) = (bound(|p| p.0), bound(|p| p.1));
        // A bare depot still gets a neighbourhood of two kilometres.
        let span = |low: f64, high: f64, paper: f64| (high - low).max(2000.0) / (paper - 16.0);
        let metres_per_mm = span(west, east, WIDTH).max(span(south, north, HEIGHT - 6.0));
        View { origin, scale: 1.0 / metres_per_mm, centre: (f64::midpoint(west, east), f64::midpoint(south, north)) }
    }

    fn at(&self, place: LonLat) -> (f64, f64) {
        let (east, north) = to_flat(self.origin, place);
        (WIDTH / 2.0 + (east - self.centre.0) * self.scale, HEIGHT / 2.0 - 2.0 - (north - self.centre.1) * self.scale)
    }

    fn on_paper(&self, line: &[LonLat]) -> Vec<(f64, f64)> {
        let mut points: Vec<(f64, f64)> = Vec::with_capacity(line.len());
        for (index, place) in line.iter().enumerate() {
            let p = self.at(*place);
            let far = points.last().is_none_or(|q: &(f64, f64)| (q.0 - p.0).hypot(q.1 - p.1) > FINEST);
            if p.0.is_finite() && p.1.is_finite() && (far || index + 1 == line.len()) {
                points.push(p);
            }
        }
        points
    }

    fn way(&self, drawing: &mut Drawing, line: &[LonLat], trip: usize) {
        let points = self.on_paper(line);
        let (width, dash) = TRIPS[trip.min(TRIPS.len() - 1)];
        let dash = if dash.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{dash}\"") };
        for run in MAP.clipped(&points) {
            drawing.path(&run, false, &format!("{}{dash}", stroke(width)));
        }
        // An arrow in the middle of every way and on long ways every 30 mm.
        let lengths: Vec<f64> = points.windows(2).map(|w| (w[1].0 - w[0].0).hypot(w[1].1 - w[0].1)).collect();
        let total: f64 = lengths.iter().sum();
        if total < 5.0 {
            return;
        }
        let arrows = (total / 30.0).ceil().max(1.0);
        for arrow in 0..arrows as usize {
            let mut left = total * (arrow as f64 + 0.5) / arrows;
            for (pair, length) in points.windows(2).zip(&lengths) {
                if left <= *length && *length > 0.0 {
                    let t = left / length;
                    let (dx, dy) = (pair[1].0 - pair[0].0, pair[1].1 - pair[0].1);
                    let tip = (pair[0].0 + dx * t + dx / length * 1.3, pair[0].1 + dy * t + dy / length * 1.3);
                    if MAP.holds(tip) {
                        drawing.arrow_head(tip, (dx, dy), 3.0);
                    }
                    break;
                }
                left -= length;
            }
        }
    }
}

fn background(drawing: &mut Drawing, network: &RoadNetwork, view: &View) {
    let mut by_class = RoadClass::ALL.map(|class| (class, Vec::<Line>::new()));
    for section in &network.sections {
        let runs = MAP.clipped(&view.on_paper(&section.line));
        if let Some(entry) = by_class.iter_mut().find(|(class, _)| *class == section.class) {
            entry.1.extend(runs);
        }
    }
    let mut points = 0;
    for (class, runs) in by_class {
        points += runs.iter().map(Vec::len).sum::<usize>();
        if points > BACKGROUND_POINTS && class > RoadClass::Secondary {
            break;
        }
        let width = match class {
            RoadClass::Motorway | RoadClass::Trunk | RoadClass::Primary => 0.55,
            RoadClass::Secondary | RoadClass::Tertiary => 0.4,
            _ => 0.22,
        };
        for run in runs {
            drawing.path(&run, false, &format!("stroke=\"#9a9a9a\" stroke-width=\"{width}\""));
        }
    }
}

/// Small open squares where sites were left out.
fn left_out(drawing: &mut Drawing, plan: &Plan, view: &View) {
    let done: Vec<usize> = visited(plan).collect();
    for (index, site) in plan.sites.iter().enumerate() {
        let at = view.at(site.place);
        if !done.contains(&index) && MAP.holds(at) {
            drawing.rect((at.0 - 0.9, at.1 - 0.9), (1.8, 1.8), &format!("fill=\"#fff\" {}", stroke(0.3)));
        }
    }
}

fn stops(drawing: &mut Drawing, plan: &Plan, view: &View) {
    let sites = visited(plan).count();
    let true_places: Vec<(f64, f64)> = std::iter::once(plan.district.depot.position)
        .chain(visited(plan).map(|s| plan.sites[s].place))
        .chain(plan.looks.iter().map(|look| look.place))
        .map(|p| view.at(p))
        .collect();
    let shown = apart(&true_places);
    for (from, to) in true_places.iter().zip(&shown) {
        if (from.0 - to.0).hypot(from.1 - to.1) > 0.8 {
            drawing.line(*from, *to, &stroke(0.3));
            drawing.circle(*from, 0.7, "fill=\"#000\"");
        }
    }
    for (look, at) in shown.iter().skip(1 + sites).enumerate() {
        let corners = [(0.0, -3.2), (3.2, 0.0), (0.0, 3.2), (-3.2, 0.0)].map(|(x, y)| (at.0 + x, at.1 + y));
        drawing.path(&corners, true, &format!("fill=\"#fff\" {}", stroke(0.4)));
        drawing.text((at.0, at.1 + 0.9), &look_letter(look), Type::plain(2.6).middle());
    }
    for (index, at) in shown.iter().enumerate().take(1 + sites).skip(1) {
        drawing.circle(*at, 2.5, &format!("fill=\"#fff\" {}", stroke(0.5)));
        drawing.text((at.0, at.1 + 1.05), &index.to_string(), Type::plain(2.9).bold().middle());
    }
    let depot = shown[0];
    drawing.rect((depot.0 - 2.4, depot.1 - 2.4), (4.8, 4.8), "fill=\"#000\" stroke=\"#fff\" stroke-width=\"0.4\"");
    drawing.path(
        &[
            (depot.0 - 1.5, depot.1 + 1.4),
            (depot.0 - 1.5, depot.1 - 0.2),
            (depot.0, depot.1 - 1.6),
            (depot.0 + 1.5, depot.1 - 0.2),
            (depot.0 + 1.5, depot.1 + 1.4),
        ],
        true,
        "fill=\"#fff\"",
    );
}

/// Pushes markers off each other, a few steps, always in the same order.
fn apart(places: &[(f64, f64)]) -> Vec<(f64, f64)> {
    const ROOM: f64 = 5.6;
    let mut shown = places.to_vec();
    for _ in 0..60 {
        for a in 0..shown.len() {
            for b in a + 1..shown.len() {
                let (dx, dy) = (shown[b].0 - shown[a].0, shown[b].1 - shown[a].1);
                let gap = dx.hypot(dy);
                if gap >= ROOM {
                    continue;
                }
                let (ux, uy) = if gap > 1e-6 { (dx / gap, dy / gap) } else { (0.8, 0.6) };
                let push = (ROOM - gap) / 2.0;
                // The depot (first) keeps its place.
                let share = if a == 0 { (0.0, 2.0) } else { (1.0, 1.0) };
                shown[a].0 -= ux * push * share.0;
                shown[a].1 -= uy * push * share.0;
                shown[b].0 += ux * push * share.1;
                shown[b].1 += uy * push * share.1;
            }
        }
        for p in &mut shown {
            p.0 = p.0.clamp(4.0, WIDTH - 4.0);
            p.1 = p.1.clamp(4.0, HEIGHT - 10.0);
        }
    }
    shown
}

fn furniture(drawing: &mut Drawing, plan: &Plan, view: &View, trips: usize) {
    // A white strip keeps the key readable.
    drawing.rect((FRAME, HEIGHT - 7.2), (WIDTH - 2.0 * FRAME, 7.2 - FRAME), "fill=\"#fff\"");
    drawing.line((FRAME, HEIGHT - 7.2), (WIDTH - FRAME, HEIGHT - 7.2), &stroke(0.2));
    let y = HEIGHT - 2.6;
    let units = Units::of(&plan.district);
    scale_bar(drawing, units, view.scale, (2.5, y));
    let mut x = 34.0;
    if trips > 1 {
        for (trip, (width, dash)) in TRIPS.into_iter().enumerate().take(trips) {
            let dash = if dash.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{dash}\"") };
            drawing.line((x, y - 0.9), (x + 6.5, y - 0.9), &format!("{}{dash}", stroke(width)));
            let more = if trip + 1 == TRIPS.len() && trips > TRIPS.len() { "+" } else { "" };
            let label = format!("{}{more}", units.words.say_with("drawing-trip", [("trip", (trip + 1).into())]));
            drawing.text((x + 7.6, y), &label, Type::plain(2.5));
            x += 8.6 + text_width(&label, 2.5) + 1.5;
        }
    } else {
        drawing.rect((x, y - 1.9), (2.0, 2.0), "fill=\"#000\"");
        let name = clip(&plan.district.depot.name, 2.5, 26.0);
        drawing.text((x + 3.2, y), &name, Type::plain(2.5));
        x += 3.2 + text_width(&name, 2.5) + 2.0;
    }
    if visited(plan).count() < plan.sites.len() && x < WIDTH - 20.0 {
        drawing.rect((x, y - 1.9), (1.8, 1.8), &stroke(0.3));
        drawing.text((x + 3.0, y), &units.words.say("drawing-not-today"), Type::plain(2.5));
    }
    MAP.north_arrow(drawing, units);
}

/// The trip each way belongs to: ways follow the `Drive` lines of the timetable, trips begin with a `Load`.
fn trips_of_ways(plan: &Plan) -> Vec<usize> {
    let mut trip = 0;
    let mut trips = Vec::new();
    for stop in &plan.round.timetable {
        match stop.kind {
            StopKind::Load(index) => trip = index,
            StopKind::Drive(_) => trips.push(trip),
            _ => {}
        }
    }
    trips.resize(plan.ways.len(), trip);
    trips
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn markers_do_not_cover_each_other() {
        let shown = apart(&[(40.0, 40.0), (40.0, 40.0), (40.1, 40.0), (41.0, 41.0)]);
        for a in 0..shown.len() {
            for b in a + 1..shown.len() {
                assert!((shown[a].0 - shown[b].0).hypot(shown[a].1 - shown[b].1) > 4.9, "{shown:?}");
            }
        }
    }
}
