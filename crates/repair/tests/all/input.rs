//! Input that can't be worked with is named, and does not panic.

use crate::support::{Example, compactor, ring, rules};
use model::district::CompactorKind;
use model::quantity::{InVolume, fraction, kilograms_per_cubic_metre, metres};
use model::rules::repair::{RepairRules, TrafficFactor};
use repair::{Pavement, check_rules, repair};

#[test]
fn every_bad_value_is_named() {
    type Spoil = fn(&mut Example);
    let cases: [(&str, Spoil); 14] = [
        ("depth (m)", |e| e.depth = 0.0),
        ("depth (m)", |e| e.depth = f64::NAN),
        ("length of the cut (m)", |e| e.length = -1.0),
        ("width of the cut (m)", |e| e.width = f64::INFINITY),
        ("volume of the hole (m3)", |e| e.hole_volume = Some(-0.1)),
        ("vehicles a day", |e| e.vehicles_per_day = Some(f64::NAN)),
        ("vehicles a day", |e| e.vehicles_per_day = Some(1e300)),
        ("vehicles a day", |e| e.vehicles_per_day = Some(200_001.0)),
        ("ring of corners", |e| e.corners = ring(&[(0.0, 0.0), (1.0, 0.0)])),
        ("speed of a compactor (m/s)", |e| {
            e.plant.compactors[0] = compactor(CompactorKind::PedestrianRoller, 0.65, 0.0);
        }),
        ("largest stone of the base (m)", |e| e.base.largest_stone = Some(metres(0.0))),
        ("optimum moisture", |e| e.base.optimum_moisture = fraction(6.5)),
        ("loose density of the cover stone", |e| {
            e.cover_stone.loose_density = kilograms_per_cubic_metre(2700.0);
        }),
        ("spraying temperature (°C)", |e| e.binder.spray_temperature_c = f64::NAN),
    ];
    let rules = rules();
    for (what, spoil) in cases {
        let mut example = Example::worked();
        spoil(&mut example);
        let errors = example.input().check().unwrap_err();
        assert!(errors.iter().any(|error| error.what == what), "{what}: {errors:?}");
        // Even unchecked it does not panic.
        let _ = repair(&example.input(), &rules);
    }
}

#[test]
fn a_pavement_turned_round_is_named() {
    let example = Example::worked();
    let mut input = example.input();
    input.pavement = Some(Pavement { left: metres(3.0), right: metres(-3.0) });
    let errors = input.check().unwrap_err();
    assert_eq!(errors.len(), 1);
    assert_eq!(errors[0].to_string(), "pavement is from 3 to -3 m; the left edge is the smaller distance across");
}

#[test]
fn an_unknown_hole_volume_counts_the_whole_cut_as_spoil() {
    let mut example = Example::worked();
    example.hole_volume = None;
    let found = repair(&example.input(), &rules());
    assert!((found.spoil_volume.value.in_cubic_metres() - 0.2376 * 1.3).abs() < 1e-9);
    assert!(found.spoil_volume.why.to_string().contains("not known"));
    // A hole said to be larger than the cut leaves nothing to dig, not less than nothing.
    example.hole_volume = Some(1.0);
    assert_eq!(repair(&example.input(), &rules()).spoil_volume.value.in_cubic_metres(), 0.0);
}

#[test]
fn the_shipped_rules_can_be_worked_with_and_bad_ones_are_named() {
    type Spoil = fn(&mut RepairRules);
    assert_eq!(check_rules(&rules()), Ok(()));
    let cases: [(&str, Spoil); 9] = [
        ("compactor", |r| r.compactor.vibrating_plate.greatest_layer_m.value = 0.0),
        ("vibrating_passes_least", |r| r.compactor.pedestrian_roller.vibrating_passes_least.value = 13),
        ("fill.deeper_rows", |r| r.fill.deeper_rows.value = u32::MAX),
        ("growth.default.sigma", |r| r.growth.default.sigma.value = f64::NAN),
        ("growth.depth_share", |r| r.growth.depth_share.value = 1.5),
        ("seal.overlap_m", |r| r.seal.overlap_m.value = -0.08),
        ("limits of seal.mcleod.traffic_factors", |r| {
            r.seal.mcleod.traffic_factors.value =
                vec![TrafficFactor { limit: Some(100.0), limit_included: false, factor: 0.8 }];
        }),
        ("spray_window_c", |r| r.grade.get_mut("MC-30").unwrap().spray_window_c.value = [66.0, 21.0]),
        ("time.seal_s", |r| r.time.seal_s.value = f64::INFINITY),
    ];
    for (what, spoil) in cases {
        let mut rules = rules();
        spoil(&mut rules);
        let errors = check_rules(&rules).unwrap_err();
        assert!(errors.len() == 1 && errors[0].what.contains(what), "{what}: {errors:?}");
    }
}

#[test]
fn rules_that_nobody_believes_are_named_with_what_is() {
    type Spoil = fn(&mut RepairRules);
    let cases: [(&str, Spoil); 28] = [
        ("seal.overlap_m", |r| r.seal.overlap_m.value = 9000.0),
        ("fill.crown_m", |r| r.fill.crown_m.value = 7.0),
        ("fill.deeper_step_m", |r| r.fill.deeper_step_m.value = 25.0),
        ("limits.patch_area_m2", |r| r.limits.patch_area_m2.value = 1e6),
        ("limits.patch_depth_m", |r| r.limits.patch_depth_m.value = 1000.0),
        ("moisture.degree_of_compaction", |r| r.moisture.degree_of_compaction.value = 98.0),
        ("compactor.pedestrian_roller.greatest_layer_m", |r| {
            r.compactor.pedestrian_roller.greatest_layer_m.value = 150.0;
        }),
        ("compactor.vibrating_plate.static_passes", |r| r.compactor.vibrating_plate.static_passes.value = 51),
        ("compactor.hand_tamper.vibrating_passes_most", |r| {
            r.compactor.hand_tamper.vibrating_passes_most.value = u32::MAX;
        }),
        ("compactor.pedestrian_roller.turn_s", |r| r.compactor.pedestrian_roller.turn_s.value = 5000.0),
        ("compactor.trench_rammer.clearance_m", |r| r.compactor.trench_rammer.clearance_m.value = 2.0),
        ("compactor.heavy_plate.room_along_m", |r| r.compactor.heavy_plate.room_along_m.value = 900.0),
        ("compactor.tandem_roller.width_m", |r| r.compactor.tandem_roller.width_m.value = 1000.0),
        ("compactor.tandem_roller.speed_km_per_h", |r| r.compactor.tandem_roller.speed_km_per_h.value = 0.0),
        ("compactor.single_drum_roller.mass_kg", |r| r.compactor.single_drum_roller.mass_kg.value = f64::NAN),
        ("fill.least_layer_stones", |r| r.fill.least_layer_stones.value = 0.0),
        ("growth.default.sigma", |r| r.growth.default.sigma.value = 2.01),
        ("growth.default.median", |r| r.growth.default.median.value = 120.0),
        ("spoil.bulking", |r| r.spoil.bulking.value = 30.0),
        ("seal.fresh_base.soak_l_per_m2", |r| r.seal.fresh_base.soak_l_per_m2.value.open = 300.0),
        ("seal.mcleod.void_share", |r| r.seal.mcleod.void_share.value = 40.0),
        ("seal.mcleod.waste_factor", |r| r.seal.mcleod.waste_factor.value = 105.0),
        ("seal.least_dimension, b", |r| r.seal.least_dimension.value[1] = 11.5),
        ("binder_volume.base_c", |r| r.binder_volume.base_c.value = 288.0),
        ("c1 of a binder_volume formula", |r| r.binder_volume.cutback_dense.value[1] = -6.3),
        ("grade.MC-30.greatest_c", |r| r.grade.get_mut("MC-30").unwrap().greatest_c.value = 352.0),
        ("grade.MC-30.least_flash_c", |r| {
            r.grade.get_mut("MC-30").unwrap().least_flash_c.as_mut().unwrap().value = f64::NAN;
        }),
        ("time.cut_out_s_per_m3", |r| r.time.cut_out_s_per_m3.value = 4.5e6),
    ];
    for (what, spoil) in cases {
        let mut rules = rules();
        spoil(&mut rules);
        let errors = check_rules(&rules).unwrap_err();
        assert!(errors.len() == 1 && errors[0].what == what, "{what}: {errors:?}");
        assert!(errors[0].right.contains("is believed"), "{what}: {errors:?}");
    }
}
