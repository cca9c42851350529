//! The optimum of a tiny problem by trying everything with the checker.

use std::collections::HashMap;

use tours::{Problem, Route, Stop};

use super::checker::price;

/// Fewest missing visits, then least cost.
pub fn optimum(problem: &Problem) -> (usize, i64) {
    let count = problem.visits.len();
    let routes: Vec<Vec<Option<i64>>> = (0..problem.vehicles.len())
        .map(|vehicle| (0..1 << count).map(|set| cheapest(problem, vehicle, set)).collect())
        .collect();
    let vehicles: Vec<usize> =
        problem.vehicles.iter().enumerate().flat_map(|(kind, it)| vec![kind; it.count.min(count)]).collect();
    let mut known = HashMap::new();
    best(problem, &routes, &vehicles, (1 << count) - 1, &mut known)
}

type Known = HashMap<(usize, usize), (usize, i64)>;

fn best(
    problem: &Problem,
    routes: &[Vec<Option<i64>>],
    vehicles: &[usize],
    left: usize,
    known: &mut Known,
) -> (usize, i64) {
    let Some((&vehicle, others)) = vehicles.split_first() else {
        let out = problem.visits.iter().enumerate().filter(|(visit, _)| left >> visit & 1 == 1);
        return out.fold((0, 0), |(missing, cost), (_, visit)| match visit.prize {
            Some(prize) => (missing, cost + prize),
            None => (missing + 1, cost),
        });
    };
    if let Some(&found) = known.get(&(vehicles.len(), left)) {
        return found;
    }
    let mut found = best(problem, routes, others, left, known);
    let mut set = left;
    while set > 0 {
        if let Some(cost) = routes[vehicle][set] {
            let rest = best(problem, routes, others, left & !set, known);
            found = found.min((rest.0, rest.1 + cost));
        }
        set = (set - 1) & left;
    }
    known.insert((vehicles.len(), left), found);
    found
}

/// Cheapest route of a vehicle over exactly these visits.
fn cheapest(problem: &Problem, vehicle: usize, set: usize) -> Option<i64> {
    let visits: Vec<usize> = (0..problem.visits.len()).filter(|visit| set >> visit & 1 == 1).collect();
    let mut least = None;
    extend(problem, vehicle, &visits, &mut Vec::new(), &mut least);
    least
}

fn extend(problem: &Problem, vehicle: usize, visits: &[usize], stops: &mut Vec<Stop>, least: &mut Option<i64>) {
    let missing: Vec<usize> = visits.iter().copied().filter(|&visit| !stops.contains(&Stop::Visit(visit))).collect();
    if missing.is_empty() {
        if let Ok(cost) = price(problem, &Route { vehicle, stops: stops.clone() }) {
            *least = Some(least.map_or(cost, |least| least.min(cost)));
        }
        return;
    }
    // One call at a depot between two visits, or two where depots differ in what they give and take.
    let reloads = &problem.vehicles[vehicle].reloads;
    let mut before: Vec<Vec<Stop>> = vec![Vec::new()];
    if !stops.is_empty() || problem.vehicles[vehicle].aboard.is_some() {
        before.extend(reloads.iter().map(|&depot| vec![Stop::Reload(depot)]));
        if problem.depots.iter().any(|depot| depot.gives != [true; 2] || !depot.takes) {
            let pairs = reloads.iter().flat_map(|&one| reloads.iter().map(move |&other| (one, other)));
            let pairs = pairs.filter(|(one, other)| one != other);
            before.extend(pairs.map(|(one, other)| vec![Stop::Reload(one), Stop::Reload(other)]));
        }
    }
    for visit in missing {
        for calls in &before {
            let length = stops.len();
            stops.extend(calls);
            stops.push(Stop::Visit(visit));
            extend(problem, vehicle, visits, stops, least);
            stops.truncate(length);
        }
    }
}
