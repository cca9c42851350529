//! A reported hole to its place on the network: section, lane, and its outline in the road frame.

use jiff::civil::Date;
use model::cut_out::FrameOutline;
use model::district::District;
use model::hole::{Hole, LanePosition, Shape};
use model::place::{FramePoint, RoadPosition, Side};
use model::plan::{HoleReport, LeftOut};
use model::problem::{Problem, ProblemSeverity};
use model::quantity::{InLength, Length};
use model::road::{Flow, RoadSection, Surface};
use model::rules::planning::PlanningRules;
use roads::{Network, SnapRefusal};

use crate::one_hole;

/// A hole on the network.
#[derive(Debug, Clone, PartialEq)]
pub struct Located {
    /// As reported.
    pub hole: Hole,
    /// Where on the network.
    pub position: RoadPosition,
    /// Its outline in the road frame.
    pub outline: FrameOutline,
    /// What was assumed about its place across the road, in words; empty where nothing was.
    pub remark: String,
    /// Day its size was taken, where given.
    pub sized: Option<Date>,
    /// Every report of it; the first gave its name and place.
    pub reports: Vec<HoleReport>,
}

/// A hole that has no place in this crew's plan.
pub(crate) enum NotLocated {
    /// On a road that is not this crew's work.
    LeftOut(LeftOut),
    /// The report itself is at fault.
    Refused(Problem),
}

/// Finds the hole's road and lays its outline into the road frame.
pub(crate) fn locate(
    hole: &Hole,
    network: &Network,
    district: &District,
    rules: &PlanningRules,
) -> Result<Located, Box<NotLocated>> {
    let planning = &district.planning;
    let accept = |section: &RoadSection| is_kept_up(section, district);
    let position = network
        .snap(hole.position, hole.lane_position, planning.snap_limit, district.driving_side, &accept)
        .map_err(|refusal| Box::new(not_located(hole, &refusal, network, district)))?;
    Ok(lay(hole, position, network, rules))
}

/// Lays a hole at a known place into the road frame.
pub(crate) fn lay(hole: &Hole, position: RoadPosition, network: &Network, rules: &PlanningRules) -> Located {
    let section = network.section(position.section);
    let (ring, remark) = match &hole.shape {
        Shape::Size { length, width } => {
            let (across_m, remark) = across(hole, &position, section, width.in_metres(), rules);
            let centre = FramePoint { along_m: position.chainage.in_metres(), across_m };
            (markout::size_ring(*length, *width, centre), remark)
        }
        Shape::Outline(points) => {
            let frame = network.frame_of(&position);
            onto_pavement(points.iter().map(|&point| frame.to_frame(point)).collect(), &position, section)
        }
    };
    let outline = FrameOutline { hole: hole.id.clone(), ring };
    let reports = vec![one_hole::as_report(hole)];
    Located { hole: hole.clone(), position, outline, remark, sized: hole.seen, reports }
}

/// Whether a road is kept up by the district's crews: its surface and class are among those that they mend.
pub fn is_kept_up(section: &RoadSection, district: &District) -> bool {
    let planning = &district.planning;
    let trade = match section.surface {
        Surface::SurfaceTreated => true,
        Surface::Paved | Surface::Unknown => !planning.surface_treated_only,
        Surface::Rigid | Surface::Unpaved => false,
    };
    trade && !planning.classes_left_out.contains(&section.class)
}

fn not_located(hole: &Hole, refusal: &SnapRefusal, network: &Network, district: &District) -> NotLocated {
    if let (SnapRefusal::NotAccepted { .. }, Some(near)) = (refusal, refusal.nearest()) {
        let section = network.section(near.section);
        let words = if district.planning.classes_left_out.contains(&section.class) {
            format!("on a {} road, which this crew does not work on", section.class.word())
        } else {
            format!("the surface there ({}) is not this crew's trade", surface_words(section.surface))
        };
        let (road, distance) = (near.label.clone(), Some(near.distance));
        let (hole, place) = (hole.id.clone(), hole.position);
        return NotLocated::LeftOut(LeftOut { hole, reason: None, words, road, place, distance });
    }
    NotLocated::Refused(Problem {
        code: "plan.hole.off_road",
        severity: ProblemSeverity::Refused,
        at: hole.from.clone(),
        subject: hole.id.0.clone(),
        wrong: refusal.to_string(),
        right: "give the place on the road, or correct the road map".into(),
    })
}

fn surface_words(surface: Surface) -> &'static str {
    match surface {
        Surface::SurfaceTreated => "surface treated",
        Surface::Paved => "paved, kind not said",
        Surface::Rigid => "rigid",
        Surface::Unpaved => "unpaved",
        Surface::Unknown => "not known",
    }
}

/// Where across the road the middle of a hole without outline is taken to lie, metres, positive right.
///
/// A located place is seldom better than a few metres, so what the reporter said of the lane counts for more; where the
/// two are far apart, a remark says so.
fn across(
    hole: &Hole,
    position: &RoadPosition,
    section: &RoadSection,
    hole_width_m: f64,
    rules: &PlanningRules,
) -> (f64, String) {
    let half = section.width.in_metres() / 2.0;
    let half_hole = hole_width_m / 2.0;
    let sign = sign(position.side);
    let located = position.across.in_metres();
    let lane = lane_middle(position, section);
    let nearest = |a: f64, b: f64| if (a - located).abs() <= (b - located).abs() { a } else { b };
    let offset = rules.wheel_path_offset_m.value;
    let (taken, what) = match hole.lane_position {
        Some(LanePosition::Edge) => (sign * (half - half_hole), "the edge of the seal"),
        Some(LanePosition::Shoulder) => (sign * (half + half_hole), "the shoulder beside the seal"),
        Some(LanePosition::Centre) => (0.0, "the centre line"),
        Some(LanePosition::WheelPath) => (nearest(lane - offset, lane + offset), "the wheel path"),
        // Without a word on the lane, the place across is no better than the locating: metres.
        Some(LanePosition::Lane) | None => (lane, "the middle of its lane"),
    };
    let far = (taken - located).abs() > rules.position_doubt_m.value;
    let mut remark = if far {
        format!("located {:.1} m from the centre line, taken to {what}", located.abs())
    } else {
        String::new()
    };
    if hole.lane_position == Some(LanePosition::Shoulder) {
        let note = "on the shoulder: taken as sealed like the road; where it is not, fill and compact only";
        remark = if remark.is_empty() { note.into() } else { format!("{remark}; {note}") };
    }
    (taken, remark)
}

/// Moves an outline that was located beyond the seal into its lane, keeping its shape.
fn onto_pavement(
    mut ring: Vec<FramePoint>,
    position: &RoadPosition,
    section: &RoadSection,
) -> (Vec<FramePoint>, String) {
    let half = section.width.in_metres() / 2.0;
    let middle = ring.iter().map(|p| p.across_m).sum::<f64>() / ring.len().max(1) as f64;
    if middle.abs() <= half {
        return (ring, String::new());
    }
    let shift = lane_middle(position, section) - middle;
    for point in &mut ring {
        point.across_m += shift;
    }
    (ring, format!("outline located {:.1} m from the centre line, beyond the seal: moved into its lane", middle.abs()))
}

/// Middle of the lane that the position lies in, metres across, positive right.
pub(crate) fn lane_middle(position: &RoadPosition, section: &RoadSection) -> f64 {
    let lanes = f64::from(section.lanes.max(1));
    let lane_width = section.width.in_metres() / lanes;
    let half = section.width.in_metres() / 2.0;
    if section.lanes <= 1 {
        return 0.0;
    }
    // Lanes counted from the left edge of the seal; on a two-way road the position's side limits the choice.
    let located = position.across.in_metres().clamp(-half, half);
    let inside =
        if section.flow == Flow::Both { sign(position.side) * located.abs().max(lane_width * 0.1) } else { located };
    let index = ((inside + half) / lane_width).floor().clamp(0.0, lanes - 1.0);
    -half + (index + 0.5) * lane_width
}

/// Middles of all lanes, metres across, from the left.
pub(crate) fn lane_middles(lanes: u32, width: Length) -> impl Iterator<Item = f64> {
    let (lanes, width) = (lanes.max(1), width.in_metres());
    (0..lanes).map(move |lane| (f64::from(lane) + 0.5) * width / f64::from(lanes) - width / 2.0)
}

fn sign(side: Side) -> f64 {
    match side {
        Side::Left => -1.0,
        Side::Right => 1.0,
    }
}
