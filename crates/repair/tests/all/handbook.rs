//! Worked examples of the handbook's pages on layers, compaction, mass and spoil, read from the pages themselves.

use model::district::BaseMaterial;
use model::quantity::{
    InArea, InLength, InMass, InMassDensity, InTime, InVolume, cubic_metres, feet, fraction, inches,
    kilograms_per_cubic_metre, kilometres_per_hour, metres, miles_per_hour, seconds, square_metres,
};
use model::quantity::{Length, Velocity};
use repair::compaction::{lanes_across, rolling_time};
use repair::layers::{fill_volume, layer_count, layer_thickness, least_depth, least_layer, loose_height, mean_crown};
use repair::moisture::{dry_density, loose_factor};
use repair::spoil;
use serde::Deserialize;
use testkit::worked_examples;

use crate::support::{Example, near, rules};

#[derive(Deserialize)]
struct LayerCase {
    depth_m: f64,
    greatest_layer_m: f64,
    layers: u32,
    thickness_m: f64,
}

#[derive(Deserialize)]
struct LeastLayer {
    largest_stone_m: f64,
    stones: f64,
    least_m: f64,
    depth_m: f64,
    greatest_layer_m: f64,
    dig_to_m: Option<f64>,
}

#[derive(Deserialize)]
struct FillVolume {
    area_m2: f64,
    depth_m: f64,
    crown_m: f64,
    volume_m3: f64,
}

#[derive(Deserialize)]
struct CrownCase {
    thickness_m: f64,
    crown_m: f64,
    loose_factor: f64,
    mean_m: f64,
    loose_at_sides_m: f64,
    loose_in_middle_m: f64,
}

#[test]
fn layers_and_fill() {
    for case in worked_examples::<LayerCase>("layers-and-fill", "layers") {
        let count = layer_count(metres(case.depth_m), metres(case.greatest_layer_m));
        assert_eq!(count, case.layers, "{} m", case.depth_m);
        let thickness = layer_thickness(metres(case.depth_m), count).in_metres();
        assert!((thickness - case.thickness_m).abs() < 1e-6, "{thickness}");
    }
    for case in worked_examples::<LeastLayer>("layers-and-fill", "least_layer") {
        let least = least_layer(metres(case.largest_stone_m), case.stones);
        near(least.in_metres(), case.least_m, 1e-12);
        let found = least_depth(metres(case.depth_m), least, metres(case.greatest_layer_m));
        assert_eq!(found.is_some(), case.dig_to_m.is_some(), "{} m", case.depth_m);
        near(found.map_or(0.0, InLength::in_metres), case.dig_to_m.unwrap_or(0.0), 1e-12);
    }
    for case in worked_examples::<FillVolume>("layers-and-fill", "fill_volume") {
        let volume = fill_volume(square_metres(case.area_m2), metres(case.depth_m), metres(case.crown_m));
        near(volume.in_cubic_metres(), case.volume_m3, 1e-12);
    }
    for case in worked_examples::<CrownCase>("layers-and-fill", "crown") {
        let crown = metres(case.crown_m);
        near(mean_crown(crown).in_metres(), case.mean_m, 1e-12);
        let height = |crown| loose_height(metres(case.thickness_m), crown, case.loose_factor).in_metres();
        near(height(metres(0.0)), case.loose_at_sides_m, 1e-9);
        near(height(crown), case.loose_in_middle_m, 1e-9);
    }
}

#[derive(Deserialize)]
struct LaneCase {
    width_m: f64,
    machine_m: f64,
    overlap_m: f64,
    lanes: u32,
}

#[derive(Deserialize)]
struct LayerTime {
    lanes: u32,
    passes: u32,
    length_m: f64,
    speed_km_per_h: f64,
    turn_s: f64,
    time_s: f64,
}

#[derive(Deserialize)]
struct ProductionCustomary {
    width_ft: f64,
    speed_mph: f64,
    layer_in: f64,
    efficiency: f64,
    passes: u32,
    yd3_per_h: f64,
}

#[derive(Deserialize)]
struct ProductionMetric {
    width_m: f64,
    speed_km_per_h: f64,
    layer_m: f64,
    efficiency: f64,
    passes: u32,
    m3_per_h: f64,
}

#[test]
fn compaction() {
    for case in worked_examples::<LaneCase>("compaction", "lanes") {
        let found = lanes_across(metres(case.width_m), metres(case.machine_m), metres(case.overlap_m));
        assert_eq!(found, case.lanes, "{} m", case.width_m);
    }
    for case in worked_examples::<LayerTime>("compaction", "layer_time") {
        let speed = kilometres_per_hour(case.speed_km_per_h);
        let found = rolling_time(1, case.lanes, case.passes, metres(case.length_m), speed, seconds(case.turn_s));
        near(found.in_seconds(), case.time_s, 1e-9);
    }
    for case in worked_examples::<ProductionCustomary>("compaction", "production_customary") {
        let speed = miles_per_hour(case.speed_mph);
        let volume = rolled_in_an_hour(feet(case.width_ft), speed, inches(case.layer_in), case.passes);
        // The example rounds 16.296 to 16.3; a cubic yard is 27 cubic feet.
        near(volume * case.efficiency / (27.0 * 0.3048_f64.powi(3)), case.yd3_per_h, 1e-3);
    }
    for case in worked_examples::<ProductionMetric>("compaction", "production_metric") {
        let speed = kilometres_per_hour(case.speed_km_per_h);
        let volume = rolled_in_an_hour(metres(case.width_m), speed, metres(case.layer_m), case.passes);
        near(volume * case.efficiency, case.m3_per_h, 1e-9);
    }
}

/// Cubic metres an hour that our time model gives for one lane of the roller's width in the open, without turning.
fn rolled_in_an_hour(width: Length, speed: Velocity, layer: Length, passes: u32) -> f64 {
    let lane = metres(100.0);
    let lanes = lanes_across(width, width, metres(0.0));
    let time = rolling_time(1, lanes, passes, lane, speed, seconds(0.0));
    (width * lane).in_square_metres() * layer.in_metres() / time.in_hours()
}

#[derive(Deserialize)]
struct LooseFactor {
    dry_density_kg_per_m3: f64,
    moisture: f64,
    loose_density_kg_per_m3: f64,
    factor: f64,
}

#[derive(Deserialize)]
struct MassCase {
    volume_m3: f64,
    maximum_dry_density_kg_per_m3: f64,
    degree_of_compaction: f64,
    moisture: f64,
    loose_density_kg_per_m3: f64,
    dry_kg: f64,
    wet_kg: f64,
    loose_m3: f64,
}

fn base(maximum_dry_density: f64, moisture: f64, loose_density: f64) -> BaseMaterial {
    let mut base = Example::worked().base;
    base.maximum_dry_density = kilograms_per_cubic_metre(maximum_dry_density);
    base.stock_moisture = fraction(moisture);
    base.loose_density = kilograms_per_cubic_metre(loose_density);
    base
}

#[test]
fn mass_and_loose_volume() {
    for case in worked_examples::<LooseFactor>("mass-and-loose-volume", "loose_factor") {
        let base = base(case.dry_density_kg_per_m3, case.moisture, case.loose_density_kg_per_m3);
        // The sources print four decimals.
        near(loose_factor(kilograms_per_cubic_metre(case.dry_density_kg_per_m3), &base), case.factor, 5e-5);
    }
    for case in worked_examples::<MassCase>("mass-and-loose-volume", "mass") {
        let mut rules = rules();
        rules.moisture.degree_of_compaction.value = case.degree_of_compaction;
        let mut example = Example::worked();
        example.base = base(case.maximum_dry_density_kg_per_m3, case.moisture, case.loose_density_kg_per_m3);
        let density = dry_density(&example.base, &rules.moisture);
        near((cubic_metres(case.volume_m3) * density).in_kilograms(), case.dry_kg, 1e-6);
        // A cut that holds just this volume, flat.
        rules.fill.crown_m.value = 0.0;
        example.depth = case.volume_m3 / (example.length * example.width);
        let found = repair::repair(&example.input(), &rules);
        near(found.fill_dry_mass.value.in_kilograms(), case.dry_kg, 1e-6);
        near(found.fill_wet_mass.value.in_kilograms(), case.wet_kg, 1e-6);
        near(found.loose_volume.value.in_cubic_metres(), case.loose_m3, 2e-6);
        near(density.in_kilograms_per_cubic_metre() * case.volume_m3, case.dry_kg, 1e-6);
    }
}

#[derive(Deserialize)]
struct BulkCase {
    bank_m3: f64,
    bulking: f64,
    loose_m3: f64,
}

#[derive(Deserialize)]
struct Cut {
    area_m2: f64,
    depth_m: f64,
    hole_m3: f64,
    bulking: f64,
    density_kg_per_m3: f64,
    bank_m3: f64,
    loose_m3: f64,
    mass_kg: f64,
}

#[test]
fn spoil_of_a_cut() {
    let mut rules = rules().spoil;
    for case in worked_examples::<BulkCase>("spoil", "loose") {
        rules.bulking.value = case.bulking;
        near(spoil::loose_volume(cubic_metres(case.bank_m3), &rules).in_cubic_metres(), case.loose_m3, 1e-12);
    }
    for case in worked_examples::<Cut>("spoil", "cut") {
        rules.bulking.value = case.bulking;
        rules.bank_density_kg_per_m3.value = case.density_kg_per_m3;
        let bank =
            spoil::bank_volume(square_metres(case.area_m2), metres(case.depth_m), Some(cubic_metres(case.hole_m3)));
        near(bank.in_cubic_metres(), case.bank_m3, 1e-9);
        near(spoil::loose_volume(bank, &rules).in_cubic_metres(), case.loose_m3, 1e-9);
        near(spoil::mass(bank, &rules).in_kilograms(), case.mass_kg, 1e-9);
    }
}
