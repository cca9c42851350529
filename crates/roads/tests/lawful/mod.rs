//! What holds of every axis, and the real extracts to try it on.
#![allow(dead_code)] // each test file uses its part

use std::path::{Path, PathBuf};

use model::place::Travel;
use model::quantity::InLength;
use model::road_around::RoadAxis;
use model::rules::roads::RoadDefaults;
use proptest::prelude::*;
use roads::Network;

use crate::common::prepare;

/// Third-party data beside the project, if present.
pub fn shared_data() -> Option<PathBuf> {
    let start = Path::new(env!("CARGO_MANIFEST_DIR"));
    let found = start.ancestors().map(|folder| folder.join("shared/data")).find(|path| path.is_dir());
    if found.is_none() {
        println!("skipped: no shared/data beside the project");
    }
    found
}

pub fn read(path: &Path) -> Network {
    let rules = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../rules/roads/open-map-defaults.toml");
    let rules: RoadDefaults = toml::from_str(&std::fs::read_to_string(rules).unwrap()).unwrap();
    let file = exchange::road_files::read_roads(path, &rules, &mut |_| {});
    prepare(roads::network_with_restrictions(file.lines, &file.restrictions).0)
}

/// What holds of every axis.
pub fn lawful(network: &Network, axis: &RoadAxis, begins_m: f64) -> Result<(), TestCaseError> {
    let Some(first) = axis.pieces.first() else { return Ok(()) };
    prop_assert!((first.from.in_metres() - begins_m).abs() < 1e-6);
    prop_assert!(axis.pieces.windows(2).all(|pair| pair[0].to == pair[1].from));
    prop_assert!(axis.points.len() >= 2 && axis.points[0].chainage == first.from);
    prop_assert!(axis.points.last().unwrap().chainage == axis.pieces.last().unwrap().to);
    for pair in axis.points.windows(2) {
        prop_assert!(pair[1].chainage > pair[0].chainage);
        let step = (pair[1].chainage - pair[0].chainage).in_metres();
        let geodesic = roads::distance(pair[0].place, pair[1].place).in_metres();
        let flat = (pair[1].east_m - pair[0].east_m).hypot(pair[1].north_m - pair[0].north_m);
        prop_assert!((step - geodesic).abs() < 1e-5, "{step} m, but {geodesic} m on the ellipsoid");
        prop_assert!((step - flat).abs() < 1e-3 + step * 1e-5, "{step} m, but {flat} m in the frame");
    }
    for piece in &axis.pieces {
        let own_length = network.length(piece.section).in_metres();
        let far = piece.section_at_from.in_metres()
            + (piece.to - piece.from).in_metres() * if piece.direction == Travel::Forward { 1.0 } else { -1.0 };
        prop_assert!((-1e-6..=own_length + 1e-6).contains(&far));
        let (place, _) = network.point_at(piece.section, piece.section_at_from);
        let here = axis.points.iter().find(|point| point.chainage == piece.from).unwrap();
        prop_assert!(roads::distance(place, here.place).in_metres() < 1e-5);
    }
    let mut sections: Vec<u32> = axis.pieces.iter().map(|piece| piece.section.0).collect();
    sections.sort_unstable();
    sections.dedup();
    prop_assert_eq!(sections.len(), axis.pieces.len(), "no section twice");
    let grows = axis.junctions.windows(2).all(|pair| pair[0].chainage < pair[1].chainage);
    prop_assert!(grows && axis.structures.windows(2).all(|pair| pair[0].to <= pair[1].from));
    Ok(())
}
