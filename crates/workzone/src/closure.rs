//! What is closed across the road, where the line of cones runs, and how much stays open.

use std::cmp::Ordering;

use model::figure::{Figure, Source, Why};
use model::rules::traffic::TrafficRules;
use model::work_zone::Layout;

use crate::ZoneInput;
use crate::carriageway::Carriageway;
use crate::frame::{Extent, Frame, two_way};
use crate::needs::enough_open;
use crate::text::{FORGIVEN, distance_words, joined, metres_2, metres_apart};

/// What is closed, in the rule set's unit across in the traffic's frame (positive towards the side it keeps to).
#[derive(Debug, Clone, PartialEq)]
pub struct Closure {
    /// Centre line to the edge of the seal.
    pub half: f64,
    /// Where the taper begins: the edge of what is closed.
    pub edge: f64,
    /// The line of cones beside buffer and work space.
    pub line: f64,
    /// Lanes closed; zero for shoulder work.
    pub lanes: u32,
    /// Word for the side closed as its drivers see it; `None` where every lane of the direction is closed.
    pub side_word: Option<&'static str>,
    /// Width left to traffic: of this direction on a road with several lanes, else of both.
    pub open_width: Figure<f64>,
}

/// Edge, line, lanes and side of a closure, before the words.
struct Across {
    edge: f64,
    line: f64,
    lanes: u32,
    /// Whether the closure lies on the side traffic keeps to.
    near: bool,
    all_lanes: bool,
}

impl Closure {
    /// Width closed.
    pub fn width(&self) -> f64 {
        (self.edge - self.line).abs()
    }
}

/// The layout of work on the shoulder: that which leaves the lanes alone, or takes a little of the lane beside it; `None`
/// where that lane would keep less than the least open width, so that it must be closed.
pub fn shoulder_layout(
    input: &ZoneInput,
    work: &Extent,
    rules: &TrafficRules,
    remarks: &mut Vec<String>,
) -> Option<Layout> {
    let road = Carriageway::of(input.section, Layout::Shoulder, rules, &mut Vec::new());
    let (_, taken) = taken_by_shoulder_work(&road, input, work, rules);
    let (left, least) = (road.lane - taken, rules.across.open_width_min.value);
    if taken <= 0.0 {
        return Some(Layout::Shoulder);
    }
    if rules.layouts.shoulder_encroachment.allowed.value && enough_open(left, rules) {
        return Some(Layout::ShoulderEncroachment);
    }
    let (left, least) = metres_apart(left.max(0.0), least, rules.units);
    remarks.push(format!(
        "The work on the shoulder takes {} of the lane beside it and leaves {left} of the {least} that must stay open: the \
         lane is closed.",
        metres_2(taken, rules.units)
    ));
    None
}

/// Finds the closure for a layout; says what the authorised person must look at.
pub fn close(
    input: &ZoneInput,
    layout: Layout,
    frame: &Frame,
    work: &Extent,
    rules: &TrafficRules,
    remarks: &mut Vec<String>,
) -> Closure {
    let road = Carriageway::of(input.section, layout, rules, remarks);
    let across = if layout.on_shoulder() {
        shoulder(&road, input, work, rules, remarks)
    } else if layout.takes_turns() {
        taking_turns(&road, input.section.lanes == 1, work, rules, remarks)
    } else {
        one_of_several(&road, work, rules, remarks)
    };
    let side_word = (!across.all_lanes).then(|| frame.side_word(across.near));
    let open_width = open_width(&road, layout, &across, rules);
    let least = rules.across.open_width_min.value;
    if !layout.on_shoulder() && !enough_open(open_width.value, rules) {
        let (open, least) = metres_apart(open_width.value, least, rules.units);
        remarks.push(format!(
            "Only {open} stays open of the {least} that must: traffic can't pass the work. Closing the road with a detour, \
             or stopping all traffic while the lane is taken, is for the authorised person to decide."
        ));
    }
    if layout.takes_turns() && input.section.lanes <= 1 {
        remarks.extend(one_lane_road(input));
    }
    let Across { edge, line, lanes, .. } = across;
    Closure { half: road.half, edge, line, lanes, side_word, open_width }
}

/// What stays open, with how it was worked out.
fn open_width(road: &Carriageway, layout: Layout, across: &Across, rules: &TrafficRules) -> Figure<f64> {
    let width = road.half - road.inner;
    let closed = if layout.on_shoulder() {
        road.half - if across.near { across.line } else { -across.line }
    } else {
        (across.edge - across.line).abs()
    };
    let why = Why::new("open width = width - closed", Source::definition())
        .with("width", distance_words(width, rules.units))
        .with("closed", distance_words(closed, rules.units));
    let mut open_width = Figure::exact((width - closed).max(0.0), why);
    if !layout.on_shoulder() {
        let least = &rules.across.open_width_min;
        open_width.why = open_width.why.with("least", distance_words(least.value, rules.units));
        open_width.why.source = joined(&[&Source::definition(), &least.source]);
    }
    open_width
}

/// What is said of a road with one lane: no layout of the rule set is made for it.
fn one_lane_road(input: &ZoneInput) -> Option<String> {
    if !two_way(input.section) {
        return Some(
            "One-way road with one lane: the layout is borrowed from the two-lane road; closing the road, or stopping all \
             traffic, is for the authorised person to decide."
                .into(),
        );
    }
    (input.section.lanes == 1).then(|| {
        "One-lane road with traffic both ways: the layout is borrowed from the two-lane road; where traffic waits so that it \
         can pass is for the authorised person to decide."
            .into()
    })
}

/// Whether shoulder work lies on the side traffic keeps to, and how much of the lane its cones take, clearance counted;
/// zero where the work does not reach into the seal.
fn taken_by_shoulder_work(road: &Carriageway, input: &ZoneInput, work: &Extent, rules: &TrafficRules) -> (bool, f64) {
    let near = two_way(input.section) || work.inner + work.outer >= 0.0;
    // Measured outward from the centre line on the side worked on, whichever that is.
    let reach_in = if near { work.inner } else { -work.outer };
    if reach_in >= road.half - FORGIVEN {
        return (near, 0.0);
    }
    let line = (reach_in - rules.across.work_clearance.value).clamp(-road.half, road.half);
    (near, road.half - line)
}

/// Shoulder work: cones at the edge of the seal, or where the work reaches into the lane, beside it.
fn shoulder(
    road: &Carriageway,
    input: &ZoneInput,
    work: &Extent,
    rules: &TrafficRules,
    remarks: &mut Vec<String>,
) -> Across {
    let (near, taken) = taken_by_shoulder_work(road, input, work, rules);
    let (sign, reach_out) = if near { (1.0, work.outer) } else { (-1.0, -work.inner) };
    let edge = (road.half + road.shoulder).max(reach_out);
    if taken > 0.0 {
        remarks.push(format!(
            "Work on the shoulder reaches into the seal: cones take {} of the lane, {} of it stays open ({} must).",
            metres_2(taken, rules.units),
            metres_2((road.lane - taken).max(0.0), rules.units),
            metres_2(rules.across.open_width_min.value, rules.units)
        ));
    }
    Across { edge: sign * edge, line: sign * (road.half - taken), lanes: 0, near, all_lanes: false }
}

/// One lane for two directions: the lane is closed to the lane line, or to just beside the work where a narrow road leaves
/// too little otherwise. On a road with one lane the closure stands on the side that leaves more open.
fn taking_turns(
    road: &Carriageway,
    one_lane: bool,
    work: &Extent,
    rules: &TrafficRules,
    remarks: &mut Vec<String>,
) -> Across {
    let (clearance, least) = (rules.across.work_clearance.value, rules.across.open_width_min.value);
    let all = 2.0 * road.half;
    let (from_near, from_off) = (road.half - work.inner, work.outer + road.half);
    let near = !one_lane || from_near <= from_off + FORGIVEN;
    let reach = if near { from_near } else { from_off };
    // A position across is seldom better than a few metres: never take less than the work's own width.
    let beside = (reach + clearance).max(work.outer - work.inner + clearance).clamp(0.0, all);
    let mut closed = road.lane.max(beside).min(all);
    if all - closed < least && beside < closed {
        closed = beside.max(all - least).clamp(0.0, closed);
        remarks.push(format!(
            "Narrow road: the cones stand {} from the edge of the seal, inside the lane, so that {} stays open.",
            metres_2(closed, rules.units),
            metres_2(all - closed, rules.units)
        ));
    }
    let sign = if near { 1.0 } else { -1.0 };
    Across {
        edge: sign * road.half,
        line: sign * (road.half - closed),
        lanes: 1,
        near,
        all_lanes: all - closed <= FORGIVEN,
    }
}

/// Lanes closed from the side that needs fewer of them; where both need as many, from the side the work is nearer to.
fn one_of_several(road: &Carriageway, work: &Extent, rules: &TrafficRules, remarks: &mut Vec<String>) -> Across {
    let clearance = rules.across.work_clearance.value;
    let needed = |reach: f64| ((reach / road.lane - FORGIVEN).ceil().clamp(1.0, f64::from(road.lanes))) as u32;
    let from_near = needed(road.half - work.inner);
    let from_off = needed(work.outer - road.inner);
    let near = match from_near.cmp(&from_off) {
        Ordering::Less => true,
        Ordering::Greater => false,
        Ordering::Equal => work.inner + work.outer >= road.half + road.inner - FORGIVEN,
    };
    let lanes = from_near.min(from_off);
    let closed = f64::from(lanes) * road.lane;
    if lanes == road.lanes {
        remarks.push(
            "The work takes every lane of this direction: a detour or a crossover is for the authorised person.".into(),
        );
    } else if lanes > 1 {
        remarks.push(format!(
            "{lanes} lanes are closed at once: each needs its own merging taper with a tangent between, which the authorised \
             person must lay out; here one taper over the whole width."
        ));
    }
    let (edge, line) = if near {
        (road.half, (road.half - closed).min(work.inner - clearance).clamp(road.inner, road.half))
    } else {
        (road.inner, (road.inner + closed).max(work.outer + clearance).clamp(road.inner, road.half))
    };
    Across { edge, line, lanes, near, all_lanes: lanes == road.lanes }
}
