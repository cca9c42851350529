//! Plan of a work zone with everything that stands on the road, drawn from the zone's own parts and devices alone.
//!
//! Traffic in the worked lane goes from left to right on paper, whichever way the section is measured, so that its right
//! hand is always below. Lengths along the road are to scale where the sheet has room, else the scale is broken and the
//! distances are written on; across the road the scale is another one.

mod closure;
mod distances;
mod labels;
mod road;
mod scale;
mod symbols;
#[cfg(test)]
mod tests;
mod words;

use ::words::Words;
use model::district::{DrivingSide, UnitSystem};
use model::place::{FramePoint, Travel};
use model::plan::Plan;
use model::road::RoadSection;
use model::work_zone::{Device, DeviceKind, WorkZone};

use super::job_number;
use crate::display::{Units, words_of};
use crate::printable::printable;
use crate::svg::{Drawing, Type};
pub use closure::Closure;
use distances::Part;
use labels::LabelRow;
use scale::{Apart, BrokenScale};

/// Width of the drawing, millimetres: that of the pages' type area. On A5 its type is still above 2.3 mm.
const WIDTH: f64 = 182.0;
const MARGIN: f64 = 12.0;
/// Type of names and distances.
const SMALL: Type = Type::plain(2.9);
/// Height of the road from edge to edge.
const ROAD: f64 = 19.0;
/// How far out the shoulder's edge is drawn.
const SHOULDER: f64 = 2.6;
/// Least length of a part, so that its distance can be written.
const PART_ROOM: f64 = 9.0;
/// Room for the distance from the work space to the nearest sign or flagger.
const DISTANCE_ROOM: f64 = 12.0;

/// A zone to be drawn, and what the drawing says beside it.
#[derive(Debug, Clone)]
pub struct ZonePicture<'a> {
    /// The zone.
    pub zone: &'a WorkZone,
    /// The section it is on.
    pub road: &'a RoadSection,
    /// Side that traffic keeps to.
    pub driving_side: DrivingSide,
    /// Units of the distances written on.
    pub units: UnitSystem,
    /// Language of the words written on.
    pub words: Words,
    /// Cuts with the number they are known by; corners in the section's frame.
    pub cuts: Vec<(String, &'a [FramePoint])>,
    /// What the section comes from (chainage 0) and leads to, where it is known.
    pub ends: Option<(&'a str, &'a str)>,
    /// Azimuth of growing chainage at the work, where it is known.
    pub azimuth_deg: Option<f64>,
}

/// Draws the zone of a site.
///
/// # Panics
/// If `site` is not an index into `plan.sites`.
pub fn zone_plan_svg(plan: &Plan, site: usize) -> String {
    let planned = &plan.sites[site];
    let numbered = |&job: &usize| (job_number(plan, job), plan.jobs[job].cut.corners.as_slice());
    zone_svg(&ZonePicture {
        zone: &planned.zone,
        road: plan.network.section(planned.zone.section),
        driving_side: plan.district.driving_side,
        units: plan.district.units,
        words: words_of(&plan.district),
        cuts: planned.jobs.iter().map(numbered).collect(),
        ends: Some((&planned.chainage_from, &planned.chainage_towards)),
        azimuth_deg: Some(planned.position.azimuth_deg),
    })
}

/// Draws a zone: black on white ground, with title and description, readable at A5 in black and white.
pub fn zone_svg(picture: &ZonePicture) -> String {
    let road = picture.road;
    let named = !(road.name.is_empty() && road.number.is_empty());
    let title = if named {
        picture.words.say_with("drawing-work-zone-on", [("road", printable(&road.label()).as_ref().into())])
    } else {
        picture.words.say("drawing-work-zone")
    };
    draw(picture).finish_with(&title, &words::description(picture))
}

fn draw(picture: &ZonePicture) -> Drawing {
    let sheet = Sheet::new(picture);
    let mut drawing = Drawing::new(WIDTH, sheet.level.parts);
    sheet.header(&mut drawing);
    sheet.surface(&mut drawing);
    sheet.work_space(&mut drawing);
    sheet.cones(&mut drawing);
    sheet.breaks(&mut drawing);
    for row in [&sheet.top, &sheet.bottom] {
        sheet.labels(&mut drawing, row);
    }
    for row in [&sheet.top, &sheet.bottom] {
        sheet.spacings(&mut drawing, row);
    }
    sheet.cone_numbers(&mut drawing);
    let below = sheet.parts(&mut drawing, sheet.level.parts);
    let end = sheet.key(&mut drawing, below);
    drawing.set_height(end);
    drawing
}

/// The side of the road on paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Edge {
    Top,
    Bottom,
}

/// What lies where down the paper.
#[derive(Debug, Clone, Copy)]
struct Level {
    /// Upper edge of the road.
    road: f64,
    /// Where the row of parts may begin.
    parts: f64,
}

/// Everything that is worked out before the first line is drawn.
struct Sheet<'a> {
    picture: &'a ZonePicture<'a>,
    zone: &'a WorkZone,
    road: &'a RoadSection,
    units: Units,
    /// +1 where chainage grows to the right on paper, -1 where it falls.
    sign: f64,
    scale: BrokenScale,
    /// Work space along the paper's direction, metres.
    work: (f64, f64),
    /// From the first cone to the last, metres.
    core: (f64, f64),
    parts: Vec<Part>,
    top: LabelRow,
    bottom: LabelRow,
    level: Level,
}

impl<'a> Sheet<'a> {
    fn new(picture: &'a ZonePicture<'a>) -> Self {
        let zone = picture.zone;
        let sign = if zone.travel == Travel::Forward { 1.0 } else { -1.0 };
        let ends =
            [zone.work_from.value * sign, zone.work_to.value * sign].map(|m| if m.is_finite() { m } else { 0.0 });
        let work = (ends[0].min(ends[1]), ends[0].max(ends[1]));
        let core = core(zone, sign, work);
        let parts = distances::parts(zone, work);
        let stations = [Edge::Top, Edge::Bottom].map(|edge| labels::stations(picture, sign, edge));
        let scale = scale_of(picture, sign, (work, core), &parts, &stations);
        let [top, bottom] = stations.map(|stations| {
            let wanted: Vec<f64> = stations.iter().map(|&i| scale.x(along(&zone.devices[i], sign))).collect();
            (stations, wanted)
        });
        let units = Units::new(picture.units, picture.words);
        let top = LabelRow::new(zone, units, Edge::Top, &top.0, &top.1);
        let bottom = LabelRow::new(zone, units, Edge::Bottom, &bottom.0, &bottom.1);
        let road = words::header_height(picture) + top.height() + SHOULDER;
        let level = Level { road, parts: road + ROAD + SHOULDER + bottom.height() + 1.0 };
        Sheet { picture, zone, road: picture.road, units, sign, scale, work, core, parts, top, bottom, level }
    }

    /// Millimetres down the paper for metres across, positive to the right of the worked lane's traffic.
    fn y_on_paper(&self, across_m: f64) -> f64 {
        self.y(across_m * self.sign)
    }

    /// Millimetres down the paper for metres across the road; what stands beyond the shoulder is drawn on its far edge.
    fn y(&self, across_m: f64) -> f64 {
        let half = (self.road.width.value / 2.0).max(0.5);
        let y = self.level.road + ROAD / 2.0 + across_m * self.sign / half * ROAD / 2.0;
        let (low, high) = (self.level.road - SHOULDER, self.level.road + ROAD + SHOULDER);
        if y.is_finite() { y.clamp(low, high) } else { low }
    }

    /// The shoulder's edge, and which way is away from the road.
    fn edge(&self, edge: Edge) -> (f64, f64) {
        match edge {
            Edge::Top => (self.level.road - SHOULDER, -1.0),
            Edge::Bottom => (self.level.road + ROAD + SHOULDER, 1.0),
        }
    }

    /// Middle of the cuts across, metres, positive to the right of the worked lane's traffic.
    fn closure(&self) -> Closure {
        let corners = self.picture.cuts.iter().flat_map(|(_, corners)| corners.iter());
        let across = corners.map(|c| c.across_m * self.sign);
        Closure::of(self.zone, self.road, self.picture.driving_side, closure::middle(across))
    }
}

/// From the first cone to the last, the work space in any case.
fn core(zone: &WorkZone, sign: f64, work: (f64, f64)) -> (f64, f64) {
    let mut core = work;
    for cone in zone.devices.iter().filter(|d| d.kind == DeviceKind::Cone) {
        let at = along(cone, sign);
        if at.is_finite() {
            core = (core.0.min(at), core.1.max(at));
        }
    }
    core
}

/// The scale along: where the places are that must keep apart, and by how much.
fn scale_of(
    picture: &ZonePicture,
    sign: f64,
    (work, core): ((f64, f64), (f64, f64)),
    parts: &[Part],
    stations: &[Vec<usize>; 2],
) -> BrokenScale {
    let zone = picture.zone;
    let mut places: Vec<f64> = zone.devices.iter().map(|d| along(d, sign)).collect();
    places.extend([work.0, work.1]);
    let mut wishes: Vec<Apart> =
        parts.iter().map(|p| Apart { from: p.from, to: p.to, paper: PART_ROOM, soft: false }).collect();
    // Many cuts want a wider work space on paper.
    let cuts = (4.0 + 5.5 * picture.cuts.len() as f64).clamp(PART_ROOM, 48.0);
    wishes.push(Apart { from: work.0, to: work.1, paper: cuts, soft: false });
    for row in stations {
        let room = labels::ROOM.min((WIDTH - 2.0 * MARGIN) / row.len().max(1) as f64);
        wishes.extend(row.windows(2).map(|w| Apart {
            from: along(&zone.devices[w[0]], sign),
            to: along(&zone.devices[w[1]], sign),
            paper: room,
            soft: true,
        }));
        // From the work space to the nearest of them on each side: where the distance is written.
        let ats = || row.iter().map(|&device| along(&zone.devices[device], sign));
        let before = ats().filter(|at| *at < work.0).max_by(f64::total_cmp).map(|at| (at, work.0));
        let past = ats().filter(|at| *at > work.1).min_by(f64::total_cmp).map(|at| (work.1, at));
        wishes.extend(before.into_iter().chain(past).map(|(from, to)| Apart {
            from,
            to,
            paper: DISTANCE_ROOM,
            soft: true,
        }));
    }
    BrokenScale::new(places, &wishes, core, MARGIN, WIDTH - MARGIN)
}

fn along(device: &Device, sign: f64) -> f64 {
    device.chainage.value * sign
}
