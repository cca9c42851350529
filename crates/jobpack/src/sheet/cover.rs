//! The cover sheet: the day at a glance.

use model::district::{BinderKind, Cargo};
use model::figure::{Figure, Spread};
use model::learnt::LearntFactor;
use model::plan::{LoadLine, Plan, TripLoad};
use model::quantity::{Volume, seconds};
use model::round::{SecondOfDay, StopKind};
use model::work_zone::DeviceKind;
use serde::Serialize;

use super::alerts::{alerts, back_late, second_of_day, shift_end};
use super::lists::{self, EngineerRow, LeftOutList, ProblemList, left_out_summary, overdue_left_out, problems_summary};
use super::{Fact, counted, fact, loud_fact, site_counts_line, words};
use crate::display::{Units, duration};
use crate::drawing::visited;
use crate::printable::shorten;

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
    /// Whether there are looks on the way.
    looks: bool,
    devices: Vec<DeviceCount>,
    /// Each sign with the number to take along.
    signs: Vec<String>,
    totals: Vec<Total>,
    /// Chance that nothing runs out all day.
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
    what: &'static str,
    needed: String,
    owned: String,
    /// Empty, or how many are missing.
    short: String,
}

#[derive(Debug, Serialize)]
struct Total {
    what: &'static str,
    value: String,
    p10: String,
    p50: String,
    p90: String,
}

#[derive(Debug, Serialize)]
struct Caution {
    head: &'static str,
    text: &'static str,
}

pub fn cover(plan: &Plan, units: Units) -> Cover {
    Cover {
        facts: facts(plan, units),
        alerts: alerts(plan, units),
        empty: visited(plan).next().is_none().then(|| nothing_to_do(plan)),
        timetable: timetable(plan, units),
        trips: plan.loads.iter().enumerate().map(|(index, load)| trip(plan, units, index, load)).collect(),
        learnt: learnt(plan),
        looks: !plan.looks.is_empty(),
        devices: devices(plan),
        signs: signs_to_take(plan),
        totals: totals(plan, units),
        suffices: plan.suffices.map(percent).unwrap_or_default(),
        by_hand: plan.totals.day.as_ref().map(|day| site_counts_line(&day.site_counts)).unwrap_or_default(),
        cautions: cautions(plan.district.binder.kind),
        left_out_summary: left_out_summary(plan),
        engineer: lists::for_the_engineer(plan, units),
        left_out: lists::left_out(plan),
        problems_summary: problems_summary(plan),
        problems: lists::problems(plan),
        cautions_in_full: cautions_in_full(plan),
    }
}

/// The usual cautions of the trade; they defer to local codes and to the people trained and authorised under them. (common practice, no source; the full
/// words of the rule set stand behind the cover.)
fn cautions(binder: BinderKind) -> Vec<Caution> {
    let binder = match binder {
        BinderKind::Cutback => Caution {
            head: "Vapour and fire",
            text: "cutback gives off solvent: no flame, no smoking, no pumping near ignition; extinguisher at hand",
        },
        BinderKind::Emulsion => Caution {
            head: "Emulsion",
            text: "don't boil it, don't let it freeze, never into a tank with another binder; eyes and skin covered",
        },
    };
    vec![
        Caution {
            head: "Live traffic",
            text: "never work outside the closed space; high-visibility clothing; a way out; stop if a device is missing",
        },
        Caution {
            head: "Hot binder",
            text: "burns: gloves, face shield, long sleeves; burnt skin under cool water, see a doctor, don't pull binder off",
        },
        binder,
        Caution { head: "Silica dust", text: "cut wet or with a dust mask that is made for it" },
        Caution { head: "Buried services", text: "ask and mark before digging; if in doubt, stop" },
        Caution { head: "Vibration, noise", text: "take turns at roller, plate and breaker; hearing protection" },
        Caution { head: "Lifting", text: "two people or a machine for anything heavy; keep the back straight" },
        Caution { head: "Heat and cold", text: "water, shade, breaks; watch each other" },
        Caution { head: "Drains and water", text: "cover inlets; no binder, spoil or wash water into drains" },
    ]
}

/// Each caution of the day's repairs once, in the order it first appears.
fn cautions_in_full(plan: &Plan) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for caution in visited(plan).flat_map(|s| &plan.sites[s].jobs).flat_map(|&j| &plan.jobs[j].repair.cautions) {
        if !all.contains(caution) {
            all.push(caution.clone());
        }
    }
    all
}

fn nothing_to_do(plan: &Plan) -> String {
    if plan.holes.is_empty() {
        "Nothing to do today: no usable hole was reported.".into()
    } else {
        format!(
            "Nothing to do today: none of the {} could be put into this day's round.",
            counted(plan.holes.len(), "reported hole", "reported holes")
        )
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
    let sun = plan.daylight.map_or_else(|| "no daylight".into(), |(rise, set)| format!("{rise} – {set}"));
    let driving = duration(seconds(f64::from(plan.round.driving_s)));
    let overdue = overdue_left_out(plan);
    vec![
        fact("stops", sites.len().to_string()),
        fact(
            "holes",
            if cuts == holes { holes.to_string() } else { format!("{holes} in {}", counted(cuts, "cut", "cuts")) },
        ),
        fact(if plan.problem.start == 0 { "leave depot" } else { "go on at" }, clock(leave)),
        fact(if tipped { "back, spoil tipped" } else { "back" }, clock(back)),
        loud_fact("nine days in ten back by", clock(plan.back_p90), back_late(plan).is_some()),
        fact("shift", format!("{} – {}", second_of_day(plan.district.shift.start), shift_end(plan))),
        fact("sunrise, sunset", sun),
        fact("driving", format!("{}, {driving}", units.drive(plan.round.driving))),
        fact("crew", counted(plan.district.crew.people as usize, "person", "people")),
        fact("truck", shorten(&plan.district.truck.name, 40)),
        fact("plant needed", if sites.is_empty() { "–".into() } else { words::plant(plan) }),
        if plan.of_work_plan {
            fact("part of", "a work plan")
        } else {
            loud_fact("left out though overdue", counted(overdue, "hole", "holes"), overdue > 0)
        },
    ]
}

fn timetable(plan: &Plan, units: Units) -> Vec<TimetableRow> {
    let mut rows: Vec<TimetableRow> = Vec::new();
    let mut drives = plan.ways.iter();
    let mut drive = String::new();
    let mut stop_number = 0;
    for stop in &plan.round.timetable {
        let minutes = duration(seconds(f64::from(stop.to.0.saturating_sub(stop.from.0))));
        let mut row = TimetableRow {
            from: stop.from.to_string(),
            to: stop.to.to_string(),
            stop: String::new(),
            what: String::new(),
            detail: String::new(),
            drive: String::new(),
        };
        match stop.kind {
            StopKind::Drive(place) => {
                let distance = drives.next().map(|w| units.drive(w.distance));
                let words = distance.map_or_else(|| minutes.clone(), |d| format!("{minutes}, {d}"));
                if plan.problem.site_at(place).is_some() || plan.problem.look_at(place).is_some() {
                    // The drive to a site or look stands in its own line.
                    drive = words;
                    continue;
                }
                row.what = match plan.problem.yard_at(place) {
                    Some(yard) => format!("to {yard}"),
                    None => "back to the depot".into(),
                };
                row.drive = words;
            }
            StopKind::Work(site) => {
                stop_number += 1;
                let Some(planned) = plan.sites.get(site) else { continue };
                row.stop = stop_number.to_string();
                row.what = shorten(&plan.network.section(planned.zone.section).label(), 52);
                row.detail = counted(planned.zone.holes.len(), "hole", "holes");
                row.drive = std::mem::take(&mut drive);
            }
            StopKind::Load(trip) => row.what = format!("load for trip {}", trip + 1),
            StopKind::Wait => row.what = "wait".into(),
            StopKind::Rest => row.what = "break".into(),
            StopKind::Tip(_) => row.what = "tip the spoil".into(),
            StopKind::Look(look) => {
                let Some(planned) = plan.looks.get(look) else { continue };
                row.what = format!("look at the repair on {}", shorten(&planned.road, 34));
                row.detail = format!("from the shoulder, {minutes}");
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
    let range = match stops {
        0 => String::new(),
        1 => format!(": stop {}", before + 1),
        _ => format!(": stops {} to {}", before + 1, before + stops),
    };
    let mut lines: Vec<LoadRow> = load
        .lines
        .iter()
        .map(|line| {
            let room = room_format(plan, &line.container, units);
            LoadRow {
                container: shorten(&line.container, 30),
                content: content(line),
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
        title: if is_loaded(plan, index) {
            format!("Trip {}{range}", index + 1)
        } else {
            format!("Needed on the truck{range}")
        },
        enough: enough(load),
        lines,
        mass: match units.mass(load.mass_max) {
            mass if is_loaded(plan, index) => format!("{mass} of {}", units.mass(plan.district.truck.payload)),
            mass => format!("{mass}, and what else is on it"),
        },
        mass_share: share(load.mass_max.value, plan.district.truck.payload.value),
    }
}

/// The greatest differences in words, as many as there is room for.
fn learnt(plan: &Plan) -> Vec<String> {
    let mut told: Vec<&LearntFactor> = plan.learnt.factors.iter().filter(|learnt| learnt.is_told).collect();
    told.sort_by(|a, b| b.factor.ln().abs().total_cmp(&a.factor.ln().abs()));
    let more = told.len().saturating_sub(LEARNT_MAX);
    let mut lines: Vec<String> = told.iter().take(LEARNT_MAX).map(|learnt| sentence(&learnt.words)).collect();
    if more > 0 {
        lines.push(format!("{} more in plan.json.", counted(more, "reason", "reasons")));
    }
    lines
}

/// With a capital and a full stop.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(|first| first.to_uppercase().to_string()).unwrap_or_default();
    format!("{first}{}.", shorten(letters.as_str(), 200))
}

/// Whether the trip begins with a load; the first of the rest of a day begins with what is on the truck.
fn is_loaded(plan: &Plan, trip: usize) -> bool {
    plan.round.timetable.iter().any(|stop| stop.kind == StopKind::Load(trip))
}

/// `enough: base 96 %, ...; more at Tern Yard, 12 min`, from the site that is furthest from there.
fn enough(load: &TripLoad) -> String {
    let names = ["base", "water", "binder", "stone"];
    let chances = load.suffices_by_material.map(percent);
    let mut words = if chances.iter().all(|chance| *chance == chances[0]) {
        format!("enough of each: {}", chances[0])
    } else {
        let each = names.iter().zip(&chances).map(|(name, chance)| format!("{name} {chance}"));
        format!("enough: {}", each.collect::<Vec<_>>().join(", "))
    };
    let mut places: Vec<String> = Vec::new();
    for near in &load.nearest {
        let place = format!("{}, {} min", shorten(&near.place, 18), near.travel_s.div_ceil(60));
        if !places.contains(&place) {
            places.push(place);
        }
    }
    if !places.is_empty() {
        words = format!("{words}; more at {}", places.join(" or "));
    }
    words
}

/// Whole percent, never 100 for what is not certain.
fn percent(chance: f64) -> String {
    format!("{:.0} %", (100.0 * chance).floor())
}

/// `cover stone: 4 buckets`.
fn content(line: &LoadLine) -> String {
    let content = shorten(&line.content, 64);
    match &line.site_count {
        Some(count) => format!("{content}: {}", shorten(&count.words(), 40)),
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
        content: format!(
            "spoil coming back {}, {}; with base at most",
            units.solid(load.total.spoil_volume),
            units.mass(load.total.spoil_mass)
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

fn devices(plan: &Plan) -> Vec<DeviceCount> {
    let row = |what, needed: u32, owned: u32| DeviceCount {
        what,
        needed: needed.to_string(),
        owned: owned.to_string(),
        short: if needed > owned { format!("{} short", needed - owned) } else { String::new() },
    };
    let flaggers = visited(plan).map(|s| plan.sites[s].zone.flaggers.value).max().unwrap_or(0);
    vec![
        row("signs", at_once(plan, DeviceKind::Sign), plan.district.devices_owned.signs),
        row("cones", at_once(plan, DeviceKind::Cone), plan.district.devices_owned.cones),
        row("flaggers", flaggers, plan.district.crew.people),
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
        total("base, loose", &day.base_volume, |v| units.solid(v)),
        total("base, from the stock", &day.base_mass, |m| units.mass(m)),
        total("water to add", &day.water_volume, |v| units.liquid(v)),
        total("binder, hot", &day.binder_volume, |v| units.liquid(v)),
        total("cover stone", &day.cover_mass, |m| units.mass(m)),
        total("spoil, loose", &day.spoil_volume, |v| units.solid(v)),
        total("work at the holes", &day.duration, duration),
    ]
}

fn total<Q: Copy>(what: &'static str, figure: &Figure<Q>, show: impl Fn(Q) -> String) -> Total {
    let at = |pick: fn(&Spread<Q>) -> Q| show(figure.spread.as_ref().map_or(figure.value, pick));
    Total { what, value: show(figure.value), p10: at(|s| s.p10), p50: at(|s| s.p50), p90: at(|s| s.p90) }
}
