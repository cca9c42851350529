//! From reported places to positions on roads.

mod common;

use common::{network, place, raw};
use model::district::DrivingSide;
use model::hole::LanePosition;
use model::place::{LonLat, RoadPosition, Side, Travel};
use model::quantity::{InLength, metres};
use model::road::{Flow, RoadClass, RoadSection, SectionId};
use proptest::prelude::*;
use roads::{Network, SnapRefusal};

fn snap(network: &Network, place: LonLat) -> Result<RoadPosition, SnapRefusal> {
    network.snap(place, None, metres(30.0), DrivingSide::Right, &|_| true)
}

#[test]
fn chainage_runs_along_the_line_and_across_is_positive_to_the_right() {
    // Along 300 m east, then 200 m north.
    let network = network(vec![raw("bend", &[(0.0, 0.0), (300.0, 0.0), (300.0, 200.0)], Flow::Both, 50.0)]);
    // east, north of the place; chainage, across, azimuth
    let table = [
        (120.0, 2.0, 120.0, -2.0, 90.0),
        (120.0, -2.0, 120.0, 2.0, 90.0),
        (297.0, 50.0, 350.0, -3.0, 0.0),
        (304.0, 150.0, 450.0, 4.0, 0.0),
        // Outside the bend the corner is nearest: right, in the half-way direction.
        (303.0, -4.0, 300.0, 5.0, 45.0),
        // Before the start and beyond the end.
        (-3.0, 4.0, 0.0, -5.0, 90.0),
        (303.0, 204.0, 500.0, 5.0, 0.0),
    ];
    for (east, north, chainage, across, azimuth) in table {
        let found = snap(&network, place(east, north)).unwrap();
        let figures = (found.chainage.in_metres(), found.across.in_metres(), found.azimuth_deg);
        assert!((figures.0 - chainage).abs() < 1e-3, "{east}, {north}: {figures:?}");
        assert!((figures.1 - across).abs() < 1e-3, "{east}, {north}: {figures:?}");
        // The table's north and the place's differ by the meridians' convergence, below a thousandth of a degree here.
        let turned = (figures.2 - azimuth + 180.0).rem_euclid(360.0) - 180.0;
        assert!(turned.abs() < 1e-3, "{east}, {north}: {figures:?}");
        assert_eq!(found.distance.in_metres(), found.across.in_metres().abs());
    }
}

#[test]
fn side_and_flow_give_the_direction_of_the_lane() {
    let (right, left) = (place(100.0, -2.0), place(100.0, 2.0));
    // driving side, flow; travel in the right lane, in the left lane
    let table = [
        (DrivingSide::Right, Flow::Both, Travel::Forward, Travel::Backward),
        (DrivingSide::Left, Flow::Both, Travel::Backward, Travel::Forward),
        (DrivingSide::Right, Flow::Forward, Travel::Forward, Travel::Forward),
        (DrivingSide::Left, Flow::Forward, Travel::Forward, Travel::Forward),
        (DrivingSide::Right, Flow::Backward, Travel::Backward, Travel::Backward),
    ];
    for (driving, flow, in_right, in_left) in table {
        let network = network(vec![raw("road", &[(0.0, 0.0), (300.0, 0.0)], flow, 50.0)]);
        for (where_, side, travel) in [(right, Side::Right, in_right), (left, Side::Left, in_left)] {
            let found = network.snap(where_, None, metres(30.0), driving, &|_| true).unwrap();
            assert_eq!((found.side, found.travel), (side, travel), "{driving:?} {flow:?}");
        }
        // On the centre line the location says nothing: increasing chainage, unless traffic is one-way.
        let centre = |place| network.snap(place, Some(LanePosition::Centre), metres(30.0), driving, &|_| true).unwrap();
        assert_eq!(centre(left).side, centre(right).side);
        assert_eq!(centre(left).travel, if flow == Flow::Backward { Travel::Backward } else { Travel::Forward });
    }
}

#[test]
fn the_nearest_accepted_road_within_the_limit_is_taken() {
    let mut track = raw("track", &[(0.0, 0.0), (300.0, 0.0)], Flow::Both, 50.0);
    track.attributes.class = RoadClass::Track;
    let network = network(vec![track, raw("road", &[(0.0, 20.0), (300.0, 20.0)], Flow::Both, 50.0)]);
    let sealed = |section: &RoadSection| section.class != RoadClass::Track;
    let try_at = |north: f64, accept: &dyn Fn(&RoadSection) -> bool| {
        network.snap(place(50.0, north), None, metres(15.0), DrivingSide::Right, accept)
    };

    assert_eq!(try_at(8.0, &|_| true).unwrap().section, SectionId(0));
    assert_eq!(try_at(8.0, &sealed).unwrap().section, SectionId(1));

    // 24 m from the road, 4 m from the track.
    let SnapRefusal::NotAccepted { nearest, nearest_accepted } = try_at(-4.0, &sealed).unwrap_err() else { panic!() };
    assert_eq!((nearest.label.as_str(), nearest.distance.in_metres().round()), ("track", 4.0));
    let road = nearest_accepted.unwrap();
    assert_eq!((road.label.as_str(), road.distance.in_metres().round()), ("road", 24.0));

    let refusal = try_at(5020.0, &sealed).unwrap_err();
    assert_eq!(refusal.to_string(), "the nearest road, road, is 5000 m away; at most 15 m are allowed");
    assert_eq!(refusal.nearest().unwrap().section, SectionId(1));
    assert!(matches!(try_at(5000.0, &|_| false), Err(SnapRefusal::NotAccepted { nearest_accepted: None, .. })));
    let nowhere = LonLat { lon: f64::NAN, lat: 0.0 };
    assert!(matches!(snap(&network, nowhere), Err(SnapRefusal::NotAPlace { .. })));
    assert!(matches!(snap(&common::network(Vec::new()), place(0.0, 0.0)), Err(SnapRefusal::NoRoads)));
}

#[test]
fn of_roads_equally_near_the_lowest_number_is_taken() {
    // Four roads out of one junction, in two orders; the place is on the junction.
    let ends = [(200.0, 10.0), (-200.0, 30.0), (10.0, 200.0), (-20.0, -200.0)];
    for turned in 0..4 {
        let mut ends = ends;
        ends.rotate_left(turned);
        let lines = ends.iter().map(|end| raw("road", &[(0.0, 0.0), *end], Flow::Both, 50.0)).collect();
        let found = snap(&network(lines), place(0.0, 0.0)).unwrap();
        assert_eq!((found.section, found.side, found.travel), (SectionId(0), Side::Right, Travel::Forward));
        assert!(found.chainage < metres(1e-6));
    }
}

#[test]
fn a_place_beside_a_long_straight_is_found_though_the_chord_runs_below_it() {
    // The chord of a 20 km geodesic lies 8 m below its middle (sagitta: 20 km squared / 8 earth radii).
    let network = network(vec![raw("long", &[(0.0, 0.0), (20000.0, 0.0)], Flow::Both, 50.0)]);
    let (middle, _) = network.point_at(SectionId(0), metres(10000.0));
    let found = network.snap(middle, None, metres(1.0), DrivingSide::Right, &|_| true).unwrap();
    assert!((found.chainage.in_metres() - 10000.0).abs() < 1e-6 && found.distance < metres(1e-6));
}

#[test]
fn snap_all_is_snap_for_each() {
    let network = network(vec![raw("road", &[(0.0, 0.0), (300.0, 0.0)], Flow::Both, 50.0)]);
    let places = [place(10.0, 1.0), place(10.0, 500.0), place(290.0, -1.0)];
    let many = network.snap_all(&places.map(|p| (p, None)), metres(30.0), DrivingSide::Right, &|_| true);
    let single: Vec<_> = places.iter().map(|p| snap(&network, *p)).collect();
    assert_eq!(many, single);
}

#[test]
fn a_road_over_the_antimeridian_is_found_from_both_sides() {
    let mut line = raw("seam", &[], Flow::Both, 50.0);
    line.points = vec![LonLat { lon: 179.999, lat: 10.0 }, LonLat { lon: -179.999, lat: 10.0 }];
    let network = network(vec![line]);
    for (lon, chainage) in [(179.9995, 54.8), (-179.9995, 164.5)] {
        let found = snap(&network, LonLat { lon, lat: 10.00001 }).unwrap();
        assert!((found.chainage.in_metres() - chainage).abs() < 0.1, "{found:?}");
    }
}

proptest! {
    /// A place made by going along a road and square off it is found again.
    #[test]
    fn a_known_offset_comes_back(
        bends in prop::collection::vec((200.0..2000.0_f64, -40.0..40.0_f64), 1..8),
        part in 0.0..1.0_f64,
        across in -25.0..25.0_f64,
        heading in 0.0..360.0_f64,
    ) {
        let (mut east, mut north, mut heading) = (0.0, 0.0, heading);
        let mut table = vec![(east, north)];
        for (length, bend) in bends {
            heading += bend;
            east += length * heading.to_radians().sin();
            north += length * heading.to_radians().cos();
            table.push((east, north));
        }
        let network = network(vec![raw("road", &table, Flow::Both, 50.0)]);
        let chainage = part * network.length(SectionId(0)).in_metres();
        // Near a bend the inside has two feet and the outside none: stay off by more than the offset.
        let mut vertex = 0.0;
        let mut clear = true;
        for pair in table.windows(2) {
            vertex += (pair[1].0 - pair[0].0).hypot(pair[1].1 - pair[0].1);
            clear &= (vertex - chainage).abs() > 26.0;
        }
        prop_assume!(clear && chainage > 1.0);

        let frame = network.frame_at(SectionId(0), metres(chainage));
        let there = frame.to_lon_lat(model::place::FramePoint { along_m: chainage, across_m: across });
        let found = snap(&network, there).unwrap();

        // The whole walk may come back to itself; then another part of it is nearer.
        prop_assume!(found.distance.in_metres() > across.abs() - 0.01);
        prop_assert!((found.chainage.in_metres() - chainage).abs() < 0.01, "{found:?} for {chainage}, {across}");
        prop_assert!((found.across.in_metres() - across).abs() < 0.01, "{found:?} for {chainage}, {across}");
    }

    /// The search in the tree finds what looking at every road finds.
    #[test]
    fn the_nearest_road_is_nearest_of_all(
        ends in prop::collection::vec((-4000.0..4000.0_f64, -4000.0..4000.0_f64, -4000.0..4000.0_f64, -4000.0..4000.0_f64), 1..12),
        east in -5000.0..5000.0_f64,
        north in -5000.0..5000.0_f64,
    ) {
        let lines: Vec<_> =
            ends.iter().map(|&(a, b, c, d)| raw("road", &[(a, b), (c, d)], Flow::Both, 50.0)).collect();
        let here = place(east, north);
        let nearest = |lines: Vec<_>| {
            network(lines).snap(here, None, metres(1e6), DrivingSide::Left, &|_| true).unwrap().distance.in_metres()
        };
        let one_by_one = lines.iter().map(|line| nearest(vec![line.clone()])).fold(f64::INFINITY, f64::min);
        // Ends within 5 cm of each other move together.
        prop_assert!((nearest(lines) - one_by_one).abs() < 0.1);
    }
}
