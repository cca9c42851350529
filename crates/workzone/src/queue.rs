//! The queue at a closure by cumulative arrivals and departures: uniform arrivals, departures at the saturation flow.

use model::figure::{Figure, Source, Spread, Why};
use model::quantity::{InLength, InTime, InVelocity, Length, Time, metres, seconds};
use model::queue::{Queue, Turns};
use model::road::RoadSection;
use model::rules::planning::QueueRules;
use model::work_zone::{DeviceKind, Layout, WorkZone, ZonePartKind};

use crate::frame::two_way;
use crate::layout_choice::lanes_in_direction;
use crate::text::{joined, tidy};

/// Two directions that take turns over one lane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoDirections {
    /// Arrivals of each, vehicles a second.
    pub arrivals: [f64; 2],
    /// Departures while it goes, vehicles a second.
    pub saturation: f64,
    /// Time lost in each change from one to the other: the last through, the word given, the first to start; seconds.
    pub change: f64,
    /// Shortest turn, seconds.
    pub turn_min: f64,
    /// A direction is let go when it has been stopped this long, if the other's turn is above the shortest; seconds.
    pub stop_max: f64,
    /// How long the closure stands, seconds.
    pub stay: f64,
}

/// What each direction meets, the worse of the two.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Met {
    /// Cycle, seconds.
    pub cycle: f64,
    /// Longest time a direction is stopped in it, seconds.
    pub longest_stop: f64,
    /// Vehicles stopped at once.
    pub vehicles: f64,
    /// Mean delay, seconds.
    pub mean_delay: f64,
    /// Growth, vehicles a second, both directions.
    pub growth: f64,
    /// Vehicles a second that get through at most, both directions.
    pub capacity: f64,
}

/// A direction's turn in a cycle.
#[derive(Clone, Copy)]
enum Turn {
    /// Fixed: the shortest, or the longest.
    Fixed(f64),
    /// As long as it takes to clear the queue: a share y of the cycle.
    Clearing(f64),
}

impl TwoDirections {
    /// Each direction goes until its queue is cleared, not less than the shortest turn, and not more than the other may be
    /// stopped: g = y C between the two, C = g1 + g2 + 2 change.
    pub fn turns(&self) -> ([f64; 2], f64) {
        let share = self.arrivals.map(|q| if self.saturation > 0.0 { (q / self.saturation).max(0.0) } else { f64::MAX });
        let lost = 2.0 * self.change;
        let most = (self.stop_max - lost).max(self.turn_min);
        let kinds = |y: f64| [Turn::Fixed(most), Turn::Clearing(y), Turn::Fixed(self.turn_min)];
        let length = |turn: Turn, cycle: f64| match turn {
            Turn::Fixed(time) => time,
            Turn::Clearing(y) => y * cycle,
        };
        let right = |y: f64, cycle: f64| (y * cycle).clamp(self.turn_min, most);
        // Of the cycles in which both turns are as they should be, the longest; both at their most is one where nothing
        // clears.
        let cycles = kinds(share[0]).into_iter().flat_map(|first| {
            kinds(share[1]).into_iter().filter_map(move |second| {
                let (mut fixed, mut clearing) = (lost, 0.0);
                for turn in [first, second] {
                    match turn {
                        Turn::Fixed(time) => fixed += time,
                        Turn::Clearing(y) => clearing += y,
                    }
                }
                let cycle = fixed / (1.0 - clearing);
                let holds = clearing < 1.0
                    && [(first, share[0]), (second, share[1])]
                        .into_iter()
                        .all(|(turn, y)| (length(turn, cycle) - right(y, cycle)).abs() <= 1e-9 * cycle);
                holds.then_some(cycle)
            })
        });
        let cycle = cycles.fold(lost + 2.0 * self.turn_min, f64::max);
        (share.map(|y| right(y, cycle)), cycle)
    }

    /// Cycle, stop, queue and delay.
    pub fn met(&self) -> Met {
        let ([first, second], cycle) = self.turns();
        let mut met = Met {
            cycle,
            longest_stop: cycle - first.min(second),
            capacity: self.saturation * (first + second) / cycle,
            ..Met::default()
        };
        for (q, green) in [(self.arrivals[0], first), (self.arrivals[1], second)] {
            let red = cycle - green;
            let most = self.saturation * green / cycle;
            let y = q / self.saturation;
            let growth = if q > most * (1.0 + 1e-9) { q - most } else { 0.0 };
            // Where each cycle clears: r²/(2 C (1 - y)), queue q r/(1 - y). Where not: those of a cycle that just clears,
            // and half of what has grown by the end.
            let (vehicles, delay) = if growth > 0.0 {
                (most * cycle + growth * self.stay, red / 2.0 + self.stay * (q / most - 1.0) / 2.0)
            } else {
                (q * red / (1.0 - y), red * red / (2.0 * cycle * (1.0 - y)))
            };
            met.vehicles = met.vehicles.max(vehicles);
            met.mean_delay = met.mean_delay.max(delay);
            met.growth += growth;
        }
        met
    }
}

/// One direction that keeps fewer lanes than it had: no delay up to the capacity, above it a queue that grows.
pub fn past_open_lanes(flow: f64, capacity: f64, stay: f64) -> Met {
    let growth = (flow - capacity).max(0.0);
    let delay = if growth > 0.0 { stay * (flow / capacity - 1.0) / 2.0 } else { 0.0 };
    Met { vehicles: growth * stay, mean_delay: delay, growth, capacity, ..Met::default() }
}

/// What traffic waits at this zone while it stands; `None` where nobody waits (shoulder work), where the flow is not known,
/// or where no lane is left to the direction. `work` is the time at the cuts.
pub fn queue(zone: &WorkZone, section: &RoadSection, work: Time, rules: &QueueRules) -> Option<Queue> {
    let per_day = section.vehicles_per_day.filter(|vehicles| vehicles.is_finite() && *vehicles >= 0.0)?;
    let case = Case { zone, section, per_day, stay: zone.set_up.value + work + zone.take_in.value, rules };
    match zone.layout {
        Layout::Shoulder => None,
        Layout::LaneClosureTwoWay if !two_way(section) => None,
        Layout::LaneClosureTwoWay => Some(case.taking_turns()),
        Layout::LaneClosureMultilane => case.past_open_lanes(),
    }
}

/// What a road's queue is worked out from.
struct Case<'a> {
    zone: &'a WorkZone,
    section: &'a RoadSection,
    per_day: f64,
    stay: Time,
    rules: &'a QueueRules,
}

impl Case<'_> {
    /// The three hours: ordinary, quiet, busiest; as shares of the day.
    fn hours(&self) -> [f64; 3] {
        let share = &self.rules.hourly_share.value;
        [share.ordinary, share.quiet, share.busiest]
    }

    fn taking_turns(&self) -> Queue {
        let rules = self.rules;
        let between_ends = between_ends(self.zone);
        let speed = rules.speed_through.value;
        let through = between_ends.in_metres() / speed.in_metres_per_second();
        let change = through + rules.change_s.value;
        let split = rules.busier_direction.value;
        let mets = self.hours().map(|share| {
            let flow = self.per_day * share / 3600.0;
            TwoDirections {
                arrivals: [flow * split, flow * (1.0 - split)],
                saturation: 1.0 / rules.saturation_headway_s.value,
                change,
                turn_min: rules.turn_min_s.value,
                stop_max: rules.longest_stop_min.value * 60.0,
                stay: self.stay.in_seconds(),
            }
            .met()
        });
        let source = joined(&[
            &rules.saturation_headway_s.source,
            &rules.speed_through.source,
            &rules.change_s.source,
            &rules.hourly_share.source,
        ]);
        let why = |rule: &str| {
            Why::new(rule, source.clone())
                .with("l", format!("{} m", tidy(between_ends.in_metres())))
                .with("v", format!("{} km/h", tidy(speed.in_kilometres_per_hour())))
                .with("t_x", format!("{} s", rules.change_s.value))
                .with("h", format!("{} s", rules.saturation_headway_s.value))
                .with("q", format!("{} vehicles an hour, {} of them the busier way", tidy(self.per_day * self.hours()[0]), split))
        };
        let time = |read: fn(&Met) -> f64, rule: &str| spread(mets.map(|met| read(&met)), why(rule)).map(seconds);
        let number = |read: fn(&Met) -> f64, rule: &str| spread(mets.map(|met| read(&met)), why(rule));
        Queue {
            flow: self.flow(1.0),
            turns: Some(Turns {
                between_ends,
                cycle: time(|met| met.cycle, "C = g_1 + g_2 + 2 (l/v + t_x), g = y C, y = q h, g_min <= g <= g_max"),
                longest_stop: time(|met| met.longest_stop, "r = C - g"),
            }),
            capacity: number(|met| met.capacity * 3600.0, "c = (g_1 + g_2) / (h C)"),
            vehicles: number(|met| met.vehicles, "n = q r/(1 - y)"),
            length: self.length(number(|met| met.vehicles, "n l_v")),
            mean_delay: time(|met| met.mean_delay, "d = r²/(2 C (1 - y))"),
            growth: number(|met| met.growth * 3600.0, "q - c where above zero"),
        }
    }

    fn past_open_lanes(&self) -> Option<Queue> {
        let rules = self.rules;
        let closed = closed_lanes(self.zone);
        let open = lanes_in_direction(self.section).checked_sub(closed).filter(|open| *open > 0)?;
        let split = if two_way(self.section) { rules.busier_direction.value } else { 1.0 };
        let capacity = f64::from(open) * rules.lane_capacity.value;
        let mets = self.hours().map(|share| {
            past_open_lanes(self.per_day * share * split / 3600.0, capacity / 3600.0, self.stay.in_seconds())
        });
        let source = joined(&[&rules.lane_capacity.source, &rules.hourly_share.source]);
        let why = |rule: &str| {
            Why::new(rule, source.clone())
                .with("lanes open", open)
                .with("c_l", format!("{} vehicles an hour", rules.lane_capacity.value))
                .with("q", format!("{} vehicles an hour", tidy(self.per_day * self.hours()[0] * split)))
                .with("T", format!("{} h", tidy(self.stay.in_hours())))
        };
        let number = |read: fn(&Met) -> f64, rule: &str| spread(mets.map(|met| read(&met)), why(rule));
        Some(Queue {
            flow: self.flow(split),
            turns: None,
            capacity: Figure::exact(capacity, why("c = lanes open c_l")),
            vehicles: number(|met| met.vehicles, "n = max(0, q - c) T"),
            length: self.length(number(|met| met.vehicles, "n l_v / lanes")),
            mean_delay: number(|met| met.mean_delay, "d = T (q/c - 1)/2 where q is above c").map(seconds),
            growth: number(|met| met.growth * 3600.0, "q - c where above zero"),
        })
    }

    fn flow(&self, split: f64) -> Figure<f64> {
        let rules = self.rules;
        let why = Why::new("q = k N", joined(&[&rules.hourly_share.source, &rules.busier_direction.source]))
            .with("N", format!("{} vehicles a day", tidy(self.per_day)))
            .with("k", self.hours()[0]);
        let why = if split < 1.0 { why.with("share of the direction", split) } else { why };
        spread(self.hours().map(|share| self.per_day * share * split), why)
    }

    /// A queue of so many vehicles on the lanes there are.
    fn length(&self, vehicles: Figure<f64>) -> Figure<Length> {
        let lanes = if self.zone.layout == Layout::LaneClosureMultilane {
            f64::from(lanes_in_direction(self.section))
        } else {
            1.0
        };
        let each = &self.rules.vehicle_length_m;
        let mut length = vehicles.map(|count| metres(count * each.value / lanes));
        length.why.source = joined(&[&length.why.source, &each.source]);
        length.why = length.why.with("l_v", format!("{} m", each.value));
        length
    }
}

/// Ordinary hour as the value, quiet to busiest as the spread.
fn spread([ordinary, quiet, busiest]: [f64; 3], why: Why) -> Figure<f64> {
    Figure::spread(ordinary, Spread { p10: quiet, p50: ordinary, p90: busiest }, why)
}

/// From one flagger to the other, or the whole closure where there are not two.
fn between_ends(zone: &WorkZone) -> Length {
    let stations = || zone.devices.iter().filter(|device| device.kind == DeviceKind::FlaggerStation);
    let at = || stations().map(|device| device.chainage.in_metres());
    if stations().count() > 1 {
        return metres(at().fold(f64::NEG_INFINITY, f64::max) - at().fold(f64::INFINITY, f64::min));
    }
    let closed = zone.parts.iter().filter(|part| part.kind != ZonePartKind::AdvanceWarning);
    metres(closed.map(|part| part.length.value.in_metres()).sum())
}
