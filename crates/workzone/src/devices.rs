//! Every sign, cone, flagger station and shield vehicle with its place.

use model::figure::{Figure, Why};
use model::quantity::metres;
use model::rules::traffic::{SignPlace, SignRule, TrafficRules};
use model::work_zone::{Device, DeviceKind, Layout};

use crate::ZoneInput;
use crate::closure::Closure;
use crate::frame::{Frame, legal_travel, two_way};
use crate::order::{Placed, Step};
use crate::parts::Parts;
use crate::spacing::gaps;
use crate::text::{distance_words, joined};

/// Everything that decides where devices stand.
pub struct Plan<'a> {
    /// The work.
    pub input: &'a ZoneInput<'a>,
    /// The layout.
    pub layout: Layout,
    /// The traffic's frame.
    pub frame: &'a Frame,
    /// What is closed across.
    pub closure: &'a Closure,
    /// Lengths along.
    pub parts: &'a Parts,
    /// The rule set.
    pub rules: &'a TrafficRules,
}

/// All devices, in no order yet.
pub fn all(plan: &Plan) -> Vec<Placed> {
    let mut placed = Vec::new();
    let on_the_road = |sign: &&SignRule| sign.place != SignPlace::Vehicle;
    for sign in plan.rules.layouts.of(plan.layout).signs.iter().filter(on_the_road) {
        if sign.approach.worked() {
            placed.extend(plan.signs(sign, true));
        }
        if sign.approach.opposing() && two_way(plan.input.section) {
            placed.extend(plan.signs(sign, false));
        }
    }
    placed.extend(plan.stations());
    placed.extend(plan.cones());
    placed.extend(plan.shield());
    placed
}

/// A run of cones between two places; the first is left out where the part before has it.
struct Run<'a> {
    what: &'a str,
    start: f64,
    length: &'a Figure<f64>,
    spacing: &'a Figure<f64>,
    across: (f64, f64),
    with_first: bool,
}

impl Plan<'_> {
    /// One sign rule for one approach: one sign, or one on each side of a one-way road.
    fn signs(&self, sign: &SignRule, worked: bool) -> Vec<Placed> {
        let (offset, why) = match sign.place {
            SignPlace::End => self.end_place(worked),
            SignPlace::Closure => self.closure_place(sign, worked),
            _ => self.ahead_place(sign, worked),
        };
        let beside = self.closure.half + self.rules.across.sign_offset.value;
        let near = if worked { beside } else { -beside };
        let rule = self.rules.layouts.of(self.layout);
        let both = rule.both_sides_when_one_way.value && !two_way(self.input.section) && sign.place != SignPlace::End;
        let step = match (sign.place, worked) {
            (SignPlace::End, true) => Step::EndOfWork,
            (SignPlace::End, false) => Step::EndOfOpposing,
            (_, true) => Step::Advance,
            (_, false) => Step::OpposingAdvance,
        };
        let sides = if both { vec![near, -near] } else { vec![near] };
        sides
            .into_iter()
            .map(|across| {
                let mut device = self.device(DeviceKind::Sign, worked, offset, across, why.clone());
                (device.designation, device.legend) = self.sign_words(sign);
                Placed { step, device }
            })
            .collect()
    }

    /// Designation and legend; a sign that names the side closed says nothing where every lane is.
    fn sign_words(&self, sign: &SignRule) -> (String, String) {
        match self.closure.side_word {
            Some(side) => (sign.designation.clone(), sign.legend.replace("{side}", side)),
            None if sign.legend.contains("{side}") => {
                (String::new(), "all lanes closed: the authorised person chooses the sign".into())
            }
            None => (sign.designation.clone(), sign.legend.clone()),
        }
    }

    /// Place of a sign ahead of the restriction.
    fn ahead_place(&self, sign: &SignRule, worked: bool) -> (f64, Why) {
        let Some(ahead) = self.parts.series.at(sign.place) else { return self.end_place(worked) };
        if worked {
            (-self.parts.restriction() - ahead.value, ahead.why.clone())
        } else {
            let station = self.parts.closure_end();
            (station + ahead.value, ahead.why.clone())
        }
    }

    /// Place of a sign at the edge of the closure.
    fn closure_place(&self, sign: &SignRule, worked: bool) -> (f64, Why) {
        let words = if worked { "at the head of the taper" } else { "at the end of the closure" };
        let offset = if worked { -self.parts.taper_head() } else { self.parts.closure_end() };
        (offset, Why::new(words, sign.source.clone()))
    }

    /// Place of the sign past the closure.
    fn end_place(&self, worked: bool) -> (f64, Why) {
        let past = &self.rules.advance.end_of_work;
        let why = Why::new("past the last device of the closure by e", past.source.clone())
            .with("e", distance_words(past.value, self.rules.units));
        let offset =
            if worked { self.parts.closure_end() + past.value } else { -self.parts.restriction() - past.value };
        (offset, why)
    }

    /// Flaggers, beside the road at each end; or the one whom both directions see, opposite the work.
    fn stations(&self) -> Vec<Placed> {
        if self.layout == Layout::LaneClosureOneFlagger {
            return vec![self.one_station()];
        }
        let beside = self.closure.half + self.rules.across.station_offset.value;
        let ends = [
            (self.parts.station.as_ref(), true, -self.parts.restriction(), beside, Step::Station),
            (self.parts.opposing_station.as_ref(), false, self.parts.closure_end(), -beside, Step::OpposingStation),
        ];
        ends.into_iter()
            .filter_map(|(station, worked, offset, across, step)| {
                let mut device = self.device(DeviceKind::FlaggerStation, worked, offset, across, station?.why.clone());
                device.legend = "flagger with STOP/SLOW paddle".into();
                Some(Placed { step, device })
            })
            .collect()
    }

    /// The one flagger: on the other side of the road, beside the middle of the work space.
    fn one_station(&self) -> Placed {
        let across = -(self.closure.half + self.rules.across.station_offset.value);
        let offset = self.parts.work_space.value / 2.0;
        let source = self.rules.layouts.of(self.layout).source.clone();
        let why = Why::new("beside the road opposite the work space, seen from both directions", source)
            .with("work space", distance_words(self.parts.work_space.value, self.rules.units));
        let mut device = self.device(DeviceKind::FlaggerStation, false, offset, across, why);
        device.legend = "flagger with STOP/SLOW paddle, for both directions".into();
        Placed { step: Step::OpposingStation, device }
    }

    /// Cones: into the closure, along buffer and work space, out of it.
    fn cones(&self) -> Vec<Placed> {
        let (parts, closure) = (self.parts, self.closure);
        let beside = (closure.line, closure.line);
        let Some(taper) = &parts.taper else { return Vec::new() };
        let mut runs = vec![Run {
            what: "taper",
            start: -parts.taper_head(),
            length: taper,
            spacing: &parts.taper_spacing,
            across: (closure.edge, closure.line),
            with_first: true,
        }];
        let tangent = |what, start, length| Run {
            what,
            start,
            length,
            spacing: &parts.tangent_spacing,
            across: beside,
            with_first: false,
        };
        runs.extend(parts.buffer.as_ref().map(|b| tangent("buffer", -b.value, b)));
        runs.push(tangent("work space", 0.0, &parts.work_space));
        runs.extend(parts.downstream.as_ref().map(|length| Run {
            what: "downstream taper",
            start: parts.work_space.value,
            length,
            spacing: &parts.short_spacing,
            across: (closure.line, closure.edge),
            with_first: false,
        }));
        runs.iter().flat_map(|run| self.run(run)).collect()
    }

    /// Cones of one run, evenly, no gap above the greatest spacing.
    fn run(&self, run: &Run) -> Vec<Placed> {
        let count = gaps(run.length.value, run.spacing.value);
        let first = u32::from(!run.with_first);
        (first..=count)
            .map(|index| {
                let share = if count == 0 { 0.0 } else { f64::from(index) / f64::from(count) };
                let offset = run.start + share * run.length.value;
                let across = run.across.0 + share * (run.across.1 - run.across.0);
                let source = joined(&[&run.spacing.why.source, &run.length.why.source]);
                let why = Why::new("n = ceil(L / s) + 1 with both ends, evenly", source)
                    .with("part", run.what)
                    .with("L", distance_words(run.length.value, self.rules.units))
                    .with("s", distance_words(run.spacing.value, self.rules.units))
                    .with("cone", format!("{} of {}", index + 1, count + 1));
                let mut device = self.device(DeviceKind::Cone, true, offset, across, why);
                device.legend = format!("cone, {}", run.what);
                Placed { step: Step::Lane, device }
            })
            .collect()
    }

    /// The vehicle that shields the work, in the middle of what is closed.
    fn shield(&self) -> Option<Placed> {
        if !self.parts.shield {
            return None;
        }
        let work = &self.rules.work_space;
        let across = f64::midpoint(self.closure.edge, self.closure.line);
        let why = Why::new(
            "at the upstream end of the work space, roll-ahead behind it kept free",
            work.roll_ahead.source.clone(),
        )
        .with("vehicles", self.input.vehicles)
        .with("roll-ahead", distance_words(work.roll_ahead.value, self.rules.units));
        let mut device = self.device(DeviceKind::ShieldVehicle, true, 0.0, across, why);
        let signs = self.rules.layouts.of(self.layout).signs.iter().filter(|sign| sign.place == SignPlace::Vehicle);
        device.legend = signs.fold("vehicle with flashing light, nobody aboard".to_owned(), |legend, sign| {
            let (designation, words) = self.sign_words(sign);
            format!("{legend}, on its back {}", format!("{designation} {words}").trim())
        });
        Some(Placed { step: Step::Lane, device })
    }

    /// A device at an offset from the upstream end of the work space.
    fn device(&self, kind: DeviceKind, worked: bool, offset: f64, across: f64, why: Why) -> Device {
        let travel = legal_travel(self.input, &mut Vec::new());
        Device {
            kind,
            designation: String::new(),
            legend: String::new(),
            approach: if worked { travel } else { travel.opposite() },
            chainage: self.frame.chainage(self.parts.origin, offset),
            across: self.frame.across(across),
            spacing: metres(0.0),
            why,
            spot: None,
        }
    }
}
