//! One crew, one truck, one day, in the words of a programme.

use model::programme::{
    CrewRound, CrewShift, CrewStop, CrewStopKind, DrivingTimes, Programme, ProgrammeProblem, ProgrammeSite, Supplies,
    Yard,
};
use model::quantity::metres;
use model::round::{RoundProblem, RoundSolution, SecondOfDay, Site, Stop, StopKind};

/// The round's problem as a programme of one shift on the first day; the depot is its only yard.
pub(crate) fn as_programme(problem: &RoundProblem) -> ProgrammeProblem {
    let sites = problem.sites.len();
    let places = sites + 1;
    // Here the depot comes first, there last.
    let from_first = |place: usize| if place == sites { 0 } else { place + 1 };
    let cell = |at: usize| (from_first(at / places), from_first(at % places));
    let seconds = (0..places * places)
        .map(cell)
        .map(|(from, to)| problem.travel_s.get(from).and_then(|row| row.get(to)).copied().unwrap_or(u32::MAX));
    let metres = (0..places * places)
        .map(cell)
        .map(|(from, to)| problem.travel_m.get(from).and_then(|row| row.get(to)).map_or(0.0, |&metres| metres as f32));
    ProgrammeProblem {
        sites: problem.sites.iter().map(site).collect(),
        yards: vec![Yard {
            name: String::new(),
            gives: Supplies { bins: true, tanks: true },
            takes_spoil: true,
            loading_s: problem.loading_s,
            tipping_s: problem.tipping_s,
            open: None,
        }],
        shifts: vec![CrewShift {
            crew: 0,
            day: 0,
            start: 0,
            end: 0,
            from: i64::from(problem.shift_start.0),
            to: i64::from(problem.shift_end.0),
            rest: problem.rest,
            capacity: problem.capacity,
            driving: 0,
            work_class: 0,
            calls: vec![0],
            aboard: None,
            price_per_hour: problem.points_per_hour,
            price_per_km: 0.0,
        }],
        driving: vec![DrivingTimes { among: None, places, seconds: seconds.collect(), metres: metres.collect() }],
    }
}

fn site(site: &Site) -> ProgrammeSite {
    ProgrammeSite {
        service_s: vec![Some(site.service_s)],
        demand: site.demand,
        windows: site.windows.iter().map(|(from, to)| (i64::from(from.0), i64::from(to.0))).collect(),
        waiting: Vec::new(),
        left: site.worth,
        shifts: None,
    }
}

/// A round in the words of a programme, as far as a search begins with it: what is done in what order.
pub(crate) fn round_as_programme(round: &RoundSolution) -> Programme {
    let stop = |stop: &Stop| {
        let kind = match stop.kind {
            StopKind::Load(_) => CrewStopKind::Load(0),
            StopKind::Tip(_) => CrewStopKind::Tip(0),
            StopKind::Work(site) => CrewStopKind::Work(site),
            StopKind::Drive(_) | StopKind::Wait | StopKind::Rest | StopKind::Look(_) => CrewStopKind::Wait,
        };
        CrewStop { kind, from: i64::from(stop.from.0), to: i64::from(stop.to.0) }
    };
    let stops = round.timetable.iter().map(stop).collect();
    let round = CrewRound { shift: 0, stops, driving_s: 0, driving: metres(0.0) };
    Programme { rounds: vec![round], ..Programme::default() }
}

/// The programme's only round in the words of a round.
pub(crate) fn as_round(problem: &RoundProblem, programme: &Programme) -> RoundSolution {
    let mut solution = RoundSolution {
        left_out: programme.left_out.clone(),
        objective: programme.cost.total(),
        ..RoundSolution::default()
    };
    let Some(round) = programme.rounds.first() else { return solution };
    solution.trips = round.trips();
    solution.timetable = timetable(round, problem.sites.len());
    solution.driving_s = u32::try_from(round.driving_s).unwrap_or(u32::MAX);
    let mut here = 0;
    let mut driven = 0.0;
    for stop in &solution.timetable {
        if let StopKind::Drive(to) = stop.kind {
            driven += problem.travel_m.get(here).and_then(|row| row.get(to)).filter(|m| m.is_finite()).unwrap_or(&0.0);
            here = to;
        }
    }
    solution.driving = metres(driven);
    solution
}

fn timetable(round: &CrewRound, sites: usize) -> Vec<Stop> {
    let (mut loads, mut tips) = (0, 0);
    let clock = |second: i64| SecondOfDay(u32::try_from(second).unwrap_or(u32::MAX));
    let count = |counter: &mut usize| {
        *counter += 1;
        *counter - 1
    };
    let stops = round.stops.iter().map(|stop| {
        let kind = match stop.kind {
            CrewStopKind::Load(_) => StopKind::Load(count(&mut loads)),
            CrewStopKind::Tip(_) => StopKind::Tip(count(&mut tips)),
            CrewStopKind::Drive(place) => StopKind::Drive(if place < sites { place + 1 } else { 0 }),
            CrewStopKind::Wait => StopKind::Wait,
            CrewStopKind::Work(site) => StopKind::Work(site),
            CrewStopKind::Rest => StopKind::Rest,
        };
        Stop { kind, from: clock(stop.from), to: clock(stop.to) }
    });
    stops.collect()
}
