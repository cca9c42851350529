//! The units a traffic rule set is written in, and the one place where its numbers become quantities and back.

use schemars::JsonSchema;
use serde::Deserialize;

use crate::quantity::{InLength, InVelocity, Length, Velocity, feet, kilometres_per_hour, metres, miles_per_hour};

/// The units of every bare distance and speed in the rule set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Units {
    /// Of every distance: along, across, and in the formulas.
    pub distance: DistanceUnit,
    /// Of every speed.
    pub speed: SpeedUnit,
}

/// Unit of a distance.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
pub enum DistanceUnit {
    /// International foot, 0.3048 m.
    #[serde(rename = "ft")]
    Foot,
    /// Metre.
    #[serde(rename = "m")]
    Metre,
}

/// Unit of a speed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
pub enum SpeedUnit {
    /// Mile per hour.
    #[serde(rename = "mph")]
    MilePerHour,
    /// Kilometre per hour.
    #[serde(rename = "km/h")]
    KilometrePerHour,
}

impl Units {
    /// A distance of the rule set as a length.
    pub fn length(self, value: f64) -> Length {
        match self.distance {
            DistanceUnit::Foot => feet(value),
            DistanceUnit::Metre => metres(value),
        }
    }

    /// A length in the rule set's unit.
    pub fn distance_of(self, length: Length) -> f64 {
        match self.distance {
            DistanceUnit::Foot => length.in_feet(),
            DistanceUnit::Metre => length.in_metres(),
        }
    }

    /// A speed of the rule set as a velocity.
    pub fn velocity(self, value: f64) -> Velocity {
        match self.speed {
            SpeedUnit::MilePerHour => miles_per_hour(value),
            SpeedUnit::KilometrePerHour => kilometres_per_hour(value),
        }
    }

    /// A velocity in the rule set's unit.
    pub fn speed_of(self, velocity: Velocity) -> f64 {
        match self.speed {
            SpeedUnit::MilePerHour => velocity.in_miles_per_hour(),
            SpeedUnit::KilometrePerHour => velocity.in_kilometres_per_hour(),
        }
    }
}

impl DistanceUnit {
    /// Its sign.
    pub fn symbol(self) -> &'static str {
        match self {
            DistanceUnit::Foot => "ft",
            DistanceUnit::Metre => "m",
        }
    }
}

impl SpeedUnit {
    /// Its sign.
    pub fn symbol(self) -> &'static str {
        match self {
            SpeedUnit::MilePerHour => "mph",
            SpeedUnit::KilometrePerHour => "km/h",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_go_in_and_out_in_the_sets_units() {
        let us = Units { distance: DistanceUnit::Foot, speed: SpeedUnit::MilePerHour };
        let si = Units { distance: DistanceUnit::Metre, speed: SpeedUnit::KilometrePerHour };
        // By definition a foot is 0.3048 m and a mile 1.609344 km.
        assert!((us.length(100.0).in_metres() - 30.48).abs() < 1e-9);
        assert!((us.velocity(50.0).in_kilometres_per_hour() - 80.4672).abs() < 1e-9);
        for (units, length, speed) in [(us, 100.0, 50.0), (si, 30.48, 80.4672)] {
            assert!((units.distance_of(feet(100.0)) - length).abs() < 1e-9);
            assert!((units.speed_of(miles_per_hour(50.0)) - speed).abs() < 1e-9);
        }
        assert_eq!((us.distance.symbol(), us.speed.symbol()), ("ft", "mph"));
        assert_eq!((si.distance.symbol(), si.speed.symbol()), ("m", "km/h"));
    }
}
