//! Units a district file may be written in, each the ending of a key.

use model::quantity::{
    InLength, InMass, InMassDensity, InRatio, InTime, InVelocity, InVolume, Length, Mass, MassDensity, Ratio, Time,
    Velocity, Volume, centimetres, cubic_feet, cubic_metres, feet, fraction, hours, inches, kilograms,
    kilograms_per_cubic_metre, kilometres_per_hour, litres, metres, metres_per_second, miles_per_hour, millimetres,
    minutes, percent, pounds, seconds, us_gallons,
};

/// One unit of a quantity.
pub struct Unit<Q> {
    /// Ending of the key, e.g. `kg` in `payload_kg`.
    pub ending: &'static str,
    /// That many of the unit.
    pub quantity: fn(f64) -> Q,
    /// That many of the unit, as a number in the list's first unit, which the limits are in.
    pub in_first: fn(f64) -> f64,
}

/// Makes a list of units: ending and door in for each, and the door out of the first.
macro_rules! units {
    ($(#[$doc:meta])* $name:ident: $quantity:ty, $out:expr; $($ending:literal => $into:expr),+ $(,)?) => {
        $(#[$doc])*
        pub const $name: &[Unit<$quantity>] = &[$(Unit {
            ending: $ending,
            quantity: $into,
            in_first: |number| { let into: fn(f64) -> $quantity = $into; $out(into(number)) },
        }),+];
    };
}

units! {
    /// Small lengths.
    SMALL_LENGTH: Length, InLength::in_millimetres;
    "mm" => millimetres, "cm" => centimetres, "m" => metres, "in" => inches, "ft" => feet
}
units! {
    /// Sizes of a hole.
    HOLE_LENGTH: Length, InLength::in_metres;
    "m" => metres, "cm" => centimetres, "mm" => millimetres, "in" => inches, "ft" => feet
}
units! {
    /// Open holes.
    HOLE_VOLUME: Volume, InVolume::in_litres;
    "l" => litres, "m3" => cubic_metres, "ft3" => cubic_feet
}
units! {
    /// Distances on the ground.
    DISTANCE: Length, InLength::in_metres;
    "m" => metres, "ft" => feet
}
units! {
    /// Masses.
    MASS: Mass, InMass::in_kilograms;
    "kg" => kilograms, "t" => |tonnes| kilograms(1000.0 * tonnes), "lb" => pounds
}
units! {
    /// Bins.
    BIN_VOLUME: Volume, InVolume::in_cubic_metres;
    "m3" => cubic_metres, "l" => litres, "ft3" => cubic_feet, "yd3" => |yards| cubic_feet(27.0 * yards)
}
units! {
    /// Tanks.
    TANK_VOLUME: Volume, InVolume::in_litres;
    "l" => litres, "m3" => cubic_metres, "us_gal" => us_gallons
}
units! {
    /// What goods are carried in by hand.
    SITE_VOLUME: Volume, InVolume::in_litres;
    "l" => litres, "m3" => cubic_metres, "ft3" => cubic_feet, "us_gal" => us_gallons
}
units! {
    /// Densities. One pound per cubic foot follows from the definitions of pound and foot.
    DENSITY: MassDensity, InMassDensity::in_kilograms_per_cubic_metre;
    "kg_per_m3" => kilograms_per_cubic_metre,
    "t_per_m3" => |number| kilograms_per_cubic_metre(1000.0 * number),
    "lb_per_ft3" => |number| pounds(number) / cubic_feet(1.0),
}
units! {
    /// Working speeds of plant.
    WORKING_SPEED: Velocity, |speed: Velocity| 60.0 * speed.in_metres_per_second();
    "m_per_min" => |number| metres_per_second(number / 60.0),
    "m_per_s" => metres_per_second,
    "km_per_h" => kilometres_per_hour,
    "ft_per_min" => |number| feet(number) / minutes(1.0),
}
units! {
    /// Driving speeds.
    DRIVING_SPEED: Velocity, InVelocity::in_kilometres_per_hour;
    "km_per_h" => kilometres_per_hour, "mph" => miles_per_hour
}
units! {
    /// Times.
    DURATION: Time, InTime::in_minutes;
    "min" => minutes, "h" => hours, "s" => seconds
}
units! {
    /// Shares.
    SHARE: Ratio, InRatio::in_percent;
    "percent" => percent, "fraction" => fraction
}
units! {
    /// Temperatures, degrees Celsius.
    TEMPERATURE: f64, std::convert::identity;
    "c" => |celsius| celsius, "f" => |fahrenheit| (fahrenheit - 32.0) / 1.8
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn endings_mean_what_their_definitions_say() {
        // 1 lb/ft3 = 0.45359237 kg / 0.028316846592 m3 = 16.018463 kg/m3, by the definitions of pound and foot.
        let density = DENSITY.iter().find(|unit| unit.ending == "lb_per_ft3").map(|unit| (unit.in_first)(1.0));
        assert!((density.unwrap_or_default() - 16.018463).abs() < 1e-5);
        let yard = BIN_VOLUME.iter().find(|unit| unit.ending == "yd3").map(|unit| (unit.in_first)(1.0));
        assert!((yard.unwrap_or_default() - 0.764554857984).abs() < 1e-6);
        let warm = TEMPERATURE.iter().find(|unit| unit.ending == "f").map(|unit| (unit.in_first)(212.0));
        assert!((warm.unwrap_or_default() - 100.0).abs() < 1e-12);
        let tonne = MASS.iter().find(|unit| unit.ending == "t").map(|unit| (unit.in_first)(2.0));
        assert_eq!(tonne, Some(2000.0));
    }
}
