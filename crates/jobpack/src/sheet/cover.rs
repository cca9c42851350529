//! The cover sheet: the day at a glance.

use model::district::{BinderKind, Cargo};
use model::figure::{Figure, Spread};
use model::learnt::LearntFactor;
use model::plan::{LoadLine, Plan, TripLoad};
use model::quantity::{Volume, minutes, seconds};
use model::round::{SecondOfDay, StopKind};
use model::work_zone::DeviceKind;
use serde::Serialize;

use super::alerts::{alerts, back_late, second_of_day, shift_end};
use super::lists::{self, EngineerRow, LeftOutList, ProblemList, left_out_summary, overdue_left_out, problems_summary};
use super::looks::{LookRow, looks};
use super::{Fact, fact, loud_fact, site_counts_line, words};
use crate::display::Units;
use crate::drawing::{look_letter, visited};
use crate::learnt_words;
use crate::printable::{printable, shorten};

/// Reasons from the record told at most: the sheet is one page.
const LEARNT_MAX: usize = 3;

#[derive(Debug, Serialize)]
pub struct Cover {
    facts: Vec<Fact>,
    /// What must not be overlooked.
    alerts: Vec<String>,
    /// Said in place of the timetable when there is nothing to do.
    empty: Option<String>,
    timetable: Vec<TimetableRow>,
    trips: Vec<Trip>,
    /// What is loaded or planned otherwise because of the record, and why.
    learnt: Vec<String>,
    /// Looks at earlier repairs on the way.
    looks: Vec<LookRow>,
    devices: Vec<DeviceCount>,
    /// Each sign with the number to take along.
    signs: Vec<String>,
    totals: Vec<Total>,
    /// How likely it is that nothing runs out all day.
    suffices: String,
    /// The day's materials as the crew counts them; empty where the district has no site units.
    by_hand: String,
    cautions: Vec<Caution>,
    left_out_summary: String,
    /// Cuts that are no patch.
    engineer: Vec<EngineerRow>,
    left_out: LeftOutList,
    problems_summary: String,
    problems: ProblemList,
    /// Cautions for the day's materials and plant, in full, for the page behind.
    cautions_in_full: Vec<String>,
}

#[derive(Debug, Serialize)]
struct TimetableRow {
    from: String,
    to: String,
    /// Number of the stop, empty for anything else.
    stop: String,
    /// Letter of the look, empty for anything else.
    look: String,
    what: String,
    detail: String,
    drive: String,
}

#[derive(Debug, Serialize)]
struct Trip {
    title: String,
    /// How likely it is enough, and where there is more.
    enough: String,
    lines: Vec<LoadRow>,
    mass: String,
    mass_share: f64,
}

#[derive(Debug, Serialize)]
struct LoadRow {
    container: String,
    content: String,
    volume: String,
    mass: String,
    room: String,
    /// Filled part of the room, 0 to 1, for the bar.
    share: f64,
    /// Whether it is loaded at the depot, to be ticked.
    loaded: bool,
}

#[derive(Debug, Serialize)]
struct DeviceCount {
    what: String,
    needed: String,
    owned: String,
    /// Empty, or how many are missing.
    short: String,
}

#[derive(Debug, Serialize)]
struct Total {
    what: String,
    value: String,
    p10: String,
    p50: String,
    p90: String,
}

#[derive(Debug, Serialize)]
struct Caution {
    head: String,
    text: String,
}

pub fn cover(plan: &Plan, units: Units) -> Cover {
    Cover {
        facts: facts(plan, units),
        alerts: alerts(plan, units),
        empty: visited(plan).next().is_none().then(|| nothing_to_do(plan, units)),
        timetable: timetable(plan, units),
        trips: plan.loads.iter().enumerate().map(|(index, load)| trip(plan, units, index, load)).collect(),
        learnt: learnt(plan, units),
        looks: looks(plan, units),
        devices: devices(plan, units),
        signs: signs_to_take(plan),
        totals: totals(plan, units),
        suffices: suffices(plan, units),
        by_hand: plan.totals.day.as_ref().map(|day| site_counts_line(units, &day.site_counts)).unwrap_or_default(),
        cautions: cautions(plan.district.binder.kind, units),
        left_out_summary: left_out_summary(plan, units),
        engineer: lists::for_the_engineer(plan, units),
        left_out: lists::left_out(plan, units),
        problems_summary: problems_summary(plan, units),
        problems: lists::problems(plan, units),
        cautions_in_full: cautions_in_full(plan, units),
    }
}

/// The usual cautions of the trade; they defer to local codes and to the people trained and authorised under them. (common practice, no source; the full
/// words of the rule set stand behind the cover.)
fn cautions(binder: BinderKind, units: Units) -> Vec<Caution> {
    let binder = match binder {
        BinderKind::Cutback => ("sheet-caution-cutback", "sheet-caution-cutback-text"),
        BinderKind::Emulsion => ("sheet-caution-emulsion", "sheet-caution-emulsion-text"),
    };
    [
        ("sheet-caution-traffic", "sheet-caution-traffic-text"),
        ("sheet-caution-hot-binder", "sheet-caution-hot-binder-text"),
        binder,
        ("sheet-caution-dust", "sheet-caution-dust-text"),
        ("sheet-caution-services", "sheet-caution-services-text"),
        ("sheet-caution-vibration", "sheet-caution-vibration-text"),
        ("sheet-caution-lifting", "sheet-caution-lifting-text"),
        ("sheet-caution-weather", "sheet-caution-weather-text"),
        ("sheet-caution-drains", "sheet-caution-drains-text"),
    ]
    .map(|(head, text)| Caution { head: units.words.say(head), text: units.words.say(text) })
    .into()
}

/// Each caution of the day's repairs once, in the order it first appears.
fn cautions_in_full(plan: &Plan, units: Units) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for caution in visited(plan).flat_map(|s| &plan.sites[s].jobs).flat_map(|&j| &plan.jobs[j].repair.cautions) {
        if !all.contains(caution) {
            all.push(caution.clone());
        }
    }
    all.iter().map(|caution| units.rule_text(caution)).collect()
}

fn nothing_to_do(plan: &Plan, units: Units) -> String {
    match plan.holes.len() {
        0 => units.words.say("sheet-nothing-no-hole"),
        count => units.words.say_with("sheet-nothing-none-fits", [("count", count.into())]),
    }
}

fn facts(plan: &Plan, units: Units) -> Vec<Fact> {
    let timetable = &plan.round.timetable;
    let sites: Vec<usize> = visited(plan).collect();
    let holes: usize = sites.iter().flat_map(|&s| &plan.sites[s].jobs).map(|&j| plan.jobs[j].holes.len()).sum();
    let cuts: usize = sites.iter().map(|&s| plan.sites[s].jobs.len()).sum();
    let leave = timetable.iter().find(|s| matches!(s.kind, StopKind::Drive(_))).map(|s| s.from);
    let back = timetable.last().filter(|_| !sites.is_empty()).map(|s| s.to);
    let tipped = timetable.last().is_some_and(|s| matches!(s.kind, StopKind::Tip(_)));
    let clock = |time: Option<SecondOfDay>| time.map_or_else(|| "–".into(), |t| t.to_string());
    let sun =
        plan.daylight.map_or_else(|| units.words.say("sheet-no-daylight"), |(rise, set)| format!("{rise} – {set}"));
    let driving = units.duration(seconds(f64::from(plan.round.driving_s)));
    let overdue = overdue_left_out(plan);
    vec![
        fact(units, "sheet-fact-stops", sites.len().to_string()),
        fact(
            units,
            "sheet-fact-holes",
            if cuts == holes {
                holes.to_string()
            } else {
                units.words.say_with("sheet-holes-in-cuts", [("holes", holes.into()), ("cuts", cuts.into())])
            },
        ),
        fact(
            units,
            if plan.problem.start == 0 { "sheet-fact-leave-depot" } else { "sheet-fact-go-on-at" },
            clock(leave),
        ),
        fact(units, if tipped { "sheet-fact-back-tipped" } else { "sheet-fact-back" }, clock(back)),
        loud_fact(units, "sheet-fact-back-by", clock(plan.back_p90), back_late(plan).is_some()),
        fact(units, "sheet-fact-shift", format!("{} – {}", second_of_day(plan.district.shift.start), shift_end(plan))),
        fact(units, "sheet-fact-sun", sun),
        fact(units, "sheet-fact-driving", units.list(&[units.drive(plan.round.driving), driving])),
        fact(units, "sheet-fact-crew", units.counted("sheet-people", plan.district.crew.people as usize)),
        fact(units, "sheet-fact-truck", shorten(&plan.district.truck.name, 40)),
        fact(units, "sheet-fact-plant", if sites.is_empty() { "–".into() } else { words::plant(plan, units) }),
        if plan.of_work_plan {
            fact(units, "sheet-fact-part-of", units.words.say("sheet-part-of-work-plan"))
        } else {
            loud_fact(units, "sheet-fact-left-out-overdue", units.counted("sheet-holes", overdue), overdue > 0)
        },
    ]
}

fn timetable(plan: &Plan, units: Units) -> Vec<TimetableRow> {
    let mut rows: Vec<TimetableRow> = Vec::new();
    let mut drives = plan.ways.iter();
    let mut drive = String::new();
    let mut stop_number = 0;
    for stop in &plan.round.timetable {
        let minutes = units.duration(seconds(f64::from(stop.to.0.saturating_sub(stop.from.0))));
        let mut row = TimetableRow {
            from: stop.from.to_string(),
            to: stop.to.to_string(),
            stop: String::new(),
            look: String::new(),
            what: String::new(),
            detail: String::new(),
            drive: String::new(),
        };
        match stop.kind {
            StopKind::Drive(place) => {
                let distance = drives.next().map(|w| units.drive(w.distance));
                let words = distance.map_or_else(|| minutes.clone(), |d| units.list(&[minutes.clone(), d]));
                if plan.problem.site_at(place).is_some() || plan.problem.look_at(place).is_some() {
                    // The drive to a site or look stands in its own line.
                    drive = words;
                    continue;
                }
                row.what = match plan.problem.yard_at(place) {
                    Some(yard) => units.words.say_with("sheet-to-yard", [("yard", printable(yard).as_ref().into())]),
                    None => units.words.say("sheet-back-to-depot"),
                };
                row.drive = words;
            }
            StopKind::Work(site) => {
                stop_number += 1;
                let Some(planned) = plan.sites.get(site) else { continue };
                row.stop = stop_number.to_string();
                row.what = shorten(&plan.network.section(planned.zone.section).label(), 52);
                row.detail = units.counted("sheet-holes", planned.zone.holes.len());
                row.drive = std::mem::take(&mut drive);
            }
            StopKind::Load(trip) => {
                row.what = units.words.say_with("sheet-load-for-trip", [("trip", (trip + 1).into())]);
            }
            StopKind::Wait => row.what = units.words.say("sheet-wait"),
            StopKind::Rest => row.what = units.words.say("sheet-break"),
            StopKind::Tip(_) => row.what = units.words.say("sheet-tip-spoil"),
            StopKind::Look(look) => {
                let Some(planned) = plan.looks.get(look) else { continue };
                let road = shorten(&planned.road, 40);
                row.look = look_letter(look);
                row.what = units.words.say_with("sheet-look-at", [("road", road.into())]);
                row.detail = units.words.say_with("sheet-from-the-shoulder", [("minutes", minutes.into())]);
                row.drive = std::mem::take(&mut drive);
            }
        }
        rows.push(row);
    }
    rows
}

fn trip(plan: &Plan, units: Units, index: usize, load: &TripLoad) -> Trip {
    let stops = plan.round.trips.get(index).map_or(0, Vec::len);
    let before: usize = plan.round.trips.iter().take(index).map(Vec::len).sum();
    let mut lines: Vec<LoadRow> = load
        .lines
        .iter()
        .map(|line| {
            let room = room_format(plan, &line.container, units);
            LoadRow {
                container: shorten(&line.container, 30),
                content: content(units, line),
                volume: room(line.volume),
                mass: units.mass(line.mass),
                room: room(line.room),
                share: share(line.volume.value, line.room.value),
                loaded: is_loaded(plan, index),
            }
        })
        .collect();
    lines.push(spoil_row(plan, units, load));
    Trip {
        title: trip_title(units, is_loaded(plan, index).then_some(index + 1), before + 1, stops),
        enough: enough(units, load),
        lines,
        mass: match units.mass(load.mass_max) {
            mass if is_loaded(plan, index) => {
                let payload = units.mass(plan.district.truck.payload);
                units.words.say_with("sheet-mass-of", [("mass", mass.into()), ("payload", payload.into())])
            }
            mass => units.words.say_with("sheet-mass-and-more", [("mass", mass.into())]),
        },
        mass_share: share(load.mass_max.value, plan.district.truck.payload.value),
    }
}

/// The greatest differences in words, as many as there is room for.
fn learnt(plan: &Plan, units: Units) -> Vec<String> {
    let mut told: Vec<&LearntFactor> = plan.learnt.factors.iter().filter(|learnt| learnt.is_told).collect();
    told.sort_by(|a, b| b.factor.ln().abs().total_cmp(&a.factor.ln().abs()));
    let more = told.len().saturating_sub(LEARNT_MAX);
    let mut lines: Vec<String> =
        told.iter().take(LEARNT_MAX).map(|learnt| sentence(&learnt_words(learnt, units.words))).collect();
    if more > 0 {
        lines.push(units.counted("sheet-learnt-more", more));
    }
    lines
}

/// With a capital and a full stop.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(|first| first.to_uppercase().to_string()).unwrap_or_default();
    format!("{first}{}.", shorten(letters.as_str(), 260))
}

/// Whether the trip begins with a load; the first of the rest of a day begins with what is on the truck.
fn is_loaded(plan: &Plan, trip: usize) -> bool {
    plan.round.timetable.iter().any(|stop| stop.kind == StopKind::Load(trip))
}

/// `enough: base 96 %, ...; more at Tern Yard, 12 min`, from the site that is furthest from there.
fn enough(units: Units, load: &TripLoad) -> String {
    let chances = load.suffices_by_material.map(|chance| units.percent(chance));
    let enough = if chances.iter().all(|chance| *chance == chances[0]) {
        units.words.say_with("sheet-enough-of-each", [("chance", (&chances[0]).into())])
    } else {
        let [base, water, binder, stone] = &chances;
        let values =
            [("base", base.into()), ("water", water.into()), ("binder", binder.into()), ("stone", stone.into())];
        units.words.say_with("sheet-enough", values)
    };
    let mut places: Vec<String> = Vec::new();
    for near in &load.nearest {
        let time = units.duration(minutes(f64::from(near.travel_s.div_ceil(60))));
        let place = units.list(&[shorten(&near.place, 18), time]);
        if !places.contains(&place) {
            places.push(place);
        }
    }
    if places.is_empty() {
        return enough;
    }
    let either =
        |a: String, b: String| units.words.say_with("sheet-either", [("first", a.into()), ("second", b.into())]);
    let places = places.into_iter().reduce(either).unwrap_or_default();
    units.words.say_with("sheet-enough-and-more-at", [("enough", enough.into()), ("places", places.into())])
}

/// `Trip 2: stops 4 to 6`; the first of the rest of a day begins with what is on the truck.
fn trip_title(units: Units, trip: Option<usize>, first: usize, stops: usize) -> String {
    let last = (first + stops).saturating_sub(1);
    let range = [("count", stops.into()), ("first", first.into()), ("last", last.into())];
    match (trip, stops) {
        (Some(trip), 0) => units.words.say_with("sheet-trip-empty", [("trip", trip.into())]),
        (Some(trip), _) => {
            let [count, first, last] = range;
            units.words.say_with("sheet-trip", [("trip", trip.into()), count, first, last])
        }
        (None, 0) => units.words.say("sheet-on-truck-empty"),
        (None, _) => units.words.say_with("sheet-on-truck", range),
    }
}

fn suffices(plan: &Plan, units: Units) -> String {
    let said = |chance| units.words.say_with("sheet-suffices", [("chance", units.percent(chance).into())]);
    plan.suffices.map(said).unwrap_or_default()
}

/// `cover stone: 4 buckets`.
fn content(units: Units, line: &LoadLine) -> String {
    let content = shorten(&units.rule_text(&line.content), 64);
    match &line.site_count {
        Some(count) => format!("{content}: {}", shorten(&super::count_words(units, count), 40)),
        None => content,
    }
}

/// The spoil that comes back, and the fullest the bins for it get while base is still aboard.
fn spoil_row(plan: &Plan, units: Units, load: &TripLoad) -> LoadRow {
    let bins = || {
        let takes = |cargo: &[Cargo]| cargo.iter().any(|c| matches!(c, Cargo::Base | Cargo::Spoil));
        plan.district.truck.compartments.iter().filter(move |c| takes(&c.holds))
    };
    let names: Vec<&str> = bins().map(|c| c.name.as_str()).collect();
    let room: Volume = bins().map(|c| c.volume).sum();
    LoadRow {
        container: shorten(&names.join(" + "), 30),
        content: units.words.say_with(
            "sheet-spoil-back",
            [
                ("volume", units.solid(load.total.spoil_volume).into()),
                ("mass", units.mass(load.total.spoil_mass).into()),
            ],
        ),
        volume: units.solid(load.body_volume_max),
        mass: String::new(),
        room: units.solid(room),
        share: share(load.body_volume_max.value, room.value),
        loaded: false,
    }
}

/// Tanks are read in litres or gallons, bins in cubic metres or feet.
fn room_format(plan: &Plan, container: &str, units: Units) -> impl Fn(Volume) -> String {
    let tank = plan.district.truck.tanks.iter().any(|t| t.name == container);
    move |volume| if tank { units.liquid(volume) } else { units.solid(volume) }
}

fn share(part: f64, whole: f64) -> f64 {
    let share = part / whole;
    if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.0 }
}

fn devices(plan: &Plan, units: Units) -> Vec<DeviceCount> {
    let row = |what: &str, needed: u32, owned: u32| DeviceCount {
        what: units.words.say(what),
        needed: needed.to_string(),
        owned: owned.to_string(),
        short: if needed > owned {
            units.words.say_with("sheet-short", [("count", (needed - owned).into())])
        } else {
            String::new()
        },
    };
    let flaggers = visited(plan).map(|s| plan.sites[s].zone.flaggers.value).max().unwrap_or(0);
    vec![
        row("sheet-signs", at_once(plan, DeviceKind::Sign), plan.district.devices_owned.signs),
        row("sheet-cones", at_once(plan, DeviceKind::Cone), plan.district.devices_owned.cones),
        row("sheet-flaggers", flaggers, plan.district.crew.people),
    ]
}

/// The most of a kind that stands at one time.
fn at_once(plan: &Plan, kind: DeviceKind) -> u32 {
    let needs = plan.devices_at_once.iter().filter(|need| need.kind == kind && need.legend.is_empty());
    needs.map(|need| need.most).max().unwrap_or(0)
}

/// Each sign with the number to take along: what stands of it at one time.
fn signs_to_take(plan: &Plan) -> Vec<String> {
    plan.devices_at_once
        .iter()
        .filter(|need| need.kind == DeviceKind::Sign && !need.legend.is_empty())
        .map(|need| {
            let words = format!("{} {}", need.designation, need.legend);
            format!("{} × {}", need.most, shorten(words.trim(), 60))
        })
        .collect()
}

fn totals(plan: &Plan, units: Units) -> Vec<Total> {
    let Some(day) = &plan.totals.day else { return Vec::new() };
    vec![
        total(units, "sheet-total-base", &day.base_volume, |v| units.solid(v)),
        total(units, "sheet-total-base-stock", &day.base_mass, |m| units.mass(m)),
        total(units, "sheet-total-water", &day.water_volume, |v| units.liquid(v)),
        total(units, "sheet-total-binder", &day.binder_volume, |v| units.liquid(v)),
        total(units, "sheet-total-stone", &day.cover_mass, |m| units.mass(m)),
        total(units, "sheet-total-spoil", &day.spoil_volume, |v| units.solid(v)),
        total(units, "sheet-total-work", &day.duration, |t| units.duration(t)),
    ]
}

fn total<Q: Copy>(units: Units, what: &str, figure: &Figure<Q>, show: impl Fn(Q) -> String) -> Total {
    let at = |pick: fn(&Spread<Q>) -> Q| show(figure.spread.as_ref().map_or(figure.value, pick));
    let what = units.words.say(what);
    Total { what, value: show(figure.value), p10: at(|s| s.p10), p50: at(|s| s.p50), p90: at(|s| s.p90) }
}
