//! The queue at a work zone: how long drivers wait, how far back they stand, and what flow the open lane still carries.

use crate::figure::Figure;
use crate::quantity::{Length, Time};

/// What is expected of traffic that takes turns past the work, or squeezes into fewer lanes.
#[derive(Debug, Clone, PartialEq)]
pub struct Queue {
    /// Vehicles an hour that come in the busiest hour: both ways where traffic takes turns, else in the direction worked
    /// in; `None` where no count of the road is known.
    pub flow_per_hour: Option<Figure<f64>>,
    /// The flow up to which it works: nobody is held longer than the rule set's longest stop, and no queue grows.
    pub most_per_hour: Figure<f64>,
    /// What that flow does; `None` where it is not known.
    pub outlook: Option<QueueOutlook>,
}

/// What a flow does at the zone.
#[derive(Debug, Clone, PartialEq)]
pub enum QueueOutlook {
    /// Every direction is let through in full each time it has its turn.
    Clears(Box<Waiting>),
    /// More comes than the open lanes carry: the queue gets longer by so many vehicles an hour.
    Grows(Figure<f64>),
}

/// Waiting where every turn clears its queue, in the direction that waits longer or stands further back.
#[derive(Debug, Clone, PartialEq)]
pub struct Waiting {
    /// Longest a driver is stopped: from the sign turned against him to his queue's start.
    pub longest_stop: Figure<Time>,
    /// Mean wait of all drivers, those who are not stopped included.
    pub mean_wait: Figure<Time>,
    /// Vehicles that stand when the longer queue starts.
    pub vehicles: Figure<f64>,
    /// How far back they stand from the station.
    pub length: Figure<Length>,
}
