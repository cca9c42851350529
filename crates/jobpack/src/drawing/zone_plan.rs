//! Plan of a work zone with everything that stands on the road.
//!
//! Traffic in the worked lane goes from left to right on paper, whichever way the section is measured, so that its right
//! hand is always below. Scale along is broken, scale across another one: the distances are written on.

use model::place::Travel;
use model::plan::Plan;
use model::road::{Flow, RoadSection};
use model::work_zone::{Device, DeviceKind, WorkZone, ZonePartKind};

use super::job_number;
use super::zone_closure::Closure;
use super::zone_scale::{Apart, BrokenScale};
use super::zone_symbols::{cone_symbol, legend, station_symbol, vehicle_symbol};
use crate::display::Units;
use crate::svg::{Drawing, Type, clip, dashed, stroke, text_width, weight, wrap};

const WIDTH: f64 = 182.0;
const HEIGHT: f64 = 96.0;
const MARGIN: f64 = 11.0;
const ROAD_TOP: f64 = 30.5;
const ROAD_BOTTOM: f64 = 52.5;
const SHOULDER: f64 = 2.6;
const LABEL_ROOM: f64 = 17.5;
const PART_ROOM: f64 = 14.5;
const SMALL: f64 = 2.55;

/// Draws the zone of a site.
///
/// # Panics
/// If `site` is not an index into `plan.sites`.
pub fn zone_plan_svg(plan: &Plan, site: usize) -> String {
    let sheet = Sheet::new(plan, site);
    let mut drawing = Drawing::new(WIDTH, HEIGHT);
    sheet.road(&mut drawing);
    sheet.work_space(&mut drawing);
    sheet.cones(&mut drawing);
    sheet.breaks(&mut drawing);
    sheet.stations(&mut drawing, Row::Top);
    sheet.stations(&mut drawing, Row::Bottom);
    sheet.parts(&mut drawing);
    legend(&mut drawing, HEIGHT - 0.8, WIDTH - 2.0);
    drawing.finish()
}

/// Labels stand above or below the road, on the side where the device stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Row {
    Top,
    Bottom,
}

struct Sheet<'a> {
    plan: &'a Plan,
    site: usize,
    zone: &'a WorkZone,
    road: &'a RoadSection,
    units: Units,
    /// +1 where chainage grows to the right on paper, -1 where it falls.
    sign: f64,
    scale: BrokenScale,
    work: (f64, f64),
    parts: Vec<Part>,
}

struct Part {
    words: &'static str,
    from: f64,
    to: f64,
}

impl<'a> Sheet<'a> {
    fn new(plan: &'a Plan, site: usize) -> Self {
        let zone = &plan.sites[site].zone;
        let sign = if zone.travel == Travel::Forward { 1.0 } else { -1.0 };
        let ends = [zone.work_from.value * sign, zone.work_to.value * sign];
        let work = (ends[0].min(ends[1]), ends[0].max(ends[1]));
        let parts = parts(zone, work);
        let mut places: Vec<f64> = zone.devices.iter().map(|d| d.chainage.value * sign).collect();
        places.extend([work.0, work.1]);
        let mut wishes: Vec<Apart> = parts.iter().map(|p| Apart { from: p.from, to: p.to, paper: PART_ROOM }).collect();
        // Many cuts want a wider work space on paper.
        let cuts = plan.sites[site].jobs.len() as f64;
        wishes.push(Apart { from: work.0, to: work.1, paper: (6.0 + 5.0 * cuts).clamp(PART_ROOM, 42.0) });
        for row in [Row::Top, Row::Bottom] {
            let stations = stations_of(zone, sign, row);
            wishes.extend(stations.windows(2).map(|w| Apart {
                from: along(&zone.devices[w[0]], sign),
                to: along(&zone.devices[w[1]], sign),
                paper: LABEL_ROOM,
            }));
        }
        let scale = BrokenScale::new(places, &wishes, MARGIN, WIDTH - MARGIN);
        Sheet {
            plan,
            site,
            zone,
            road: plan.network.section(zone.section),
            units: Units(plan.district.units),
            sign,
            scale,
            work,
            parts,
        }
    }

    /// Millimetres down the paper for metres across, positive to the right of the worked lane's traffic.
    fn y_on_paper(&self, across_m: f64) -> f64 {
        self.y(across_m * self.sign)
    }

    /// Millimetres down the paper for metres across the road; what stands beyond the shoulder is drawn on its far edge.
    fn y(&self, across_m: f64) -> f64 {
        let half = (self.road.width.value / 2.0).max(0.5);
        let middle = f64::midpoint(ROAD_TOP, ROAD_BOTTOM);
        let reach = (ROAD_BOTTOM - ROAD_TOP) / 2.0;
        let y = middle + across_m * self.sign / half * reach;
        y.clamp(ROAD_TOP - SHOULDER, ROAD_BOTTOM + SHOULDER)
    }

    fn road(&self, drawing: &mut Drawing) {
        let (left, right) = (1.0, WIDTH - 1.0);
        let height = ROAD_BOTTOM - ROAD_TOP;
        drawing.rect((left, ROAD_TOP), (right - left, height), "fill=\"#f4f4f4\"");
        for y in [ROAD_TOP, ROAD_BOTTOM] {
            drawing.line((left, y), (right, y), &stroke(weight::BOLD));
        }
        for y in [ROAD_TOP - SHOULDER, ROAD_BOTTOM + SHOULDER] {
            drawing.line((left, y), (right, y), &dashed(weight::FINE, "0.4 1"));
        }
        let lanes = self.road.lanes.clamp(1, 8);
        for lane in 1..lanes {
            let y = ROAD_TOP + height * f64::from(lane) / f64::from(lanes);
            let centre = self.road.flow == Flow::Both && lane * 2 == lanes;
            let style = if centre { dashed(weight::LINE, "3 1.2") } else { dashed(weight::FINE, "2 2") };
            drawing.line((left, y), (right, y), &style);
        }
        self.traffic_arrows(drawing);
    }

    fn traffic_arrows(&self, drawing: &mut Drawing) {
        let lanes = self.road.lanes.clamp(1, 8);
        let lane_height = (ROAD_BOTTOM - ROAD_TOP) / f64::from(lanes);
        let keeps_right = self.plan.district.driving_side == model::district::DrivingSide::Right;
        for lane in 0..lanes {
            let y = ROAD_TOP + lane_height * (f64::from(lane) + 0.5);
            // On paper the right hand of the worked direction is below.
            let lower = f64::from(lane) + 0.5 > f64::from(lanes) / 2.0;
            let with_work = self.road.flow != Flow::Both || lanes == 1 || lower == keeps_right;
            let (from, to) = if with_work { (2.5, 8.5) } else { (WIDTH - 2.5, WIDTH - 8.5) };
            if lanes == 1 && self.road.flow == Flow::Both {
                drawing.line((WIDTH - 2.5, y), (WIDTH - 8.5, y), &stroke(weight::LINE));
                drawing.arrow_head((WIDTH - 9.5, y), (-1.0, 0.0), 2.4);
            }
            drawing.line((from, y), (to, y), &stroke(weight::LINE));
            drawing.arrow_head((to + (to - from).signum(), y), (to - from, 0.0), 2.4);
        }
    }

    /// What is closed beside the work is hatched; what stays open has its width written on.
    fn work_space(&self, drawing: &mut Drawing) {
        let (x0, x1) = (self.scale.x(self.work.0), self.scale.x(self.work.1));
        let Closure { closed, open } = Closure::at(self.plan, self.site);
        let (y0, y1) = (self.y_on_paper(closed.0), self.y_on_paper(closed.1));
        let corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)];
        drawing.path(&corners, true, "fill=\"#fff\"");
        drawing.hatch(&corners, 1.6, &stroke(0.14));
        drawing.path(&corners, true, &stroke(weight::LINE));
        self.cuts(drawing, (y0, y1));
        self.open_width(drawing, (x0, x1), (self.y_on_paper(open.0), self.y_on_paper(open.1)));
    }

    fn open_width(&self, drawing: &mut Drawing, (x0, x1): (f64, f64), (top, bottom): (f64, f64)) {
        let blocked = self.zone.remarks.iter().any(|r| r.contains("can't pass"));
        let width = self.zone.open_width.value;
        let x = f64::midpoint(x0, x1);
        let bold = |size: f64| Type::plain(size).bold().middle();
        if bottom - top < 0.4 || width.value <= 0.0 {
            // Beside the hatch, in the end taper, where no cut lies.
            let words = "nothing stays open";
            let beside = x1 + text_width(words, 3.0) * 0.53 + 3.0;
            plate(drawing, (beside, f64::midpoint(ROAD_TOP, ROAD_BOTTOM)), words, bold(3.0));
            return;
        }
        if bottom - top > 3.0 {
            drawing.dimension((x, top + 0.2), (x, bottom - 0.2), "", SMALL);
        }
        let pass = if blocked { ": traffic can't pass" } else { "" };
        let words = format!("open {}{pass}", self.units.width(width));
        plate(drawing, (x, f64::midpoint(top, bottom)), &words, if blocked { bold(3.0) } else { bold(SMALL) });
    }

    fn cuts(&self, drawing: &mut Drawing, (y0, y1): (f64, f64)) {
        let jobs = &self.plan.sites[self.site].jobs;
        // Where the last number above and the last one below the cuts ends.
        let mut last_labels = [f64::NEG_INFINITY; 3];
        let mut order: Vec<usize> = jobs.clone();
        order.sort_by(|a, b| self.job_x(*a).total_cmp(&self.job_x(*b)));
        for job in order {
            let cut = &self.plan.jobs[job].cut;
            let xs = cut.corners.iter().map(|c| self.scale.x(c.along_m * self.sign));
            let ys = cut.corners.iter().map(|c| self.y(c.across_m));
            let (left, right) = extent(xs);
            let (top, bottom) = extent(ys);
            let (cx, cy) = (f64::midpoint(left, right), f64::midpoint(top, bottom));
            let (w, h) = ((right - left).max(1.6), (bottom - top).max(1.6));
            drawing.rect((cx - w / 2.0, cy - h / 2.0), (w, h), "fill=\"#000\" stroke=\"#fff\" stroke-width=\"0.3\"");
            let number = job_number(self.plan, job);
            let width = text_width(&number, SMALL);
            // Above the cut, else below it, else beside it where the closed strip is thin; numbers that would run into
            // each other are left to the hole sheets.
            // A shoulder is thinner than the type: its numbers stand outside the road.
            let thin = y1 - y0 < 4.0;
            let (above, below) = (cy - h / 2.0 - 1.9, cy + h / 2.0 + 2.0);
            let beside = cx + w / 2.0 + width / 2.0 + 1.0;
            let places = [
                (above > y0 + 1.5 || (thin && y0 < ROAD_TOP)).then_some((cx, above)),
                (below < y1 - 1.5 || (thin && y1 > ROAD_BOTTOM)).then_some((cx, below)),
                Some((beside, cy)),
            ];
            let free =
                (0..3).find_map(|l| places[l].filter(|p| p.0 - width / 2.0 > last_labels[l] + 0.8).map(|p| (l, p)));
            if let Some((level, at)) = free {
                plate(drawing, at, &number, Type::plain(SMALL).bold().middle());
                last_labels[level] = at.0 + width / 2.0;
            }
        }
    }

    fn job_x(&self, job: usize) -> f64 {
        let corners = &self.plan.jobs[job].cut.corners;
        corners.iter().map(|c| c.along_m * self.sign).sum::<f64>() / corners.len().max(1) as f64
    }

    fn cones(&self, drawing: &mut Drawing) {
        let mut drawn: Vec<(f64, f64)> = Vec::new();
        for cone in self.zone.devices.iter().filter(|d| d.kind == DeviceKind::Cone) {
            let at = (self.scale.x(along(cone, self.sign)), self.y(cone.across.value));
            // Cones denser than the pen are thinned out on paper only; the table counts them all.
            if drawn.iter().all(|p| (p.0 - at.0).hypot(p.1 - at.1) > 1.3) {
                cone_symbol(drawing, at);
                drawn.push(at);
            }
        }
    }

    fn breaks(&self, drawing: &mut Drawing) {
        for x in self.scale.breaks() {
            for y in [ROAD_TOP, ROAD_BOTTOM] {
                drawing.rect((x - 0.7, y - 0.8), (1.4, 1.6), "fill=\"#fff\"");
                for shift in [-0.7, 0.7] {
                    drawing.line((x + shift - 0.5, y + 1.4), (x + shift + 0.5, y - 1.4), &stroke(weight::LINE));
                }
            }
        }
    }

    fn stations(&self, drawing: &mut Drawing, row: Row) {
        let stations = stations_of(self.zone, self.sign, row);
        let wanted: Vec<f64> =
            stations.iter().map(|&i| self.scale.x(along(&self.zone.devices[i], self.sign))).collect();
        let placed = spread_out(&wanted, LABEL_ROOM - 1.0, 8.5, WIDTH - 8.5);
        let room = placed.windows(2).map(|w| w[1] - w[0]).fold(LABEL_ROOM, f64::min) - 0.8;
        let (symbol_y, edge_y) = match row {
            Row::Top => (16.8, ROAD_TOP - SHOULDER),
            Row::Bottom => (66.4, ROAD_BOTTOM + SHOULDER),
        };
        for ((&index, &x), &true_x) in stations.iter().zip(&placed).zip(&wanted) {
            let device = &self.zone.devices[index];
            let at = (true_x, self.y(device.across.value));
            let toward = if row == Row::Top { 3.4 } else { -3.4 };
            drawing.path(&[(x, symbol_y + toward), (x, edge_y), at], false, &stroke(weight::FINE));
            if device.kind == DeviceKind::ShieldVehicle {
                vehicle_symbol(drawing, at);
            } else {
                drawing.circle(at, 0.7, "fill=\"#000\"");
            }
            station_symbol(drawing, device.kind, (x, symbol_y), &(index + 1).to_string());
            station_words(drawing, row, device, x, room);
        }
        self.spacings(drawing, row, &stations, &placed);
    }

    /// Distances between neighbours in a row, and from the last of them to the work space.
    fn spacings(&self, drawing: &mut Drawing, row: Row, stations: &[usize], placed: &[f64]) {
        let y = match row {
            Row::Top => 23.6,
            Row::Bottom => 60.2,
        };
        let mut points: Vec<(f64, f64)> =
            stations.iter().zip(placed).map(|(&i, &x)| (along(&self.zone.devices[i], self.sign), x)).collect();
        for edge in [self.work.0, self.work.1] {
            points.push((edge, self.scale.x(edge)));
        }
        points.sort_by(|a, b| a.0.total_cmp(&b.0));
        points.dedup_by(|a, b| (a.0 - b.0).abs() < 0.05);
        if stations.is_empty() {
            return;
        }
        for pair in points.windows(2) {
            let inside = pair[0].0 >= self.work.0 - 0.01 && pair[1].0 <= self.work.1 + 0.01;
            let (from, to) = (pair[0].1, pair[1].1);
            let text = self.units.along(model::quantity::metres(pair[1].0 - pair[0].0));
            if inside || to - from < 3.0 {
                continue;
            }
            if text_width(&text, SMALL) < to - from - 0.4 {
                drawing.dimension((from, y), (to, y), &text, SMALL);
            } else {
                drawing.dimension((from, y), (to, y), "", SMALL);
            }
        }
        for edge in [self.work.0, self.work.1] {
            let x = self.scale.x(edge);
            let road = if row == Row::Top { ROAD_TOP } else { ROAD_BOTTOM };
            drawing.line(
                (x, road),
                (x, y + if row == Row::Top { -1.5 } else { 1.5 }),
                &dashed(weight::FINE, "0.8 0.8"),
            );
        }
    }

    /// The parts of the zone in the direction of the traffic in the worked lane.
    fn parts(&self, drawing: &mut Drawing) {
        let y = 87.4;
        for part in &self.parts {
            let (from, to) = (self.scale.x(part.from), self.scale.x(part.to));
            for x in [from, to] {
                drawing.line((x, y - 1.6), (x, y + 1.6), &stroke(weight::LINE));
            }
            drawing.dimension((from, y), (to, y), "", SMALL);
            let length = self.units.along(model::quantity::metres(part.to - part.from));
            let one_line = format!("{} {length}", part.words);
            let x = f64::midpoint(from, to);
            if text_width(&one_line, SMALL) < to - from - 1.0 {
                drawing.text((x, y - 0.9), &one_line, Type::plain(SMALL).middle().bold());
            } else {
                drawing.text((x, y - 0.9), &length, Type::plain(SMALL).middle().bold());
                for (index, line) in wrap(part.words, SMALL, (to - from).max(13.5), 2).iter().enumerate() {
                    drawing.text((x, y + 3.1 + 2.7 * index as f64), line, Type::plain(SMALL).middle());
                }
            }
        }
    }
}

/// A short text on a white plate, so that it reads on hatch and lines; the point is its middle.
fn plate(drawing: &mut Drawing, middle: (f64, f64), words: &str, how: Type) {
    let (w, h) = (text_width(words, how.size) * 1.06 + 0.8, how.size * 1.12);
    drawing.rect((middle.0 - w / 2.0, middle.1 - h / 2.0), (w, h), "fill=\"#fff\"");
    drawing.text((middle.0, middle.1 + how.size * 0.36), words, how);
}

/// What a sign says, by its symbol.
fn station_words(drawing: &mut Drawing, row: Row, device: &Device, x: f64, room: f64) {
    let words = match device.kind {
        DeviceKind::FlaggerStation => "flagger",
        DeviceKind::ShieldVehicle => "shield vehicle",
        DeviceKind::Sign | DeviceKind::Cone => &device.legend,
    };
    let mut lines = wrap(words, SMALL, room, 3);
    if !device.designation.is_empty() && lines.len() < 4 {
        lines.insert(0, clip(&device.designation, SMALL, room));
    }
    let step = SMALL * 1.12;
    let first = match row {
        Row::Top => 12.6 - step * (lines.len() as f64 - 1.0),
        Row::Bottom => 72.4,
    };
    for (index, line) in lines.iter().enumerate() {
        drawing.text((x, first + step * index as f64), line, Type::plain(SMALL).middle());
    }
}

fn along(device: &Device, sign: f64) -> f64 {
    device.chainage.value * sign
}

/// Devices that get a number and words, by where they stand on paper.
fn stations_of(zone: &WorkZone, sign: f64, row: Row) -> Vec<usize> {
    let mut stations: Vec<usize> = (0..zone.devices.len())
        .filter(|&i| {
            let device = &zone.devices[i];
            let below = device.across.value * sign > 0.0;
            device.kind != DeviceKind::Cone && below == (row == Row::Bottom)
        })
        .collect();
    stations.sort_by(|a, b| along(&zone.devices[*a], sign).total_cmp(&along(&zone.devices[*b], sign)));
    stations
}

fn parts(zone: &WorkZone, work: (f64, f64)) -> Vec<Part> {
    let length = |kind: ZonePartKind| -> f64 {
        zone.parts.iter().filter(|p| p.kind == kind).map(|p| p.length.value.value).sum()
    };
    let mut parts = Vec::new();
    let mut upstream = work.0;
    for (kind, words) in [
        (ZonePartKind::Buffer, "buffer"),
        (ZonePartKind::Taper, "taper"),
        (ZonePartKind::AdvanceWarning, "advance warning"),
    ] {
        let from = upstream - length(kind);
        if from < upstream {
            parts.push(Part { words, from, to: upstream });
        }
        upstream = from;
    }
    parts.reverse();
    parts.push(Part { words: "work space", from: work.0, to: work.1 });
    let end = work.1 + length(ZonePartKind::DownstreamTaper);
    if end > work.1 {
        parts.push(Part { words: "end taper", from: work.1, to: end });
    }
    parts
}

/// Moves labels apart along a row, as little as needed, inside the paper.
fn spread_out(wanted: &[f64], gap: f64, left: f64, right: f64) -> Vec<f64> {
    let mut placed = wanted.to_vec();
    let gap = if wanted.len() > 1 { gap.min((right - left) / (wanted.len() - 1) as f64) } else { gap };
    let mut floor = left;
    for x in &mut placed {
        *x = x.max(floor);
        floor = *x + gap;
    }
    let mut ceiling = right;
    for x in placed.iter_mut().rev() {
        *x = x.min(ceiling);
        ceiling = *x - gap;
    }
    placed
}

fn extent(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)))
}
