//! The best objective by trying everything: every choice of sites, order, trip split and place for the rest.
//! Follows the words of the model step by step and shares no code with the search.

use model::round::RoundProblem;

use super::checker::trip_fits;

/// Least objective over all rounds. For a handful of sites only.
pub fn best_objective(problem: &RoundProblem) -> f64 {
    let all: f64 = problem.sites.iter().map(|site| site.worth).sum();
    let mut search = Search { problem, best: all, left: (0..problem.sites.len()).collect(), trip: Vec::new() };
    let now = u64::from(problem.shift_start.0);
    search.at_depot(now, rest_free(problem));
    search.best
}

/// Whether no rest is due at all.
fn rest_free(problem: &RoundProblem) -> bool {
    problem.rest.is_none_or(|rest| rest.length_s == 0 || rest.latest < problem.shift_start)
}

struct Search<'a> {
    problem: &'a RoundProblem,
    best: f64,
    left: Vec<usize>,
    trip: Vec<usize>,
}

impl Search<'_> {
    /// Both choices at a place for the rest: go on, or rest first.
    fn with_or_without_rest(&mut self, now: u64, rested: bool, mut next: impl FnMut(&mut Self, u64, bool)) {
        next(self, now, rested);
        if rested {
            return;
        }
        if let Some(rest) = self.problem.rest {
            let begin = now.max(u64::from(rest.earliest.0));
            if begin <= u64::from(rest.latest.0) {
                next(self, begin + u64::from(rest.length_s), true);
            }
        }
    }

    /// Empty truck at the depot, before loading.
    fn at_depot(&mut self, now: u64, rested: bool) {
        let loading = u64::from(self.problem.loading_s);
        self.with_or_without_rest(now, rested, |search, now, rested| {
            search.with_or_without_rest(now + loading, rested, |search, now, rested| search.leave(0, now, rested));
        });
    }

    /// Ready to drive on from a place.
    fn leave(&mut self, place: usize, now: u64, rested: bool) {
        if now > u64::from(self.problem.shift_end.0) {
            return;
        }
        for at in 0..self.left.len() {
            let site = self.left.remove(at);
            self.trip.push(site);
            self.visit(place, site, now, rested);
            self.trip.pop();
            self.left.insert(at, site);
        }
        if place != 0 && self.problem.travel_s[place][0] != u32::MAX && trip_fits(self.problem, &self.trip) {
            let back = now + u64::from(self.problem.travel_s[place][0]);
            let tipping = u64::from(self.problem.tipping_s);
            let trip = std::mem::take(&mut self.trip);
            self.with_or_without_rest(back, rested, |search, now, rested| search.tipped(now + tipping, rested));
            self.trip = trip;
        }
    }

    fn visit(&mut self, from: usize, site: usize, now: u64, rested: bool) {
        let seconds = self.problem.travel_s[from][site + 1];
        if seconds == u32::MAX {
            return;
        }
        let arrival = now + u64::from(seconds);
        let service = u64::from(self.problem.sites[site].service_s);
        let ends = self.problem.sites[site].windows.iter().filter_map(|(open, close)| {
            let end = arrival.max(u64::from(open.0)) + service;
            (end <= u64::from(close.0)).then_some(end)
        });
        if let Some(end) = ends.min() {
            self.with_or_without_rest(end, rested, |search, now, rested| search.leave(site + 1, now, rested));
        }
    }

    /// A trip is over: end the day, or load again.
    fn tipped(&mut self, now: u64, rested: bool) {
        let over_before_rest = self.problem.rest.is_some_and(|rest| now <= u64::from(rest.latest.0));
        if now <= u64::from(self.problem.shift_end.0) {
            if rested || over_before_rest {
                let worth: f64 = self.left.iter().map(|&site| self.problem.sites[site].worth).sum();
                let hours = (now - u64::from(self.problem.shift_start.0)) as f64 / 3600.0;
                self.best = self.best.min(worth + self.problem.points_per_hour * hours);
            }
            if !self.left.is_empty() {
                self.at_depot(now, rested);
            }
        }
    }
}
