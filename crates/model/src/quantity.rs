//! Typed quantities. A litre can't be added to a kilogram; units convert only where data comes in or goes out.
//!
//! Thin readable doors around [`uom`]: `metres(1.2)` in, `length.in_metres()` out.

use std::ops::Mul;

pub use uom::si::f64::{Area, Length, Mass, MassDensity, Ratio, Time, Velocity, Volume};

/// Makes a named door in and a method out for one unit of one quantity.
macro_rules! doors {
    ($( $quantity:ty : $trait_name:ident { $( $(#[$doc:meta])* $into:ident / $out:ident = $unit:path ),* $(,)? } )*) => {$(
        $( $(#[$doc])* pub fn $into(value: f64) -> $quantity { <$quantity>::new::<$unit>(value) } )*
        /// Reads the quantity as a bare number in a named unit.
        pub trait $trait_name: Sized {
            $( $(#[$doc])* fn $out(self) -> f64; )*
        }
        impl $trait_name for $quantity {
            $( fn $out(self) -> f64 { self.get::<$unit>() } )*
        }
    )*};
}

doors! {
    Length: InLength {
        /// Metre, the base unit of length.
        metres / in_metres = uom::si::length::meter,
        /// Millimetre.
        millimetres / in_millimetres = uom::si::length::millimeter,
        /// Centimetre.
        centimetres / in_centimetres = uom::si::length::centimeter,
        /// Kilometre.
        kilometres / in_kilometres = uom::si::length::kilometer,
        /// International inch, 25.4 mm.
        inches / in_inches = uom::si::length::inch,
        /// International foot, 0.3048 m.
        feet / in_feet = uom::si::length::foot,
    }
    Area: InArea {
        /// Square metre.
        square_metres / in_square_metres = uom::si::area::square_meter,
        /// Square foot.
        square_feet / in_square_feet = uom::si::area::square_foot,
    }
    Volume: InVolume {
        /// Cubic metre.
        cubic_metres / in_cubic_metres = uom::si::volume::cubic_meter,
        /// Litre.
        litres / in_litres = uom::si::volume::liter,
        /// US gallon, 3.785 L.
        us_gallons / in_us_gallons = uom::si::volume::gallon,
        /// Cubic foot.
        cubic_feet / in_cubic_feet = uom::si::volume::cubic_foot,
    }
    Mass: InMass {
        /// Kilogram.
        kilograms / in_kilograms = uom::si::mass::kilogram,
        /// Avoirdupois pound, 0.4536 kg.
        pounds / in_pounds = uom::si::mass::pound,
    }
    MassDensity: InMassDensity {
        /// Kilogram per cubic metre.
        kilograms_per_cubic_metre / in_kilograms_per_cubic_metre = uom::si::mass_density::kilogram_per_cubic_meter,
    }
    Time: InTime {
        /// Second.
        seconds / in_seconds = uom::si::time::second,
        /// Minute.
        minutes / in_minutes = uom::si::time::minute,
        /// Hour.
        hours / in_hours = uom::si::time::hour,
    }
    Velocity: InVelocity {
        /// Metre per second.
        metres_per_second / in_metres_per_second = uom::si::velocity::meter_per_second,
        /// Kilometre per hour.
        kilometres_per_hour / in_kilometres_per_hour = uom::si::velocity::kilometer_per_hour,
        /// Mile per hour.
        miles_per_hour / in_miles_per_hour = uom::si::velocity::mile_per_hour,
    }
    Ratio: InRatio {
        /// A plain fraction: 0.05 is five per cent.
        fraction / in_fraction = uom::si::ratio::ratio,
        /// Per cent: 5.0 is five per cent.
        percent / in_percent = uom::si::ratio::percent,
    }
}

/// Liquid spread over a surface, litres per square metre.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct LitresPerSquareMetre(pub f64);

/// Solid spread over a surface, kilograms per square metre.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct KilogramsPerSquareMetre(pub f64);

impl Mul<Area> for LitresPerSquareMetre {
    type Output = Volume;
    fn mul(self, area: Area) -> Volume {
        litres(self.0 * area.in_square_metres())
    }
}

impl Mul<Area> for KilogramsPerSquareMetre {
    type Output = Mass;
    fn mul(self, area: Area) -> Mass {
        kilograms(self.0 * area.in_square_metres())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rate_times_an_area_is_a_volume_or_a_mass() {
        // Value from the definition: 1.6 L/m2 on 1.08 m2 is 1.728 L.
        assert!(((LitresPerSquareMetre(1.6) * square_metres(1.08)).in_litres() - 1.728).abs() < 1e-12);
        assert!(((KilogramsPerSquareMetre(15.0) * square_metres(2.0)).in_kilograms() - 30.0).abs() < 1e-12);
    }

    #[test]
    fn customary_units_follow_their_legal_definitions() {
        // International yard and pound agreement of 1959: 1 ft = 0.3048 m, 1 lb = 0.45359237 kg; 1 US gal = 231 in3.
        // The unit library carries pound and gallon to seven digits.
        assert!((feet(1.0).in_metres() - 0.3048).abs() < 1e-12);
        assert!((pounds(1.0).in_kilograms() - 0.45359237).abs() < 1e-7);
        assert!((us_gallons(1.0).in_litres() - 3.785411784).abs() < 1e-5);
        assert!((miles_per_hour(30.0).in_kilometres_per_hour() - 48.28032).abs() < 1e-9);
    }
}
