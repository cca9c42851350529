//! A programme made by hand: an invented district with a depot, a stockpile and a truck that stands at the roadside at noon;
//! two crews, two days, five sites. All ways but those of a truck to itself take as long; figures are plausible, not computed.

use model::programme::{
    Aboard, CrewRound, CrewShift, CrewStop, CrewStopKind, DAY_S, DrivingTimes, Programme, ProgrammeCost,
    ProgrammeProblem, ProgrammeSite, Supplies, Yard,
};
use model::quantity::{cubic_metres, kilograms, kilometres, litres};
use model::round::{Capacity, Demand, LeftOutReason, RestBreak, SecondOfDay};

pub const SITES: usize = 5;
/// Yards.
pub const DEPOT: usize = 0;
pub const STOCKPILE: usize = 1;
const ROADSIDE: usize = 2;
const PLACES: usize = SITES + 3;

/// A problem with a programme that keeps all rules.
#[derive(Debug, Clone)]
pub struct Case {
    pub problem: ProgrammeProblem,
    pub programme: Programme,
}

/// Seconds on the first day.
pub fn clock(hour: u32, minute: u32) -> i64 {
    i64::from(SecondOfDay::hm(hour, minute).0)
}

pub fn place(yard: usize) -> usize {
    SITES + yard
}

pub fn sound() -> Case {
    Case { problem: problem(), programme: programme() }
}

fn problem() -> ProgrammeProblem {
    let all = Supplies { bins: true, tanks: true };
    let yard = |name: &str, gives, takes_spoil| Yard {
        name: name.into(),
        gives,
        takes_spoil,
        loading_s: 600,
        tipping_s: 300,
        open: None,
    };
    let mut stockpile = yard("Quarry Lane", Supplies { bins: true, tanks: false }, true);
    stockpile.open = Some((SecondOfDay::hm(7, 0).0, SecondOfDay::hm(16, 0).0));
    ProgrammeProblem {
        sites: (0..SITES).map(site).collect(),
        yards: vec![yard("Depot", all, true), stockpile, yard("roadside", Supplies::default(), false)],
        shifts: vec![shift(0, 0), afternoon(), shift(0, 1), shift(1, 1)],
        driving: vec![driving(600), driving(900)],
    }
}

fn site(index: usize) -> ProgrammeSite {
    let mut windows = vec![(clock(6, 0), clock(18, 0)), (DAY_S + clock(6, 0), DAY_S + clock(18, 0))];
    if index == 1 {
        windows[0] = (clock(10, 0), clock(14, 0));
    }
    let waiting = 10.0 * (index as f64 + 1.0);
    ProgrammeSite {
        service_s: vec![Some(3600), Some(5400)],
        demand: demand(),
        windows,
        waiting: vec![waiting, 2.0 * waiting],
        left: 300.0,
        shifts: None,
    }
}

fn demand() -> Demand {
    Demand {
        base_volume: cubic_metres(1.0),
        base_mass: kilograms(1600.0),
        cover_volume: litres(100.0),
        cover_mass: kilograms(150.0),
        binder_volume: litres(20.0),
        binder_mass: kilograms(20.0),
        water_volume: litres(20.0),
        spoil_volume: cubic_metres(1.0),
        spoil_mass: kilograms(1700.0),
    }
}

fn shift(crew: usize, day: u32) -> CrewShift {
    let at = |hour| i64::from(day) * DAY_S + clock(hour, 0);
    let rest = RestBreak { earliest: SecondOfDay::hm(10, 30), latest: SecondOfDay::hm(11, 30), length_s: 1800 };
    CrewShift {
        crew,
        day,
        start: DEPOT,
        end: DEPOT,
        from: at(7),
        to: at(15),
        rest: Some(rest),
        capacity: Capacity {
            base_volume: cubic_metres(1.0),
            spoil_volume: cubic_metres(0.5),
            shared_volume: cubic_metres(1.5),
            cover_volume: litres(300.0),
            binder_volume: litres(100.0),
            water_volume: litres(100.0),
            payload: kilograms(6000.0),
        },
        driving: 0,
        work_class: 0,
        calls: vec![DEPOT, STOCKPILE],
        aboard: None,
        price_per_hour: 60.0,
        price_per_km: 1.0,
    }
}

/// What is left of the second crew's first day at noon; it has had its break, and may call nowhere but at home.
fn afternoon() -> CrewShift {
    let aboard = Aboard { supplies: demand(), spoil_volume: cubic_metres(0.2), spoil_mass: kilograms(340.0) };
    CrewShift {
        start: ROADSIDE,
        from: clock(12, 0),
        rest: None,
        driving: 1,
        work_class: 1,
        calls: vec![],
        aboard: Some(aboard),
        ..shift(1, 0)
    }
}

fn driving(seconds: u32) -> DrivingTimes {
    let ways = |from: usize| (0..PLACES).map(move |to| from != to);
    let all: Vec<bool> = (0..PLACES).flat_map(ways).collect();
    DrivingTimes {
        among: None,
        places: PLACES,
        seconds: all.iter().map(|&way| if way { seconds } else { 0 }).collect(),
        metres: all.iter().map(|&way| if way { 10_000.0 } else { 0.0 }).collect(),
    }
}

fn programme() -> Programme {
    use CrewStopKind::{Drive, Load, Rest, Tip, Wait, Work};
    let morning = [
        (Load(DEPOT), 600),
        (Drive(0), 600),
        (Work(0), 3600),
        (Drive(place(STOCKPILE)), 600),
        (Tip(STOCKPILE), 300),
        (Load(STOCKPILE), 600),
        (Drive(1), 600),
        (Wait, 3900),
        (Work(1), 3600),
        (Rest, 1800),
        (Drive(place(DEPOT)), 600),
        (Tip(DEPOT), 300),
    ];
    let afternoon = [(Drive(2), 900), (Work(2), 5400), (Drive(place(DEPOT)), 900), (Tip(DEPOT), 300)];
    let next_day =
        [(Load(DEPOT), 600), (Drive(3), 600), (Work(3), 3600), (Drive(place(DEPOT)), 600), (Tip(DEPOT), 300)];
    Programme {
        rounds: vec![
            round(0, clock(7, 0), &morning),
            round(1, clock(12, 0), &afternoon),
            round(2, DAY_S + clock(7, 0), &next_day),
        ],
        left_out: vec![(4, LeftOutReason::LessUrgent)],
        // sites 0, 1 and 2 on the first day, 3 on the second; 4 h 45 min, 2 h 5 min and 1 h 35 min; 80 km
        cost: ProgrammeCost { waiting: 10.0 + 20.0 + 30.0 + 80.0, left: 300.0, time: 505.0, driving: 80.0 },
    }
}

fn round(shift: usize, from: i64, stops: &[(CrewStopKind, i64)]) -> CrewRound {
    let mut now = from;
    let stops: Vec<CrewStop> = stops
        .iter()
        .map(|&(kind, seconds)| {
            let from = now;
            now += seconds;
            CrewStop { kind, from, to: now }
        })
        .collect();
    let drives = stops.iter().filter(|stop| matches!(stop.kind, CrewStopKind::Drive(_)));
    let (driving_s, number) = drives.fold((0, 0.0), |(sum, number), stop| (sum + stop.to - stop.from, number + 1.0));
    CrewRound { shift, stops, driving_s, driving: kilometres(10.0 * number) }
}
