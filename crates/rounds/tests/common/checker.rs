//! Checks a round against its problem by the words of the model alone; shares no code with the search.

use model::quantity::{InLength, InMass, InVolume, Mass, Volume};
use model::round::{RoundProblem, RoundSolution, StopKind};

/// Quantities are whole microlitres and milligrams inside the search; a trip of some hundred sites may be off by this
/// (litres, kilograms).
const SLACK: f64 = 1e-3;

/// Fails with what is wrong.
pub fn check(problem: &RoundProblem, solution: &RoundSolution) {
    each_site_once(problem, solution);
    let end = timetable(problem, solution);
    for trip in &solution.trips {
        assert!(!trip.is_empty(), "a trip without sites");
        assert!(trip_fits(problem, trip), "trip {trip:?} overloads the truck");
    }
    driving(problem, solution);
    let hours = f64::from(end - problem.shift_start.0) / 3600.0;
    let worth: f64 = solution.left_out.iter().map(|&(site, _)| finite(problem.sites[site].worth)).sum();
    let objective = worth + finite(problem.points_per_hour) * hours;
    assert!((objective - solution.objective).abs() <= 1e-9 * objective.abs().max(1.0), "{objective}: {solution:?}");
}

/// Whether the truck holds what the trip needs at every moment; at a site the spoil comes on first.
pub fn trip_fits(problem: &RoundProblem, trip: &[usize]) -> bool {
    let truck = &problem.capacity;
    let demand = |site: &usize| &problem.sites[*site].demand;
    let litres = |v: Volume| v.in_litres();
    let kilograms = |m: Mass| m.in_kilograms();
    let sum = |of: &dyn Fn(&usize) -> f64| trip.iter().map(of).sum::<f64>();
    let room = |v: Volume| if litres(v) > 0.0 { litres(v) } else { 0.0 };
    let payload = if kilograms(truck.payload) > 0.0 { kilograms(truck.payload) } else { 0.0 };
    let tanks = [
        (sum(&|s| litres(demand(s).cover_volume)), room(truck.cover_volume)),
        (sum(&|s| litres(demand(s).binder_volume)), room(truck.binder_volume)),
        (sum(&|s| litres(demand(s).water_volume)), room(truck.water_volume)),
    ];
    if tanks.iter().any(|(load, room)| *load > room + SLACK) {
        return false;
    }
    let supply_mass = |s: &usize| {
        let d = demand(s);
        kilograms(d.base_mass) + kilograms(d.cover_mass) + kilograms(d.binder_mass) + litres(d.water_volume)
    };
    let mut base = sum(&|s| litres(demand(s).base_volume));
    let mut mass = sum(&supply_mass);
    let mut spoil = 0.0;
    let holds = |base: f64, spoil: f64, mass: f64| {
        let over = (base - room(truck.base_volume)).max(0.0) + (spoil - room(truck.spoil_volume)).max(0.0);
        over <= room(truck.shared_volume) + SLACK && mass <= payload + SLACK
    };
    let mut all = holds(base, spoil, mass);
    for site in trip {
        spoil += litres(demand(site).spoil_volume);
        mass += kilograms(demand(site).spoil_mass);
        all &= holds(base, spoil, mass);
        base -= litres(demand(site).base_volume);
        mass -= supply_mass(site);
        all &= holds(base, spoil, mass);
    }
    all
}

fn each_site_once(problem: &RoundProblem, solution: &RoundSolution) {
    let done = solution.trips.iter().flatten().copied();
    let mut seen: Vec<usize> = done.chain(solution.left_out.iter().map(|&(site, _)| site)).collect();
    seen.sort_unstable();
    assert_eq!(seen, (0..problem.sites.len()).collect::<Vec<_>>(), "every site exactly once, done or left out");
    assert!(solution.left_out.is_sorted_by_key(|&(site, _)| site));
}

/// Walks the timetable and returns the second at which it ends.
fn timetable(problem: &RoundProblem, solution: &RoundSolution) -> u32 {
    let mut now = problem.shift_start.0;
    let (mut here, mut rests) = (0_usize, 0);
    let mut expected = steps(solution).into_iter();
    for (index, stop) in solution.timetable.iter().enumerate() {
        assert_eq!(stop.from.0, now, "no gap before stop {index}: {stop:?}");
        assert!(stop.to >= stop.from);
        let length = stop.to.0 - stop.from.0;
        now = stop.to.0;
        match stop.kind {
            StopKind::Wait => {
                assert!(length > 0, "an empty wait");
                continue;
            }
            StopKind::Rest => {
                let rest = problem.rest.expect("no rest is asked for");
                assert_eq!(length, rest.length_s);
                assert!((rest.earliest..=rest.latest).contains(&stop.from), "rest at {}", stop.from);
                let ends_work = solution.timetable[..index]
                    .iter()
                    .rev()
                    .find(|s| s.kind != StopKind::Wait)
                    .is_none_or(|s| !matches!(s.kind, StopKind::Drive(place) if place != 0));
                assert!(ends_work, "rest at a site before its work");
                rests += 1;
                continue;
            }
            _ => {}
        }
        assert_eq!(Some(stop.kind), expected.next(), "stop {index}");
        match stop.kind {
            StopKind::Load(_) => assert_eq!((length, here), (problem.loading_s, 0)),
            StopKind::Tip(_) => assert_eq!((length, here), (problem.tipping_s, 0)),
            StopKind::Drive(place) => {
                let seconds = problem.travel_s[here][place];
                assert_ne!(seconds, u32::MAX, "no way from {here} to {place}");
                assert_eq!(length, seconds);
                here = place;
            }
            StopKind::Work(index) => {
                let site = &problem.sites[index];
                assert_eq!((length, here), (site.service_s, index + 1));
                let inside = site.windows.iter().any(|(from, to)| *from <= stop.from && stop.to <= *to);
                assert!(inside, "work at {index} from {} to {} in no window", stop.from, stop.to);
            }
            StopKind::Look(_) => panic!("the search knows no looks"),
            StopKind::Wait | StopKind::Rest => unreachable!(),
        }
    }
    assert_eq!(expected.next(), None, "the timetable stops short");
    assert!(now <= problem.shift_end.0 || solution.trips.is_empty(), "back after the shift's end");
    if let Some(rest) = problem.rest {
        let due = rest.length_s > 0 && problem.shift_start <= rest.latest && now > rest.latest.0;
        assert!(rests == 1 || (rests == 0 && !due), "{rests} rests, due: {due}");
    }
    now
}

/// Load, drive, work ... tip of every trip.
fn steps(solution: &RoundSolution) -> Vec<StopKind> {
    let mut steps = Vec::new();
    for (index, trip) in solution.trips.iter().enumerate() {
        steps.push(StopKind::Load(index));
        for &site in trip {
            steps.extend([StopKind::Drive(site + 1), StopKind::Work(site)]);
        }
        steps.extend([StopKind::Drive(0), StopKind::Tip(index)]);
    }
    steps
}

fn driving(problem: &RoundProblem, solution: &RoundSolution) {
    let (mut seconds, mut metres) = (0, 0.0);
    for trip in &solution.trips {
        let mut here = 0;
        for place in trip.iter().map(|site| site + 1).chain([0]) {
            seconds += problem.travel_s[here][place];
            metres += problem.travel_m[here][place];
            here = place;
        }
    }
    assert_eq!(solution.driving_s, seconds);
    assert!((solution.driving.in_metres() - metres).abs() <= 1e-6 * metres.max(1.0));
}

/// As documented by the search: what is not a positive number counts as zero.
fn finite(points: f64) -> f64 {
    if points > 0.0 { points } else { 0.0 }
}
