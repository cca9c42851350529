//! The timetable of a round: everything begun as early as it can be, the rest where the day then ends soonest.

use model::programme::{CrewShift, CrewStop, CrewStopKind, DAY_S, ProgrammeProblem};

use crate::translate::{RestOf, latest_rest, rest, service};

/// What a round does between its start and its end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Step {
    /// Work at a site.
    Site(usize),
    /// Call at a yard.
    Call(usize),
}

/// Writes the timetable of a shift, from its start to the last tip.
///
/// Of all places for the rest the one is taken that ends the day soonest, then with the least waiting before it, then the
/// first. `None` if the steps can't be kept in time.
pub(crate) fn write(problem: &ProgrammeProblem, shift: &CrewShift, steps: &[Step]) -> Option<Vec<CrewStop>> {
    let rest = rest(shift);
    let due = matches!(rest, RestOf::Within(_));
    // One place at each site's end and two at each yard, with one more at the start and two at the end.
    let places_for_rest = steps.len() * 2 + 3;
    let choices = std::iter::once(None).chain((0..places_for_rest).filter(|_| due).map(Some));
    choices
        .filter_map(|choice| Writer::new(problem, shift, rest, choice).write(steps))
        .min_by_key(|draft| (draft.now, draft.waiting_for_rest))
        .map(|draft| draft.stops)
}

/// A timetable in the making.
struct Writer<'a> {
    problem: &'a ProgrammeProblem,
    shift: &'a CrewShift,
    rest: RestOf,
    /// Place for the rest, counted along the day.
    rest_at: Option<usize>,
    places_for_rest: usize,
    rested: bool,
    here: usize,
    now: i64,
    waiting_for_rest: i64,
    stops: Vec<CrewStop>,
}

impl<'a> Writer<'a> {
    fn new(problem: &'a ProgrammeProblem, shift: &'a CrewShift, rest: RestOf, rest_at: Option<usize>) -> Self {
        Writer {
            problem,
            shift,
            rest,
            rest_at,
            places_for_rest: 0,
            rested: false,
            here: problem.sites.len() + shift.start,
            now: shift.from,
            waiting_for_rest: 0,
            stops: Vec::new(),
        }
    }

    fn write(mut self, steps: &[Step]) -> Option<Self> {
        self.rest_if_chosen()?;
        if self.shift.aboard.is_none() {
            let seconds = self.problem.yards[self.shift.start].loading_s;
            self.add(CrewStopKind::Load(self.shift.start), i64::from(seconds));
            self.rest_if_chosen()?;
        }
        for &step in steps {
            match step {
                Step::Site(site) => self.work(site)?,
                Step::Call(yard) => self.call(yard)?,
            }
        }
        let end = self.shift.end;
        self.drive(self.problem.sites.len() + end)?;
        self.rest_if_chosen()?;
        if self.problem.yards[end].takes_spoil {
            self.add(CrewStopKind::Tip(end), i64::from(self.problem.yards[end].tipping_s));
        }
        let rest_kept = match self.rest {
            RestOf::None => true,
            RestOf::Within(_) | RestOf::Never => {
                self.rested || (self.rest_at.is_none() && self.now <= latest_rest(self.shift))
            }
        };
        (rest_kept && self.now <= self.shift.to).then_some(self)
    }

    fn drive(&mut self, to: usize) -> Option<()> {
        let seconds = self.problem.driving.get(self.shift.driving)?.seconds(self.here, to)?;
        self.add(CrewStopKind::Drive(to), i64::from(seconds));
        self.here = to;
        Some(())
    }

    fn work(&mut self, site: usize) -> Option<()> {
        self.drive(site)?;
        let it = &self.problem.sites[site];
        let service = service(it, self.shift)?;
        let begin = it.windows.iter().map(|&(open, close)| (self.now.max(open), close));
        let begin = begin.filter(|&(begin, close)| begin + service <= close).map(|(begin, _)| begin).min()?;
        self.wait_until(begin);
        self.add(CrewStopKind::Work(site), service);
        self.rest_if_chosen()
    }

    fn call(&mut self, index: usize) -> Option<()> {
        self.drive(self.problem.sites.len() + index)?;
        let yard = &self.problem.yards[index];
        let midnight = i64::from(self.shift.day) * DAY_S;
        let closes = yard.open.map(|(_, close)| midnight + i64::from(close));
        if closes.is_some_and(|closes| self.now > closes) {
            return None;
        }
        if let Some((open, _)) = yard.open {
            self.wait_until(midnight + i64::from(open));
        }
        if yard.takes_spoil {
            self.add(CrewStopKind::Tip(index), i64::from(yard.tipping_s));
        }
        self.rest_if_chosen()?;
        if yard.gives.bins || yard.gives.tanks {
            // A call begins with the tip; where there is none, the rest may have taken the time to begin.
            if !yard.takes_spoil && closes.is_some_and(|closes| self.now > closes) {
                return None;
            }
            self.add(CrewStopKind::Load(index), i64::from(yard.loading_s));
        }
        self.rest_if_chosen()
    }

    fn rest_if_chosen(&mut self) -> Option<()> {
        let chosen = self.rest_at == Some(self.places_for_rest);
        self.places_for_rest += 1;
        let RestOf::Within(rest) = self.rest else { return Some(()) };
        if !chosen {
            return Some(());
        }
        let begin = self.now.max(rest.begin.open);
        if begin > rest.begin.close {
            return None;
        }
        self.waiting_for_rest = begin - self.now;
        self.wait_until(begin);
        self.add(CrewStopKind::Rest, rest.length);
        self.rested = true;
        Some(())
    }

    fn wait_until(&mut self, time: i64) {
        if time > self.now {
            self.add(CrewStopKind::Wait, time - self.now);
        }
    }

    fn add(&mut self, kind: CrewStopKind, seconds: i64) {
        let from = self.now;
        self.now += seconds;
        self.stops.push(CrewStop { kind, from, to: self.now });
    }
}
