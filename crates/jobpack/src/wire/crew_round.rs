//! One crew's day in `work-plan.json`: when, the way driven, every stop, what is loaded.

use model::place::LonLat;
use model::plan::{CrewDay, LoadLine, Plan, TripLoad};
use model::quantity::{InLength, InVolume};
use model::round::{Stop, StopKind};
use model::site_unit::SiteGood;
use serde::Serialize;
use uuid::Uuid;

use super::day::{clock, place};
use super::figures::round;
use crate::display::Units;
use crate::numbers::round_number;

/// One crew's day.
#[derive(Debug, Serialize)]
pub(super) struct RoundJson {
    /// By which the record knows it.
    round: Uuid,
    date: String,
    crew: String,
    truck: String,
    begins: Option<String>,
    ends: Option<String>,
    /// Chance that nothing runs out all day.
    suffices: Option<f64>,
    driving_km: f64,
    driving_min: f64,
    /// The way driven all day.
    line: Vec<[f64; 2]>,
    /// The whole timetable, in order.
    stops: Vec<StopJson>,
    load: Vec<LoadJson>,
}

#[derive(Debug, Serialize)]
struct StopJson {
    /// `load`, `drive`, `wait`, `work`, `rest`, `tip` or `look`.
    kind: &'static str,
    from: String,
    to: String,
    /// Of the site or look that is worked at, made or driven to; empty elsewhere.
    road: String,
    /// Name of the depot, stockpile or tip that is called at or driven to; empty elsewhere.
    at: String,
    /// Mended there; empty but for work.
    holes: Vec<String>,
    /// Where the truck stands, or drives to.
    place: Option<[f64; 2]>,
    /// Index into the sites of that day's `plan.json`, of work and of drives to it.
    site: Option<usize>,
    /// From 0.
    trip: Option<usize>,
    /// Index into the looks of that day's `plan.json`, of looks and of drives to them.
    look: Option<usize>,
    /// The repair looked at, by its number in the record.
    repair: Option<Uuid>,
}

/// What goes into one compartment or tank for one trip.
#[derive(Debug, Serialize)]
struct LoadJson {
    trip: usize,
    container: String,
    /// `base`, `cover_stone`, `binder` or `water`.
    content: &'static str,
    amount: f64,
    /// `m3` or `l`.
    unit: &'static str,
    /// In the district's units, and as the crew counts it.
    words: String,
    /// Chance that there is enough of it on the trip.
    suffices: f64,
}

impl From<&CrewDay> for RoundJson {
    fn from(day: &CrewDay) -> Self {
        let plan = &day.plan;
        RoundJson {
            round: round_number(plan),
            date: plan.date.to_string(),
            crew: plan.district.crew.name.clone(),
            truck: plan.district.truck.name.clone(),
            begins: plan.round.timetable.first().map(|stop| clock(stop.from)),
            ends: plan.round.timetable.last().map(|stop| clock(stop.to)),
            suffices: plan.suffices.map(round),
            driving_km: round(plan.round.driving.in_kilometres()),
            driving_min: round(f64::from(plan.round.driving_s) / 60.0),
            line: line(plan),
            stops: stops(plan),
            load: plan.loads.iter().enumerate().flat_map(|(trip, load)| loads(plan, trip, load)).collect(),
        }
    }
}

/// All ways one after the other, to about a metre: it is for a map.
fn line(plan: &Plan) -> Vec<[f64; 2]> {
    let rounded = |degrees: f64| (degrees * 1e5).round() / 1e5;
    let points = plan.ways.iter().flat_map(|way| &way.line);
    let mut line: Vec<[f64; 2]> = points.map(|point| [rounded(point.lon), rounded(point.lat)]).collect();
    line.dedup();
    line
}

fn stops(plan: &Plan) -> Vec<StopJson> {
    let mut here = plan.problem.start;
    let mut stops = Vec::new();
    for &Stop { kind, from, to } in &plan.round.timetable {
        if let StopKind::Drive(there) = kind {
            here = there;
        }
        let site = match kind {
            StopKind::Work(site) => Some(site),
            StopKind::Drive(there) => plan.problem.site_at(there),
            _ => None,
        };
        let known = site.and_then(|site| plan.sites.get(site));
        let (name, at) = yard(plan, here);
        let (kind, trip) = match kind {
            StopKind::Load(trip) => ("load", Some(trip)),
            StopKind::Drive(_) => ("drive", None),
            StopKind::Wait => ("wait", None),
            StopKind::Work(site) => ("work", plan.round.trips.iter().position(|trip| trip.contains(&site))),
            StopKind::Rest => ("rest", None),
            StopKind::Tip(trip) => ("tip", Some(trip)),
            StopKind::Look(_) => ("look", None),
        };
        let look = plan.problem.look_at(here);
        let planned = look.and_then(|look| plan.looks.get(look));
        let holes = known.filter(|_| kind == "work").into_iter().flat_map(|site| &site.jobs);
        let holes = holes.flat_map(|&job| &plan.jobs[job].holes);
        let stands_at = plan.problem.site_at(here).and_then(|site| plan.sites.get(site)).map(|site| site.place);
        stops.push(StopJson {
            kind,
            from: clock(from),
            to: clock(to),
            road: known
                .map(|site| plan.network.section(site.zone.section).label())
                .or_else(|| planned.filter(|_| kind == "look" || kind == "drive").map(|look| look.road.clone()))
                .unwrap_or_default(),
            at: name,
            holes: holes.map(|&hole| plan.holes[hole].hole.id.0.clone()).collect(),
            place: stands_at.or(planned.map(|look| look.place)).or(at).map(place),
            site,
            trip,
            look: look.filter(|_| kind == "look" || kind == "drive"),
            repair: planned.filter(|_| kind == "look").map(|look| look.repair),
        });
    }
    stops
}

/// The depot, stockpile or tip at a place of the round, and where it is, if it is known.
fn yard(plan: &Plan, at: usize) -> (String, Option<LonLat>) {
    let district = &plan.district;
    if at == 0 {
        return (district.depot.name.clone(), Some(district.depot.position));
    }
    let Some(name) = plan.problem.yard_at(at) else { return (String::new(), None) };
    let supply = district.supply_places.iter().map(|place| (&place.name, place.position));
    let depots = district.further_depots.iter().map(|depot| (&depot.name, depot.position));
    let found = supply.chain(depots).find(|(known, _)| *known == name);
    (name.to_owned(), found.map(|(_, position)| position))
}

fn loads<'a>(plan: &'a Plan, trip: usize, load: &'a TripLoad) -> impl Iterator<Item = LoadJson> + 'a {
    let units = Units::new(plan.district.units, words::Words::default());
    let [base, water, binder, cover_stone] = load.suffices_by_material;
    load.lines.iter().filter_map(move |line| {
        let (suffices, is_solid) = match line.good {
            SiteGood::Base => (base, true),
            SiteGood::CoverStone => (cover_stone, true),
            SiteGood::Binder => (binder, false),
            SiteGood::Water => (water, false),
            SiteGood::Spoil => return None,
        };
        let LoadLine { volume, .. } = *line;
        let (amount, unit, words) = if is_solid {
            (volume.in_cubic_metres(), "m3", units.solid(volume))
        } else {
            (volume.in_litres(), "l", units.liquid(volume))
        };
        let counted = line.site_count.as_ref().map(|count| format!(", {}", count.words())).unwrap_or_default();
        Some(LoadJson {
            trip,
            container: line.container.clone(),
            content: line.good.word(),
            amount: round(amount),
            unit,
            words: format!("{words}{counted}"),
            suffices: round(suffices),
        })
    })
}
