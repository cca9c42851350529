//! The work zone: from the road, the speed and the place of the work to every sign and cone, with its place along and
//! across the road, in the order it goes out and comes back.
//!
//! Everything is computed by a rule set (`model::rules::traffic`); no distance is written in this crate. What comes out is
//! a proposal for the person authorised under the local traffic-control code.
//!
//! Inside, bare numbers are in the units of the rule set (`rules.units`), so that its formulas and tables read as printed;
//! what comes out in the zone are quantities.
//!
//! ```text
//! chosen layout ── closure across ── lengths of the parts ── devices ── placing and removing order ── time
//! ```

mod advance;
mod carriageway;
mod closure;
mod count;
mod devices;
mod duration_class;
mod effort;
mod frame;
mod layout_choice;
mod needs;
mod order;
mod parts;
mod remarks;
mod share;
mod spacing;
mod speed;
mod stopping;
mod taper;
mod text;

use model::district::DrivingSide;
use model::figure::{Figure, Why};
use model::hole::HoleId;
use model::place::{Side, Travel};
use model::quantity::{Length, Time};
use model::road::RoadSection;
use model::rules::traffic::TrafficRules;
use model::work_zone::{Layout, WorkZone};

pub use advance::{SignSeries, sign_series};
pub use count::{DeviceCount, device_count};
pub use duration_class::{DurationClass, duration_class};
pub use layout_choice::choose_layout;
pub use share::{LaneCut, share};
pub use spacing::cone_count;
pub use speed::design_speed;
pub use stopping::stopping_distance;
pub use taper::{TaperKind, taper_length};

use frame::Frame;
use parts::Parts;

/// What is known of the work on one stretch of one lane.
#[derive(Debug, Clone, PartialEq)]
pub struct ZoneInput<'a> {
    /// The road.
    pub section: &'a RoadSection,
    /// Direction of the traffic in the lane worked in.
    pub travel: Travel,
    /// Side of the centre line worked on.
    pub side: Side,
    /// Side of the road traffic keeps to.
    pub driving_side: DrivingSide,
    /// Where the cuts lie.
    pub work: WorkExtent,
    /// Time of the work at the spot to be prepared for (its ninety-per-cent quantile), traffic control not counted.
    pub duration: Time,
    /// Whether any of it is at night.
    pub night: bool,
    /// Whether the work is on the shoulder only.
    pub shoulder_only: bool,
    /// The holes inside.
    pub holes: &'a [HoleId],
    /// People in the crew, flaggers included.
    pub people: u32,
    /// Vehicles the crew brings.
    pub vehicles: u32,
}

/// The box around all cuts, in the road frame of the section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WorkExtent {
    /// Smallest chainage.
    pub from: Length,
    /// Largest chainage.
    pub to: Length,
    /// Smallest distance across, positive to the right of increasing chainage.
    pub across_from: Length,
    /// Largest distance across.
    pub across_to: Length,
}

/// Lays out the zone for one stretch of work.
///
/// The duration class is that of the whole time at the place: set-up, work and take-in, since the road is occupied from the
/// first device to the last. Work on the shoulder that would leave the lane beside it less than the rule set's least open
/// width closes the lane. Whether traffic can pass at all, and how many people it takes, is said in the zone.
///
/// Never fails: what cannot be used (a speed of zero, work outside the section, a road too narrow to pass) is replaced on
/// the cautious side and said in `remarks`.
pub fn lay_out(input: &ZoneInput, rules: &TrafficRules) -> WorkZone {
    let mut remarks = remarks::opening();
    let travel = frame::legal_travel(input, &mut remarks);
    let frame = Frame::of(travel, input.driving_side, rules.units);
    let speed = speed::read_speed(input.section, rules, &mut remarks);
    let work = frame::usable_extent(input, rules.units, &mut remarks);
    let layout = closure::layout_for(input, &work, rules, &mut remarks);
    let rule = rules.layouts.of(layout);
    let closure = closure::close(input, layout, &frame, &work, rules, &mut remarks);
    let parts = Parts::of(input, layout, speed, &closure, &work, rules);
    let plan = devices::Plan { input, layout, frame: &frame, closure: &closure, parts: &parts, rules };
    let devices = order::placing(devices::all(&plan), travel);
    let listed = parts.listed(rule, rules.units);
    let (work_from, work_to) = frame.chainages(parts.origin, 0.0, parts.work_space.value);
    let (layout_name, layout_source) =
        layout_choice::layout_name(input.section, layout, closure.side_word.is_none(), rule);
    let set_up = effort::set_up(&devices, &listed, layout, rules);
    let take_in = effort::take_in(&devices, &listed, layout, rules);
    let at_the_place = set_up.value + input.duration + take_in.value;
    let flaggers = flaggers(input, layout, rules);
    let open_width = closure.open_width.clone().map(|width| rules.units.length(width));
    let mut zone = WorkZone {
        section: input.section.id,
        travel,
        side: input.side,
        holes: input.holes.to_vec(),
        layout,
        layout_name,
        layout_source,
        duration_class: duration_class(at_the_place, input.night, rules).name,
        work_from,
        work_to,
        set_up,
        take_in,
        parts: listed,
        removing: order::removing(devices.len()),
        devices,
        passable: needs::passable(layout, closure.open_width.value, rules),
        people_needed: needs::people_needed(flaggers.value, rules),
        flaggers,
        open_width,
        remarks,
    };
    let said = remarks::closing(input, &zone, &work, rules);
    zone.remarks.extend(said);
    zone
}

/// Flaggers: one for each end where traffic takes turns, one where a one-way road must be stopped, none elsewhere.
fn flaggers(input: &ZoneInput, layout: Layout, rules: &TrafficRules) -> Figure<u32> {
    let rule = &rules.flagging.two_way_flaggers;
    if layout != Layout::LaneClosureTwoWay {
        let why = Why::new("no flagger: traffic does not take turns", rules.layouts.of(layout).source.clone());
        return Figure::exact(0, why);
    }
    if frame::two_way(input.section) {
        let why = Why::new("one flagger at each end", rule.source.clone()).with("flaggers", rule.value);
        Figure::exact(rule.value, why)
    } else {
        let why = Why::new("one flagger: one direction of traffic to stop", rule.source.clone());
        Figure::exact(1, why)
    }
}
