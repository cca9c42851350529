//! Distances between devices, the numbers of the cones, and the lengths of the zone's parts.

use model::quantity::metres;
use model::work_zone::{DeviceKind, WorkZone, ZonePartKind};

use super::labels::{DISTANCES, LabelRow};
use super::symbols::cone_symbol;
use super::{Edge, SMALL, Sheet, WIDTH, along};
use crate::svg::{Area, Drawing, dashed, stroke, weight, wrap};

/// Places closer than this, metres, are one.
const SAME_PLACE: f64 = 0.05;
/// No shorter distance line is drawn, millimetres.
const LINE_FROM: f64 = 1.2;
/// From line to line.
const STEP: f64 = SMALL.size * 1.12;
/// Room for a part's words where the part is shorter.
const PART_WORDS: f64 = 19.0;

/// A part of the zone, metres along the paper's direction.
pub struct Part {
    kind: ZonePartKind,
    pub from: f64,
    pub to: f64,
}

/// The parts in the direction of the traffic in the worked lane: those named before the work space lie upstream of it.
pub fn parts(zone: &WorkZone, work: (f64, f64)) -> Vec<Part> {
    let own = zone.parts.iter().position(|p| p.kind == ZonePartKind::WorkSpace).unwrap_or(zone.parts.len());
    let known = |p: &&model::work_zone::ZonePart| p.length.value.value.is_finite() && p.length.value.value > SAME_PLACE;
    let mut parts = Vec::new();
    let mut from = work.0;
    for part in zone.parts[..own].iter().rev().filter(known) {
        let to = from;
        from -= part.length.value.value;
        parts.push(Part { kind: part.kind, from, to });
    }
    parts.reverse();
    parts.push(Part { kind: ZonePartKind::WorkSpace, from: work.0, to: work.1 });
    let mut to = work.1;
    for part in zone.parts.iter().skip(own + 1).filter(known) {
        let from = to;
        to += part.length.value.value;
        parts.push(Part { kind: part.kind, from, to });
    }
    parts
}

fn part_key(kind: ZonePartKind) -> &'static str {
    match kind {
        ZonePartKind::AdvanceWarning => "drawing-part-advance-warning",
        ZonePartKind::Taper => "drawing-part-taper",
        ZonePartKind::Buffer => "drawing-part-buffer",
        ZonePartKind::WorkSpace => "drawing-part-work-space",
        ZonePartKind::DownstreamTaper => "drawing-part-downstream-taper",
    }
}

impl Sheet<'_> {
    /// Distances between neighbours on one side of the road, and from the nearest of them to the work space.
    pub fn spacings(&self, drawing: &mut Drawing, row: &LabelRow) {
        let (edge, out) = self.edge(row.edge);
        let y = edge + out * DISTANCES;
        let on_axis = |index: usize| {
            let spot = self.zone.devices[index].spot.as_ref();
            spot.is_none_or(|s| s.side_road.is_none())
        };
        let mut points: Vec<(f64, f64)> = row
            .labels
            .iter()
            .filter(|l| on_axis(l.device))
            .map(|l| (along(&self.zone.devices[l.device], self.sign), l.at))
            .collect();
        if points.is_empty() {
            return;
        }
        points.extend([self.work.0, self.work.1].map(|edge| (edge, self.scale.x(edge))));
        points.sort_by(|a, b| a.0.total_cmp(&b.0));
        points.dedup_by(|a, b| (a.0 - b.0).abs() < SAME_PLACE);
        for pair in points.windows(2) {
            let inside = pair[0].0 >= self.work.0 - 0.01 && pair[1].0 <= self.work.1 + 0.01;
            let (from, to) = (pair[0].1, pair[1].1);
            if inside || to - from < LINE_FROM {
                continue;
            }
            drawing.dimension((from, y), (to, y), "", SMALL.size);
            let text = self.units.along(metres(pair[1].0 - pair[0].0));
            // On the side of the road, out of the way of the leaders that go aside.
            let down = if row.edge == Edge::Top { SMALL.size * 0.74 + 0.7 } else { -0.9 };
            let at = (f64::midpoint(from, to), y + down);
            // Narrower than its own length, so that it is plain which distance it is.
            let area = SMALL.middle().area(at, &text);
            if SMALL.width(&text) < to - from - 0.4 && drawing.is_free(&area) {
                drawing.text(at, &text, SMALL.middle().rim());
            }
        }
        for x in [self.work.0, self.work.1].map(|edge| self.scale.x(edge)) {
            let road = self.edge(row.edge).0;
            drawing.line((x, road), (x, y + out * 1.2), &dashed(weight::FINE, "0.8 0.8"));
        }
    }

    /// Numbers of the cones beside their line, where they fit between the leaders.
    pub fn cone_numbers(&self, drawing: &mut Drawing) {
        let closed = self.closure().closed;
        let side = if self.y_on_paper(closed.1.min(99.0)) > self.level.road + super::ROAD / 2.0 {
            Edge::Bottom
        } else {
            Edge::Top
        };
        let (edge, out) = self.edge(side);
        let row = if side == Edge::Bottom { &self.bottom } else { &self.top };
        let mut in_the_way: Vec<f64> = row.labels.iter().map(|l| l.at).collect();
        in_the_way.extend([self.work.0, self.work.1].map(|edge| self.scale.x(edge)));
        let y = edge + out * 2.3;
        for run in cone_runs(self.zone) {
            let xs = run.clone().map(|i| self.scale.x(along(&self.zone.devices[i], self.sign)));
            let (low, high) = super::road::extent(xs);
            let text =
                if run.len() == 1 { (run.start + 1).to_string() } else { format!("{}–{}", run.start + 1, run.end) };
            let width = SMALL.width(&text) + 2.4;
            let places = [0.5, 0.3, 0.7, 0.1, 0.9].map(|part| low + (high - low) * part);
            let free = places.into_iter().find(|&x| {
                let area = Area { x: (x - width / 2.0, x + width / 2.0), y: (y - 1.7, y + 1.7) };
                let clear = in_the_way.iter().all(|l| *l < area.x.0 - 0.3 || *l > area.x.1 + 0.3);
                clear && drawing.is_free(&area.grown(0.3))
            });
            if let Some(x) = free {
                cone_symbol(drawing, (x - width / 2.0 + 0.8, y));
                drawing.text((x + 1.2, y + SMALL.size * 0.36), &text, SMALL.middle());
            }
        }
    }

    /// The parts of the zone in the direction of the traffic in the worked lane; gives where it ends down the paper.
    pub fn parts(&self, drawing: &mut Drawing, from: f64) -> f64 {
        // Words above the line where they are free, else below it, else further below. Each row ends so far to the right.
        let mut ends: Vec<f64> = Vec::new();
        let mut blocks: Vec<(usize, f64, Vec<String>)> = Vec::new();
        for part in &self.parts {
            let (left, right) = (self.scale.x(part.from), self.scale.x(part.to));
            let length = self.units.along(metres(part.to - part.from));
            let own = right - left - 1.5;
            let words = self.units.words.say(part_key(part.kind));
            let mut lines = wrap(&words, SMALL.size, own.max(PART_WORDS), 2);
            let joined = format!("{} {length}", lines[lines.len() - 1]);
            if SMALL.width(&joined) <= own {
                lines.pop();
                lines.push(joined);
            } else {
                lines.push(length);
            }
            let half = lines.iter().map(|l| SMALL.width(l)).fold(0.0, f64::max) / 2.0;
            let x = f64::midpoint(left, right).clamp(half + 1.0, WIDTH - half - 1.0);
            let side = ends.iter().position(|end| x - half > end + 1.0).unwrap_or(ends.len());
            ends.resize(ends.len().max(side + 1), 0.0);
            ends[side] = x + half;
            blocks.push((side, x, lines));
        }
        let most = |side: usize| blocks.iter().filter(|b| b.0 == side).map(|b| b.2.len()).max().unwrap_or(0) as f64;
        let y = from + most(0) * STEP + 0.8;
        for part in &self.parts {
            let (left, right) = (self.scale.x(part.from), self.scale.x(part.to));
            for x in [left, right] {
                drawing.line((x, y - 1.4), (x, y + 1.4), &stroke(weight::LINE));
            }
            drawing.dimension((left, y), (right, y), "", SMALL.size);
        }
        for (side, x, lines) in &blocks {
            let first = match side {
                0 => y - 1.3 - STEP * (lines.len() as f64 - 1.0),
                _ => y + SMALL.size + 0.4 + (1..*side).map(most).sum::<f64>() * STEP,
            };
            for (index, line) in lines.iter().enumerate() {
                drawing.text((*x, first + STEP * index as f64), line, SMALL.middle().rim());
            }
        }
        y + 1.6 + (1..ends.len()).map(most).sum::<f64>() * STEP
    }
}

/// Neighbouring cones of one line, as the placing list takes them together: same traffic, same words, no other device
/// between.
fn cone_runs(zone: &WorkZone) -> Vec<std::ops::Range<usize>> {
    let mut runs: Vec<std::ops::Range<usize>> = Vec::new();
    for (index, device) in zone.devices.iter().enumerate() {
        if device.kind != DeviceKind::Cone {
            continue;
        }
        let joins = |run: &std::ops::Range<usize>| {
            let last = &zone.devices[run.end - 1];
            run.end == index && last.approach == device.approach && last.legend == device.legend
        };
        match runs.last_mut().filter(|run| joins(run)) {
            Some(run) => run.end = index + 1,
            None => runs.push(index..index + 1),
        }
    }
    runs
}
