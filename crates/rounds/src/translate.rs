//! The programme in the routing engine's words.

use model::programme::{CrewShift, DAY_S, ProgrammeProblem, ProgrammeSite};
use tours::{Aboard, Depot, Matrix, Problem, Profile, Rest, Vehicle, Visit, Window};

use crate::loads::{Load, Room};

/// The engine's problem and how to read its answer.
pub(crate) struct Translated {
    pub problem: Problem,
    /// Site of each visit.
    pub sites: Vec<usize>,
    /// Number of yards: the engine has one depot for each yard and day.
    yards: usize,
    /// The engine's units of one unit of money.
    pub scale: f64,
    /// Price of the sites that no shift can do.
    pub outside: f64,
}

/// Prices are whole numbers in the engine; the dearest is to be about this many.
const DEAREST_UNIT: f64 = (1 << 18) as f64;
/// Greatest sum that a site may stand for.
const DEAREST_SITE: f64 = (1_u64 << 36) as f64;

impl Translated {
    pub fn new(programme: &ProgrammeProblem) -> Self {
        let days = 1 + programme.shifts.iter().map(|shift| shift.day as usize).max().unwrap_or(0);
        let scale = scale(programme);
        let rooms: Vec<Room> = programme.shifts.iter().map(|shift| Room::new(&shift.capacity)).collect();
        let same_yards = programme.yards.iter().all(|yard| yard.gives.bins && yard.gives.tanks && yard.takes_spoil)
            && programme.shifts.iter().all(|shift| shift.aboard.is_none());
        let mut visits = Vec::new();
        let mut sites = Vec::new();
        let mut outside = 0.0;
        for (index, site) in programme.sites.iter().enumerate() {
            let load = Load::new(&site.demand);
            let could = |shift: usize, load| could(site, &programme.shifts[shift], shift, load, &rooms[shift]);
            let shifts =
                load.iter().flat_map(|load| (0..programme.shifts.len()).filter(move |&shift| could(shift, load)));
            let shifts: Vec<usize> = shifts.collect();
            if let Some(load) = load.filter(|_| !shifts.is_empty()) {
                sites.push(index);
                visits.push(visit(index, site, &load, shifts, programme.shifts.len(), same_yards, scale));
            } else {
                outside += price(site.left);
            }
        }
        let depots = (0..days).flat_map(|day| (0..programme.yards.len()).map(move |yard| (day, yard)));
        let depots = depots.map(|(day, yard)| depot(programme, day, yard)).collect();
        let mut vehicles: Vec<Vehicle> =
            programme.shifts.iter().zip(&rooms).map(|(shift, room)| vehicle(programme, shift, room, scale)).collect();
        keep_binding_rooms(&mut visits, &mut vehicles);
        let profiles = programme.driving.iter().map(|driving| {
            let way = |value: f64| {
                if value >= f64::from(Matrix::GREATEST) { Matrix::NO_WAY } else { value.max(0.0).round() as i32 }
            };
            let by = |read: &dyn Fn(usize, usize) -> i32| {
                // What `way` gives is in range.
                Matrix::from_fn(driving.places, read).unwrap_or_else(|_| unreachable!("entries are in range"))
            };
            let seconds = |from: usize, to: usize| driving.seconds(from, to);
            let metres = |from: usize, to: usize| match seconds(from, to) {
                None => Matrix::NO_WAY,
                Some(_) => way(driving.metres(from, to)),
            };
            let times = |from: usize, to: usize| seconds(from, to).map_or(Matrix::NO_WAY, |s| way(f64::from(s)));
            Profile { distance: by(&metres), duration: Some(by(&times)) }
        });
        let problem = Problem {
            profiles: profiles.collect(),
            depots,
            visits,
            vehicles,
            starts_with_rank_zero: false,
            pickup_first: true,
        };
        Translated { problem, sites, yards: programme.yards.len(), scale, outside }
    }

    /// Yard of an engine's depot.
    pub fn yard(&self, depot: usize) -> usize {
        depot % self.yards
    }
}

/// Money in the engine's whole units.
fn scale(programme: &ProgrammeProblem) -> f64 {
    let per_unit = programme
        .shifts
        .iter()
        .map(|shift| (price(shift.price_per_hour) / 3600.0).max(price(shift.price_per_km) / 1000.0));
    let dearest = per_unit.fold(0.0, f64::max);
    let of_site = |site: &ProgrammeSite| site.waiting.iter().copied().chain([site.left]).map(price).fold(0.0, f64::max);
    let site = programme.sites.iter().map(of_site).fold(0.0, f64::max);
    let by_price = if dearest > 0.0 { DEAREST_UNIT / dearest } else { f64::INFINITY };
    let by_site = if site > 0.0 { DEAREST_SITE / site } else { f64::INFINITY };
    let scale = by_price.min(by_site);
    if scale.is_finite() { scale } else { 1.0 }
}

/// A price that sums well: not a number or negative counts as zero.
pub(crate) fn price(money: f64) -> f64 {
    if money > 0.0 { money.min(MOST_MONEY) } else { 0.0 }
}

const MOST_MONEY: f64 = 1e12;

/// Whether that shift could do the site, were it only for permission, plant, load and windows.
pub(crate) fn could(site: &ProgrammeSite, shift: &CrewShift, index: usize, load: &Load, room: &Room) -> bool {
    let Some(service) = service(site, shift) else { return false };
    let window = |&(open, close): &(i64, i64)| open.max(shift.from) + service <= close.min(shift.to);
    site.shifts.as_ref().is_none_or(|shifts| shifts.contains(&index))
        && room.short_of(load).is_none()
        && site.windows.iter().any(window)
}

/// Seconds of work at the site by that shift's crew.
pub(crate) fn service(site: &ProgrammeSite, shift: &CrewShift) -> Option<i64> {
    site.service_s.get(shift.work_class).copied().flatten().map(i64::from)
}

fn visit(
    place: usize,
    site: &ProgrammeSite,
    load: &Load,
    shifts: Vec<usize>,
    all: usize,
    same_yards: bool,
    scale: f64,
) -> Visit {
    let whole = |money: f64| (price(money) * scale).round() as i64;
    let together = std::array::from_fn::<i64, 7, _>(|room| load.from_bins[room] + load.from_tanks[room]);
    let (delivery, second_delivery) =
        if same_yards { (together.to_vec(), Vec::new()) } else { (load.from_bins.to_vec(), load.from_tanks.to_vec()) };
    Visit {
        delivery,
        second_delivery,
        pickup: load.taken_on.to_vec(),
        windows: in_order(&site.windows),
        ends_within: true,
        service: site.service_s.iter().map(|service| i64::from(service.unwrap_or(0))).collect(),
        prize: Some(whole(site.left)),
        charge: site.waiting.iter().map(|&money| whole(money)).collect(),
        vehicles: (shifts.len() < all).then_some(shifts),
        ..Visit::at(place)
    }
}

/// Begins and ends ascending, without windows that another makes useless.
fn in_order(windows: &[(i64, i64)]) -> Vec<Window> {
    let clamp = |second: i64| second.clamp(0, tours::GREATEST);
    let mut windows: Vec<Window> = windows
        .iter()
        .map(|&(open, close)| Window { open: clamp(open), close: clamp(close) })
        .filter(|window| window.open <= window.close)
        .collect();
    // Of those that open together the longest comes first.
    windows.sort_unstable_by_key(|window| (window.open, -window.close));
    let mut latest = -1;
    windows.retain(|window| {
        let useful = window.close > latest;
        latest = latest.max(window.close);
        useful
    });
    windows
}

fn depot(programme: &ProgrammeProblem, day: usize, yard: usize) -> Depot {
    let place = programme.sites.len() + yard;
    let yard = &programme.yards[yard];
    let midnight = i64::try_from(day).unwrap_or(0) * DAY_S;
    let loading = if yard.gives.bins || yard.gives.tanks { yard.loading_s } else { 0 };
    let tipping = if yard.takes_spoil { yard.tipping_s } else { 0 };
    let open = yard.open.map(|(open, close)| Window {
        open: midnight + i64::from(open.min(close)),
        close: midnight + i64::from(close),
    });
    Depot {
        reload_time: i64::from(loading) + i64::from(tipping),
        window: open.unwrap_or(Window::ALWAYS),
        gives: [yard.gives.bins, yard.gives.tanks],
        takes: yard.takes_spoil,
        ..Depot::at(place)
    }
}

fn vehicle(programme: &ProgrammeProblem, shift: &CrewShift, room: &Room, scale: f64) -> Vehicle {
    let first_depot = shift.day as usize * programme.yards.len();
    let (start, end) = (&programme.yards[shift.start], &programme.yards[shift.end]);
    let rest = rest(shift);
    // A break that no second is left for: whoever is out after its latest beginning has missed it.
    let by = if rest == RestOf::Never { latest_rest(shift) } else { shift.to };
    let unit = |money: f64| (money * scale).round() as i64;
    let on_board = |load: &Load| Aboard {
        delivery: load.from_bins.to_vec(),
        second_delivery: load.from_tanks.to_vec(),
        pickup: load.taken_on.to_vec(),
    };
    Vehicle {
        start: first_depot + shift.start,
        end: first_depot + shift.end,
        capacity: room.0.to_vec(),
        distance_cost: unit(price(shift.price_per_km) / 1000.0),
        time_cost: unit(price(shift.price_per_hour) / 3600.0),
        shift: Window { open: shift.from.clamp(0, tours::GREATEST), close: shift.to.min(by).clamp(0, tours::GREATEST) },
        profile: shift.driving,
        service_class: shift.work_class,
        charge_class: shift.day as usize,
        loading_time: if shift.aboard.is_some() { 0 } else { i64::from(start.loading_s) },
        unloading_time: if end.takes_spoil { i64::from(end.tipping_s) } else { 0 },
        begins_on_time: true,
        aboard: shift.aboard.and_then(|aboard| Load::new(&crate::as_demand(&aboard))).map(|load| on_board(&load)),
        reloads: shift.calls.iter().map(|yard| first_depot + yard).collect(),
        rest: if let RestOf::Within(rest) = rest { Some(rest) } else { None },
        ..Vehicle::new(1)
    }
}

/// The break that a shift must contain.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum RestOf {
    /// None is due.
    None,
    /// One within these times.
    Within(Rest),
    /// One is due and has no time in which it could begin.
    Never,
}

pub(crate) fn rest(shift: &CrewShift) -> RestOf {
    let Some(rest) = shift.rest else { return RestOf::None };
    let midnight = i64::from(shift.day) * DAY_S;
    let (open, close) = (midnight + i64::from(rest.earliest.0), midnight + i64::from(rest.latest.0));
    // A shift that starts after the time of the break has no such break.
    if rest.length_s == 0 || close < shift.from {
        RestOf::None
    } else if open > close {
        RestOf::Never
    } else {
        RestOf::Within(Rest { begin: Window { open, close }, length: i64::from(rest.length_s) })
    }
}

/// When a break must have begun at the latest.
pub(crate) fn latest_rest(shift: &CrewShift) -> i64 {
    let midnight = i64::from(shift.day) * DAY_S;
    shift.rest.map_or(shift.to, |rest| midnight + i64::from(rest.latest.0))
}

/// Rooms that no plan can fill are nothing to the search.
fn keep_binding_rooms(visits: &mut [Visit], vehicles: &mut [Vehicle]) {
    let rooms = vehicles.first().map_or(0, |vehicle| vehicle.capacity.len());
    let least = |room: usize| vehicles.iter().map(|vehicle| vehicle.capacity[room]).min().unwrap_or(0);
    let at = |amounts: &[i64], room: usize| amounts.get(room).copied().unwrap_or(0);
    let all = |room: usize| -> i64 {
        let of = |visit: &Visit| {
            let brought = at(&visit.delivery, room).saturating_add(at(&visit.second_delivery, room));
            brought.saturating_add(at(&visit.pickup, room))
        };
        visits.iter().map(of).fold(0, i64::saturating_add)
    };
    let aboard = vehicles.iter().any(|vehicle| vehicle.aboard.is_some());
    // Without room for base alone or spoil alone, the room for both together says it all.
    let implied =
        |room: usize| room < 2 && vehicles.iter().all(|vehicle| vehicle.capacity[room] == vehicle.capacity[2]);
    let binding: Vec<usize> =
        (0..rooms).filter(|&room| aboard || (all(room) > least(room) && !implied(room))).collect();
    let keep = |amounts: &mut Vec<i64>| {
        if !amounts.is_empty() {
            *amounts = binding.iter().map(|&room| amounts[room]).collect();
        }
    };
    for visit in visits {
        keep(&mut visit.delivery);
        keep(&mut visit.second_delivery);
        keep(&mut visit.pickup);
    }
    for vehicle in vehicles {
        keep(&mut vehicle.capacity);
    }
}
