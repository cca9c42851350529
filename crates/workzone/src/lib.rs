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
mod at_once;
mod carriageway;
mod cheapest_runs;
mod closure;
mod control;
mod count;
mod crew_moves;
mod devices;
mod duration_class;
mod fit;
mod frame;
mod junction_ahead;
mod layout_choice;
mod needs;
mod on_road;
mod order;
mod parts;
mod profile;
mod queue;
mod remarks;
mod seen_from;
mod share;
pub mod sight;
mod spacing;
mod speed;
mod stopping;
mod taper;
mod text;
mod zone_price;

use model::district::DrivingSide;
use model::figure::{Figure, Source, Why};
use model::hole::HoleId;
use model::place::{Side, Travel};
use model::quantity::{InTime, Length, Time, seconds};
use model::road::RoadSection;
use model::rules::traffic::TrafficRules;
use model::work_zone::{Layout, WorkZone};

pub use advance::{SignSeries, sign_series};
pub use at_once::{Standing, at_once};
pub use count::{DeviceCount, device_count};
pub use duration_class::{DurationClass, duration_class};
pub use junction_ahead::junction_ahead;
pub use layout_choice::choose_layout;
pub use on_road::{on_road, reach, side_reach};
pub use seen_from::{flagger_seen_from, sign_seen_from};
pub use share::{LaneCut, share};
pub use spacing::cone_count;
pub use speed::design_speed;
pub use stopping::stopping_distance;
pub use taper::{TaperKind, taper_length};
pub use zone_price::{between_cuts, sharing, zone_price};

use crew_moves::{CrewMoves, WorkPlace, crew_moves};
use frame::Frame;
use junction_ahead::joins;
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
    /// Whether the work stays at the place for its whole time, or only shortly, or moves along. What is asked for is given
    /// only where its conditions hold.
    pub stay: Stay,
    /// How far one sees along the road past the work, from the end that sees less; `None` where nobody knows.
    pub sight: Option<Length>,
    /// From the downstream end of the work to the junction ahead of its traffic; `None` where none is known to be near.
    pub junction_ahead: Option<Length>,
    /// People in the crew, flaggers included.
    pub people: u32,
    /// Vehicles the crew brings.
    pub vehicles: u32,
}

/// How the work stays at its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Stay {
    /// For its whole time. A hole cut out, filled and sealed normally takes more than an hour.
    #[default]
    Stationary,
    /// For so short a time that placing cones would take longer than the work.
    ShortDuration,
    /// It moves along, with stops of minutes.
    Mobile,
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
/// The layout is the least protected one whose conditions are all known to hold (see the handbook's page on work zones); what
/// is not known counts against it, and the zone says why. Work on the shoulder that would leave the lane beside it less than
/// the rule set's least open width closes the lane. The duration class is that of the whole time at the place: set-up, work
/// and take-in, since the road is occupied from the first device to the last. Whether traffic can pass at all, and how many
/// people it takes, is said in the zone.
///
/// Never fails: what cannot be used (a speed of zero, work outside the section, a road too narrow to pass) is replaced on
/// the cautious side and said in `remarks`. A road faster than the rule set is made for gets no device, and
/// `not_laid_out` says why.
pub fn lay_out(input: &ZoneInput, rules: &TrafficRules) -> WorkZone {
    let mut remarks = remarks::opening();
    let (place, read) = Place::of(input, rules, &mut remarks);
    match read {
        Ok(_) if input.section.roundabout => place.not_laid_out(ON_A_ROUNDABOUT.into(), remarks),
        Ok(speed) => place.laid_out(speed, remarks),
        Err(why) => place.not_laid_out(why, remarks),
    }
}

/// Lays a zone out again on a road that ends before the zone does, with another layout if so asked; everything else as it
/// was. Says what was changed; without devices where it can't be laid out.
fn lay_out_again(
    zone: WorkZone,
    layout: Layout,
    input: &ZoneInput,
    ends: &fit::Ends,
    rules: &TrafficRules,
) -> WorkZone {
    let (place, read) = Place::of(input, rules, &mut Vec::new());
    let Ok(speed) = read else { return zone };
    match place.draft_between(layout, speed, ends) {
        Ok((draft, said)) => {
            let old_buffer = remarks::buffer(&zone, rules);
            let mut again = place.zone(draft, zone.layout_reason, zone.remarks);
            let new_buffer = remarks::buffer(&again, rules);
            for remark in again.remarks.iter_mut().filter(|remark| **remark == old_buffer) {
                new_buffer.clone_into(remark);
            }
            let at = again.remarks.len().min(1);
            again.remarks.splice(at..at, said);
            WorkZone { shared: zone.shared, ..again }
        }
        Err(why) => WorkZone { shared: zone.shared, ..place.not_laid_out(why, remarks::opening()) },
    }
}

/// Lays a zone out with another layout, for the reason given.
fn lay_out_as(layout: Layout, reason: String, zone: WorkZone, input: &ZoneInput, rules: &TrafficRules) -> WorkZone {
    let mut remarks = remarks::opening();
    let (place, read) = Place::of(input, rules, &mut remarks);
    let Ok(speed) = read else { return zone };
    WorkZone { shared: zone.shared, ..place.laid_out_with(place.draft(layout, speed), reason, remarks) }
}

/// Why no layout is made for work on the ring of a roundabout.
const ON_A_ROUNDABOUT: &str = "The work lies on a roundabout: traffic from every leg passes it, and no layout of the rule \
                               set is for that. Nothing is laid out; close legs or the ring, or have it laid out by the \
                               traffic-control authority.";

/// Everything that is known before a layout is chosen.
struct Place<'a> {
    input: &'a ZoneInput<'a>,
    travel: Travel,
    frame: Frame,
    work: frame::Extent,
    rules: &'a TrafficRules,
}

/// A layout worked out.
struct Draft {
    layout: Layout,
    closure: closure::Closure,
    parts: Parts,
    devices: Vec<model::work_zone::Device>,
    listed: Vec<model::work_zone::ZonePart>,
    moves: CrewMoves,
    remarks: Vec<String>,
}

impl<'a> Place<'a> {
    /// The place of some work, and the speed it is laid out for.
    fn of(input: &'a ZoneInput<'a>, rules: &'a TrafficRules, remarks: &mut Vec<String>) -> (Self, Result<f64, String>) {
        let travel = frame::legal_travel(input, remarks);
        let frame = Frame::of(travel, input.driving_side, rules.units);
        let read = speed::read_speed(input.section, rules, remarks);
        let work = frame::usable_extent(input, rules.units, remarks);
        (Place { input, travel, frame, work, rules }, read)
    }

    /// The zone with the layout that the place may have.
    fn laid_out(&self, speed: f64, mut remarks: Vec<String>) -> WorkZone {
        let (draft, reason) = self.choose(speed, &mut remarks);
        self.laid_out_with(draft, reason, remarks)
    }

    /// The zone of a draft with everything that is to be said of it.
    fn laid_out_with(&self, draft: Draft, reason: String, mut remarks: Vec<String>) -> WorkZone {
        let (input, rules) = (self.input, self.rules);
        remarks.extend(draft.remarks.iter().cloned());
        let open_lanes = layout_choice::lanes_in_direction(input.section).saturating_sub(draft.closure.lanes).max(1);
        let mut zone = self.zone(draft, reason, remarks);
        zone.queue = queue::of(&zone, input.section, open_lanes, rules);
        let said = remarks::closing(input, &zone, &self.work, rules);
        zone.remarks.extend(said);
        zone
    }

    /// The least protected layout whose conditions hold, and why no lesser one.
    fn choose(&self, speed: f64, remarks: &mut Vec<String>) -> (Draft, String) {
        let (input, rules) = (self.input, self.rules);
        let beside =
            if input.shoulder_only { closure::shoulder_layout(input, &self.work, rules, remarks) } else { None };
        let candidates = beside.map_or_else(|| layout_choice::candidates(input, rules), |layout| vec![layout]);
        let mut not_met = Vec::new();
        for &layout in &candidates {
            let draft = self.draft(layout, speed);
            let hours = self.at_the_place(&draft).in_hours();
            let mut unmet = layout_choice::unmet(layout, input, speed, &draft.parts, hours, rules);
            // Where traffic can't pass, somebody must hold it.
            let passes = needs::passable(layout, draft.closure.open_width.value, rules);
            if !passes && candidates.last() != Some(&layout) {
                unmet.push("less than the least width stays open".into());
            }
            if unmet.is_empty() {
                let reason = layout_choice::reason(layout, input, &not_met, rules);
                return (draft, reason);
            }
            not_met.extend(unmet);
        }
        let layout = choose_layout(input.section, false);
        (self.draft(layout, speed), layout_choice::reason(layout, input, &not_met, rules))
    }

    /// Works one layout out on a road that goes on as far as it takes.
    fn draft(&self, layout: Layout, speed: f64) -> Draft {
        let (closure, parts, remarks) = self.closure_and_parts(layout, speed);
        self.with_devices(layout, closure, parts, remarks)
    }

    /// Works one layout out on a road that ends; says what was changed, or why it can't be.
    fn draft_between(&self, layout: Layout, speed: f64, ends: &fit::Ends) -> Result<(Draft, Vec<String>), String> {
        let (closure, parts, remarks) = self.closure_and_parts(layout, speed);
        let (parts, said) = fit::fit(parts, layout, &self.whole_cuts(), ends, self.rules)?;
        Ok((self.with_devices(layout, closure, parts, remarks), said))
    }

    /// The work with what a cut at the road's end reaches beyond it: the work space holds all of it.
    fn whole_cuts(&self) -> frame::Extent {
        let (given, margin) = (&self.input.work, self.rules.work_space.margin.value);
        let (upstream, downstream) = self.frame.along(given.from, given.to);
        let mut work = self.work;
        if upstream >= work.upstream - margin && downstream <= work.downstream + margin {
            work.upstream = work.upstream.min(upstream);
            work.downstream = work.downstream.max(downstream);
        }
        work
    }

    fn closure_and_parts(&self, layout: Layout, speed: f64) -> (closure::Closure, Parts, Vec<String>) {
        let mut remarks = Vec::new();
        let closure = closure::close(self.input, layout, &self.frame, &self.work, self.rules, &mut remarks);
        let parts = Parts::of(self.input, layout, speed, &closure, &self.work, self.rules);
        (closure, parts, remarks)
    }

    fn with_devices(&self, layout: Layout, closure: closure::Closure, parts: Parts, remarks: Vec<String>) -> Draft {
        let (input, rules) = (self.input, self.rules);
        let plan = devices::Plan { input, layout, frame: &self.frame, closure: &closure, parts: &parts, rules };
        let (devices, steps) = order::placing(devices::all(&plan), self.travel);
        let listed = parts.listed(rules.layouts.of(layout), rules.units);
        let (from, to) = self.work_space(&parts);
        let place = WorkPlace { travel: self.travel, middle: (from + to) / 2.0 };
        let moves = crew_moves(&devices, &steps, place, rules);
        Draft { layout, closure, parts, devices, listed, moves, remarks }
    }

    /// Chainages of the work space, the smaller first.
    fn work_space(&self, parts: &Parts) -> (Length, Length) {
        self.frame.chainages(parts.origin, 0.0, parts.work_space.value)
    }

    /// From the first device placed to the last one taken in.
    fn at_the_place(&self, draft: &Draft) -> Time {
        draft.moves.set_up.value + self.input.duration + draft.moves.take_in.value
    }

    /// The zone of a draft.
    fn zone(&self, draft: Draft, layout_reason: String, remarks: Vec<String>) -> WorkZone {
        let (input, rules, layout) = (self.input, self.rules, draft.layout);
        let time = self.at_the_place(&draft);
        let duration_class = if layout.mobile() {
            rules.duration.names.value.mobile.clone()
        } else {
            duration_class(time, input.night, rules).name
        };
        let rule = rules.layouts.of(layout);
        let (layout_name, layout_source) =
            layout_choice::layout_name(input.section, layout, draft.closure.side_word.is_none(), rule);
        let (work_from, work_to) = self.work_space(&draft.parts);
        let flaggers = control::flaggers(input, layout, rules);
        let open = draft.closure.open_width;
        WorkZone {
            section: input.section.id,
            travel: self.travel,
            side: input.side,
            holes: input.holes.to_vec(),
            layout,
            layout_name,
            layout_source,
            layout_reason,
            duration_class,
            work_from,
            work_to,
            control: control::control(input, layout, &draft.parts, rules),
            queue: None,
            out: draft.moves.out,
            back: draft.moves.back,
            set_up: draft.moves.set_up,
            take_in: draft.moves.take_in,
            parts: draft.listed,
            removing: order::removing(draft.devices.len()),
            devices: draft.devices,
            passable: needs::passable(layout, open.value, rules),
            people_needed: needs::people_needed(flaggers.value, rules),
            shared: None,
            flaggers,
            open_width: open.map(|width| rules.units.length(width)),
            remarks,
            not_laid_out: None,
        }
    }

    /// A zone without devices, and why.
    fn not_laid_out(&self, why: String, mut remarks: Vec<String>) -> WorkZone {
        remarks.push(why.clone());
        let layout = choose_layout(self.input.section, self.input.shoulder_only);
        let mut draft = self.draft(layout, self.rules.speed.greatest.value);
        draft.devices.clear();
        draft.listed.clear();
        let nothing = || Figure::exact(seconds(0.0), Why::new("no device is placed", Source::definition()));
        draft.moves = CrewMoves { out: Vec::new(), back: Vec::new(), set_up: nothing(), take_in: nothing() };
        let mut zone = self.zone(draft, "Nothing is laid out.".into(), remarks);
        zone.queue = None;
        zone.not_laid_out = Some(why);
        zone
    }
}
