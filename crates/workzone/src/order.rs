//! The order in which devices go out and come back.
//!
//! Both approaches are signed before the lane is closed; each approach furthest upstream first, so that whoever meets a
//! device has met everything ahead of it; then flaggers, then the lane in the direction of its traffic; last the signs
//! past the work. Coming back is the exact reverse.

pub use model::crew_move::PlacingStep as Step;
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

/// Puts devices in placing order, each with its step, and measures each one's distance from the one before on its approach.
pub fn placing(mut placed: Vec<Placed>, travel: Travel) -> (Vec<Device>, Vec<Step>) {
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
            (device, p.step)
        })
        .unzip()
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
