//! Which sites belong to which crews' area, and which of them the search looks at.

use std::collections::BTreeMap;

use model::programme::{CrewShift, ProgrammeSite};

use super::Agency;
use crate::loads::{Load, Room};
use crate::translate::{could, price, service};

/// More crews of one depot are divided.
const MOST_CREWS: usize = 6;
/// More sites an area does not look at: its driving times must fit into memory.
pub(super) const MOST_SITES: usize = 2000;

/// Crews and the sites that are theirs to do.
pub(super) struct Area {
    pub shifts: Vec<usize>,
    /// Sites that the search looks at, ascending.
    pub sites: Vec<usize>,
    /// Sites that it does not look at, ascending.
    pub passed_over: Vec<usize>,
    /// Mean position of those it looks at, or of the depot.
    pub centre: [f64; 2],
}

/// Divides the agency.
pub(super) fn divide(agency: &Agency<'_>, looked_at: f64) -> Vec<Area> {
    let rooms: Vec<Room> = agency.shifts.iter().map(|shift| Room::new(&shift.capacity)).collect();
    let able = |site: usize, load: &Load, shifts: &[usize]| {
        shifts.iter().any(|&shift| could(&agency.sites[site], &agency.shifts[shift], shift, load, &rooms[shift]))
    };
    let depots = depots(agency);
    let mut of_depot: Vec<Vec<usize>> = vec![Vec::new(); depots.len()];
    let mut areas = Vec::new();
    for site in 0..agency.sites.len() {
        let near = |depot: &Depot| {
            apart(agency.positions[site], agency.positions[agency.sites.len() + depot.yard]) / depot.reach
        };
        let mut order: Vec<(f64, usize)> = depots.iter().enumerate().map(|(index, it)| (near(it), index)).collect();
        order.sort_unstable_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        let load = Load::new(&agency.sites[site].demand);
        let first_able = load.and_then(|load| order.iter().find(|(_, depot)| able(site, &load, &depots[*depot].all())));
        if let Some(&(_, depot)) = first_able.or(order.first()) {
            of_depot[depot].push(site);
        }
    }
    for (depot, sites) in depots.into_iter().zip(of_depot) {
        let all_able = |site: usize, shifts: &[usize]| {
            Load::new(&agency.sites[site].demand).is_some_and(|load| able(site, &load, shifts))
        };
        let centre = agency.positions[agency.sites.len() + depot.yard];
        for (shifts, sites) in sectors(agency, &depot, sites, &all_able) {
            areas.push(area(agency, shifts, sites, centre, looked_at, &all_able));
        }
    }
    areas
}

/// A yard with crews.
struct Depot {
    yard: usize,
    /// Shifts of each crew.
    crews: Vec<Vec<usize>>,
    /// Root of its crews' time: with a constant number of sites to the square kilometre, how far they come.
    reach: f64,
}

impl Depot {
    fn all(&self) -> Vec<usize> {
        self.crews.concat()
    }
}

fn depots(agency: &Agency<'_>) -> Vec<Depot> {
    let mut crews: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (index, shift) in agency.shifts.iter().enumerate() {
        crews.entry(shift.crew).or_default().push(index);
    }
    let mut depots: BTreeMap<usize, Vec<Vec<usize>>> = BTreeMap::new();
    for (_, mut shifts) in crews {
        shifts.sort_by_key(|&shift| agency.shifts[shift].from);
        let home = agency.shifts[shifts[0]].end;
        depots.entry(home).or_default().push(shifts);
    }
    let depots = depots.into_iter().map(|(yard, crews)| {
        let reach = crews.iter().map(|shifts| hours(agency.shifts, shifts)).sum::<f64>().sqrt().max(1e-3);
        Depot { yard, crews, reach }
    });
    depots.collect()
}

fn hours(all: &[CrewShift], shifts: &[usize]) -> f64 {
    shifts.iter().map(|&shift| (all[shift].to - all[shift].from).max(0) as f64 / 3600.0).sum()
}

/// A depot's crews and sites, divided by the direction in which the sites lie if there are many crews. The sweep is that of
/// *B. E. Gillett, L. R. Miller, "A heuristic algorithm for the vehicle-dispatch problem", Operations Research 22 (2),
/// 1974*, from memory.
fn sectors(
    agency: &Agency<'_>,
    depot: &Depot,
    mut sites: Vec<usize>,
    able: &dyn Fn(usize, &[usize]) -> bool,
) -> Vec<(Vec<usize>, Vec<usize>)> {
    let count = depot.crews.len().div_ceil(MOST_CREWS);
    let centre = agency.positions[agency.sites.len() + depot.yard];
    let angle = |site: usize| {
        let [x, y] = agency.positions[site];
        (y - centre[1]).atan2(x - centre[0])
    };
    if count > 1 {
        sites.sort_by(|&a, &b| angle(a).total_cmp(&angle(b)).then(a.cmp(&b)));
    }
    let size = depot.crews.len().div_ceil(count);
    let mut sectors: Vec<(Vec<usize>, Vec<usize>)> =
        depot.crews.chunks(size).map(|crews| (crews.concat(), Vec::new())).collect();
    let time: Vec<f64> = sectors.iter().map(|(shifts, _)| hours(agency.shifts, shifts).max(1e-3)).collect();
    let all_time: f64 = time.iter().sum();
    let (mut sector, mut until) = (0, time[0]);
    for (index, &site) in sites.iter().enumerate() {
        while sector + 1 < time.len() && index as f64 * all_time >= until * sites.len() as f64 {
            sector += 1;
            until += time[sector];
        }
        let other = || (0..time.len()).find(|&other| able(site, &sectors[other].0));
        let chosen = if able(site, &sectors[sector].0) { sector } else { other().unwrap_or(sector) };
        sectors[chosen].1.push(site);
    }
    sectors
}

/// Of these sites those that crews with so many seconds to spare may do: near ones first, then in the order of what a second of
/// work there saves.
pub(super) fn most_pressing(
    agency: &Agency<'_>,
    shifts: &[usize],
    sites: Vec<usize>,
    near: &dyn Fn(usize) -> bool,
    seconds: f64,
    most: usize,
) -> Vec<usize> {
    if seconds <= 0.0 {
        return Vec::new();
    }
    let rooms: Vec<Room> = shifts.iter().map(|&shift| Room::new(&agency.shifts[shift].capacity)).collect();
    let able = |site: usize| {
        let it = &agency.sites[site];
        let load = Load::new(&it.demand);
        let by = |(&shift, room): (&usize, &Room)| {
            load.is_some_and(|load| could(it, &agency.shifts[shift], shift, &load, room))
        };
        shifts.iter().zip(&rooms).any(by)
    };
    let able = sites.into_iter().filter(|&site| able(site));
    let mut order: Vec<(bool, f64, f64, usize)> = able
        .map(|site| {
            let work = work(agency, shifts, site);
            (near(site), saved(&agency.sites[site]) / work, work, site)
        })
        .collect();
    order.sort_unstable_by(|a, b| b.0.cmp(&a.0).then(b.1.total_cmp(&a.1)).then(a.3.cmp(&b.3)));
    let mut sum = 0.0;
    let within = order.into_iter().take(most).take_while(|&(_, _, work, _)| {
        sum += work;
        sum <= seconds
    });
    within.map(|(_, _, _, site)| site).collect()
}

/// Least time of work at the site by these shifts, seconds, at least 1.
fn work(agency: &Agency<'_>, shifts: &[usize], site: usize) -> f64 {
    let work = shifts.iter().filter_map(|&shift| service(&agency.sites[site], &agency.shifts[shift]));
    work.min().unwrap_or(0).max(1) as f64
}

/// Sites in the order of what a second of work there saves, as far as they come to so many times the crews' time.
fn area(
    agency: &Agency<'_>,
    shifts: Vec<usize>,
    sites: Vec<usize>,
    depot: [f64; 2],
    looked_at: f64,
    able: &dyn Fn(usize, &[usize]) -> bool,
) -> Area {
    let (sites, mut passed_over): (Vec<usize>, Vec<usize>) = sites.into_iter().partition(|&site| able(site, &shifts));
    let mut order: Vec<(f64, f64, usize)> = sites
        .iter()
        .map(|&site| {
            let work = work(agency, &shifts, site);
            (saved(&agency.sites[site]) / work, work, site)
        })
        .collect();
    order.sort_unstable_by(|a, b| b.0.total_cmp(&a.0).then(a.2.cmp(&b.2)));
    let most = looked_at * hours(agency.shifts, &shifts) * 3600.0;
    let mut sum = 0.0;
    let mut sites = Vec::new();
    for (_, work, site) in order {
        sum += work;
        let seen = sum <= most && sites.len() < MOST_SITES;
        if seen { &mut sites } else { &mut passed_over }.push(site);
    }
    sites.sort_unstable();
    passed_over.sort_unstable();
    let mean = |axis: usize| {
        let sum: f64 = sites.iter().map(|&site| agency.positions[site][axis]).sum();
        if sites.is_empty() { depot[axis] } else { sum / sites.len() as f64 }
    };
    let centre = [mean(0), mean(1)];
    Area { shifts, sites, passed_over, centre }
}

/// Money saved by a mend on the first day.
fn saved(site: &ProgrammeSite) -> f64 {
    price(site.left) - site.waiting.first().copied().map_or(0.0, price)
}

pub(super) fn apart(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}
