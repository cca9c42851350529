//! The day.

use jiff::civil::time;
use model::district::BarredHours;
use model::look::{LookLeft, PlannedLook};
use model::plan::Plan;
use model::quantity::{InTime, metres, minutes, seconds};
use model::road::{RoadClass, RoadSection, SectionId};
use model::road_around::StructureKind;
use model::round::{SecondOfDay, Stop, StopKind, Way};
use uuid::Uuid;

use super::case;
use crate::{Case, Recipe, fixture, make};

pub fn cases() -> Vec<Case> {
    [shift(), trips(), work(), looks(), rest()].concat()
}

fn shift() -> Vec<Case> {
    vec![
        Case {
            sound: || make(&Recipe { zones: vec![], ..Recipe::default() }),
            ..case("timetable.empty", "work on a day without trips", |plan| {
                let noon = SecondOfDay::hm(12, 0);
                plan.round.timetable.push(Stop { kind: StopKind::Work(0), from: noon, to: noon });
            })
        },
        case("timetable.start", "before the shift", |plan| plan.district.shift.start = time(7, 1, 0, 0)),
        case("timetable.end", "after the shift", |plan| plan.district.shift.end = time(14, 0, 0, 0)),
        case("timetable.gap", "a second of nothing", |plan| {
            plan.round.timetable.last_mut().expect("stops").from.0 += 1;
        }),
        case("timetable.backwards", "a stop ends before it begins", |plan| {
            let rest = find(plan, StopKind::Rest);
            let tip = &mut plan.round.timetable[rest - 1];
            tip.to.0 = tip.from.0 - 1;
            plan.round.timetable[rest].from = plan.round.timetable[rest - 1].to;
        }),
    ]
}

fn trips() -> Vec<Case> {
    vec![
        case("timetable.trips", "sites in another order than worked", |plan| plan.round.trips[0].reverse()),
        case("timetable.place", "drives to one site, works at another", |plan| {
            let drive = find(plan, StopKind::Drive(1));
            plan.round.timetable[drive].kind = StopKind::Drive(2);
        }),
        case("timetable.depot", "tips on the road", |plan| {
            let drive = find(plan, StopKind::Drive(1));
            insert(plan, drive + 1, StopKind::Tip(0));
        }),
        case("timetable.depot", "loads on the road", |plan| {
            let drive = find(plan, StopKind::Drive(1));
            insert(plan, drive + 1, StopKind::Load(0));
        }),
        case("timetable.home", "the day ends on the road", |plan| {
            let end = plan.round.timetable.len();
            insert(plan, end, StopKind::Drive(1));
            plan.ways.push(Way::default());
        }),
        case("timetable.ways", "a way that nobody drives", |plan| plan.ways.push(Way::default())),
        case("timetable.drive", "a drive shorter than its way", |plan| plan.ways[1].travel_s += 2),
        case("timetable.drive", "a drive longer than its way", |plan| plan.ways[1].travel_s -= 2),
    ]
}

fn work() -> Vec<Case> {
    vec![
        Case {
            also: &["zone.steps_out"],
            ..case("timetable.work_short", "less time than traffic control and repair take", |plan| {
                plan.sites[0].zone.set_up.value += minutes(1.0);
            })
        },
        case("timetable.daylight", "work on a day without sun", |plan| plan.daylight = None),
        case("timetable.daylight", "work too soon after sunrise", |plan| {
            plan.daylight = Some((SecondOfDay::hm(7, 5), SecondOfDay::hm(16, 21)));
        }),
        case("timetable.daylight", "work too near sunset", |plan| {
            plan.daylight = Some((SecondOfDay::hm(6, 58), SecondOfDay::hm(15, 10)));
        }),
        case("timetable.barred", "work in barred hours", |plan| {
            let class = plan.network.section(plan.sites[0].zone.section).class;
            let hours = BarredHours { classes: vec![class], from: time(8, 0, 0, 0), to: time(8, 30, 0, 0) };
            plan.district.barred_hours.push(hours);
        }),
    ]
}

/// How long a look takes.
const LOOK_S: u32 = 180;

/// The small plan with a look just before the last way home.
pub fn looking() -> Plan {
    let mut plan = fixture::plan();
    let table = &mut plan.round.timetable;
    let home = table.iter().rposition(|stop| stop.kind == StopKind::Drive(0)).expect("a way home");
    let drives = table[..home].iter().filter(|stop| matches!(stop.kind, StopKind::Drive(_))).count();
    let at = table[home].from;
    let after = SecondOfDay(at.0 + LOOK_S);
    for stop in &mut table[home..] {
        (stop.from.0, stop.to.0) = (stop.from.0 + LOOK_S, stop.to.0 + LOOK_S);
    }
    table.insert(home, Stop { kind: StopKind::Look(0), from: at, to: after });
    table.insert(home, Stop { kind: StopKind::Drive(plan.problem.place_of_look(0)), from: at, to: at });
    plan.ways.insert(drives, Way::default());
    let position = plan.sites[0].position;
    plan.looks.push(PlannedLook {
        repair: Uuid::from_u128(1),
        position,
        place: plan.sites[0].place,
        road: "Fennow Road".to_owned(),
        is_due: true,
        chainage_from: String::new(),
        chainage_towards: String::new(),
        opened: None,
        area: None,
        why: model::look::LookReason::AfterOpening { days: 30 },
        stop: seconds(f64::from(LOOK_S)),
        detour_s: 0,
        detour: metres(0.0),
        shoulder_least: metres(0.8),
        default_shoulder_counts: false,
    });
    plan
}

fn looks() -> Vec<Case> {
    let looking_case = |rule, what, spoil: fn(&mut Plan)| Case { sound: looking, ..case(rule, what, spoil) };
    vec![
        looking_case("timetable.look_place", "looks at a repair from elsewhere", |plan| {
            let drive = find(plan, StopKind::Drive(plan.problem.place_of_look(0)));
            plan.round.timetable[drive].kind = StopKind::Drive(1);
        }),
        looking_case("timetable.looks", "a look that nobody makes", |plan| {
            let repair = Uuid::from_u128(2);
            plan.looks.push(PlannedLook { repair, ..plan.looks[0].clone() });
        }),
        Case {
            also: &["timetable.looks"],
            ..looking_case("timetable.look_twice", "two looks at one repair", |plan| {
                let again = plan.looks[0].clone();
                plan.looks.push(again);
            })
        },
        looking_case("timetable.look_left", "a look that is made is told to be left", |plan| {
            let left = LookLeft { repair: plan.looks[0].repair, words: "no time".to_owned() };
            plan.looks_left.push(left);
        }),
        looking_case("timetable.look_short", "less time than the look takes", |plan| {
            plan.looks[0].stop += minutes(1.0);
        }),
        looking_case("timetable.look_daylight", "looks too near sunset", |plan| {
            let look = find(plan, StopKind::Look(0));
            let margin = plan.district.shift.daylight_margin.in_seconds() as u32;
            let sunset = SecondOfDay(plan.round.timetable[look].from.0 + margin);
            plan.daylight = plan.daylight.map(|(sunrise, _)| (sunrise, sunset));
        }),
        looking_case("timetable.look_barred", "looks in barred hours", |plan| {
            let stop = plan.round.timetable[find(plan, StopKind::Look(0))];
            let before = |second: u32| time((second / 3600) as i8, (second / 60 % 60) as i8, 0, 0);
            let class = RoadClass::Track;
            looked_at(plan).class = class;
            let (from, to) = (before(stop.from.0), before(stop.to.0 + 60));
            plan.district.barred_hours.push(BarredHours { classes: vec![class], from, to });
        }),
        looking_case("timetable.look_stop", "stops on a bridge", |plan| {
            looked_at(plan).structure = Some(StructureKind::Bridge);
        }),
        looking_case("timetable.look_stop", "stops on a roundabout", |plan| looked_at(plan).roundabout = true),
        looking_case("timetable.look_stop", "stops on a motorway", |plan| looked_at(plan).class = RoadClass::Motorway),
        looking_case("timetable.look_shoulder", "stops on a shoulder too narrow", |plan| {
            plan.looks[0].shoulder_least = metres(1.2);
        }),
        looking_case("timetable.look_shoulder", "stops where nobody knows the shoulder", |plan| {
            looked_at(plan).defaulted.push("shoulder");
        }),
    ]
}

/// The road of the only look, made a road of its own: no work lies there.
fn looked_at(plan: &mut Plan) -> &mut RoadSection {
    let id = SectionId(u32::try_from(plan.network.sections.len()).expect("few sections"));
    let own = RoadSection { id, ..plan.network.section(plan.looks[0].position.section).clone() };
    plan.network.sections.push(own);
    plan.looks[0].position.section = id;
    plan.network.sections.last_mut().expect("a section")
}

fn rest() -> Vec<Case> {
    vec![
        case("timetable.rest", "no break", |plan| {
            let rest = find(plan, StopKind::Rest);
            plan.round.timetable[rest].kind = StopKind::Wait;
        }),
        case("timetable.rest", "two breaks", |plan| {
            let rest = find(plan, StopKind::Rest);
            insert(plan, rest, StopKind::Rest);
        }),
        case("timetable.rest", "a break too short", |plan| {
            plan.district.shift.rest.as_mut().expect("a break").length += minutes(1.0);
        }),
        case("timetable.rest", "a break too late", |plan| {
            plan.district.shift.rest.as_mut().expect("a break").latest = time(12, 0, 0, 0);
        }),
        case("timetable.rest", "a break too early", |plan| {
            plan.district.shift.rest.as_mut().expect("a break").earliest = time(12, 30, 0, 0);
        }),
    ]
}

fn find(plan: &Plan, kind: StopKind) -> usize {
    plan.round.timetable.iter().position(|stop| stop.kind == kind).expect("such a stop")
}

/// Puts in a stop that takes no time.
fn insert(plan: &mut Plan, index: usize, kind: StopKind) {
    let at = plan.round.timetable[index - 1].to;
    plan.round.timetable.insert(index, Stop { kind, from: at, to: at });
}
