//! What comes out: routes as lists of stops, and what is left out.

/// One stop of a route.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stop {
    /// A visit, by index.
    Visit(usize),
    /// Loading again at a depot, by index.
    Reload(usize),
}

/// The shift of one vehicle: from its start depot, stop by stop, to its end depot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Route {
    /// Kind of vehicle, by index.
    pub vehicle: usize,
    /// In order.
    pub stops: Vec<Stop>,
}

/// Who visits what.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Plan {
    /// Routes of the vehicles that are used.
    pub routes: Vec<Route>,
    /// Visits that are left out, ascending.
    pub left_out: Vec<usize>,
    /// Routes and prizes of what is left out. Visits that must be made and are left out count in `missing` instead.
    pub cost: i64,
    /// How many visits that must be made are left out.
    pub missing: usize,
}
