//! Several cuts under one work zone: what that saves against a zone for each.

use crate::figure::Figure;
use crate::quantity::{InTime, Time};

/// Why cuts share a zone. Set only where a zone holds more than one cut.
#[derive(Debug, Clone, PartialEq)]
pub struct Sharing {
    /// Cuts in the zone, two or more.
    pub cuts: u32,
    /// Holes in them.
    pub holes: u32,
    /// Setting up and taking in that a zone for each cut would take on top; below zero where sharing takes longer.
    pub time_saved: Figure<Time>,
    /// Signs, cones, stations and shields that a zone for each cut would take on top, each put out once for each zone;
    /// below zero where sharing takes more.
    pub devices_saved: Figure<i64>,
    /// Moving from cut to cut inside the zone.
    pub between: Figure<Time>,
}

impl Sharing {
    /// `3 holes, one zone: saves 38 min and 14 devices`.
    pub fn words(&self) -> String {
        let holes = if self.holes == self.cuts {
            format!("{} holes", self.holes)
        } else {
            format!("{} in {} cuts", counted(u64::from(self.holes), "hole"), self.cuts)
        };
        let minutes = self.time_saved.value.in_minutes().round() as i64;
        let devices = self.devices_saved.value;
        let parts = [
            (minutes, format!("{} min", minutes.unsigned_abs())),
            (devices, counted(devices.unsigned_abs(), "device")),
        ];
        let joined = |gain: bool| -> String {
            let words: Vec<&str> = parts
                .iter()
                .filter(|(value, _)| if gain { *value > 0 } else { *value < 0 })
                .map(|(_, words)| words.as_str())
                .collect();
            words.join(" and ")
        };
        let (saved, more) = (joined(true), joined(false));
        match (saved.is_empty(), more.is_empty()) {
            (false, true) => format!("{holes}, one zone: saves {saved}"),
            (false, false) => format!("{holes}, one zone: saves {saved}, takes {more} more"),
            (true, false) => format!("{holes}, one zone: takes {more} more"),
            (true, true) => format!("{holes}, one zone: takes as long as apart"),
        }
    }
}

fn counted(count: u64, one: &str) -> String {
    format!("{count} {one}{}", if count == 1 { "" } else { "s" })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figure::{Source, Why};
    use crate::quantity::minutes;

    #[test]
    fn a_sharing_says_what_it_saves_and_what_it_costs() {
        let why = || Why::new("x", Source::definition());
        let words = |holes: u32, saved_min: f64, devices: i64| {
            Sharing {
                cuts: 3,
                holes,
                time_saved: Figure::exact(minutes(saved_min), why()),
                devices_saved: Figure::exact(devices, why()),
                between: Figure::exact(minutes(1.0), why()),
            }
            .words()
        };
        assert_eq!(words(3, 38.2, 14), "3 holes, one zone: saves 38 min and 14 devices");
        assert_eq!(words(5, 38.2, 1), "5 holes in 3 cuts, one zone: saves 38 min and 1 device");
        assert_eq!(words(3, 38.2, -2), "3 holes, one zone: saves 38 min, takes 2 devices more");
        assert_eq!(words(3, 38.2, 0), "3 holes, one zone: saves 38 min");
        assert_eq!(words(3, -4.0, 0), "3 holes, one zone: takes 4 min more");
        assert_eq!(words(3, 0.2, 0), "3 holes, one zone: takes as long as apart");
    }
}
