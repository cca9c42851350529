//! The order in which devices go out and come back.
//!
//! Both approaches are signed before the lane is closed; each approach furthest upstream first, so that whoever meets a
//! device has met everything ahead of it; then flaggers, then the lane in the direction of its traffic; last the signs
//! past the work. Coming back is the exact reverse.

use model::place::Travel;
use model::quantity::{Length, metres};
use model::work_zone::Device;

/// A device with the step of the work it goes out in.
#[derive(Debug, Clone, PartialEq)]
pub struct Placed {
    /// The step.
    pub step: Step,
    /// The device.
    pub device: Device,
}

/// Steps of placing, in order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Step {
    /// Signs for the traffic against the lane worked in.
    OpposingAdvance,
    /// Signs for the traffic of the lane worked in.
    Advance,
    /// Signs on the roads that join.
    Joining,
    /// Flaggers on the roads that join.
    JoiningStation,
    /// Flagger for the traffic against it.
    OpposingStation,
    /// Flagger for the traffic of the lane worked in.
    Station,
    /// Cones and shield vehicle, in the direction of traffic.
    Lane,
    /// Sign past the work for the traffic against it.
    EndOfOpposing,
    /// Sign past the work.
    EndOfWork,
}

/// Puts devices in placing order and measures each one's distance from the one before on its approach.
pub fn placing(mut placed: Vec<Placed>, travel: Travel) -> Vec<Device> {
    placed.sort_by(|a, b| {
        a.step.cmp(&b.step).then_with(|| downstream(&a.device).value.total_cmp(&downstream(&b.device).value))
    });
    let mut last: [Option<Length>; 2] = [None; 2];
    placed
        .into_iter()
        .map(|p| {
            let mut device = p.device;
            let here = downstream(&device);
            let before = &mut last[usize::from(device.approach != travel)];
            device.spacing = before.map_or(metres(0.0), |b| here - b);
            *before = Some(here);
            device
        })
        .collect()
}

/// Indexes in removing order.
pub fn removing(count: usize) -> Vec<usize> {
    (0..count).rev().collect()
}

/// Distance along the travel of the device's own traffic.
fn downstream(device: &Device) -> Length {
    match device.approach {
        Travel::Forward => device.chainage,
        Travel::Backward => -device.chainage,
    }
}
