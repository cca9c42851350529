//! What the truck holds.

use model::plan::Plan;
use model::quantity::{cubic_metres, kilograms, litres};
use model::round::Demand;

use super::case;
use crate::Case;

pub fn cases() -> Vec<Case> {
    vec![
        case("load.trips", "a load without a trip", |plan| plan.loads.push(plan.loads[0].clone())),
        case("load.body", "more base and spoil than the bins hold", |plan| {
            demand(plan).spoil_volume = cubic_metres(2.1);
        }),
        case("load.payload", "more mass than the truck may carry", |plan| {
            plan.district.truck.payload = kilograms(1500.0);
        }),
        case("load.mass_max", "more mass than is stated", |plan| plan.loads[0].mass_max = kilograms(1500.0)),
        case("load.room", "more cover stone than its bin holds", |plan| demand(plan).cover_volume = litres(301.0)),
        case("load.room", "more binder than its tank holds", |plan| demand(plan).binder_volume = litres(201.0)),
        case("load.room", "more water than its tank holds", |plan| {
            plan.district.truck.tanks[1].volume = litres(29.0);
        }),
        case("load.container", "a bin holds more than its room", |plan| {
            plan.loads[0].lines[0].room = cubic_metres(1.0);
        }),
        case("load.enough", "less loaded than needed", |plan| {
            plan.loads[0].lines[0].volume -= litres(1.0);
        }),
    ]
}

fn demand(plan: &mut Plan) -> &mut Demand {
    &mut plan.problem.sites[0].demand
}
