//! One crew's day: a sequence of places with the depot between trips, and what is known at each stop.

use crate::capacity::{Aboard, Load, follow_trip};
use crate::evaluate::{Labels, Visit};
use crate::instance::{DEPOT, Instance, NEVER};

/// A day and its timing. The route begins and ends at the depot; every visit to the depot in between ends a trip.
#[derive(Debug, Clone)]
pub(crate) struct Day {
    route: Vec<u32>,
    stops: Vec<StopState>,
    /// Total of each trip.
    totals: Vec<Load>,
    /// By place: whether the route has it.
    has: Vec<bool>,
    /// End of the last stop.
    end: i64,
    driving: i64,
}

/// What is known at one stop.
#[derive(Debug, Clone, Copy)]
struct StopState {
    visit: Visit,
    leave: Labels,
    latest: Labels,
    /// Least seconds from arrival here to the day's end.
    ahead: i64,
    aboard: Aboard,
    /// Trip that a drive from here belongs to.
    trip: usize,
}

/// A place in the round where a site can go, and what that would do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Insertion {
    /// Behind the stop of that index.
    pub gap: usize,
    pub reload: Reload,
    /// Growth of the day's end, s. Negative where the driving times shorten a way by a detour.
    pub end: i64,
    /// Growth of the driving time, s.
    pub driving: i64,
}

/// Which visits to the depot come in with the site.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Reload {
    None,
    Before,
    After,
    Both,
}

/// Seconds of driving that weigh as much as one second of the day's end when insertions are compared. Time decides;
/// among places that only use up waiting time, the shorter way leaves more room for the next site.
const DRIVING_PER_SECOND: i64 = 16;

impl Insertion {
    /// Smaller is better.
    #[inline]
    pub fn rank(&self) -> i64 {
        self.end * DRIVING_PER_SECOND + self.driving
    }
}

impl Day {
    /// A day with nothing to do.
    pub fn empty(instance: &Instance) -> Self {
        let mut day = Day {
            route: vec![DEPOT, DEPOT],
            stops: Vec::new(),
            totals: Vec::new(),
            has: vec![false; instance.places()],
            end: 0,
            driving: 0,
        };
        day.refresh(instance);
        day
    }

    /// Takes over a route. It begins and ends at the depot; empty trips are left out.
    pub fn set_route(&mut self, instance: &Instance, route: &[u32]) {
        self.route.clear();
        self.route.extend_from_slice(route);
        self.route.dedup_by(|a, b| *a == DEPOT && *b == DEPOT);
        if self.route.len() < 2 {
            self.route = vec![DEPOT, DEPOT];
        }
        self.has.fill(false);
        for &place in &self.route {
            self.has[place as usize] = place != DEPOT;
        }
        self.refresh(instance);
    }

    pub fn route(&self) -> &[u32] {
        &self.route
    }

    pub fn is_empty(&self) -> bool {
        self.route.len() == 2
    }

    pub fn has(&self, place: u32) -> bool {
        self.has[place as usize]
    }

    /// End of the day, seconds from the shift's start; 0 when nothing is done.
    pub fn finish(&self) -> i64 {
        if self.is_empty() { 0 } else { self.end }
    }

    /// Driving seconds.
    pub fn driving(&self) -> i64 {
        if self.is_empty() { 0 } else { self.driving }
    }

    /// Whether the day keeps to every window, the rest and the shift.
    pub fn is_in_time(&self, instance: &Instance) -> bool {
        self.is_empty() || self.end <= instance.shift
    }

    /// The sites of each trip, by place.
    pub fn trips(&self) -> Vec<Vec<u32>> {
        self.route.split(|&place| place == DEPOT).filter(|trip| !trip.is_empty()).map(<[u32]>::to_vec).collect()
    }

    /// Number of places where an insertion can be tried.
    pub fn gaps(&self) -> usize {
        self.route.len() - 1
    }

    /// Does an insertion that [`Day::try_gap`] found.
    pub fn insert(&mut self, instance: &Instance, place: u32, insertion: &Insertion) {
        let at = insertion.gap + 1;
        let visits: &[u32] = match insertion.reload {
            Reload::None => &[place],
            Reload::Before => &[DEPOT, place],
            Reload::After => &[place, DEPOT],
            Reload::Both => &[DEPOT, place, DEPOT],
        };
        self.route.splice(at..at, visits.iter().copied());
        self.has[place as usize] = true;
        self.refresh(instance);
    }

    /// The best way to put a site into a gap that ranks below `bound`.
    pub fn try_gap(&self, instance: &Instance, gap: usize, place: u32, bound: i64) -> Option<Insertion> {
        let (before, after) = (&self.stops[gap], &self.stops[gap + 1]);
        let load = &instance.load[place as usize];
        let (at_start, at_end) = (self.route[gap] == DEPOT, self.route[gap + 1] == DEPOT);
        let mut best: Option<Insertion> = None;
        let mut consider = |reload: Reload| {
            let bound = best.map_or(bound, |b| b.rank());
            best = self.time(instance, gap, place, reload, bound).or(best);
        };
        let takes = instance.room.takes(&self.totals[before.trip], &before.aboard, &after.aboard, load);
        if takes {
            consider(Reload::None);
        }
        if self.is_empty() {
            return best;
        }
        // A trip of its own, at a trip's end or before the first.
        if at_end {
            consider(Reload::Before);
        }
        if at_start && gap == 0 {
            consider(Reload::After);
        }
        if !takes && !at_start && !at_end {
            self.split_trip(instance, gap, load, &mut consider);
        }
        best
    }

    /// The trip is full: cut it in two at the gap, the site in either part or in a trip of its own.
    fn split_trip(&self, instance: &Instance, gap: usize, load: &Load, consider: &mut dyn FnMut(Reload)) {
        let load_of = |&place: &u32| &instance.load[place as usize];
        let first = self.route[..=gap].iter().rposition(|&p| p == DEPOT).map_or(0, |depot| depot + 1);
        let last =
            self.route[gap + 1..].iter().position(|&p| p == DEPOT).map_or(self.route.len(), |depot| gap + 1 + depot);
        let site = std::iter::once(load);
        if instance.room.fits(site.clone().chain(self.route[gap + 1..last].iter().map(load_of))) {
            consider(Reload::Before);
        }
        if instance.room.fits(self.route[first..=gap].iter().map(load_of).chain(site)) {
            consider(Reload::After);
        }
        consider(Reload::Both);
    }

    /// Times an insertion; `None` when it is too late for some stop or does not rank below `bound`.
    #[inline]
    fn time(&self, instance: &Instance, gap: usize, place: u32, reload: Reload, bound: i64) -> Option<Insertion> {
        let (from, to, site) = (self.route[gap] as usize, self.route[gap + 1] as usize, place as usize);
        let depot = DEPOT as usize;
        let mut driving = if self.is_empty() { 0 } else { -instance.travel(from, to) };
        let mut labels = self.stops[gap].leave;
        let mut here = from;
        let mut go = |labels: Labels, next: usize| {
            let seconds = instance.travel(here, next);
            here = next;
            driving += seconds;
            labels.after(seconds)
        };
        if matches!(reload, Reload::Before | Reload::Both) {
            labels = instance.leave(Visit::Reload, go(labels, depot));
        }
        labels = instance.leave(Visit::Site(place), go(labels, site));
        if matches!(reload, Reload::After | Reload::Both) {
            labels = instance.leave(Visit::Reload, go(labels, depot));
        }
        let arrival = go(labels, to);
        if !arrival.in_time_for(self.stops[gap + 1].latest) {
            return None;
        }
        let rank = |finish: i64| Insertion { gap, reload, end: finish - self.finish(), driving };
        if rank(self.least_end(instance, gap + 1, arrival)).rank() >= bound {
            return None;
        }
        let insertion = rank(self.end_from(instance, gap + 1, arrival));
        (insertion.rank() < bound).then_some(insertion)
    }

    /// A lower bound of the day's end for an arrival at a stop.
    #[inline]
    fn least_end(&self, instance: &Instance, stop: usize, arrival: Labels) -> i64 {
        let ahead = self.stops[stop].ahead;
        let rested = arrival.rested + ahead;
        match instance.rest {
            None => rested,
            Some(rest) => {
                let fresh = arrival.fresh + ahead;
                rested.min(if fresh <= rest.latest { fresh } else { fresh + rest.length })
            }
        }
    }

    /// The day's end for an arrival at a stop. Follows the day only as long as the times differ from what they are.
    fn end_from(&self, instance: &Instance, stop: usize, arrival: Labels) -> i64 {
        let mut labels = arrival;
        for at in stop..self.stops.len() {
            labels = instance.leave(self.stops[at].visit, labels);
            if labels == self.stops[at].leave {
                return self.end;
            }
            if at + 1 < self.stops.len() {
                labels = labels.after(instance.travel(self.route[at] as usize, self.route[at + 1] as usize));
            }
        }
        labels.rested
    }

    /// Works out everything known at the stops from the route.
    fn refresh(&mut self, instance: &Instance) {
        self.refresh_forwards(instance);
        self.refresh_backwards(instance);
        self.refresh_loads(instance);
    }

    fn refresh_forwards(&mut self, instance: &Instance) {
        self.stops.clear();
        self.driving = 0;
        let last = self.route.len() - 1;
        let mut labels = instance.morning();
        let mut trips = 0;
        for at in 0..=last {
            let visit = match (self.route[at], at) {
                (DEPOT, 0) => Visit::Begin,
                (DEPOT, _) if at == last => Visit::End,
                (DEPOT, _) => Visit::Reload,
                (place, _) => Visit::Site(place),
            };
            if at > 0 {
                let seconds = instance.travel(self.route[at - 1] as usize, self.route[at] as usize);
                // an empty day does not drive from the depot to itself
                let seconds = if self.is_empty() { 0 } else { seconds };
                self.driving += seconds;
                labels = labels.after(seconds);
            }
            labels = instance.leave(visit, labels);
            trips += usize::from(visit == Visit::Reload);
            self.stops.push(StopState {
                visit,
                leave: labels,
                latest: Labels { fresh: -NEVER, rested: -NEVER },
                ahead: 0,
                aboard: Aboard::default(),
                trip: trips,
            });
        }
        self.end = labels.rested;
    }

    fn refresh_backwards(&mut self, instance: &Instance) {
        let mut latest = Labels { fresh: -NEVER, rested: -NEVER };
        let mut ahead = 0;
        for at in (0..self.stops.len()).rev() {
            let visit = self.stops[at].visit;
            if visit != Visit::End && !self.is_empty() {
                let seconds = instance.travel(self.route[at] as usize, self.route[at + 1] as usize);
                latest = latest.after(-seconds);
                ahead += seconds;
            }
            latest = instance.latest_to(visit, latest);
            ahead += instance.least_stay(visit);
            self.stops[at].latest = latest;
            self.stops[at].ahead = ahead;
        }
    }

    fn refresh_loads(&mut self, instance: &Instance) {
        self.totals.clear();
        let mut loads = Vec::with_capacity(self.route.len());
        let mut aboard = vec![Aboard::default(); self.route.len()];
        let mut at = 1;
        for trip in self.route[1..].split_inclusive(|&place| place == DEPOT) {
            let sites = trip.len() - 1;
            loads.clear();
            loads.extend(trip[..sites].iter().map(|&place| instance.load[place as usize]));
            self.totals.push(follow_trip(&loads, &mut aboard[at..at + sites]));
            at += trip.len();
        }
        for (stop, aboard) in self.stops.iter_mut().zip(aboard) {
            stop.aboard = aboard;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::common::random_problem;
    use crate::timetable;
    use rand::{RngExt, SeedableRng};
    use rand_pcg::Pcg64Mcg;

    /// A day grown at random; the loads are left aside, every kind of insertion is used.
    fn random_day(instance: &Instance, random: &mut Pcg64Mcg) -> Day {
        let mut day = Day::empty(instance);
        for &place in &instance.candidates {
            let gap = random.random_range(0..day.gaps());
            if let Some(insertion) = day.try_gap(instance, gap, place, i64::MAX).filter(|_| random.random_bool(0.8)) {
                day.insert(instance, place, &insertion);
            }
        }
        day
    }

    /// What an insertion promises is what it does, and one is refused only when no such day can be kept. The timetable
    /// is written by other means (every place for the rest tried), so it judges both.
    #[test]
    fn insertions_are_timed_as_the_timetable_has_them() {
        let (mut refused, mut done) = (0, 0);
        for seed in 0..400 {
            let mut random = Pcg64Mcg::seed_from_u64(seed);
            let instance = Instance::new(&random_problem(seed, 8));
            let day = random_day(&instance, &mut random);
            for &place in instance.candidates.iter().filter(|&&place| !day.has(place)) {
                for gap in 0..day.gaps() {
                    for reload in [Reload::None, Reload::Before, Reload::After, Reload::Both] {
                        let promised = day.time(&instance, gap, place, reload, i64::MAX);
                        let mut longer = day.clone();
                        longer.insert(&instance, place, &Insertion { gap, reload, end: 0, driving: 0 });
                        if longer.route().windows(2).any(|leg| leg == [DEPOT, DEPOT]) || day.is_empty() {
                            continue;
                        }
                        let end = timetable::write(&instance, &longer.trips()).last().map(|stop| stop.to);
                        let end = end.map(|end| i64::from(end.0) - instance.shift_start);
                        assert_eq!(promised.map(|p| day.finish() + p.end), end, "seed {seed}, {place} in {gap}");
                        if let Some(promised) = promised {
                            assert_eq!(day.driving() + promised.driving, longer.driving());
                            // a bound just above the rank must not hide it
                            assert!(day.time(&instance, gap, place, reload, promised.rank() + 1).is_some());
                            done += 1;
                        } else {
                            refused += 1;
                        }
                    }
                }
            }
        }
        assert!(refused > 1000 && done > 1000, "{refused} refused, {done} done");
    }
}
