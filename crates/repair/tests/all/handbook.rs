//! Worked examples of the handbook's pages, read from the pages themselves.

use model::quantity::{InLength, InVolume, metres, square_metres};
use repair::layers::{fill_volume, layer_count, layer_thickness};
use serde::Deserialize;
use testkit::worked_examples;

#[derive(Deserialize)]
struct LayerCase {
    depth_m: f64,
    greatest_layer_m: f64,
    layers: u32,
    thickness_m: f64,
}

#[derive(Deserialize)]
struct FillVolume {
    area_m2: f64,
    depth_m: f64,
    crown_m: f64,
    volume_m3: f64,
}

#[test]
fn layers_and_fill() {
    for case in worked_examples::<LayerCase>("layers-and-fill", "layers") {
        let count = layer_count(metres(case.depth_m), metres(case.greatest_layer_m));
        assert_eq!(count, case.layers, "{} m", case.depth_m);
        let thickness = layer_thickness(metres(case.depth_m), count).in_metres();
        assert!((thickness - case.thickness_m).abs() < 1e-6, "{thickness}");
    }
    for case in worked_examples::<FillVolume>("layers-and-fill", "fill_volume") {
        let volume = fill_volume(square_metres(case.area_m2), metres(case.depth_m), metres(case.crown_m));
        assert!((volume.in_cubic_metres() - case.volume_m3).abs() < 1e-9, "{}", volume.in_cubic_metres());
    }
}
