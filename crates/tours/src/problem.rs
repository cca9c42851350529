//! The problem in the engine's own words: places, depots, visits, vehicles. Units are the caller's; all are whole numbers.

use thiserror::Error;

use crate::matrix::Matrix;

/// Most load dimensions a problem may have.
pub const MOST_LOADS: usize = 8;

/// Greatest time, load, price or count that a problem may name; sums of it stay far from overflow.
pub const GREATEST: i64 = 1 << 40;

/// A span of time, both ends included.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Window {
    /// Earliest.
    pub open: i64,
    /// Latest.
    pub close: i64,
}

impl Window {
    /// No limit in practice.
    pub const ALWAYS: Self = Self { open: 0, close: GREATEST };
}

/// Something to be visited at most once.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Visit {
    /// Index of its place in the matrices.
    pub place: usize,
    /// What is brought, one entry per load dimension; missing entries are 0. It is loaded when the trip leaves a depot.
    pub delivery: Vec<i64>,
    /// What is brought besides in the same dimensions, of goods that other depots give: see [`Depot::gives`].
    pub second_delivery: Vec<i64>,
    /// What is taken back to the end of the trip, in the space that has become free.
    pub pickup: Vec<i64>,
    /// When service may begin, begins and ends in order; empty: any time.
    pub windows: Vec<Window>,
    /// Service must also end within the window that it begins in.
    pub ends_within: bool,
    /// How long it takes, by the vehicle's [`Vehicle::service_class`]; empty: no time.
    pub service: Vec<i64>,
    /// The trip that brings it leaves its depot no earlier.
    pub release: i64,
    /// What leaving it out costs; `None`: it must be visited.
    pub prize: Option<i64>,
    /// What visiting it costs, by the vehicle's [`Vehicle::charge_class`]; missing entries: nothing.
    pub charge: Vec<i64>,
    /// Vehicles (kinds, by index) that may visit it; `None`: all.
    pub vehicles: Option<Vec<usize>>,
    /// Visits of a trip come in non-decreasing rank: 0 for all that are free of such an order.
    pub rank: u8,
}

impl Visit {
    /// A visit that must be made, with nothing to bring, at any time.
    pub fn at(place: usize) -> Self {
        Self {
            place,
            delivery: Vec::new(),
            second_delivery: Vec::new(),
            pickup: Vec::new(),
            windows: Vec::new(),
            ends_within: false,
            service: Vec::new(),
            release: 0,
            prize: None,
            charge: Vec::new(),
            vehicles: None,
            rank: 0,
        }
    }
}

/// A place where shifts begin and end and vehicles load again.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Depot {
    /// Index of its place in the matrices.
    pub place: usize,
    /// How long loading again takes.
    pub reload_time: i64,
    /// When loading again may begin.
    pub window: Window,
    /// Whether a call refills what [`Visit::delivery`] and [`Visit::second_delivery`] name.
    pub gives: [bool; 2],
    /// Whether a call takes off what was picked up.
    pub takes: bool,
}

impl Depot {
    /// A depot that is always open and loads in no time.
    pub fn at(place: usize) -> Self {
        Self { place, reload_time: 0, window: Window::ALWAYS, gives: [true; 2], takes: true }
    }
}

/// A rest that a shift must contain, taken right after a visit or a reload, wherever the vehicle then stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rest {
    /// When it may begin. A shift that is over by the latest begin needs none.
    pub begin: Window,
    /// How long it takes.
    pub length: i64,
}

/// A kind of vehicle, with how many there are of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Vehicle {
    /// How many.
    pub count: usize,
    /// Depot (by index) where its shift begins.
    pub start: usize,
    /// Depot (by index) where its shift ends.
    pub end: usize,
    /// What it holds at most, one entry per load dimension; missing entries: no limit.
    pub capacity: Vec<i64>,
    /// Cost of using it at all.
    pub fixed_cost: i64,
    /// Cost of one unit of distance.
    pub distance_cost: i64,
    /// Cost of one unit of time from the shift's begin to its end.
    pub time_cost: i64,
    /// Earliest begin and latest end of its shift.
    pub shift: Window,
    /// Longest time from the shift's begin to its end.
    pub greatest_duration: Option<i64>,
    /// Longest distance of its shift.
    pub greatest_distance: Option<i64>,
    /// Index into [`Problem::profiles`].
    pub profile: usize,
    /// Index into [`Visit::service`].
    pub service_class: usize,
    /// Index into [`Visit::charge`].
    pub charge_class: usize,
    /// What it takes to load at the start, before the first way.
    pub loading_time: i64,
    /// What it takes to unload at the end, after the last way.
    pub unloading_time: i64,
    /// The shift begins when it opens, whether there is something to do by then or not.
    pub begins_on_time: bool,
    /// What it has on board when its shift begins in the midst of a trip; `None`: it loads what it needs.
    pub aboard: Option<Aboard>,
    /// Depots (by index) where it may load again between two trips.
    pub reloads: Vec<usize>,
    /// How often it may load again at most.
    pub greatest_reloads: usize,
    /// The rest its shift must contain.
    pub rest: Option<Rest>,
}

impl Vehicle {
    /// Vehicles of depot 0 that cost their distance and have no limit.
    pub fn new(count: usize) -> Self {
        Self {
            count,
            start: 0,
            end: 0,
            capacity: Vec::new(),
            fixed_cost: 0,
            distance_cost: 1,
            time_cost: 0,
            shift: Window::ALWAYS,
            greatest_duration: None,
            greatest_distance: None,
            profile: 0,
            service_class: 0,
            charge_class: 0,
            loading_time: 0,
            unloading_time: 0,
            begins_on_time: false,
            aboard: None,
            reloads: Vec::new(),
            greatest_reloads: usize::MAX,
            rest: None,
        }
    }
}

/// What a vehicle has on board, one entry per load dimension; missing entries are 0.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Aboard {
    /// To be handed out as [`Visit::delivery`].
    pub delivery: Vec<i64>,
    /// To be handed out as [`Visit::second_delivery`].
    pub second_delivery: Vec<i64>,
    /// Picked up before.
    pub pickup: Vec<i64>,
}

/// How a kind of vehicle gets from place to place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Profile {
    /// Distances.
    pub distance: Matrix,
    /// Times; `None`: the distances are the times.
    pub duration: Option<Matrix>,
}

/// Who visits what at the least cost.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// Ways of getting about.
    pub profiles: Vec<Profile>,
    /// Places of shifts and loads.
    pub depots: Vec<Depot>,
    /// What is to be visited.
    pub visits: Vec<Visit>,
    /// Kinds of vehicles.
    pub vehicles: Vec<Vehicle>,
    /// The first visit of each trip must be of rank 0 (vehicle routing with backhauls has it so).
    pub starts_with_rank_zero: bool,
    /// At a visit what is picked up comes on board before what is brought goes off.
    pub pickup_first: bool,
}

/// Why a problem can't be taken.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum ProblemError {
    /// A matrix is not square.
    #[error("a matrix of {size} places needs {} values, not {values}", size * size)]
    MatrixSize {
        /// Places.
        size: usize,
        /// Values given.
        values: usize,
    },
    /// An entry is out of range.
    #[error("{value} from place {from} to place {to} is not within 0 and {}", Matrix::GREATEST)]
    MatrixEntry {
        /// From.
        from: usize,
        /// To.
        to: usize,
        /// What stands there.
        value: i32,
    },
    /// Matrices of one problem have one size.
    #[error("profile {profile} has {size} places where the first has {first}")]
    ProfileSize {
        /// Which profile.
        profile: usize,
        /// Its places.
        size: usize,
        /// Those of the first.
        first: usize,
    },
    /// An index points at nothing.
    #[error("{what} {index}: there is no {of} {value}")]
    NoSuch {
        /// Whose index.
        what: &'static str,
        /// Which one.
        index: usize,
        /// What it points at.
        of: &'static str,
        /// The index.
        value: usize,
    },
    /// A number is out of range.
    #[error("{what} {index}: {name} {value} is not within 0 and {GREATEST}")]
    Range {
        /// Whose number.
        what: &'static str,
        /// Which one.
        index: usize,
        /// The number's name.
        name: &'static str,
        /// The number.
        value: i64,
    },
    /// Windows are out of order or end before they begin.
    #[error("{what} {index}: windows must end after they begin, and begin and end in order")]
    Windows {
        /// Whose windows.
        what: &'static str,
        /// Which one.
        index: usize,
    },
    /// Too many load dimensions.
    #[error("{what} {index}: {loads} load dimensions, at most {MOST_LOADS} are known")]
    Loads {
        /// Whose loads.
        what: &'static str,
        /// Which one.
        index: usize,
        /// How many.
        loads: usize,
    },
    /// A vehicle asks for a service class that a visit with service times does not have.
    #[error("visit {visit} has no service time for class {class}")]
    ServiceClass {
        /// Which visit.
        visit: usize,
        /// Which class.
        class: usize,
    },
    /// Nothing to drive with, or nowhere to drive.
    #[error("a problem needs at least one profile, depot and kind of vehicle")]
    Nothing,
}

impl Problem {
    /// Whether everything points at something that is there and is in range.
    pub fn validate(&self) -> Result<(), ProblemError> {
        if self.profiles.is_empty() || self.depots.is_empty() || self.vehicles.is_empty() {
            return Err(ProblemError::Nothing);
        }
        let places = self.profiles[0].distance.size();
        for (profile, matrices) in self.profiles.iter().enumerate() {
            let duration = matrices.duration.as_ref().map_or(places, Matrix::size);
            for size in [matrices.distance.size(), duration] {
                if size != places {
                    return Err(ProblemError::ProfileSize { profile, size, first: places });
                }
            }
        }
        for (index, depot) in self.depots.iter().enumerate() {
            no_such("depot", index, "place", depot.place, places)?;
            range("depot", index, "reload time", depot.reload_time)?;
            windows("depot", index, &[depot.window])?;
        }
        for (index, visit) in self.visits.iter().enumerate() {
            self.validate_visit(index, visit, places)?;
        }
        for (index, vehicle) in self.vehicles.iter().enumerate() {
            self.validate_vehicle(index, vehicle)?;
        }
        Ok(())
    }

    fn validate_visit(&self, index: usize, visit: &Visit, places: usize) -> Result<(), ProblemError> {
        no_such("visit", index, "place", visit.place, places)?;
        windows("visit", index, &visit.windows)?;
        range("visit", index, "release", visit.release)?;
        range("visit", index, "prize", visit.prize.unwrap_or(0))?;
        for (name, amounts) in [
            ("delivery", &visit.delivery),
            ("second delivery", &visit.second_delivery),
            ("pickup", &visit.pickup),
            ("service time", &visit.service),
            ("charge", &visit.charge),
        ] {
            for &amount in amounts {
                range("visit", index, name, amount)?;
            }
        }
        loads("visit", index, visit.delivery.len().max(visit.second_delivery.len()).max(visit.pickup.len()))?;
        for &vehicle in visit.vehicles.iter().flatten() {
            no_such("visit", index, "vehicle", vehicle, self.vehicles.len())?;
        }
        if !visit.service.is_empty() {
            for vehicle in &self.vehicles {
                if vehicle.service_class >= visit.service.len() {
                    return Err(ProblemError::ServiceClass { visit: index, class: vehicle.service_class });
                }
            }
        }
        Ok(())
    }

    fn validate_vehicle(&self, index: usize, vehicle: &Vehicle) -> Result<(), ProblemError> {
        no_such("vehicle", index, "profile", vehicle.profile, self.profiles.len())?;
        for &depot in [vehicle.start, vehicle.end].iter().chain(&vehicle.reloads) {
            no_such("vehicle", index, "depot", depot, self.depots.len())?;
        }
        windows("vehicle", index, &[vehicle.shift])?;
        let aboard = vehicle.aboard.clone().unwrap_or_default();
        for (name, amounts) in [
            ("capacity", &vehicle.capacity),
            ("delivery on board", &aboard.delivery),
            ("second delivery on board", &aboard.second_delivery),
            ("pickup on board", &aboard.pickup),
        ] {
            loads("vehicle", index, amounts.len())?;
            for &amount in amounts {
                range("vehicle", index, name, amount)?;
            }
        }
        for (name, value) in [
            ("fixed cost", vehicle.fixed_cost),
            ("loading time", vehicle.loading_time),
            ("unloading time", vehicle.unloading_time),
            ("greatest duration", vehicle.greatest_duration.unwrap_or(0)),
            ("greatest distance", vehicle.greatest_distance.unwrap_or(0)),
        ] {
            range("vehicle", index, name, value)?;
        }
        // A price times a distance must stay in range.
        for (name, value) in [("distance cost", vehicle.distance_cost), ("time cost", vehicle.time_cost)] {
            range("vehicle", index, name, value)?;
            if value > 1 << 20 {
                return Err(ProblemError::Range { what: "vehicle", index, name, value });
            }
        }
        if let Some(rest) = vehicle.rest {
            windows("vehicle", index, &[rest.begin])?;
            range("vehicle", index, "rest", rest.length)?;
        }
        Ok(())
    }
}

fn no_such(
    what: &'static str,
    index: usize,
    of: &'static str,
    value: usize,
    there_are: usize,
) -> Result<(), ProblemError> {
    if value < there_are { Ok(()) } else { Err(ProblemError::NoSuch { what, index, of, value }) }
}

fn range(what: &'static str, index: usize, name: &'static str, value: i64) -> Result<(), ProblemError> {
    if (0..=GREATEST).contains(&value) { Ok(()) } else { Err(ProblemError::Range { what, index, name, value }) }
}

fn loads(what: &'static str, index: usize, loads: usize) -> Result<(), ProblemError> {
    if loads <= MOST_LOADS { Ok(()) } else { Err(ProblemError::Loads { what, index, loads }) }
}

fn windows(what: &'static str, index: usize, windows: &[Window]) -> Result<(), ProblemError> {
    for window in windows {
        range(what, index, "window", window.open)?;
        range(what, index, "window", window.close)?;
    }
    let sound = windows.iter().all(|window| window.open <= window.close)
        && windows.windows(2).all(|pair| pair[0].open <= pair[1].open && pair[0].close <= pair[1].close);
    if sound { Ok(()) } else { Err(ProblemError::Windows { what, index }) }
}
