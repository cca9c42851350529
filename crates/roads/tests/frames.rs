//! The flat frame beside the road, and places along the road beyond its ends.

mod common;

use common::{network, on_table, place, raw};
use model::district::DrivingSide;
use model::place::{FramePoint, LonLat};
use model::quantity::{InLength, metres};
use model::road::{Flow, SectionId};
use proptest::prelude::*;

#[test]
fn along_follows_the_road_and_across_is_to_the_right() {
    // A road to the south-east, 3-4-5: 300 m along is 180 m east, 240 m south.
    let network = network(vec![raw("road", &[(0.0, 0.0), (600.0, -800.0)], Flow::Both, 50.0)]);
    let frame = network.frame_at(SectionId(0), metres(300.0));
    // along, across; east, north. Right of south-east is south-west: (-0.8, -0.6).
    for (along, across, east, north) in [
        (300.0, 0.0, 180.0, -240.0),
        (305.0, 0.0, 183.0, -244.0),
        (300.0, 5.0, 176.0, -243.0),
        (300.0, -5.0, 184.0, -237.0),
    ] {
        let there = frame.to_lon_lat(FramePoint { along_m: along, across_m: across });
        let (e, n) = on_table(there);
        assert!((e - east).abs() < 1e-3 && (n - north).abs() < 1e-3, "{along}, {across}: {e}, {n}");
        let beside = network.to_lon_lat(SectionId(0), FramePoint { along_m: along, across_m: across });
        assert!(roads::distance(there, beside).in_metres() < 1e-3);
    }
}

#[test]
fn a_hole_found_beside_the_road_has_its_offset_in_its_own_frame() {
    let network = network(vec![raw("road", &[(0.0, 0.0), (300.0, 0.0), (400.0, 200.0)], Flow::Both, 50.0)]);
    for (east, north) in [(100.0, 3.0), (350.0, 90.0), (302.0, -4.0)] {
        let hole = place(east, north);
        let position = network.snap(hole, None, metres(50.0), DrivingSide::Right, &|_| true).unwrap();
        let point = network.frame_of(&position).to_frame(hole);
        assert!((network.frame_of(&position).azimuth_deg() - position.azimuth_deg).abs() < 1e-9);
        // At the bend the foot is the corner and the frame looks half-way, so the hole is not quite square to it.
        let off = point.along_m - position.chainage.in_metres();
        assert!((point.across_m.hypot(off) - position.distance.in_metres()).abs() < 1e-6);
        if east != 302.0 {
            assert!((point.across_m - position.across.in_metres()).abs() < 1e-6 && off.abs() < 1e-6);
        }
    }
}

#[test]
fn beyond_its_end_a_section_goes_on_along_the_road() {
    //            side road
    //               |
    //   main 0 -----+----- main 1      main 1 runs towards the junction, and bends south after 100 m
    let mut lines = vec![
        raw("main", &[(0.0, 0.0), (400.0, 0.0)], Flow::Both, 50.0),
        raw("main", &[(500.0, -300.0), (500.0, 0.0), (400.0, 0.0)], Flow::Both, 50.0),
        raw("side road", &[(400.0, 0.0), (400.0, 300.0)], Flow::Both, 50.0),
    ];
    let network = network(lines.clone());
    // section, chainage; east, north, azimuth of increasing chainage of the section asked for
    let table = [
        (0, 450.0, 450.0, 0.0, 90.0),
        (0, 520.0, 500.0, -20.0, 180.0),
        // past the end of main 1 no road goes on
        (0, 820.0, 500.0, -320.0, 180.0),
        (0, -30.0, -30.0, 0.0, 90.0),
        (1, 450.0, 350.0, 0.0, 270.0),
        // the side road meets the main road square: it goes straight on
        (2, -40.0, 400.0, -40.0, 0.0),
        (2, 40.0, 400.0, 40.0, 0.0),
    ];
    for (section, chainage, east, north, azimuth) in table {
        let (there, found) = network.point_at(SectionId(section), metres(chainage));
        let (e, n) = on_table(there);
        assert!((e - east).abs() < 1e-3 && (n - north).abs() < 1e-3, "{section} {chainage}: {e}, {n}");
        assert!(((found - azimuth + 180.0).rem_euclid(360.0) - 180.0).abs() < 0.01, "{section} {chainage}: {found}");
    }
    // Without a common name the straightest goes on.
    lines[0].attributes.name = String::new();
    lines[2].points[1] = place(420.0, 300.0);
    let (there, _) = common::network(lines).point_at(SectionId(0), metres(450.0));
    assert!(on_table(there).1.abs() < 1e-3);
}

#[test]
fn the_road_of_the_same_name_goes_on_else_the_straightest() {
    // From the west to a junction at 400 m; three roads go on: 50 degrees left, 30 degrees right, straight.
    let ends = [50.0_f64, -30.0, 0.0].map(f64::to_radians).map(|a| (400.0 + 300.0 * a.cos(), 300.0 * a.sin()));
    let asked = |names: [&str; 3]| {
        let mut lines = vec![raw("main", &[(0.0, 0.0), (400.0, 0.0)], Flow::Both, 50.0)];
        lines.extend(names.iter().zip(ends).map(|(name, end)| raw(name, &[(400.0, 0.0), end], Flow::Both, 50.0)));
        let (there, _) = network(lines).point_at(SectionId(0), metres(500.0));
        on_table(there).1.round()
    };
    assert_eq!(asked(["one", "two", "three"]), 0.0);
    assert_eq!(asked(["one", "main", "three"]), -50.0);
    assert_eq!(asked(["main", "main", "three"]), -50.0);
    assert_eq!(asked(["main", "two", "three"]), 77.0);
}

#[test]
fn a_short_ring_is_not_gone_round_for_ever() {
    let ring: Vec<(f64, f64)> =
        (0..=12).map(|i| (f64::from(i % 12) * 30.0).to_radians()).map(|a| (20.0 * a.sin(), 20.0 * a.cos())).collect();
    let network = network(vec![raw("ring", &ring, Flow::Both, 30.0)]);
    let round = network.length(SectionId(0)).in_metres();
    let (there, _) = network.point_at(SectionId(0), metres(2.5 * round));
    let (half, _) = network.point_at(SectionId(0), metres(0.5 * round));
    assert!(roads::distance(there, half).in_metres() < 1e-3);
    network.point_at(SectionId(0), metres(1e9));
}

proptest! {
    /// To the frame and back, and distances as on the ellipsoid, anywhere on the globe.
    #[test]
    fn a_frame_comes_back_and_keeps_distances(
        lon in -179.0..179.0_f64,
        lat in -75.0..75.0_f64,
        bearing in 0.0..360.0_f64,
        along in -50.0..50.0_f64,
        across in -50.0..50.0_f64,
        other_along in -50.0..50.0_f64,
        other_across in -50.0..50.0_f64,
    ) {
        let mut line = raw("road", &[], Flow::Both, 50.0);
        let (step_lat, step_lon) = (0.01 * bearing.to_radians().cos(), 0.01 * bearing.to_radians().sin());
        line.points = vec![LonLat { lon, lat }, LonLat { lon: lon + step_lon, lat: lat + step_lat }];
        let network = network(vec![line]);
        let frame = network.frame_at(SectionId(0), metres(200.0));
        let points = [(along, across), (other_along, other_across)]
            .map(|(a, b)| FramePoint { along_m: 200.0 + a, across_m: b });
        let places = points.map(|point| frame.to_lon_lat(point));
        for (point, there) in points.iter().zip(places) {
            let back = frame.to_frame(there);
            prop_assert!((back.along_m - point.along_m).abs() < 1e-5 && (back.across_m - point.across_m).abs() < 1e-5);
        }
        let flat = (points[0].along_m - points[1].along_m).hypot(points[0].across_m - points[1].across_m);
        let round = roads::distance(places[0], places[1]).in_metres();
        prop_assert!((flat - round).abs() < 1e-5, "{flat} m flat, {round} m round");
    }
}
