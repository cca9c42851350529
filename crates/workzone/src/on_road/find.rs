//! The place of a device: nearest upstream of where it fell, and free, and seen.

use model::figure::Figure;
use model::quantity::{InLength, Length, metres};
use model::road_around::{AxisEnd, StructureKind};
use model::rules::traffic::TrafficRules;
use model::work_zone::{Device, DeviceKind};

use super::Road;
use super::approach::{Approach, ends_in_truth};
use crate::seen_from::{flagger_seen_from, sign_seen_from};
use crate::sight::{Look, SightEnd};
use crate::text::{distance_words, joined, speed_words};

/// What becomes of a device.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Fate {
    /// It stands on the axis, so far downstream.
    OnAxis(f64),
    /// It stands on each road that traffic comes from where the axis ends, so far from the junction, metres.
    OnArms(f64),
    /// Nothing comes from there.
    LeftOut(String),
    /// It can't be placed on the known road.
    Unknown(String),
}

/// Where a device was found to stand.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Found {
    pub fate: Fate,
    /// Why it does not stand where it fell.
    pub because: Vec<String>,
    /// What is still wrong with its place, in words.
    pub unsolved: Option<String>,
}

impl Found {
    pub fn solved(fate: Fate, because: Vec<String>) -> Self {
        Found { fate, because, unsolved: None }
    }
}

/// From how far a device must be seen at a place.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct SeenFrom {
    pub look: Look,
    pub wanted: Length,
    pub words: String,
}

/// From how far a device must be seen where it stands so far downstream: by what comes fastest to that place.
fn seen_from(device: &Device, here: f64, approach: &Approach, road: &Road) -> SeenFrom {
    let (rules, units, sight) = (road.rules, road.rules.units, &road.rules.sight);
    let needed = |speed: f64| needed(device, speed, rules);
    let wanted = needed(approach.speed_at(here, |speed| units.length(needed(speed).value).in_metres()));
    let object_height =
        if device.kind == DeviceKind::FlaggerStation { &sight.object_height } else { &sight.sign_height };
    let source = joined(&[&wanted.why.source, &sight.eye_height.source, &object_height.source]);
    let wanted = wanted.value;
    SeenFrom {
        look: Look {
            eye_height: units.length(sight.eye_height.value),
            eye_across: metres(approach.eye_across),
            object_height: units.length(object_height.value),
            object_across: device.across,
            most: units.length(wanted),
            step: units.length(rules.placing.sight_step.value),
            source,
        },
        wanted: units.length(wanted),
        words: distance_words(wanted, units),
    }
}

fn needed(device: &Device, speed: f64, rules: &TrafficRules) -> Figure<f64> {
    if device.kind == DeviceKind::FlaggerStation {
        flagger_seen_from(speed, rules)
    } else {
        sign_seen_from(speed, rules)
    }
}

/// Metres of one step upstream, and how many there may be.
pub(crate) fn steps(road: &Road) -> (f64, u32) {
    let (placing, units) = (&road.rules.placing, road.rules.units);
    let step = units.length(placing.move_step.value).in_metres();
    (step, (units.length(placing.move_greatest.value).in_metres() / step).floor() as u32)
}

/// The place nearest upstream of where it fell that it may have and is seen at; else, of the places it may have, the one
/// seen from furthest away.
pub(crate) fn find(device: &Device, fell_on: f64, to_be_seen: bool, approach: &Approach, road: &Road) -> Found {
    let (step, count) = steps(road);
    let mut because: Vec<String> = Vec::new();
    // How far it is seen of what it must be, where, and the two in words.
    let mut best: Option<Seen> = None;
    let mut looked = fell_on;
    for count in 0..=count {
        let here = fell_on - f64::from(count) * step;
        if here < approach.road_from {
            let fate = beyond(here, approach, road);
            // Moving on to where nothing comes from would hide it from everybody.
            if count > 0 && !matches!(fate, Fate::OnArms(_)) {
                break;
            }
            return Found::solved(fate, because);
        }
        looked = here;
        let (reason, goes_on) = match against(device, here, to_be_seen.then_some(f64::INFINITY), approach, road) {
            Against::Nothing => return Found::solved(Fate::OnAxis(here), because),
            Against::Stand(reason, goes_on) => (reason, goes_on),
            Against::Sight(seen) => {
                let reason = seen.reason();
                if best.as_ref().is_none_or(|most| seen.share() > most.share()) {
                    best = Some(seen);
                }
                (reason, true)
            }
        };
        if !because.contains(&reason) {
            because.push(reason);
        }
        if !goes_on {
            break;
        }
    }
    let reach = in_words(fell_on - looked, road);
    let reasons = because.join(", ");
    let (here, unsolved) = match best {
        Some(seen) => {
            let does = enough_for(device, seen.from, road);
            let words = format!(
                "no place within {reach} upstream is seen from as far as it must be ({reasons}). It stands where it is seen \
                 best, from {} of {}: {does}. A lower speed or one more sign ahead of it is for the authorised person",
                in_words(seen.from.in_metres(), road),
                seen.wanted.words
            );
            (seen.here, words)
        }
        None => (fell_on, format!("no place within {reach} upstream is free ({reasons})")),
    };
    Found { fate: Fate::OnAxis(here), because, unsolved: Some(unsolved) }
}

/// Up to what speed a device is seen from far enough.
fn enough_for(device: &Device, seen: Length, road: &Road) -> String {
    let (rules, units) = (road.rules, road.rules.units);
    let seen = units.distance_of(seen);
    let step = rules.speed.step.value;
    let count = (rules.speed.greatest.value / step).floor() as u32;
    let fastest =
        (1..=count).map(|n| f64::from(n) * step).take_while(|speed| needed(device, *speed, rules).value <= seen).last();
    fastest.map_or_else(
        || "too near at any speed".to_owned(),
        |speed| format!("enough up to {}", speed_words(speed, units)),
    )
}

/// What speaks against a place.
pub(crate) enum Against {
    Nothing,
    /// Nothing can stand there; whether the rules let the device move on past it.
    Stand(String, bool),
    /// It is hidden.
    Sight(Seen),
}

/// A device that is not seen from as far as it must be.
pub(crate) struct Seen {
    here: f64,
    from: Length,
    wanted: SeenFrom,
    by: SightEnd,
}

impl Seen {
    fn share(&self) -> f64 {
        self.from.in_metres() / self.wanted.wanted.in_metres()
    }

    fn reason(&self) -> String {
        format!("hidden by {} to drivers nearer than {} away", self.by.words(), self.wanted.words)
    }
}

/// What speaks against a place on the axis. `seen_by` is how far away those are at most who must see it, metres; `None` where
/// it need not be seen.
pub(crate) fn against(device: &Device, here: f64, seen_by: Option<f64>, approach: &Approach, road: &Road) -> Against {
    let chainage = approach.chainage(here);
    if let Some((reason, goes_on)) = occupied(chainage, road) {
        return Against::Stand(reason, goes_on);
    }
    let (Some(most), Some(sight)) = (seen_by, road.sight.as_ref()) else { return Against::Nothing };
    let wanted = seen_from(device, here, approach, road);
    let seen = sight.seen(chainage, device.approach, &wanted.look);
    let hidden = matches!(seen.ends_by, SightEnd::Bend | SightEnd::Crest);
    if hidden && seen.distance.value < wanted.wanted.min(metres(most)) {
        Against::Sight(Seen { here, from: seen.distance.value, wanted, by: seen.ends_by })
    } else {
        Against::Nothing
    }
}

/// A bridge, a tunnel or the mouth of a junction at a chainage, and whether the rules let a device move on past it.
pub(crate) fn occupied(chainage: Length, road: &Road) -> Option<(String, bool)> {
    let (placing, units, axis) = (&road.rules.placing, road.rules.units, &road.around.axis);
    if let Some(on) = axis.structures.iter().find(|on| on.from <= chainage && chainage <= on.to) {
        let words = match on.kind {
            StructureKind::Bridge => "on a bridge",
            StructureKind::Tunnel => "in a tunnel",
        };
        return Some((words.to_owned(), placing.past_structures.value));
    }
    let clear = units.length(placing.junction_clear.value);
    axis.junctions.iter().any(|junction| (junction.chainage - chainage).abs() < clear).then(|| {
        let words = format!("nearer than {} to a junction", distance_words(placing.junction_clear.value, units));
        (words, placing.past_junctions.value)
    })
}

/// What becomes of a sign that falls where the axis does not reach, or where its traffic can't come from.
fn beyond(here: f64, approach: &Approach, road: &Road) -> Fate {
    if approach.one_way_before {
        return Fate::LeftOut("the road is one-way there and no traffic comes from it".into());
    }
    let end = approach.road_end;
    match end {
        AxisEnd::Junction | AxisEnd::Roundabout | AxisEnd::Loop if !approach.arms(road).is_empty() => {
            let clear = road.rules.units.length(road.rules.placing.junction_clear.value).in_metres();
            Fate::OnArms((approach.road_from - here).max(clear))
        }
        AxisEnd::Junction | AxisEnd::Roundabout => {
            Fate::LeftOut("the road ends at a junction there and no traffic comes out of the roads it meets".into())
        }
        AxisEnd::Loop => Fate::LeftOut(
            "the road comes back to itself there: whatever comes that way has come past the sign of a road that joins"
                .into(),
        ),
        _ if ends_in_truth(end, approach.end_class, road) => {
            Fate::LeftOut("the road ends before it, and nothing comes from beyond".into())
        }
        AxisEnd::DeadEnd | AxisEnd::MapEdge | AxisEnd::AsFarAsAsked => Fate::Unknown(not_known(end).into()),
    }
}

/// Why a place beyond the known road is not known.
pub(crate) fn not_known(end: AxisEnd) -> &'static str {
    match end {
        AxisEnd::MapEdge => {
            "the road ends on the map before it, and the map shows nothing beyond: it may be the map's edge"
        }
        _ => "it falls beyond the road that was looked at",
    }
}

/// A length along the road in words, to whole units of the rule set.
pub(crate) fn in_words(length_m: f64, road: &Road) -> String {
    let units = road.rules.units;
    distance_words(units.distance_of(metres(length_m)).round(), units)
}
