//! What rules and settings make of the same few holes: whether two plans expect the same of a repair.
//!
//! Compared are figures and not the rules themselves, so that nothing that moves a figure is missed, nor a change of the
//! program, and so that nothing that moves none counts.

use model::district::{BaseMaterial, Binder, CoverStone, Plant};
use model::learnt::{UseFactors, Yardstick};
use model::place::FramePoint;
use model::quantity::{InMass, InTime, InVolume, metres, millimetres, square_metres};
use model::road::RoadClass;
use model::rules::repair::RepairRules;

use crate::{Pavement, RepairInput, repair};

/// Cuts, length and width in metres, and depth in millimetres: a shallow and small one up to one of several layers.
const HOLES: [(f64, f64, f64); 3] = [(0.5, 0.4, 50.0), (1.2, 0.9, 110.0), (2.4, 1.6, 230.0)];

/// Vehicles a day: the seal depends on them.
const VEHICLES_PER_DAY: [f64; 2] = [150.0, 2500.0];

/// The yardstick of a crew's plant and materials. What is measured for a day (moisture of the stock, weather) is left
/// out: each plan knows its own. Holes that can't be worked out count as nothing.
pub fn yardstick(
    plant: &Plant,
    base: &BaseMaterial,
    cover_stone: &CoverStone,
    binder: &Binder,
    rules: &RepairRules,
) -> Yardstick {
    let base = &BaseMaterial { stock_moisture: base.optimum_moisture * 0.5, ..base.clone() };
    let mut all =
        Yardstick { growth: 1.0, base_loose_m3: 0.0, water_l: 0.0, binder_l: 0.0, cover_stone_m3: 0.0, minutes: 0.0 };
    for class in RoadClass::ALL {
        for ((length, width, depth_mm), vehicles_per_day) in
            HOLES.into_iter().flat_map(|hole| VEHICLES_PER_DAY.map(|vehicles| (hole, vehicles)))
        {
            let corner = |along_m, across_m| FramePoint { along_m, across_m };
            let corners = [corner(0.0, 0.0), corner(length, 0.0), corner(length, width), corner(0.0, width)];
            let input = RepairInput {
                corners: &corners,
                pavement: Some(Pavement { left: metres(-3.0), right: metres(3.0) }),
                area: square_metres(length * width),
                length: metres(length),
                width: metres(width),
                perimeter: metres(2.0 * (length + width)),
                depth: millimetres(depth_mm),
                hole_volume: None,
                vehicles_per_day: Some(vehicles_per_day),
                road_class: Some(class),
                factors: UseFactors::NONE,
                weather: None,
                plant,
                base,
                cover_stone,
                binder,
                site_units: &[],
            };
            if input.check().is_err() {
                continue;
            }
            let made = repair(&input, rules);
            let surveyed = made.spoil_volume.value;
            all.growth *= made.spoil_volume.spread.map_or(1.0, |spread| (spread.p50 / surveyed).value);
            all.base_loose_m3 += made.loose_volume.value.in_cubic_metres();
            all.water_l += made.water_to_add.value.in_kilograms();
            all.binder_l += made.binder_volume_hot.value.in_litres();
            all.cover_stone_m3 += made.cover_volume.value.in_cubic_metres();
            all.minutes += made.duration.value.in_minutes();
        }
    }
    all
}
