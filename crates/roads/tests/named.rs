//! A road found by its name, and a stretch of it.

mod common;

use common::raw;
use model::place::Travel;
use model::quantity::{InLength, metres};
use model::road::{Flow, RawLine, RoadNetwork};
use roads::{NamedRoad, NamedRoadError, network_from_lines};

/// A road of three lines, the middle one drawn against the others, with a road that joins in the first.
fn network() -> RoadNetwork {
    let of = |line: RawLine, name: &str| {
        let mut line = line;
        name.clone_into(&mut line.attributes.name);
        line
    };
    network_from_lines(vec![
        of(raw("11", &[(0.0, 0.0), (60.0, 0.0), (100.0, 0.0)], Flow::Both, 50.0), "Mill Way"),
        of(raw("12", &[(300.0, 0.0), (100.0, 0.0)], Flow::Both, 50.0), "Mill Way"),
        of(raw("13", &[(300.0, 0.0), (350.0, 0.0)], Flow::Both, 50.0), "Mill Way"),
        of(raw("14", &[(60.0, 0.0), (60.0, 80.0)], Flow::Both, 50.0), "Kiln Row"),
        of(raw("15", &[(60.0, 200.0), (60.0, 280.0)], Flow::Both, 50.0), "Kiln Row"),
    ])
    .0
}

#[test]
fn a_road_has_one_chainage_through_its_sections() {
    let network = network();
    let road = NamedRoad::find(&network, " mill way ").unwrap();
    let ends: Vec<(f64, f64, Travel)> =
        road.pieces.iter().map(|p| (p.from.in_metres().round(), p.to.in_metres().round(), p.direction)).collect();
    let (forward, backward) = (Travel::Forward, Travel::Backward);
    assert_eq!(ends, [(0.0, 60.0, forward), (60.0, 100.0, forward), (100.0, 300.0, backward), (300.0, 350.0, forward)]);
    assert!((road.length().in_metres() - 350.0).abs() < 0.1);
    // Against the section's own chainage: 120 to 150 m of the road are 150 to 180 m of the third section.
    let stretch = road.stretch(metres(150.0), metres(120.0)).unwrap();
    assert_eq!((stretch.section, stretch.direction), (road.pieces[2].section, backward));
    let section = network.section(stretch.section);
    assert_eq!(section.source_id, "12");
    assert!((stretch.from.in_metres() - 150.0).abs() < 0.1 && (stretch.to.in_metres() - 180.0).abs() < 0.1);
    // With it.
    let stretch = road.stretch(metres(70.0), metres(80.0)).unwrap();
    assert!((stretch.from.in_metres() - 10.0).abs() < 0.1 && (stretch.to.in_metres() - 20.0).abs() < 0.1);
}

#[test]
fn an_identifier_goes_before_a_name() {
    let network = network();
    let road = NamedRoad::find(&network, "11").unwrap();
    assert_eq!(road.pieces.len(), 2);
    assert!((road.length().in_metres() - 100.0).abs() < 0.1);
}

#[test]
fn what_has_no_chainage_is_said() {
    let network = network();
    assert_eq!(NamedRoad::find(&network, "Mill"), Err(NamedRoadError::Unknown));
    assert_eq!(NamedRoad::find(&network, ""), Err(NamedRoadError::Unknown));
    assert!(matches!(NamedRoad::find(&network, "Kiln Row"), Err(NamedRoadError::NotOneLine(ids)) if ids.len() == 2));
    let road = NamedRoad::find(&network, "Mill Way").unwrap();
    let refused = |from: f64, to: f64| road.stretch(metres(from), metres(to)).unwrap_err().to_string();
    assert_eq!(refused(-1.0, 5.0), "the road goes from 0 to 350 m");
    assert_eq!(refused(340.0, 351.0), "the road goes from 0 to 350 m");
    assert_eq!(refused(f64::NAN, 5.0), "the road goes from 0 to 350 m");
    assert_eq!(refused(50.0, 70.0), "the road's sections meet at 60 m, between the two");
}

#[test]
fn a_fork_and_a_ring_are_no_line() {
    let fork =
        [("1", (0.0, 0.0), (100.0, 0.0)), ("1", (100.0, 0.0), (200.0, 50.0)), ("1", (100.0, 0.0), (200.0, -50.0))];
    let ring = [("1", (0.0, 0.0), (100.0, 0.0)), ("1", (100.0, 0.0), (50.0, 80.0)), ("1", (50.0, 80.0), (0.0, 0.0))];
    for lines in [fork, ring] {
        let lines = lines.map(|(id, from, to)| raw(id, &[from, to], Flow::Both, 50.0)).to_vec();
        let network = network_from_lines(lines).0;
        assert!(matches!(NamedRoad::find(&network, "1"), Err(NamedRoadError::NotOneLine(_))));
    }
}
