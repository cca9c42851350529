//! The ways to break a programme.

use model::programme::{CrewRound, CrewStop, CrewStopKind, Supplies};
use model::quantity::{Length, cubic_metres, kilograms, litres, metres};
use model::round::{LeftOutReason, SecondOfDay};

use crate::fixture::{Case, DEPOT, STOCKPILE, clock, place};

/// One way to break a sound programme.
pub struct Spoiling {
    /// The rule that is broken, and the only one.
    pub rule: &'static str,
    /// What is done.
    pub what: &'static str,
    /// Does it.
    pub spoil: Change,
}

/// Every case, at least one for each rule.
pub fn all() -> Vec<Spoiling> {
    let lists = [shifts(), sites(), clock_of_a_round(), ways(), work(), yards(), rest(), amounts(), rooms(), price()];
    let rows = lists.into_iter().flatten();
    rows.map(|(rule, what, spoil)| Spoiling { rule, what, spoil }).collect()
}

type Change = fn(&mut Case);
type Row = (&'static str, &'static str, Change);

/// Changes that a sound programme bears.
pub fn at_the_limits() -> Vec<(&'static str, Change)> {
    vec![
        ("nobody goes out and nothing is to do", |case| {
            case.problem.sites.clear();
            case.programme = model::programme::Programme::default();
        }),
        ("the price of a mend on another day", |case| case.problem.sites[3].waiting[0] += 5.0),
        ("a yard that closes while the truck tips: the call has begun", |case| {
            case.problem.yards[STOCKPILE].open = Some((SecondOfDay::hm(8, 30).0, SecondOfDay::hm(8, 30).0));
        }),
        ("a yard that closes while the crew rests between tipping and loading", |case| {
            case.problem.yards[STOCKPILE].open = Some((SecondOfDay::hm(8, 30).0, SecondOfDay::hm(8, 30).0));
            insert(case, 0, 5, CrewStopKind::Rest);
            rest_of(case).earliest = SecondOfDay::hm(8, 35);
            rest_of(case).length_s = 0;
            case.programme.rounds[0].stops[10].kind = CrewStopKind::Wait;
        }),
        ("both sites of the morning from one load, nothing tipped between, in a truck just large enough", |case| {
            kind(case, 0, CrewStopKind::Tip(STOCKPILE), CrewStopKind::Wait);
            kind(case, 0, CrewStopKind::Load(STOCKPILE), CrewStopKind::Wait);
            let truck = &mut case.problem.shifts[0].capacity;
            (truck.cover_volume, truck.binder_volume, truck.water_volume) = (litres(200.0), litres(40.0), litres(40.0));
            // at the second site 1790 kg of supplies and the spoil of both
            truck.payload = kilograms(5280.0);
        }),
        ("a truck that costs twice as much, stated so", |case| {
            case.problem.shifts[1].price_per_km = 2.0;
            case.programme.cost.driving += 20.0;
        }),
        ("a truck with something aboard drives off from a yard that gives", |case| {
            case.problem.yards[2].gives.bins = true;
        }),
        ("a rest of no length", |case| {
            rest_of(case).length_s = 0;
            kind(case, 0, CrewStopKind::Rest, CrewStopKind::Wait);
        }),
        ("the round is over at the latest begin of the rest, which is not taken", |case| {
            rest_of(case).latest = SecondOfDay(clock(11, 45) as u32);
            kind(case, 0, CrewStopKind::Rest, CrewStopKind::Wait);
        }),
        ("the shift begins after the latest rest", |case| {
            case.problem.shifts[1].rest = case.problem.shifts[0].rest;
        }),
        ("the rest at a yard, before tipping", |case| {
            rest_of(case).latest = SecondOfDay::hm(11, 10);
            swap(case, 0, 9, 10);
        }),
        ("more aboard at noon than is needed", |case| aboard(case).supplies.base_volume += litres(100.0)),
        ("a truck just large enough for spoil before base", |case| {
            let truck = &mut case.problem.shifts[2].capacity;
            (truck.base_volume, truck.spoil_volume) = (cubic_metres(0.0), cubic_metres(0.0));
            truck.shared_volume = cubic_metres(2.0);
            truck.payload = kilograms(3490.0);
        }),
    ]
}

fn shifts() -> Vec<Row> {
    vec![
        ("programme.shift_unknown", "a round of no shift", |case| push_round(case, 9, vec![])),
        ("programme.shift_twice", "a shift goes out, and out again", |case| {
            let from = case.problem.shifts[2].from;
            push_round(case, 2, vec![CrewStop { kind: CrewStopKind::Wait, from, to: from }]);
        }),
        ("programme.order", "tomorrow before today", |case| case.programme.rounds.swap(0, 2)),
        ("programme.order", "the second crew before the first", |case| case.programme.rounds.swap(0, 1)),
        ("programme.empty", "a round of nothing", |case| push_round(case, 3, vec![])),
    ]
}

fn sites() -> Vec<Row> {
    vec![
        ("programme.order", "left out twice", |case| {
            case.programme.left_out.push(case.programme.left_out[0]);
            case.programme.cost.left *= 2.0;
        }),
        ("programme.site_unknown", "work at no site", |case| insert(case, 0, 12, CrewStopKind::Work(99))),
        ("programme.site_unknown", "no site left out", |case| {
            case.programme.left_out.push((99, LeftOutReason::LessUrgent));
        }),
        ("programme.site_twice", "a site in two halves", |case| {
            case.problem.sites[0].service_s[0] = Some(1800);
            let work = &mut case.programme.rounds[0].stops[2];
            work.to -= 1800;
            let half = CrewStop { from: work.to, to: work.to + 1800, ..*work };
            case.programme.rounds[0].stops.insert(3, half);
            case.programme.cost.waiting += 10.0;
        }),
        ("programme.fate", "neither worked nor left out", |case| {
            case.programme.left_out.clear();
            case.programme.cost.left = 0.0;
        }),
        ("programme.fate", "worked and left out", |case| {
            case.programme.left_out.insert(0, (3, LeftOutReason::LessUrgent));
            case.programme.cost.left *= 2.0;
        }),
    ]
}

fn clock_of_a_round() -> Vec<Row> {
    vec![
        ("programme.start", "a round begins after its shift", |case| {
            case.problem.shifts[2].from -= 60;
            case.programme.cost.time += 1.0;
        }),
        ("programme.start", "a round begins before its shift", |case| {
            case.problem.shifts[2].from += 60;
            case.programme.cost.time -= 1.0;
        }),
        ("programme.end", "a round is over after its shift", |case| case.problem.shifts[0].to = clock(11, 45) - 1),
        ("programme.gap", "a second of nothing", |case| case.programme.rounds[0].stops[7].to -= 1),
        ("programme.gap", "a second twice", |case| case.programme.rounds[0].stops[7].to += 1),
        ("programme.backwards", "a stop ends before it begins", |case| {
            insert(case, 0, 7, CrewStopKind::Wait);
            case.programme.rounds[0].stops[7].to -= 60;
            case.programme.rounds[0].stops[8].from -= 60;
        }),
        ("programme.begin", "drives off before it loads", |case| {
            insert(case, 2, 0, CrewStopKind::Drive(place(DEPOT)));
        }),
        ("programme.begin", "drives off before it loads at a depot of bins only", |case| {
            insert(case, 2, 0, CrewStopKind::Drive(place(DEPOT)));
            case.problem.yards[DEPOT].gives.tanks = false;
            for site in &mut case.problem.sites {
                (site.demand.binder_volume, site.demand.water_volume) = (litres(0.0), litres(0.0));
            }
        }),
    ]
}

fn ways() -> Vec<Row> {
    vec![
        ("programme.place_unknown", "a drive to nowhere and back", |case| {
            insert(case, 0, 12, CrewStopKind::Drive(place(DEPOT)));
            insert(case, 0, 12, CrewStopKind::Drive(place(3)));
        }),
        ("programme.place", "works where it is not", |case| {
            kind(case, 2, CrewStopKind::Drive(3), CrewStopKind::Drive(4));
        }),
        ("programme.place", "tips where it is not", |case| {
            case.problem.shifts[1].calls.push(STOCKPILE);
            kind(case, 1, CrewStopKind::Tip(DEPOT), CrewStopKind::Tip(STOCKPILE));
        }),
        ("programme.place", "loads where it is not", |case| {
            kind(case, 2, CrewStopKind::Load(DEPOT), CrewStopKind::Load(STOCKPILE));
            case.problem.yards[STOCKPILE].gives.tanks = true;
        }),
        ("programme.no_way", "a way that there is not", |case| *way(case, 1, 2) = u32::MAX),
        ("programme.drive", "a drive shorter than its way", |case| *way(case, 1, 2) += 1),
        ("programme.drive", "a drive longer than its way", |case| *way(case, 1, 2) -= 1),
        ("programme.driving", "seconds that nobody drives", |case| case.programme.rounds[0].driving_s += 1),
        ("programme.driving", "metres that nobody drives", |case| case.programme.rounds[0].driving += metres(1.0)),
        ("programme.home", "the truck belongs elsewhere overnight", |case| case.problem.shifts[0].end = STOCKPILE),
    ]
}

fn work() -> Vec<Row> {
    vec![
        ("programme.barred", "a site of other shifts", |case| case.problem.sites[0].shifts = Some(vec![1, 2])),
        ("programme.class", "a crew without the plant", |case| case.problem.sites[2].service_s[1] = None),
        ("programme.class", "a class that nothing is known of", |case| case.problem.sites[2].service_s.truncate(1)),
        ("programme.service", "a second too short", |case| case.problem.sites[2].service_s[1] = Some(5401)),
        ("programme.service", "a second too long", |case| case.problem.sites[2].service_s[1] = Some(5399)),
        ("programme.window", "begins too early", |case| case.problem.sites[1].windows[0].0 += 1),
        ("programme.window", "ends too late", |case| case.problem.sites[1].windows[0].1 = clock(11, 0) - 1),
        ("programme.window", "half in one window, half in the next", |case| {
            let half = clock(10, 30);
            case.problem.sites[1].windows = vec![(clock(10, 0), half), (half, clock(14, 0))];
        }),
        ("programme.window", "the hours of another day", |case| {
            case.problem.sites[3].windows.pop();
        }),
    ]
}

fn yards() -> Vec<Row> {
    vec![
        ("programme.call", "a yard of others", |case| case.problem.shifts[0].calls = vec![DEPOT]),
        ("programme.open", "before it opens", |case| {
            case.problem.yards[STOCKPILE].open = Some((SecondOfDay::hm(8, 31).0, SecondOfDay::hm(16, 0).0));
        }),
        ("programme.open", "after it has closed", |case| {
            case.problem.yards[STOCKPILE].open = Some((SecondOfDay::hm(7, 0).0, SecondOfDay::hm(8, 29).0));
        }),
        ("programme.open", "hours hold on every day", |case| {
            case.problem.yards[DEPOT].open = Some((SecondOfDay::hm(7, 0).0, SecondOfDay::hm(8, 29).0));
            // the tips of the first day are not looked at
            kind(case, 0, CrewStopKind::Tip(DEPOT), CrewStopKind::Wait);
            kind(case, 1, CrewStopKind::Tip(DEPOT), CrewStopKind::Wait);
            for site in 1..3 {
                case.problem.sites[site].demand.spoil_volume = litres(0.0);
                case.problem.sites[site].demand.spoil_mass = kilograms(0.0);
            }
            aboard(case).spoil_volume = litres(0.0);
            aboard(case).spoil_mass = kilograms(0.0);
        }),
        ("programme.gives", "a yard that has nothing", |case| {
            case.problem.yards[STOCKPILE].gives = Supplies::default();
        }),
        ("programme.takes", "a yard that takes no spoil", |case| case.problem.yards[STOCKPILE].takes_spoil = false),
        ("programme.loading", "loaded too fast", |case| case.problem.yards[STOCKPILE].loading_s += 1),
        ("programme.loading", "loaded too slowly", |case| case.problem.yards[STOCKPILE].loading_s -= 1),
        ("programme.tipping", "tipped too fast", |case| case.problem.yards[STOCKPILE].tipping_s += 1),
        ("programme.tipping", "tipped too slowly", |case| case.problem.yards[STOCKPILE].tipping_s -= 1),
    ]
}

fn rest() -> Vec<Row> {
    vec![
        ("programme.rest", "none", |case| kind(case, 0, CrewStopKind::Rest, CrewStopKind::Wait)),
        ("programme.rest", "none on the second day", |case| {
            case.problem.shifts[2].rest.as_mut().expect("a rest").latest = SecondOfDay::hm(8, 0);
        }),
        ("programme.rest", "two", |case| insert(case, 0, 9, CrewStopKind::Rest)),
        ("programme.rest", "of nobody", |case| case.problem.shifts[0].rest = None),
        ("programme.rest", "too short", |case| rest_of(case).length_s += 1),
        ("programme.rest", "too long", |case| rest_of(case).length_s -= 1),
        ("programme.rest", "too early", |case| rest_of(case).earliest = SecondOfDay(clock(11, 0) as u32 + 1)),
        ("programme.rest", "too late", |case| rest_of(case).latest = SecondOfDay(clock(11, 0) as u32 - 1)),
        ("programme.rest_place", "before the work", |case| {
            rest_of(case).earliest = SecondOfDay::hm(9, 0);
            kind(case, 0, CrewStopKind::Rest, CrewStopKind::Wait);
            insert(case, 0, 8, CrewStopKind::Rest);
            let stops = &mut case.programme.rounds[0].stops;
            stops[7].to -= 1800;
            stops[8].from -= 1800;
        }),
    ]
}

fn amounts() -> Vec<Row> {
    vec![
        ("programme.runs_out", "base", |case| aboard(case).supplies.base_volume -= litres(1.0)),
        ("programme.runs_out", "cover stone", |case| aboard(case).supplies.cover_volume -= litres(1.0)),
        ("programme.runs_out", "binder", |case| aboard(case).supplies.binder_volume -= litres(1.0)),
        ("programme.runs_out", "water", |case| aboard(case).supplies.water_volume -= litres(1.0)),
        ("programme.runs_out", "a depot without bins", |case| case.problem.yards[DEPOT].gives.bins = false),
        ("programme.runs_out", "a depot without tanks", |case| case.problem.yards[DEPOT].gives.tanks = false),
        ("programme.spoil_left", "goes home with spoil", |case| {
            kind(case, 1, CrewStopKind::Tip(DEPOT), CrewStopKind::Wait);
        }),
        ("programme.spoil_left", "goes home with spoil that was aboard at noon", |case| {
            case.problem.sites[2].demand.spoil_volume = litres(0.0);
            case.problem.sites[2].demand.spoil_mass = kilograms(0.0);
            kind(case, 1, CrewStopKind::Tip(DEPOT), CrewStopKind::Wait);
        }),
        ("programme.spoil_left", "goes home with spoil of unknown mass", |case| {
            aboard(case).spoil_mass = kilograms(0.0);
            case.problem.sites[2].demand.spoil_mass = kilograms(0.0);
            kind(case, 1, CrewStopKind::Tip(DEPOT), CrewStopKind::Wait);
        }),
        ("programme.spoil_left", "goes home with spoil of unknown volume", |case| {
            aboard(case).spoil_volume = litres(0.0);
            case.problem.sites[2].demand.spoil_volume = litres(0.0);
            kind(case, 1, CrewStopKind::Tip(DEPOT), CrewStopKind::Wait);
        }),
    ]
}

fn rooms() -> Vec<Row> {
    vec![
        ("programme.body", "too little room for spoil", |case| {
            case.problem.shifts[0].capacity.shared_volume = litres(499.0);
        }),
        ("programme.body", "spoil comes aboard before base goes off", |case| {
            let truck = &mut case.problem.shifts[2].capacity;
            (truck.base_volume, truck.spoil_volume) = (cubic_metres(0.0), cubic_metres(0.0));
            truck.shared_volume = litres(1999.0);
        }),
        ("programme.body", "room for spoil does not serve for base", |case| {
            let truck = &mut case.problem.shifts[2].capacity;
            (truck.base_volume, truck.shared_volume) = (litres(999.0), litres(0.0));
            truck.spoil_volume = cubic_metres(3.0);
        }),
        ("programme.body", "room for base does not serve for spoil", |case| {
            let truck = &mut case.problem.shifts[2].capacity;
            (truck.spoil_volume, truck.shared_volume) = (litres(999.0), litres(0.0));
            truck.base_volume = cubic_metres(3.0);
        }),
        ("programme.body", "spoil aboard at noon fills the truck", |case| {
            aboard(case).spoil_volume = cubic_metres(2.001);
        }),
        ("programme.body", "spoil stays until it is tipped", |case| {
            kind(case, 0, CrewStopKind::Tip(STOCKPILE), CrewStopKind::Wait);
            case.problem.shifts[0].capacity.shared_volume = litres(1499.0);
        }),
        ("programme.room", "cover stone", |case| case.problem.shifts[0].capacity.cover_volume = litres(99.0)),
        ("programme.room", "binder for all up to the next tank", |case| {
            case.problem.shifts[0].capacity.binder_volume = litres(39.0);
        }),
        ("programme.room", "water for all up to the next tank", |case| {
            case.problem.shifts[0].capacity.water_volume = litres(39.0);
        }),
        ("programme.payload", "spoil comes aboard before supplies go off", |case| {
            case.problem.shifts[2].capacity.payload = kilograms(3489.0);
        }),
        ("programme.payload", "what was aboard at noon counts", |case| {
            aboard(case).spoil_mass = kilograms(2511.0);
        }),
    ]
}

fn price() -> Vec<Row> {
    vec![
        ("programme.waiting", "stated too high", |case| case.programme.cost.waiting += 0.001),
        ("programme.waiting", "the price of another day", |case| case.problem.sites[3].waiting.swap(0, 1)),
        ("programme.left", "stated too low", |case| case.programme.cost.left -= 0.001),
        ("programme.left", "stated too high", |case| case.programme.cost.left += 0.001),
        ("programme.time", "stated too low", |case| case.programme.cost.time -= 0.001),
        ("programme.time", "a dearer crew", |case| case.problem.shifts[1].price_per_hour += 1.0),
        ("programme.driving_cost", "stated too low", |case| case.programme.cost.driving -= 0.001),
        ("programme.driving_cost", "a dearer truck", |case| case.problem.shifts[1].price_per_km += 1.0),
    ]
}

fn push_round(case: &mut Case, shift: usize, stops: Vec<CrewStop>) {
    case.programme.rounds.push(CrewRound { shift, stops, driving_s: 0, driving: Length::default() });
}

/// Puts in a stop that takes no time, as that one of the round.
fn insert(case: &mut Case, round: usize, index: usize, kind: CrewStopKind) {
    let stops = &mut case.programme.rounds[round].stops;
    let at = stops.get(index).map_or_else(|| stops[stops.len() - 1].to, |stop| stop.from);
    stops.insert(index, CrewStop { kind, from: at, to: at });
}

/// Does something else in place of that, for as long.
fn kind(case: &mut Case, round: usize, from: CrewStopKind, to: CrewStopKind) {
    let mut stops = case.programme.rounds[round].stops.iter_mut();
    stops.find(|stop| stop.kind == from).expect("such a stop").kind = to;
}

/// Does the second of two neighbouring stops first, each for as long as before.
fn swap(case: &mut Case, round: usize, first: usize, second: usize) {
    let stops = &mut case.programme.rounds[round].stops;
    let (from, to) = (stops[first].from, stops[second].to);
    let between = from + stops[second].to - stops[second].from;
    stops.swap(first, second);
    (stops[first].from, stops[first].to) = (from, between);
    (stops[second].from, stops[second].to) = (between, to);
}

/// Driving from that site to the depot.
fn way(case: &mut Case, driving: usize, site: usize) -> &mut u32 {
    let times = &mut case.problem.driving[driving];
    &mut times.seconds[site * times.places + place(DEPOT)]
}

fn rest_of(case: &mut Case) -> &mut model::round::RestBreak {
    case.problem.shifts[0].rest.as_mut().expect("a rest")
}

fn aboard(case: &mut Case) -> &mut model::programme::Aboard {
    case.problem.shifts[1].aboard.as_mut().expect("something aboard")
}
