//! The queue at the zone by the deterministic queue of a signal with two phases: arrivals and departures at even rates,
//! each direction let through until its queue is gone.

use model::figure::{Figure, Source, Spread, Why};
use model::place::Travel;
use model::quantity::{InLength, InTime, InVelocity, Length, Time, metres, minutes, seconds};
use model::queue::{Queue, QueueOutlook, Waiting};
use model::road::RoadSection;
use model::rules::traffic::{QueueRules, TrafficRules};
use model::work_zone::{DeviceKind, WorkZone};
use statrs::distribution::{DiscreteCDF, Poisson};

use crate::frame::two_way;
use crate::text::{distance_words, joined, tidy};

/// Above this mean the counts of Poisson are as good as their mean, for whoever sets out signs.
const MANY: f64 = 10_000.0;

/// The queue at a zone; `None` where nobody waits for anybody.
pub fn of(zone: &WorkZone, section: &RoadSection, open_lanes: u32, rules: &TrafficRules) -> Option<Queue> {
    if zone.layout.mobile() || zone.layout.on_shoulder() {
        None
    } else if zone.layout.takes_turns() {
        taking_turns(section, zone.control.between_ends, rules)
    } else {
        Some(squeezed(section, open_lanes, rules))
    }
}

/// Traffic of both directions that takes turns over one lane, `between` from one place where it is held to the other.
/// `None` on a one-way road, whose traffic is only held now and then.
fn taking_turns(section: &RoadSection, between: Length, rules: &TrafficRules) -> Option<Queue> {
    if !two_way(section) {
        return None;
    }
    let queue = &rules.queue;
    let between = rules.units.distance_of(between);
    let lost = Lost::of(between, rules);
    let flow = flow(section, queue).map(|(flow, why)| Figure::exact(flow, why));
    Some(Queue {
        most_per_hour: lost.most_per_hour(queue),
        outlook: flow.as_ref().map(|flow| lost.outlook(flow.value, rules)),
        flow_per_hour: flow,
    })
}

/// Traffic of one direction that goes by on so many open lanes.
fn squeezed(section: &RoadSection, open_lanes: u32, rules: &TrafficRules) -> Queue {
    let queue = &rules.queue;
    let carries = &queue.lane_carries_per_hour;
    let most = f64::from(open_lanes) * carries.value;
    let why = Why::new("Q_max = lanes c", carries.source.clone())
        .with("lanes", open_lanes)
        .with("c", format!("{} vehicles an hour", carries.value));
    let share = if two_way(section) { queue.busier_direction_share.value } else { 1.0 };
    let flow = flow(section, queue).map(|(both, why)| {
        let mut why = why.with("busier direction", share);
        why.rule = "Q = n k b".into();
        Figure::exact(both * share, why)
    });
    Queue {
        outlook: flow.as_ref().map(|flow| {
            if flow.value <= most {
                QueueOutlook::Clears(Box::new(no_wait(&why)))
            } else {
                let why = why.clone().with("Q", format!("{} vehicles an hour", tidy(flow.value)));
                QueueOutlook::Grows(Figure::exact(flow.value - most, Why { rule: "Q - Q_max".into(), ..why }))
            }
        }),
        most_per_hour: Figure::exact(most, why),
        flow_per_hour: flow,
    }
}

/// What must be looked at: where the longest stop is too long, where the queue grows, where it stands further back than the
/// first sign.
pub fn remarks(zone: &WorkZone, rules: &TrafficRules) -> Vec<String> {
    let Some(queue) = &zone.queue else { return Vec::new() };
    let first_sign = held_to_first_sign(zone);
    let longest = &rules.queue.longest_stop_min;
    let mut said = Vec::new();
    match &queue.outlook {
        Some(QueueOutlook::Grows(growth)) => said.push(format!(
            "{QUEUE}in the busiest hour more traffic comes than gets past: {:.0} vehicles more stand after each hour. Work \
             at another hour, or lead traffic round.",
            growth.value.ceil()
        )),
        Some(QueueOutlook::Clears(waiting)) => {
            if waiting.longest_stop.value > minutes(longest.value) {
                said.push(format!(
                    "{QUEUE}in the busiest hour a driver may be stopped for {}, over the {} min of the rule set. Work at \
                     another hour, or keep the closure shorter.",
                    minute_words(&waiting.longest_stop),
                    longest.value
                ));
            }
            if let Some(sign) = first_sign.filter(|&sign| waiting.length.p90() > sign) {
                said.push(format!(
                    "{QUEUE}in the busiest hour it may stand {} back, past the first sign {} ahead of where it is held: move \
                     the signs of both approaches upstream before it does.",
                    distance_words(rules.units.distance_of(waiting.length.p90()).ceil(), rules.units),
                    distance_words(rules.units.distance_of(sign).round(), rules.units)
                ));
            }
        }
        None => {}
    }
    said
}

/// From where traffic is held to the first sign ahead of it, on the approach where that is shorter; `None` without stations.
fn held_to_first_sign(zone: &WorkZone) -> Option<Length> {
    let main_road = || zone.devices.iter().filter(|d| d.spot.as_ref().is_none_or(|spot| spot.side_road.is_none()));
    let stations = main_road().filter(|d| d.kind == DeviceKind::FlaggerStation);
    stations
        .filter_map(|station| {
            let signs = main_road().filter(|d| d.kind == DeviceKind::Sign && d.approach == station.approach);
            let ahead = signs.map(|sign| match station.approach {
                Travel::Forward => station.chainage - sign.chainage,
                Travel::Backward => sign.chainage - station.chainage,
            });
            ahead.max_by(|a, b| a.value.total_cmp(&b.value)).filter(|ahead| ahead.value > 0.0)
        })
        .min_by(|a, b| a.value.total_cmp(&b.value))
}

/// Whether a remark is of the queue.
pub fn is_of_queue(remark: &str) -> bool {
    remark.starts_with(QUEUE)
}

const QUEUE: &str = "Queue: ";

fn minute_words(time: &Figure<Time>) -> String {
    format!("{} min", time.value.in_minutes().ceil())
}

/// Vehicles an hour both ways in the busiest hour, where a count is known.
fn flow(section: &RoadSection, queue: &QueueRules) -> Option<(f64, Why)> {
    let count = section.vehicles_per_day.filter(|count| count.is_finite() && *count >= 0.0)?;
    let share = &queue.busiest_hour_share;
    let why = Why::new("Q = n k", joined(&[&share.source, &Source::agency("count of the road")]))
        .with("n", format!("{} vehicles a day", tidy(count)))
        .with("k", share.value);
    Some((count * share.value, why))
}

/// Nobody waits.
fn no_wait(why: &Why) -> Waiting {
    let why = || Why { rule: "Q is not above Q_max: nobody waits".into(), ..why.clone() };
    Waiting {
        longest_stop: Figure::exact(seconds(0.0), why()),
        mean_wait: Figure::exact(seconds(0.0), why()),
        vehicles: Figure::exact(0.0, why()),
        length: Figure::exact(metres(0.0), why()),
    }
}

/// Time lost at each change of turn: the lane is driven through empty of the others, and the sign is turned.
struct Lost {
    seconds: f64,
    why: Why,
}

impl Lost {
    fn of(between: f64, rules: &TrafficRules) -> Self {
        let (queue, units) = (&rules.queue, rules.units);
        let through = units.velocity(queue.through_speed.value).in_metres_per_second();
        let length = units.length(between).in_metres();
        let lost = length / through + queue.change_s.value;
        let why = Why::new(
            "R = l/v + t_0",
            joined(&[&webster(), &queue.through_speed.source, &queue.change_s.source, &queue.released_per_hour.source]),
        )
        .with("l", distance_words(between.round(), units))
        .with("v", format!("{} {}", queue.through_speed.value, units.speed.symbol()))
        .with("t_0", format!("{} s", queue.change_s.value))
        .with("s", format!("{} vehicles an hour", queue.released_per_hour.value));
        Lost { seconds: lost, why }
    }

    /// The flow both ways at which the quieter direction is held for the longest time allowed.
    fn most_per_hour(&self, queue: &QueueRules) -> Figure<f64> {
        let longest = queue.longest_stop_min.value * 60.0;
        let quieter = 1.0 - queue.busier_direction_share.value;
        let lost = 2.0 * self.seconds;
        // r = 2R (1 - q Y)/(1 - Y) = H, solved for Y.
        let share = ((longest - lost) / (longest - lost * quieter)).max(0.0);
        let why = self
            .rule("Q_max = s Y, 2R (1 - q Y)/(1 - Y) = H, R = l/v + t_0")
            .with("H", format!("{} min", queue.longest_stop_min.value))
            .with("q", tidy(quieter));
        let share = if longest > lost { share } else { 0.0 };
        Figure::exact((share * queue.released_per_hour.value).floor(), why)
    }

    /// What a flow both ways does.
    fn outlook(&self, flow: f64, rules: &TrafficRules) -> QueueOutlook {
        let queue = &rules.queue;
        let released = queue.released_per_hour.value;
        let busier = queue.busier_direction_share.value;
        let said = |rule: &str| {
            self.rule(rule)
                .with("R", format!("{} s", tidy(self.seconds)))
                .with("Q", format!("{} vehicles an hour", tidy(flow)))
        };
        let taken = flow / released;
        if taken >= 1.0 {
            return QueueOutlook::Grows(Figure::exact(flow - released, said("Q - s")));
        }
        let cycle = 2.0 * self.seconds / (1.0 - taken);
        let direction = |share: f64| {
            let own = share * taken;
            let held = cycle * (1.0 - own);
            Direction {
                held,
                wait: held * held / (2.0 * cycle * (1.0 - own)),
                arrive: share * flow / 3600.0 * held,
                share,
            }
        };
        let directions = [direction(busier), direction(1.0 - busier)];
        let longest = directions.iter().map(|d| d.held).fold(0.0, f64::max);
        let standing = directions.iter().map(|d| d.arrive).fold(0.0, f64::max);
        let wait: f64 = directions.iter().map(|d| d.share * d.wait).sum();
        let vehicles = poisson(standing, said("N = q_i r, arrivals by Poisson, r = C (1 - q_i/s), C = 2R/(1 - Q/s)"));
        let spacing = &queue.vehicle_spacing;
        let mut length = vehicles.clone().map(|count| rules.units.length(count * spacing.value));
        length.why = length.why.with("each", distance_words(spacing.value, rules.units));
        length.why.source = joined(&[&length.why.source, &spacing.source]);
        QueueOutlook::Clears(Box::new(Waiting {
            longest_stop: Figure::exact(seconds(longest), said("r = C (1 - q_i/s), C = 2R/(1 - Q/s), R = l/v + t_0")),
            mean_wait: Figure::exact(seconds(wait), said("d = r²/(2 C (1 - q_i/s)), by flow over both directions")),
            vehicles,
            length,
        }))
    }

    fn rule(&self, rule: &str) -> Why {
        Why { rule: rule.into(), ..self.why.clone() }
    }
}

/// One direction's turn.
struct Direction {
    /// Seconds from the sign turned against it to the sign turned for it.
    held: f64,
    /// Mean wait in seconds.
    wait: f64,
    /// Vehicles that come in that time.
    arrive: f64,
    share: f64,
}

/// A count with its spread.
fn poisson(mean: f64, why: Why) -> Figure<f64> {
    let quantile = |p: f64| match Poisson::new(mean) {
        Ok(arrivals) if mean < MANY => arrivals.inverse_cdf(p) as f64,
        _ => mean,
    };
    Figure::spread(mean, Spread { p10: quantile(0.1), p50: quantile(0.5), p90: quantile(0.9) }, why)
}

fn webster() -> Source {
    "from memory: Webster, Traffic signal settings, Road Research Technical Paper 39 (1958): cycle and delay at even rates"
        .to_owned()
        .into()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn arrivals_have_the_spread_of_their_count() {
        let why = || Why::new("x", Source::definition());
        let four = poisson(4.0, why()).spread.map(|s| (s.p10, s.p50, s.p90));
        // Poisson with mean 4: P(N <= 1) = 0.092, P(N <= 2) = 0.238, P(N <= 6) = 0.889, P(N <= 7) = 0.949 (tables).
        assert_eq!(four, Some((2.0, 4.0, 7.0)));
        assert_eq!(poisson(0.0, why()).spread.map(|s| s.p90), Some(0.0));
        assert_eq!(poisson(1e6, why()).spread.map(|s| s.p90), Some(1e6));
    }
}
