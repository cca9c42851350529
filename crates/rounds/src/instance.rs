//! The problem made ready for the search: seconds from the shift's start, whole quantities, neighbours.

use model::round::{RoundProblem, Site};

use crate::capacity::{Load, Room};
use crate::solution::Day;

/// A time that never comes, or a way that isn't there: longer than any day in whole seconds that fit 32 bits, and small
/// enough that millions of them add up without overflow.
pub(crate) const NEVER: i64 = 1 << 40;

/// The depot's place.
pub(crate) const DEPOT: u32 = 0;

/// Greatest worth or price that the search reckons with; keeps sums finite.
const MOST_POINTS: f64 = 1e12;

/// When work may begin: not before `open`, not after `last`.
#[derive(Debug, Clone, Copy)]
pub(crate) struct StartWindow {
    pub open: i64,
    pub last: i64,
}

/// The break, seconds from the shift's start.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Rest {
    pub earliest: i64,
    pub latest: i64,
    pub length: i64,
}

/// The problem as the search sees it. Vectors go by place: 0 the depot, `i + 1` site `i`.
pub(crate) struct Instance {
    travel: Vec<i64>,
    places: usize,
    windows: Vec<Vec<StartWindow>>,
    pub service: Vec<i64>,
    pub worth: Vec<f64>,
    pub load: Vec<Load>,
    pub room: Room,
    /// Length of the shift.
    pub shift: i64,
    /// Second of the day at which it starts.
    pub shift_start: i64,
    pub loading: i64,
    pub tipping: i64,
    pub rest: Option<Rest>,
    /// Sites that could be served by the truck in some window.
    pub candidates: Vec<u32>,
    /// Other candidates by driving time, nearest first.
    pub neighbours: Vec<Vec<u32>>,
    pub points_per_second: f64,
}

impl Instance {
    pub fn new(problem: &RoundProblem) -> Self {
        let places = problem.sites.len() + 1;
        let shift_start = i64::from(problem.shift_start.0);
        let shift = i64::from(problem.shift_end.0) - shift_start;
        let room = Room::new(&problem.capacity);
        let loads: Vec<Option<Load>> = problem.sites.iter().map(|site| Load::new(&site.demand)).collect();
        let windows: Vec<Vec<StartWindow>> = std::iter::once(Vec::new())
            .chain(problem.sites.iter().map(|site| start_windows(site, shift_start, shift)))
            .collect();
        let candidates: Vec<u32> = (1..places)
            .filter(|&p| !windows[p].is_empty() && loads[p - 1].is_some_and(|load| room.short_of(&load).is_none()))
            .map(|p| p as u32)
            .collect();
        let travel = travel_times(&problem.travel_s, places);
        let by_place = |depot, of_site: &dyn Fn(&Site) -> i64| {
            std::iter::once(depot).chain(problem.sites.iter().map(of_site)).collect::<Vec<i64>>()
        };
        Instance {
            neighbours: neighbours(&travel, places, &candidates),
            travel,
            places,
            windows,
            service: by_place(0, &|site| i64::from(site.service_s)),
            worth: std::iter::once(0.0).chain(problem.sites.iter().map(|site| points(site.worth))).collect(),
            load: std::iter::once(Load::default()).chain(loads.into_iter().map(Option::unwrap_or_default)).collect(),
            room,
            shift,
            shift_start,
            loading: i64::from(problem.loading_s),
            tipping: i64::from(problem.tipping_s),
            rest: rest(problem, shift_start),
            candidates,
            points_per_second: points(problem.points_per_hour) / 3600.0,
        }
    }

    /// Number of places, the depot included.
    pub fn places(&self) -> usize {
        self.places
    }

    /// Driving seconds; [`NEVER`] where no road leads.
    #[inline]
    pub fn travel(&self, from: usize, to: usize) -> i64 {
        self.travel[from * self.places + to]
    }

    /// When the work at a site can begin for an arrival at `arrival`; [`NEVER`] if no window is left.
    #[inline]
    pub fn earliest_start(&self, place: usize, arrival: i64) -> i64 {
        self.windows[place].iter().find(|w| arrival <= w.last).map_or(NEVER, |w| arrival.max(w.open))
    }

    /// Latest arrival at a site such that its work begins by `start`; below every time if there is none.
    #[inline]
    pub fn latest_arrival(&self, place: usize, start: i64) -> i64 {
        self.windows[place].iter().rev().find(|w| w.open <= start).map_or(-NEVER, |w| w.last.min(start))
    }

    /// First opening, last closing and total length of the times at which work may begin.
    pub fn window_extent(&self, place: usize) -> (i64, i64, i64) {
        let windows = &self.windows[place];
        let first = windows.first().map_or(NEVER, |w| w.open);
        let last = windows.last().map_or(-NEVER, |w| w.last);
        (first, last, windows.iter().map(|w| w.last - w.open).sum())
    }

    /// The objective of a day, in points; summed in the order of places, so equal days have equal bits.
    pub fn points(&self, day: &Day) -> f64 {
        let left_out: f64 = (1..self.places).filter(|&p| !day.has(p as u32)).map(|p| self.worth[p]).sum();
        left_out + self.points_per_second * day.finish() as f64
    }
}

/// Beginning times that keep the work inside one window and inside the shift, ascending, without those that another
/// window makes useless.
fn start_windows(site: &Site, shift_start: i64, shift: i64) -> Vec<StartWindow> {
    let service = i64::from(site.service_s);
    let mut windows: Vec<StartWindow> = site
        .windows
        .iter()
        .map(|(from, to)| StartWindow {
            open: (i64::from(from.0) - shift_start).max(0),
            last: (i64::from(to.0) - shift_start).min(shift) - service,
        })
        .filter(|w| w.open <= w.last)
        .collect();
    windows.sort_unstable_by_key(|w| (w.open, w.last));
    let mut latest = -1;
    windows.retain(|w| {
        let useful = w.last > latest;
        latest = latest.max(w.last);
        useful
    });
    windows
}

fn rest(problem: &RoundProblem, shift_start: i64) -> Option<Rest> {
    let rest = problem.rest.as_ref()?;
    let latest = i64::from(rest.latest.0) - shift_start;
    // a shift that starts after the time of the break has no such break
    (rest.length_s > 0 && latest >= 0).then(|| Rest {
        earliest: i64::from(rest.earliest.0) - shift_start,
        latest,
        length: i64::from(rest.length_s),
    })
}

fn travel_times(matrix: &[Vec<u32>], places: usize) -> Vec<i64> {
    let entry = |from: usize, to: usize| match matrix.get(from).and_then(|row| row.get(to)) {
        None | Some(&u32::MAX) => NEVER,
        Some(&seconds) => i64::from(seconds),
    };
    (0..places * places).map(|cell| entry(cell / places, cell % places)).collect()
}

fn neighbours(travel: &[i64], places: usize, candidates: &[u32]) -> Vec<Vec<u32>> {
    let mut neighbours = vec![Vec::new(); places];
    for &place in candidates {
        let from = place as usize;
        let distance = |other: u32| travel[from * places + other as usize].min(travel[other as usize * places + from]);
        let mut others: Vec<u32> = candidates.iter().copied().filter(|&other| other != place).collect();
        others.sort_by_key(|&other| (distance(other), other));
        neighbours[from] = others;
    }
    neighbours
}

/// A number of points that sums well: not a number or negative counts as zero.
fn points(value: f64) -> f64 {
    if value > 0.0 { value.min(MOST_POINTS) } else { 0.0 }
}
