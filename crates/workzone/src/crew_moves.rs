//! The way the crew takes to put everything out and to take it in again, step by step, with its time.
//!
//! The vehicle drives with traffic and stands at every sign, station and first cone; cones are put down on foot, from one
//! to the next. Where the next place lies behind it, it turns round: once where it goes on with the other traffic, twice
//! where it comes back to the same. On a road that joins it drives out and back.

use model::crew_move::{CrewMove, PlacingStep};
use model::figure::{Figure, Source, Why};
use model::place::Travel;
use model::quantity::{InLength, InTime, InVelocity, Length, Time, metres, seconds};
use model::rules::Sourced;
use model::rules::traffic::TrafficRules;
use model::work_zone::{Device, DeviceKind};

use crate::count::{DeviceCount, count};
use crate::text::{joined, tidy};

/// What decides the ways, beside the devices.
#[derive(Debug, Clone, Copy)]
pub struct WorkPlace {
    /// Direction of the traffic in the lane worked in.
    pub travel: Travel,
    /// Middle of the work space.
    pub middle: Length,
}

/// Both ways, with their times in all.
#[derive(Debug, Clone)]
pub struct CrewMoves {
    pub out: Vec<CrewMove>,
    pub back: Vec<CrewMove>,
    pub set_up: Figure<Time>,
    pub take_in: Figure<Time>,
}

/// The ways of devices in placing order, each with its step.
pub fn crew_moves(devices: &[Device], steps: &[PlacingStep], place: WorkPlace, rules: &TrafficRules) -> CrewMoves {
    let groups = grouped(steps);
    let effort = &rules.effort;
    let (sign, cone, station) = (&effort.sign_out_s, &effort.cone_out_s, &effort.station_out_s);
    let outward = Rates { sign, cone, station, rules };
    let (sign, cone, station) = (&effort.sign_in_s, &effort.cone_in_s, &effort.station_in_s);
    let inward = Rates { sign, cone, station, rules };

    let mut vehicle: Option<Vehicle> = None;
    let mut out: Vec<CrewMove> =
        groups.iter().map(|(step, group)| outward.step(*step, group.clone(), devices, &mut vehicle)).collect();
    let at_work = Stand { chainage: place.middle.in_metres(), side_road: None, travel: place.travel };
    if let Some(mut there) = vehicle {
        let way = there.drive_to(&at_work);
        out.push(outward.moved(PlacingStep::ToTheWork, Vec::new(), way, DeviceCount::default()));
    }

    let mut vehicle = Some(Vehicle { stand: at_work, walking: false });
    let back: Vec<CrewMove> = groups
        .iter()
        .rev()
        .map(|(step, group)| inward.step(*step, group.iter().rev().copied().collect(), devices, &mut vehicle))
        .collect();
    CrewMoves { set_up: outward.in_all(&out, devices), take_in: inward.in_all(&back, devices), out, back }
}

/// Runs of devices of one step.
fn grouped(steps: &[PlacingStep]) -> Vec<(PlacingStep, Vec<usize>)> {
    let indexes: Vec<usize> = (0..steps.len()).collect();
    indexes.chunk_by(|&a, &b| steps[a] == steps[b]).map(|run| (steps[run[0]], run.to_vec())).collect()
}

/// A place where the vehicle stands, and the traffic it stands with.
#[derive(Debug, Clone, PartialEq)]
struct Stand {
    chainage: f64,
    /// The side road, and how far out on it.
    side_road: Option<(String, f64)>,
    travel: Travel,
}

impl Stand {
    fn of(device: &Device) -> Self {
        let side_road = device.spot.as_ref().and_then(|spot| spot.side_road.as_ref());
        Stand {
            chainage: device.chainage.in_metres(),
            side_road: side_road.map(|(name, out)| (name.clone(), out.in_metres())),
            travel: device.approach,
        }
    }
}

/// Where the crew is.
struct Vehicle {
    stand: Stand,
    /// Whether the last thing handled was a cone.
    walking: bool,
}

/// A way in metres.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
struct Way {
    driven: f64,
    walked: f64,
    turns: u32,
}

impl Vehicle {
    /// To a device; from cone to cone on foot.
    fn go_to(&mut self, device: &Device) -> Way {
        let next = Stand::of(device);
        let cone = device.kind == DeviceKind::Cone;
        let way = if cone && self.walking {
            let walked = (next.chainage - self.stand.chainage).abs();
            self.stand = next;
            Way { walked, ..Way::default() }
        } else {
            self.drive_to(&next)
        };
        self.walking = cone;
        way
    }

    /// Drives there with traffic.
    fn drive_to(&mut self, next: &Stand) -> Way {
        let here = std::mem::replace(&mut self.stand, next.clone());
        let along = next.chainage - here.chainage;
        let way = |driven: f64, turns: u32| Way { driven, turns, walked: 0.0 };
        match (&here.side_road, &next.side_road) {
            (Some((road, at)), Some((other, out))) if road == other && along == 0.0 => {
                // Signs on a side road are for traffic towards the junction; further out is behind.
                way((out - at).abs(), if out > at { 2 } else { 0 })
            }
            (from, to) => {
                let out = |side: &Option<(String, f64)>| side.as_ref().map_or(0.0, |(_, out)| *out);
                let driven = out(from) + along.abs() + out(to);
                let turns = match (from, to) {
                    // Out on it, round, and back with the traffic of the side road.
                    (_, Some(_)) => 1,
                    // Out of a side road one turns off either way.
                    (Some(_), None) => 0,
                    (None, None) => turns(here.travel, next.travel, along),
                };
                way(driven, turns)
            }
        }
    }
}

/// Turns on the way along one road.
fn turns(from: Travel, to: Travel, along: f64) -> u32 {
    let ahead = if from == Travel::Forward { along >= 0.0 } else { along <= 0.0 };
    match (from == to, ahead) {
        (true, true) => 0,
        (true, false) => 2,
        (false, _) => 1,
    }
}

/// How long each thing takes, one way.
struct Rates<'a> {
    sign: &'a Sourced<f64>,
    cone: &'a Sourced<f64>,
    station: &'a Sourced<f64>,
    rules: &'a TrafficRules,
}

impl Rates<'_> {
    /// One step: the way through its devices, and what is handled there.
    fn step(
        &self,
        step: PlacingStep,
        group: Vec<usize>,
        devices: &[Device],
        vehicle: &mut Option<Vehicle>,
    ) -> CrewMove {
        let mut way = Way::default();
        for &index in &group {
            let device = &devices[index];
            // Where it is not known to stand, it has come to the first device with the traffic.
            let there = vehicle.get_or_insert_with(|| Vehicle {
                stand: Stand { side_road: None, ..Stand::of(device) },
                walking: false,
            });
            let leg = there.go_to(device);
            way =
                Way { driven: way.driven + leg.driven, walked: way.walked + leg.walked, turns: way.turns + leg.turns };
        }
        let handled: Vec<Device> = group.iter().map(|&index| devices[index].clone()).collect();
        self.moved(step, group, way, count(&handled))
    }

    fn moved(&self, step: PlacingStep, devices: Vec<usize>, way: Way, handled: DeviceCount) -> CrewMove {
        let Way { driven, walked, turns } = way;
        CrewMove { step, devices, driven: metres(driven), walked: metres(walked), turns, time: self.time(way, handled) }
    }

    /// All steps together.
    fn in_all(&self, steps: &[CrewMove], devices: &[Device]) -> Figure<Time> {
        let way = steps.iter().fold(Way::default(), |sum, step| Way {
            driven: sum.driven + step.driven.in_metres(),
            walked: sum.walked + step.walked.in_metres(),
            turns: sum.turns + step.turns,
        });
        let mut time = self.time(way, count(devices));
        // The sum itself, so that not even the last bit differs.
        time.value = seconds(steps.iter().map(|step| step.time.value.in_seconds()).sum());
        time
    }

    /// t = signs, cones and stations at their rates, what is walked, driven and turned.
    fn time(&self, way: Way, handled: DeviceCount) -> Figure<Time> {
        let Rates { sign, cone, station, rules } = self;
        let effort = &rules.effort;
        let DeviceCount { signs, cones, flagger_stations, .. } = handled;
        let Way { driven, walked, turns } = way;
        let pace = |speed: f64| rules.units.velocity(speed).in_metres_per_second();
        let in_words = |speed: f64| format!("{speed} {}", rules.units.speed.symbol());
        let time = f64::from(signs) * sign.value
            + f64::from(cones) * cone.value
            + f64::from(flagger_stations) * station.value
            + walked / pace(effort.walking_speed.value)
            + driven / pace(effort.driving_speed.value)
            + f64::from(turns) * effort.turn_s.value;
        let mut sources: Vec<&Source> = vec![&effort.driving_speed.source];
        for (used, source) in [
            (signs > 0, &sign.source),
            (cones > 0, &cone.source),
            (flagger_stations > 0, &station.source),
            (walked > 0.0, &effort.walking_speed.source),
            (turns > 0, &effort.turn_s.source),
        ] {
            sources.extend(used.then_some(source));
        }
        let why = Why::new(
            "t = signs t_s + cones t_c + stations t_f + walked/v_w + driven/v_d + turns t_u",
            joined(&sources),
        )
        .with("signs", signs)
        .with("t_s", format!("{} s", sign.value))
        .with("cones", cones)
        .with("t_c", format!("{} s", cone.value))
        .with("stations", flagger_stations)
        .with("t_f", format!("{} s", station.value))
        .with("walked", format!("{} m", tidy(walked)))
        .with("v_w", in_words(effort.walking_speed.value))
        .with("driven", format!("{} m", tidy(driven)))
        .with("v_d", in_words(effort.driving_speed.value))
        .with("turns", turns)
        .with("t_u", format!("{} s", effort.turn_s.value));
        Figure::exact(seconds(time), why)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_lies_behind_takes_a_turn() {
        let (on, against) = (Travel::Forward, Travel::Backward);
        for (from, to, along, expected) in [
            (on, on, 10.0, 0),
            (on, on, 0.0, 0),
            (on, on, -10.0, 2),
            (on, against, 10.0, 1),
            (on, against, -10.0, 1),
            (against, against, -10.0, 0),
            (against, against, 10.0, 2),
        ] {
            assert_eq!(turns(from, to, along), expected, "{from:?} {to:?} {along}");
        }
    }
}
