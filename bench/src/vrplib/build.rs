//! Keys and tables to the solver's problem.

use tours::{Depot, GREATEST, Matrix, Problem, Profile, Vehicle, Visit, Window};

use super::text::{Fields, Number, ReadError};
use super::{CONVENTIONS, Convention, Instance};

/// Most places: the matrix grows with their square.
const MOST_PLACES: i64 = 10_000;

pub fn instance(fields: &Fields) -> Result<Instance, ReadError> {
    let (line, kind) = fields.text("TYPE").ok_or_else(|| ReadError::whole("there is no TYPE"))?;
    let known = CONVENTIONS.iter().find(|(name, _)| *name == kind);
    let names: Vec<&str> = CONVENTIONS.iter().map(|(name, _)| *name).collect();
    let &(_, convention) = known.ok_or_else(|| {
        ReadError::at(line, format!("the TYPE {kind:?} is not known; known are {}", names.join(", ")))
    })?;
    match fields.text("EDGE_WEIGHT_TYPE") {
        Some((_, "EUC_2D")) => {}
        Some((line, other)) => {
            return Err(ReadError::at(line, format!("EDGE_WEIGHT_TYPE is {other:?}; only EUC_2D is read")));
        }
        None => return Err(ReadError::whole("there is no EDGE_WEIGHT_TYPE; EUC_2D is read")),
    }
    let dimension = fields.number("DIMENSION")?.ok_or_else(|| ReadError::whole("there is no DIMENSION"))?;
    let places = dimension.whole("DIMENSION", 1, MOST_PLACES)? as usize;
    let depots = fields.depots()?;
    for (index, depot) in depots.iter().enumerate() {
        if depot.whole("a depot", 1, MOST_PLACES)? as usize != index + 1 {
            return Err(ReadError::at(depot.line, format!("depots come first, so number {} is due here", index + 1)));
        }
    }
    if depots.is_empty() {
        return Err(ReadError::whole("DEPOT_SECTION names no depot"));
    }
    let reader = Reader { fields, convention, places, depots: depots.len() };
    let problem = Problem {
        profiles: vec![Profile { distance: reader.distances()?, duration: None }],
        depots: (0..depots.len()).map(Depot::at).collect(),
        visits: reader.visits(kind == "VRPB")?,
        vehicles: reader.vehicles()?,
        starts_with_rank_zero: kind == "VRPB",
        pickup_first: false,
    };
    problem.validate().map_err(|error| ReadError::whole(error.to_string()))?;
    Ok(Instance { problem, cost_scale: convention.cost_scale })
}

struct Reader<'a> {
    fields: &'a Fields,
    convention: Convention,
    places: usize,
    depots: usize,
}

impl Reader<'_> {
    /// A distance, time or prize in whole units.
    fn scaled(&self, what: &str, number: Number) -> Result<i64, ReadError> {
        let scaled = number.value * self.convention.scale;
        let scaled = if self.convention.rounds { scaled.round_ties_even() } else { scaled.trunc() };
        if (0.0..=GREATEST as f64).contains(&scaled) {
            Ok(scaled as i64)
        } else {
            Err(ReadError::at(number.line, format!("{what} is {}; it must not be negative nor huge", number.value)))
        }
    }

    fn distances(&self) -> Result<Matrix, ReadError> {
        let rows = self.fields.table("NODE_COORD", self.places)?;
        let rows = rows.ok_or_else(|| ReadError::whole("there is no NODE_COORD_SECTION"))?;
        let most = f64::from(Matrix::GREATEST);
        let far = |from: &[Number], to: &[Number]| {
            let apart = (from[0].value - to[0].value).hypot(from[1].value - to[1].value) * self.convention.scale;
            if self.convention.rounds { apart.round_ties_even() } else { apart.trunc() }
        };
        for row in rows {
            if row.iter().any(|number| number.value.abs() * self.convention.scale > most / 4.0) {
                return Err(ReadError::at(row[0].line, "the coordinates are too large"));
            }
        }
        Matrix::from_fn(self.places, |from, to| far(&rows[from], &rows[to]) as i32)
            .map_err(|error| ReadError::whole(error.to_string()))
    }

    fn amounts(&self, name: &str) -> Result<Option<Vec<i64>>, ReadError> {
        let Some(table) = self.fields.column(name, self.places)? else { return Ok(None) };
        table.iter().map(|number| number.whole(name, 0, GREATEST)).collect::<Result<_, _>>().map(Some)
    }

    fn visits(&self, ranked: bool) -> Result<Vec<Visit>, ReadError> {
        let delivery = self.amounts("DEMAND")?.unwrap_or_else(|| vec![0; self.places]);
        let pickup = self.amounts("BACKHAUL")?;
        let service = self.fields.column("SERVICE_TIME", self.places)?;
        let windows = self.fields.table("TIME_WINDOW", self.places)?;
        let release = self.fields.column("RELEASE_TIME", self.places)?;
        let prize = self.fields.column("PRIZE", self.places)?;
        let mut visits = Vec::new();
        for place in self.depots..self.places {
            let mut visit = Visit::at(place);
            visit.delivery = vec![delivery[place]];
            if let Some(pickup) = &pickup {
                visit.pickup = vec![pickup[place]];
                visit.rank = u8::from(ranked && pickup[place] > 0);
            }
            if let Some(service) = &service {
                visit.service = vec![self.scaled("SERVICE_TIME", service[place])?];
            }
            if let Some(windows) = windows {
                visit.windows = vec![self.window(&windows[place])?];
            }
            if let Some(release) = &release {
                visit.release = self.scaled("RELEASE_TIME", release[place])?;
            }
            if let Some(prize) = &prize {
                // A prize of nothing marks a visit that must be made.
                visit.prize = Some(self.scaled("PRIZE", prize[place])?).filter(|&prize| prize > 0);
            }
            visits.push(visit);
        }
        Ok(visits)
    }

    fn window(&self, row: &[Number]) -> Result<Window, ReadError> {
        let window = Window { open: self.scaled("TIME_WINDOW", row[0])?, close: self.scaled("TIME_WINDOW", row[1])? };
        if window.open <= window.close {
            Ok(window)
        } else {
            Err(ReadError::at(row[0].line, "the window ends before it begins"))
        }
    }

    fn vehicles(&self) -> Result<Vec<Vehicle>, ReadError> {
        let visits = self.places - self.depots;
        let count = match self.fields.number("VEHICLES")? {
            Some(number) => number.whole("VEHICLES", 1, MOST_PLACES)? as usize,
            None => visits.max(1),
        };
        let fields = self.fields;
        let depot_index = |number: Number| Ok(number.whole("a depot", 1, MOST_PLACES)? as usize - 1);
        let capacity = fields.column("CAPACITY", count)?;
        let depot = fields.column("VEHICLES_DEPOT", count)?;
        let reload = fields.table("VEHICLES_RELOAD_DEPOT", count)?;
        let fixed = fields.column("VEHICLES_FIXED_COST", count)?;
        let unit = fields.column("VEHICLES_UNIT_DISTANCE_COST", count)?;
        let duration = fields.column("VEHICLES_MAX_DURATION", count)?;
        let distance = fields.column("VEHICLES_MAX_DISTANCE", count)?;
        let reloads = fields.column("VEHICLES_MAX_RELOADS", count)?;
        let windows = fields.table("TIME_WINDOW", self.places)?;
        let mut vehicles: Vec<Vehicle> = Vec::new();
        for index in 0..count {
            let mut vehicle = Vehicle::new(1);
            if let Some(capacity) = &capacity {
                vehicle.capacity = vec![capacity[index].whole("CAPACITY", 0, GREATEST)?];
            }
            if let Some(depot) = &depot {
                vehicle.start = depot_index(depot[index])?;
                vehicle.end = vehicle.start;
            }
            if let Some(reload) = reload {
                vehicle.reloads = reload[index].iter().map(|&number| depot_index(number)).collect::<Result<_, _>>()?;
            }
            if let Some(fixed) = &fixed {
                vehicle.fixed_cost = self.scaled("VEHICLES_FIXED_COST", fixed[index])?;
            }
            if let Some(unit) = &unit {
                vehicle.distance_cost = unit[index].whole("VEHICLES_UNIT_DISTANCE_COST", 0, 1 << 20)?;
            }
            if let Some(duration) = &duration {
                vehicle.greatest_duration = Some(self.scaled("VEHICLES_MAX_DURATION", duration[index])?);
            }
            if let Some(distance) = &distance {
                vehicle.greatest_distance = Some(self.scaled("VEHICLES_MAX_DISTANCE", distance[index])?);
            }
            if let Some(reloads) = &reloads {
                vehicle.greatest_reloads = reloads[index].whole("VEHICLES_MAX_RELOADS", 0, GREATEST)? as usize;
            }
            if let Some(windows) = windows {
                vehicle.shift = self.window(&windows[vehicle.start])?;
            }
            // Equal vehicles are one kind.
            match vehicles.iter_mut().find(|kind| Vehicle { count: 1, ..(*kind).clone() } == vehicle) {
                Some(kind) => kind.count += 1,
                None => vehicles.push(vehicle),
            }
        }
        Ok(vehicles)
    }
}
