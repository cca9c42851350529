//! Values as text with SI unit, for the inputs of a [`model::figure::Why`].

use model::quantity::{
    Area, InArea, InLength, InMass, InMassDensity, InRatio, InTime, InVelocity, InVolume, Length, Mass, MassDensity,
    Ratio, Time, Velocity, Volume,
};

pub fn m(length: Length) -> String {
    format!("{:.3} m", length.in_metres())
}

pub fn mm(length: Length) -> String {
    format!("{:.2} mm", length.in_millimetres())
}

pub fn m2(area: Area) -> String {
    format!("{:.3} m2", area.in_square_metres())
}

pub fn m3(volume: Volume) -> String {
    format!("{:.4} m3", volume.in_cubic_metres())
}

pub fn l(volume: Volume) -> String {
    format!("{:.2} L", volume.in_litres())
}

pub fn kg(mass: Mass) -> String {
    format!("{:.1} kg", mass.in_kilograms())
}

pub fn density(density: MassDensity) -> String {
    format!("{:.0} kg/m3", density.in_kilograms_per_cubic_metre())
}

pub fn percent(ratio: Ratio) -> String {
    format!("{:.1} %", ratio.in_percent())
}

pub fn min(time: Time) -> String {
    format!("{:.1} min", time.in_minutes())
}

pub fn km_h(speed: Velocity) -> String {
    format!("{:.1} km/h", speed.in_kilometres_per_hour())
}

/// A rate of residual binder, as the rules give it.
pub fn litres_per_m2(rate: f64) -> String {
    format!("{rate} L/m2")
}
