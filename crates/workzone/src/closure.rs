//! What is closed across the road, where the line of cones runs, and how much stays open.

use model::figure::{Figure, Source, Why};
use model::quantity::InLength;
use model::rules::traffic::TrafficRules;
use model::work_zone::Layout;

use crate::ZoneInput;
use crate::frame::{Extent, Frame, two_way, usable};
use crate::layout_choice::lanes_in_direction;
use crate::text::{FORGIVEN, ft, joined};

/// What is closed, in feet across in the traffic's frame (positive towards the side it keeps to).
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
    /// Whether the closure lies on the side traffic keeps to.
    pub near: bool,
    /// Word for that side as its drivers see it.
    pub side_word: &'static str,
    /// Width left to traffic: of this direction on a road with several lanes, else of both.
    pub open_width: Figure<f64>,
}

/// Guard against absurd input: no road has more lanes.
const LANES_MAX: u32 = 20;

/// The road across, in feet.
struct Carriageway {
    half: f64,
    /// Inner edge of what this direction of traffic may use.
    inner: f64,
    lane: f64,
    lanes: u32,
    shoulder: f64,
}

impl Closure {
    /// Width closed.
    pub fn width(&self) -> f64 {
        (self.edge - self.line).abs()
    }
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
    let road = Carriageway::of(input, layout, rules, remarks);
    let (edge, line, lanes, near) = match layout {
        Layout::Shoulder => shoulder(&road, input, work, rules, remarks),
        Layout::LaneClosureTwoWay => taking_turns(&road, work, rules, remarks),
        Layout::LaneClosureMultilane => one_of_several(&road, work, rules, remarks),
    };
    let width = road.half - road.inner;
    let closed = match layout {
        Layout::Shoulder => road.half - if near { line } else { -line },
        Layout::LaneClosureTwoWay | Layout::LaneClosureMultilane => (edge - line).abs(),
    };
    let open = (width - closed).max(0.0);
    let why = Why::new("open width = width - closed", Source::definition())
        .with("width", ft(width))
        .with("closed", ft(closed));
    let mut open_width = Figure::exact(open, why);
    let least = &rules.across.open_width_min_ft;
    if layout != Layout::Shoulder {
        open_width.why = open_width.why.with("least", ft(least.value));
        open_width.why.source = joined(&[&Source::definition(), &least.source]);
        if open < least.value - FORGIVEN {
            remarks.push(format!(
                "Only {} stays open, less than {}: traffic can't pass the work. Closing the road with a detour, or stopping \
                 all traffic while the lane is taken, is for the authorised person to decide.",
                ft(open),
                ft(least.value)
            ));
        }
    }
    if layout == Layout::LaneClosureTwoWay && !two_way(input.section) {
        remarks.push(
            "One-way road with one lane: closing the road, or stopping all traffic, is for the authorised person to decide."
                .into(),
        );
    }
    Closure { half: road.half, edge, line, lanes, near, side_word: frame.side_word(near), open_width }
}

/// Shoulder work: cones at the edge of the seal, or where the work reaches into the lane, beside it.
fn shoulder(
    road: &Carriageway,
    input: &ZoneInput,
    work: &Extent,
    rules: &TrafficRules,
    remarks: &mut Vec<String>,
) -> (f64, f64, u32, bool) {
    let near = two_way(input.section) || work.inner + work.outer >= 0.0;
    // Measured outward from the centre line on the side worked on, whichever that is.
    let (reach_in, reach_out) = if near { (work.inner, work.outer) } else { (-work.outer, -work.inner) };
    let sign = if near { 1.0 } else { -1.0 };
    let edge = (road.half + road.shoulder).max(reach_out);
    let mut line = road.half;
    if reach_in < road.half - FORGIVEN {
        line = (reach_in - rules.across.work_clearance_ft.value).clamp(-road.half, road.half);
        let taken = road.half - line;
        remarks.push(format!(
            "Work on the shoulder reaches into the seal: cones take {} of the lane, {} of it stays open. Where that is less \
             than {}, close the lane instead.",
            ft(taken),
            ft((road.lane - taken).max(0.0)),
            ft(rules.across.open_width_min_ft.value)
        ));
    }
    (sign * edge, sign * line, 0, near)
}

/// One lane for two directions: the lane is closed to the lane line, or to just beside the work where a narrow road leaves
/// too little otherwise.
fn taking_turns(
    road: &Carriageway,
    work: &Extent,
    rules: &TrafficRules,
    remarks: &mut Vec<String>,
) -> (f64, f64, u32, bool) {
    let clearance = rules.across.work_clearance_ft.value;
    let all = 2.0 * road.half;
    // A position across is seldom better than a few metres: never take less than the work's own width.
    let beside = (road.half - work.inner + clearance).max(work.outer - work.inner + clearance).clamp(0.0, all);
    let mut closed = road.lane.max(beside).min(all);
    if all - closed < rules.across.open_width_min_ft.value && beside < closed {
        closed = beside.max(all - rules.across.open_width_min_ft.value).clamp(0.0, closed);
        remarks.push(format!(
            "Narrow road: the cones stand {} from the edge of the seal, inside the lane, so that {} stays open.",
            ft(closed),
            ft(all - closed)
        ));
    }
    (road.half, road.half - closed, 1, true)
}

/// Lanes closed from the side that needs fewer of them.
fn one_of_several(
    road: &Carriageway,
    work: &Extent,
    rules: &TrafficRules,
    remarks: &mut Vec<String>,
) -> (f64, f64, u32, bool) {
    let clearance = rules.across.work_clearance_ft.value;
    let needed = |reach: f64| ((reach / road.lane - FORGIVEN).ceil().clamp(1.0, f64::from(road.lanes))) as u32;
    let from_near = needed(road.half - work.inner);
    let from_off = needed(work.outer - road.inner);
    let near = from_near <= from_off;
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
    if near {
        let line = (road.half - closed).min(work.inner - clearance).clamp(road.inner, road.half);
        (road.half, line, lanes, true)
    } else {
        let line = (road.inner + closed).max(work.outer + clearance).clamp(road.inner, road.half);
        (road.inner, line, lanes, false)
    }
}

impl Carriageway {
    /// Reads the road across; a width that can't be used is made up from lanes of the rule set's width.
    fn of(input: &ZoneInput, layout: Layout, rules: &TrafficRules, remarks: &mut Vec<String>) -> Self {
        let section = input.section;
        let in_all = section.lanes.clamp(1, LANES_MAX);
        let mut width = section.width.in_feet();
        if !(width > 0.0 && width <= rules.across.usable_width_max_ft.value) {
            width = f64::from(in_all.max(if two_way(section) { 2 } else { 1 })) * rules.across.lane_width_ft.value;
            remarks.push(format!("The road has no usable width; taken as {}.", ft(width)));
        } else if section.defaulted.contains(&"width") {
            remarks.push(format!("The road's width is a default for its class ({}); measure it.", ft(width)));
        }
        let half = width / 2.0;
        let lanes = lanes_in_direction(section).min(LANES_MAX);
        let inner = if two_way(section) && layout == Layout::LaneClosureMultilane { 0.0 } else { -half };
        let lane = match layout {
            Layout::LaneClosureMultilane => (half - inner) / f64::from(lanes),
            // A two-way road without two marked lanes still has two halves.
            _ if two_way(section) => width / f64::from(in_all.max(2)),
            _ => width / f64::from(in_all),
        };
        Carriageway {
            half,
            inner,
            lane,
            lanes,
            shoulder: usable(section.shoulder.in_feet(), 0.0).clamp(0.0, rules.across.usable_width_max_ft.value),
        }
    }
}
