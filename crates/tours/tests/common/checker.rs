//! Knows only the rules: prices a plan from the plan and the problem, by trying every begin of a shift and every place of
//! the rest. For small numbers only; shares nothing with the solver.

use tours::{Matrix, Plan, Problem, Route, Stop, Vehicle, Window};

/// Cost of a plan's routes and of what it leaves out, and how many visits are missing.
pub fn check(problem: &Problem, plan: &Plan) -> Result<(i64, usize), String> {
    let mut made = vec![false; problem.visits.len()];
    let mut used = vec![0; problem.vehicles.len()];
    let mut cost = 0;
    for route in &plan.routes {
        used[route.vehicle] += 1;
        for stop in &route.stops {
            if let Stop::Visit(visit) = *stop
                && std::mem::replace(&mut made[visit], true)
            {
                return Err(format!("visit {visit} is made twice"));
            }
        }
        cost += price(problem, route).map_err(|what| format!("{what} in {route:?}"))?;
    }
    for (kind, vehicle) in problem.vehicles.iter().enumerate() {
        if used[kind] > vehicle.count {
            return Err(format!("{} vehicles of kind {kind}, there are {}", used[kind], vehicle.count));
        }
    }
    let absent: Vec<usize> = (0..made.len()).filter(|&visit| !made[visit]).collect();
    if absent != plan.left_out {
        return Err(format!("{absent:?} are absent, {:?} are said to be left out", plan.left_out));
    }
    let missing = absent.iter().filter(|&&visit| problem.visits[visit].prize.is_none()).count();
    Ok((cost + absent.iter().filter_map(|&visit| problem.visits[visit].prize).sum::<i64>(), missing))
}

/// What a route costs, or which rule it breaks.
pub fn price(problem: &Problem, route: &Route) -> Result<i64, String> {
    let vehicle = &problem.vehicles[route.vehicle];
    if !route.stops.iter().any(|stop| matches!(stop, Stop::Visit(_))) {
        return Err("no visit".into());
    }
    for stop in &route.stops {
        match *stop {
            Stop::Visit(visit) => {
                if problem.visits[visit].vehicles.as_ref().is_some_and(|kinds| !kinds.contains(&route.vehicle)) {
                    return Err(format!("visit {visit} is not for this vehicle"));
                }
            }
            Stop::Reload(depot) => {
                if !vehicle.reloads.contains(&depot) {
                    return Err(format!("no reload at {depot}"));
                }
            }
        }
    }
    let trips: Vec<Vec<usize>> = route
        .stops
        .split(|stop| matches!(stop, Stop::Reload(_)))
        .map(|trip| {
            trip.iter().filter_map(|stop| if let Stop::Visit(visit) = *stop { Some(visit) } else { None }).collect()
        })
        .collect();
    if trips.len() > 1 && trips.len() - 1 > vehicle.greatest_reloads {
        return Err("too many reloads".into());
    }
    loads(problem, vehicle, route)?;
    for trip in &trips {
        ranks(problem, trip)?;
    }
    let profile = &problem.profiles[vehicle.profile];
    let mut places = vec![problem.depots[vehicle.start].place];
    places.extend(route.stops.iter().map(|stop| match *stop {
        Stop::Visit(visit) => problem.visits[visit].place,
        Stop::Reload(depot) => problem.depots[depot].place,
    }));
    places.push(problem.depots[vehicle.end].place);
    let mut distance = 0;
    for way in places.windows(2) {
        let length = profile.distance.get(way[0], way[1]);
        if length == Matrix::NO_WAY {
            return Err("no way".into());
        }
        distance += i64::from(length);
    }
    if vehicle.greatest_distance.is_some_and(|greatest| distance > greatest) {
        return Err("too far".into());
    }
    let duration = duration(problem, vehicle, route, &places, &trips).ok_or("no timetable")?;
    let charges: i64 = route
        .stops
        .iter()
        .filter_map(|stop| if let Stop::Visit(visit) = *stop { Some(&problem.visits[visit]) } else { None })
        .filter_map(|visit| visit.charge.get(vehicle.charge_class))
        .sum();
    Ok(vehicle.fixed_cost + vehicle.distance_cost * distance + vehicle.time_cost * duration + charges)
}

/// Follows the goods of each kind stop by stop: what is on board is what the stops up to the next depot that gives it need.
fn loads(problem: &Problem, vehicle: &Vehicle, route: &Route) -> Result<(), String> {
    for (index, &capacity) in vehicle.capacity.iter().enumerate() {
        let amount = |amounts: &[i64]| amounts.get(index).copied().unwrap_or(0);
        let need = |from: usize, kind: usize| {
            let mut sum = 0;
            for stop in &route.stops[from..] {
                match *stop {
                    Stop::Visit(visit) => {
                        let visit = &problem.visits[visit];
                        sum += amount(if kind == 0 { &visit.delivery } else { &visit.second_delivery });
                    }
                    Stop::Reload(depot) if problem.depots[depot].gives[kind] => break,
                    Stop::Reload(_) => {}
                }
            }
            sum
        };
        let mut goods = [need(0, 0), need(0, 1)];
        let mut picked_up = 0;
        if let Some(aboard) = &vehicle.aboard {
            if goods[0] > amount(&aboard.delivery) || goods[1] > amount(&aboard.second_delivery) {
                return Err(format!("load {index}: {goods:?} are not on board"));
            }
            picked_up = amount(&aboard.pickup);
            goods = [amount(&aboard.delivery), amount(&aboard.second_delivery)];
        }
        let mut most = goods[0] + goods[1] + picked_up;
        for (at, stop) in route.stops.iter().enumerate() {
            match *stop {
                Stop::Visit(visit) => {
                    let visit = &problem.visits[visit];
                    picked_up += amount(&visit.pickup);
                    if problem.pickup_first {
                        most = most.max(goods[0] + goods[1] + picked_up);
                    }
                    goods[0] -= amount(&visit.delivery);
                    goods[1] -= amount(&visit.second_delivery);
                }
                Stop::Reload(depot) => {
                    let depot = &problem.depots[depot];
                    for (kind, aboard) in goods.iter_mut().enumerate().filter(|(kind, _)| depot.gives[*kind]) {
                        *aboard = need(at + 1, kind);
                    }
                    if depot.takes {
                        picked_up = 0;
                    }
                }
            }
            most = most.max(goods[0] + goods[1] + picked_up);
        }
        if most > capacity {
            return Err(format!("load {index}: {most} of {capacity}"));
        }
    }
    Ok(())
}

fn ranks(problem: &Problem, trip: &[usize]) -> Result<(), String> {
    let ranks: Vec<u8> = trip.iter().map(|&visit| problem.visits[visit].rank).collect();
    if !ranks.is_sorted() {
        return Err("out of order".into());
    }
    if problem.starts_with_rank_zero && ranks.first().is_some_and(|&first| first > 0) {
        return Err("begins with a rank above zero".into());
    }
    Ok(())
}

/// Least time from begin to end over all begins and all places of the rest.
fn duration(
    problem: &Problem,
    vehicle: &Vehicle,
    route: &Route,
    places: &[usize],
    trips: &[Vec<usize>],
) -> Option<i64> {
    let profile = &problem.profiles[vehicle.profile];
    let times = profile.duration.as_ref().unwrap_or(&profile.distance);
    let releases: Vec<i64> =
        trips.iter().map(|trip| trip.iter().map(|&visit| problem.visits[visit].release).max().unwrap_or(0)).collect();
    let rest_now = |now: i64| {
        let rest = vehicle.rest?;
        let begin = now.max(rest.begin.open);
        (begin <= rest.begin.close).then_some(begin + rest.length)
    };
    // The rest at the start, after a stop, or at the end.
    let run = |begin: i64, rest_at: Option<usize>| -> Option<i64> {
        let mut trip = 0;
        let mut now = begin + vehicle.loading_time;
        if rest_at == Some(0) {
            now = rest_now(now)?;
        }
        now = now.max(releases[0]);
        for (index, stop) in route.stops.iter().enumerate() {
            now += i64::from(times.get(places[index], places[index + 1]));
            match *stop {
                Stop::Visit(visit) => {
                    let visit = &problem.visits[visit];
                    let service = visit.service.get(vehicle.service_class).copied().unwrap_or(0);
                    if !visit.windows.is_empty() {
                        let held = if visit.ends_within { service } else { 0 };
                        let fits = |window: &&Window| window.close >= now.max(window.open) + held;
                        now = now.max(visit.windows.iter().find(fits)?.open);
                    }
                    now += service;
                }
                Stop::Reload(depot) => {
                    let depot = &problem.depots[depot];
                    now = now.max(depot.window.open);
                    if now > depot.window.close {
                        return None;
                    }
                    now += depot.reload_time;
                    trip += 1;
                }
            }
            if rest_at == Some(index + 1) {
                now = rest_now(now)?;
            }
            if matches!(stop, Stop::Reload(_)) {
                now = now.max(releases[trip]);
            }
        }
        now += i64::from(times.get(places[places.len() - 2], places[places.len() - 1]));
        if rest_at == Some(route.stops.len() + 1) {
            now = rest_now(now)?;
        }
        now += vehicle.unloading_time;
        let late = now > vehicle.shift.close;
        let unrested = rest_at.is_none() && vehicle.rest.is_some_and(|rest| now > rest.begin.close);
        (!late && !unrested).then_some(now - begin)
    };
    // With no window to wait for, one begin is as good as any.
    let free = vehicle.time_cost == 0 && vehicle.greatest_duration.is_none();
    let latest = if free || vehicle.begins_on_time {
        vehicle.shift.open
    } else {
        vehicle.shift.close.min(vehicle.shift.open + 2000)
    };
    let mut rests = vec![None];
    if vehicle.rest.is_some() {
        rests.extend((0..route.stops.len() + 2).map(Some));
    }
    let begins = vehicle.shift.open..=latest;
    let least = begins.flat_map(|begin| rests.iter().filter_map(move |&rest| run(begin, rest))).min()?;
    vehicle.greatest_duration.is_none_or(|greatest| least <= greatest).then_some(least)
}
