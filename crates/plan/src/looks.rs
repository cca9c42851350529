//! Looks at repairs made before, put on a round after the search has found it, where the crew passes by anyway.
//!
//! Each goes where it costs least, the one that is worth most for its cost first. The order of everything else stays; what
//! follows a look begins later only as far as the windows, the break, the yards and the end of the shift allow; where the crew
//! was back within its shift in nine days of ten, it still is. So no repair is ever left out for a look.

use model::district::District;
use model::look::{LookLeft, LooksWanted, PlannedLook, WantedLook};
use model::place::RoadPosition;
use model::quantity::{InLength, InVelocity, metres, minutes};
use model::road::{RoadClass, RoadSection};
use model::round::{RoundProblem, RoundSolution, SecondOfDay, Stop, StopKind};
use model::rules::lasting::LookStopRules;
use roads::{AccessPlace, Network};

use crate::finding::{Meeting, ends};
use crate::hours;

/// Looks tried for one round at most, those that lie nearest to its way.
const TRIED: usize = 60;

/// Looks that are not on a round yet.
pub(crate) struct Looks<'a> {
    rules: Option<&'a LookStopRules>,
    open: Vec<OpenLook<'a>>,
    left: Vec<LookLeft>,
}

#[derive(Clone)]
struct OpenLook<'a> {
    wanted: &'a WantedLook,
    position: RoadPosition,
}

/// A round that looks are put on.
pub(crate) struct OnRound<'a> {
    pub network: &'a Network,
    pub district: &'a District,
    pub daylight: Option<(SecondOfDay, SecondOfDay)>,
    pub problem: &'a RoundProblem,
    /// The crew is back by then.
    pub end: SecondOfDay,
    /// What the day may take longer than planned, seconds: in nine days of ten it does not.
    pub overrun_s: u32,
}

/// One stop of a timetable whose time is not fixed.
#[derive(Debug, Clone, Copy)]
struct Step {
    kind: StopKind,
    takes: u32,
    /// Of a wait: until when.
    until: u32,
}

/// A way to put one look on the round.
struct Insertion {
    /// Seconds that the look is worth beyond what it costs.
    gain: i64,
    look: usize,
    /// The drive that it interrupts.
    at: usize,
    there_s: u32,
    back_s: u32,
    detour_s: u32,
    detour_m: f64,
}

impl<'a> Looks<'a> {
    /// Finds each on the roads; what can't be stopped at is told.
    pub fn new(wanted: Option<&'a LooksWanted>, network: &Network, district: &District) -> Self {
        let Some(LooksWanted { looks, rules }) = wanted else {
            return Looks { rules: None, open: Vec::new(), left: Vec::new() };
        };
        let mut all = Looks { rules: Some(rules), open: Vec::new(), left: Vec::new() };
        let within = metres(rules.road_within_m.value);
        let drivable = |section: &RoadSection| network.barred(section.id).is_none();
        for look in looks {
            let found = network.snap(look.place, None, within, district.driving_side, &drivable);
            let words = match &found {
                Err(refusal) => format!("not on the roads: {refusal}"),
                Ok(position) => {
                    let Some(why) = no_stop(network.section(position.section), rules) else {
                        all.open.push(OpenLook { wanted: look, position: *position });
                        continue;
                    };
                    why
                }
            };
            all.left.push(LookLeft { repair: look.repair, words });
        }
        all
    }

    /// Those that no round passes near enough, and those that none could stop at.
    pub fn left(self) -> Vec<LookLeft> {
        let mut left = self.left;
        let words = "no round passes near enough with time to spare";
        left.extend(self.open.iter().map(|look| LookLeft { repair: look.wanted.repair, words: words.to_owned() }));
        left.sort_by_key(|left| left.repair);
        left
    }

    /// Puts on the round what it has time for; the places of the looks come behind the others.
    pub fn put_on(
        &mut self,
        of: &OnRound,
        round: &mut RoundSolution,
        places: &mut Vec<AccessPlace>,
    ) -> Vec<PlannedLook> {
        let Some(rules) = self.rules else { return Vec::new() };
        if self.open.is_empty() || round.trips.iter().all(Vec::is_empty) {
            return Vec::new();
        }
        let near = self.near(of, round, places, rules);
        let positions: Vec<RoadPosition> = near.iter().map(|&look| self.open[look].position).collect();
        let planned_end = round.timetable.last().map_or(0, |stop| stop.to.0);
        let mut search = Search::new(of, round, places, &positions, rules, of.latest(planned_end));
        let worth: Vec<u32> = near.iter().map(|&look| worth_s(self.open[look].wanted, rules)).collect();
        while let Some(best) = search.best(&worth) {
            search.insert(&best);
        }
        let Search { steps, taken, .. } = search;
        let Some(timetable) = of.timed(&steps, &positions_of(&taken, &positions)) else { return Vec::new() };
        let (timetable, order) = in_order(of.problem, timetable);
        let meeting = Meeting::of(of.network.roads());
        let planned: Vec<PlannedLook> = order
            .iter()
            .map(|&number| {
                let insertion = &taken[number];
                let OpenLook { wanted, position } = &self.open[near[insertion.look]];
                let (place, _) = of.network.point_at(position.section, position.chainage);
                let (from, towards) = ends(of.network.roads(), &meeting, position.section);
                PlannedLook {
                    repair: wanted.repair,
                    position: *position,
                    place,
                    road: of.network.section(position.section).label(),
                    chainage_from: from,
                    chainage_towards: towards,
                    is_due: wanted.is_due,
                    opened: wanted.opened,
                    area: wanted.area,
                    why: wanted.why,
                    stop: minutes(rules.minutes.value),
                    detour_s: insertion.detour_s,
                    detour: metres(insertion.detour_m),
                    shoulder_least: metres(rules.shoulder_least_m.value),
                    default_shoulder_counts: rules.default_shoulder_counts.value,
                }
            })
            .collect();
        places.extend(planned.iter().map(|look| AccessPlace::site(look.position)));
        let longer_s: u32 = planned.iter().map(|look| look.detour_s + stop_s(rules)).sum();
        round.timetable = timetable;
        round.driving_s += planned.iter().map(|look| look.detour_s).sum::<u32>();
        round.driving += planned.iter().map(|look| look.detour).sum();
        round.objective += of.problem.points_per_hour * f64::from(longer_s) / 3600.0;
        self.open.retain(|look| planned.iter().all(|planned| planned.repair != look.wanted.repair));
        planned
    }

    /// Indexes of the open looks that may be worth their way, as the crow flies; the nearest, at most [`TRIED`].
    fn near(&self, of: &OnRound, round: &RoundSolution, places: &[AccessPlace], rules: &LookStopRules) -> Vec<usize> {
        let at = |position: &RoadPosition| of.network.point_at(position.section, position.chainage).0;
        let mut here = at(&places[of.problem.start].position);
        let mut legs = Vec::new();
        for stop in &round.timetable {
            if let StopKind::Drive(to) = stop.kind {
                let there = at(&places[to].position);
                legs.push((here, there, f64::from(stop.to.0 - stop.from.0)));
                here = there;
            }
        }
        let speed = of.district.truck.speed_max.in_metres_per_second();
        let least_s = |look: &OpenLook| {
            let place = at(&look.position);
            let way = |&(from, to, takes): &(_, _, f64)| {
                let beeline = roads::distance(from, place) + roads::distance(place, to);
                (beeline.in_metres() / speed - takes).max(0.0)
            };
            legs.iter().map(way).fold(f64::INFINITY, f64::min)
        };
        let mut near: Vec<(usize, f64)> = self
            .open
            .iter()
            .enumerate()
            .map(|(index, look)| (index, least_s(look)))
            .filter(|&(index, least)| least <= f64::from(worth_s(self.open[index].wanted, rules)))
            .collect();
        near.sort_by(|a, b| a.1.total_cmp(&b.1).then(a.0.cmp(&b.0)));
        near.truncate(TRIED);
        near.into_iter().map(|(index, _)| index).collect()
    }
}

/// Why nobody stops there. No law of the road: the local code says more.
fn no_stop(section: &RoadSection, rules: &LookStopRules) -> Option<String> {
    let (label, least) = (section.label(), rules.shoulder_least_m.value);
    // nobody stops on a motorway, a roundabout, a bridge or in a tunnel
    if section.class == RoadClass::Motorway || section.roundabout || section.structure.is_some() {
        return Some(format!("no place to stop ({label})"));
    }
    if section.defaulted.contains(&"shoulder") && !rules.default_shoulder_counts.value {
        return Some(format!("the map does not tell the shoulder, nor so whether there is room to stop ({label})"));
    }
    let shoulder = section.shoulder.in_metres();
    (shoulder < least).then(|| format!("no shoulder of {least:.1} m to stop on ({label}: {shoulder:.1} m)"))
}

fn worth_s(look: &WantedLook, rules: &LookStopRules) -> u32 {
    let worth = if look.is_due { &rules.worth_min } else { &rules.early_worth_min };
    (worth.value * 60.0).floor() as u32
}

fn stop_s(rules: &LookStopRules) -> u32 {
    (rules.minutes.value * 60.0).ceil() as u32
}

/// Where each look that is on the round is made, by its number.
fn positions_of(taken: &[Insertion], positions: &[RoadPosition]) -> Vec<RoadPosition> {
    taken.iter().map(|insertion| positions[insertion.look]).collect()
}

/// The round as looks are put on it, one after the other.
struct Search<'a> {
    of: &'a OnRound<'a>,
    positions: &'a [RoadPosition],
    stop_s: u32,
    steps: Vec<Step>,
    /// In the order in which they were taken: the numbers of the looks in the steps.
    taken: Vec<Insertion>,
    /// Places of the round that the matrix knows, then the looks.
    known: Vec<usize>,
    seconds: Vec<Vec<u32>>,
    metres: Vec<Vec<f64>>,
    /// The round ends by then.
    latest: u32,
}

impl<'a> Search<'a> {
    fn new(
        of: &'a OnRound<'a>,
        round: &RoundSolution,
        places: &[AccessPlace],
        positions: &'a [RoadPosition],
        rules: &LookStopRules,
        latest: u32,
    ) -> Self {
        let step = |stop: &Stop| Step { kind: stop.kind, takes: stop.to.0 - stop.from.0, until: stop.to.0 };
        let steps: Vec<Step> = round.timetable.iter().map(step).collect();
        let driven = steps.iter().filter_map(|step| if let StopKind::Drive(to) = step.kind { Some(to) } else { None });
        let mut known: Vec<usize> = std::iter::once(of.problem.start).chain(driven).collect();
        known.sort_unstable();
        known.dedup();
        let all: Vec<AccessPlace> = known
            .iter()
            .map(|&place| places[place])
            .chain(positions.iter().map(|position| AccessPlace::site(*position)))
            .collect();
        let matrix = of.network.matrix(&all);
        let (seconds, metres) = (matrix.travel_s(), matrix.metres);
        Search { of, positions, stop_s: stop_s(rules), steps, taken: Vec::new(), known, seconds, metres, latest }
    }

    /// Row of a place in the matrix.
    fn row(&self, place: usize) -> usize {
        match self.of.problem.look_at(place) {
            Some(number) => self.row_of_look(self.taken[number].look),
            None => self.known.binary_search(&place).unwrap_or(0),
        }
    }

    fn row_of_look(&self, look: usize) -> usize {
        self.known.len() + look
    }

    /// The insertion that gains most; of equals the first look, at its first place.
    fn best(&self, worth: &[u32]) -> Option<Insertion> {
        let mut best: Option<Insertion> = None;
        for (look, &worth) in worth.iter().enumerate() {
            if self.taken.iter().any(|taken| taken.look == look) {
                continue;
            }
            let mut here = self.of.problem.start;
            for (at, step) in self.steps.iter().enumerate() {
                let StopKind::Drive(to) = step.kind else { continue };
                let from = std::mem::replace(&mut here, to);
                let Some(insertion) = self.insertion(look, at, (from, to), worth) else { continue };
                let is_better = best.as_ref().is_none_or(|best| insertion.gain > best.gain);
                if is_better && self.is_in_time(&insertion) {
                    best = Some(insertion);
                }
            }
        }
        best
    }

    /// A look on the way from one place to another, if it is worth it.
    fn insertion(&self, look: usize, at: usize, (from, to): (usize, usize), worth: u32) -> Option<Insertion> {
        let (from, to, there) = (self.row(from), self.row(to), self.row_of_look(look));
        let (there_s, back_s) = (self.seconds[from][there], self.seconds[there][to]);
        if there_s == u32::MAX || back_s == u32::MAX {
            return None;
        }
        let detour_s = there_s.saturating_add(back_s).saturating_sub(self.steps[at].takes);
        let gain = i64::from(worth) - i64::from(detour_s) - i64::from(self.stop_s);
        let detour_m = self.metres[from][there] + self.metres[there][to] - self.metres[from][to];
        (gain >= 0).then_some(Insertion { gain, look, at, there_s, back_s, detour_s, detour_m })
    }

    /// The steps with one look more.
    fn with(&self, insertion: &Insertion) -> Vec<Step> {
        let number = self.taken.len();
        let after = self.steps[insertion.at];
        let step = |kind, takes| Step { kind, takes, until: 0 };
        // the round begins when its first step does, also where that is a drive
        let begins = after.until.saturating_sub(after.takes);
        let mut steps = self.steps.clone();
        let place = self.of.problem.place_of_look(number);
        let new = [
            Step { kind: StopKind::Drive(place), takes: insertion.there_s, until: begins + insertion.there_s },
            step(StopKind::Look(number), self.stop_s),
            step(after.kind, insertion.back_s),
        ];
        steps.splice(insertion.at..=insertion.at, new);
        steps
    }

    fn is_in_time(&self, insertion: &Insertion) -> bool {
        let mut positions = positions_of(&self.taken, self.positions);
        positions.push(self.positions[insertion.look]);
        let timetable = self.of.timed(&self.with(insertion), &positions);
        timetable.is_some_and(|stops| stops.last().is_none_or(|last| last.to.0 <= self.latest))
    }

    fn insert(&mut self, insertion: &Insertion) {
        self.steps = self.with(insertion);
        self.taken.push(Insertion { ..*insertion });
    }
}

impl OnRound<'_> {
    /// A round that was to end at `planned_end` ends by then with looks: where its return in nine days of ten was within the
    /// shift, it stays so.
    fn latest(&self, planned_end: u32) -> u32 {
        let was_within = planned_end.saturating_add(self.overrun_s) <= self.end.0;
        if was_within { self.end.0 - self.overrun_s } else { self.end.0 }
    }

    /// The steps one after the other from the round's beginning on; `None` where something would be too late. `looks` are where
    /// they are made, by number.
    fn timed(&self, steps: &[Step], looks: &[RoadPosition]) -> Option<Vec<Stop>> {
        let first = steps.first()?;
        let (mut now, mut here, mut calling) = (first.until.saturating_sub(first.takes), self.problem.start, false);
        let mut timetable = Vec::new();
        for step in steps {
            let to = if step.kind == StopKind::Wait { now.max(step.until) } else { now + step.takes };
            let goes_on = std::mem::replace(&mut calling, matches!(step.kind, StopKind::Load(_) | StopKind::Tip(_)));
            let in_time = match step.kind {
                StopKind::Work(site) => is_within(&self.problem.sites[site].windows, now, to),
                StopKind::Look(look) => {
                    let class = self.network.section(looks[look].section).class;
                    is_within(&hours::windows(self.district, self.daylight, class), now, to)
                }
                StopKind::Rest => self.problem.rest.is_none_or(|rest| rest.earliest.0 <= now && now <= rest.latest.0),
                StopKind::Load(_) | StopKind::Tip(_) => goes_on || self.is_open(here, now),
                StopKind::Drive(place) => {
                    here = place;
                    true
                }
                StopKind::Wait => true,
            };
            if !in_time {
                return None;
            }
            if step.kind != StopKind::Wait || to > now {
                timetable.push(Stop { kind: step.kind, from: SecondOfDay(now), to: SecondOfDay(to) });
            }
            now = to;
        }
        // A day that goes on past the time for a break has one.
        let rests = steps.iter().any(|step| step.kind == StopKind::Rest);
        let needs_rest = self.problem.rest.is_some_and(|rest| now > rest.latest.0) && !rests;
        (now <= self.end.0 && !needs_rest).then_some(timetable)
    }

    /// Whether a call at a yard may begin then; the depot is always open.
    fn is_open(&self, place: usize, at: u32) -> bool {
        let Some(name) = self.problem.yard_at(place) else { return true };
        let Some(yard) = self.district.supply_places.iter().find(|yard| yard.name == name) else { return true };
        let from = yard.open_from.map_or(0, |time| hours::second_of_day(time).0);
        let to = yard.open_to.map_or(u32::MAX, |time| hours::second_of_day(time).0);
        (from..=to).contains(&at)
    }
}

fn is_within(windows: &[(SecondOfDay, SecondOfDay)], from: u32, to: u32) -> bool {
    windows.iter().any(|(open, close)| open.0 <= from && to <= close.0)
}

/// The timetable with its looks numbered as they come, and the number that each bore before.
fn in_order(problem: &RoundProblem, mut timetable: Vec<Stop>) -> (Vec<Stop>, Vec<usize>) {
    let made = timetable.iter().filter_map(|stop| if let StopKind::Look(look) = stop.kind { Some(look) } else { None });
    let order: Vec<usize> = made.collect();
    let new = |old: usize| order.iter().position(|&number| number == old).unwrap_or(old);
    for stop in &mut timetable {
        stop.kind = match stop.kind {
            StopKind::Look(look) => StopKind::Look(new(look)),
            StopKind::Drive(place) => match problem.look_at(place) {
                Some(look) => StopKind::Drive(problem.place_of_look(new(look))),
                None => StopKind::Drive(place),
            },
            other => other,
        };
    }
    (timetable, order)
}
