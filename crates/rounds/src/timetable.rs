//! The timetable of a round: everything begun as early as it can be, the rest where the day then ends soonest.

use model::round::{SecondOfDay, Stop, StopKind};

use crate::instance::{Instance, NEVER};

/// Writes the timetable of the trips (places), from the shift's start to the last tip.
///
/// Of all places for the rest the one is taken that ends the day soonest, then with the least waiting before it, then the
/// first. Empty if the trips can't be kept in time.
pub(crate) fn write(instance: &Instance, trips: &[Vec<u32>]) -> Vec<Stop> {
    if trips.is_empty() {
        return Vec::new();
    }
    // one place at each site's end and three at each visit to the depot are more than enough
    let places_for_rest = trips.iter().map(|trip| trip.len() + 4).sum::<usize>();
    let choices = std::iter::once(None).chain((0..places_for_rest).map(Some));
    choices
        .filter(|choice| choice.is_none() || instance.rest.is_some())
        .filter_map(|choice| Writer::new(instance, choice).write(trips))
        .min_by_key(|draft| (draft.now, draft.waiting_for_rest))
        .map_or_else(Vec::new, |draft| draft.stops)
}

/// A timetable in the making.
struct Writer<'a> {
    instance: &'a Instance,
    /// Place for the rest, counted along the day.
    rest_at: Option<usize>,
    places_for_rest: usize,
    rested: bool,
    now: i64,
    waiting_for_rest: i64,
    stops: Vec<Stop>,
}

impl<'a> Writer<'a> {
    fn new(instance: &'a Instance, rest_at: Option<usize>) -> Self {
        Writer { instance, rest_at, places_for_rest: 0, rested: false, now: 0, waiting_for_rest: 0, stops: Vec::new() }
    }

    fn write(mut self, trips: &[Vec<u32>]) -> Option<Self> {
        for (index, trip) in trips.iter().enumerate() {
            self.rest_if_chosen()?;
            self.add(StopKind::Load(index), self.instance.loading);
            self.rest_if_chosen()?;
            let mut here = 0;
            for &place in trip {
                self.drive(here, place as usize)?;
                self.work(place as usize)?;
                here = place as usize;
            }
            self.drive(here, 0)?;
            self.rest_if_chosen()?;
            self.add(StopKind::Tip(index), self.instance.tipping);
        }
        let rest_kept = match self.instance.rest {
            Some(rest) => self.rested || (self.rest_at.is_none() && self.now <= rest.latest),
            None => true,
        };
        (rest_kept && self.now <= self.instance.shift).then_some(self)
    }

    fn drive(&mut self, from: usize, to: usize) -> Option<()> {
        let seconds = self.instance.travel(from, to);
        (seconds < NEVER).then(|| self.add(StopKind::Drive(to), seconds))
    }

    fn work(&mut self, place: usize) -> Option<()> {
        let start = self.instance.earliest_start(place, self.now);
        if start >= NEVER {
            return None;
        }
        self.wait_until(start);
        self.add(StopKind::Work(place - 1), self.instance.service[place]);
        self.rest_if_chosen()
    }

    fn rest_if_chosen(&mut self) -> Option<()> {
        let chosen = self.rest_at == Some(self.places_for_rest);
        self.places_for_rest += 1;
        let Some(rest) = self.instance.rest.filter(|_| chosen) else { return Some(()) };
        let begin = self.now.max(rest.earliest);
        if begin > rest.latest {
            return None;
        }
        self.waiting_for_rest = begin - self.now;
        self.wait_until(begin);
        self.add(StopKind::Rest, rest.length);
        self.rested = true;
        Some(())
    }

    fn wait_until(&mut self, time: i64) {
        if time > self.now {
            self.add(StopKind::Wait, time - self.now);
        }
    }

    fn add(&mut self, kind: StopKind, seconds: i64) {
        let from = self.clock();
        self.now += seconds;
        self.stops.push(Stop { kind, from, to: self.clock() });
    }

    fn clock(&self) -> SecondOfDay {
        SecondOfDay(u32::try_from(self.instance.shift_start + self.now).unwrap_or(u32::MAX))
    }
}
