//! From lines to sections that meet at nodes.

mod common;

use common::{keyed, raw};
use model::place::LonLat;
use model::problem::ProblemSeverity;
use model::quantity::{InLength, kilometres_per_hour, metres};
use model::road::{Flow, RawLine, RoadNetwork};
use proptest::prelude::*;
use roads::{network_from_lines, network_from_lines_within};

/// Source id, from, to, length to the decimetre, of each section.
fn table(network: &RoadNetwork) -> Vec<(String, u32, u32, f64)> {
    network
        .sections
        .iter()
        .map(|s| (s.source_id.clone(), s.from.0, s.to.0, (s.length.in_metres() * 10.0).round() / 10.0))
        .collect()
}

fn row(source_id: &str, from: u32, to: u32, length: f64) -> (String, u32, u32, f64) {
    (source_id.to_owned(), from, to, length)
}

#[test]
fn keyed_lines_are_cut_where_a_key_is_shared() {
    //            4
    //            |
    //  1----2----3----5      2 is no junction; lines a (1 2 3 5) and b (4 3)
    let lines = vec![
        keyed("a", &[(1, 0.0, 0.0), (2, 100.0, 0.0), (3, 200.0, 0.0), (5, 350.0, 0.0)]),
        keyed("b", &[(4, 200.0, 80.0), (3, 200.0, 0.0)]),
    ];
    let (network, problems) = network_from_lines(lines);
    assert!(problems.is_empty());
    assert_eq!(table(&network), [row("a", 0, 1, 200.0), row("a", 1, 2, 150.0), row("b", 3, 1, 80.0)]);
    assert_eq!(network.sections[0].line.len(), 3);
}

#[test]
fn a_line_that_meets_itself_is_cut_there() {
    // A lollipop: 1 to 2, round by 3 and 4, back to 2.
    let table_of = |keys: bool| {
        let points = [(1, 0.0, 0.0), (2, 100.0, 0.0), (3, 150.0, 50.0), (4, 150.0, -50.0), (2, 100.0, 0.0)];
        let mut line = keyed("loop", &points);
        if !keys {
            line.node_keys = None;
        }
        table(&network_from_lines(vec![line]).0)
    };
    let expected = [row("loop", 0, 1, 100.0), row("loop", 1, 1, 241.4)];
    assert_eq!(table_of(true), expected);
    assert_eq!(table_of(false), expected);
}

#[test]
fn a_closed_line_alone_is_one_section() {
    let ring = raw("ring", &[(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 0.0)], Flow::Both, 50.0);
    assert_eq!(table(&network_from_lines(vec![ring]).0), [row("ring", 0, 0, 341.4)]);
}

#[test]
fn a_point_said_twice_in_a_row_is_one_point_and_no_junction() {
    let line = keyed("a", &[(1, 0.0, 0.0), (2, 100.0, 0.0), (2, 100.0, 0.0), (3, 200.0, 0.0)]);
    let (network, problems) = network_from_lines(vec![line]);
    assert_eq!((table(&network), problems.len()), (vec![row("a", 0, 1, 200.0)], 0));
    assert_eq!(network.sections[0].line.len(), 3);
}

#[test]
fn keyed_lines_that_cross_without_a_shared_key_do_not_meet() {
    let lines = vec![
        keyed("under", &[(1, 0.0, 0.0), (2, 100.0, 0.0), (3, 200.0, 0.0)]),
        keyed("bridge", &[(4, 100.0, -50.0), (5, 100.0, 0.0), (6, 100.0, 50.0)]),
    ];
    assert_eq!(table(&network_from_lines(lines).0), [row("under", 0, 1, 200.0), row("bridge", 2, 3, 100.0)]);
}

#[test]
fn lines_without_keys_meet_where_an_end_touches() {
    // b ends 3 cm off a vertex of a; c begins 4 cm off the end of a; d crosses a at a vertex of both, no end: a bridge.
    let lines = vec![
        raw("a", &[(0.0, 0.0), (100.0, 0.0), (200.0, 0.0), (300.0, 0.0)], Flow::Both, 50.0),
        raw("b", &[(100.0, 50.0), (100.0, 0.03)], Flow::Both, 50.0),
        raw("c", &[(300.04, 0.0), (400.0, 0.0)], Flow::Both, 50.0),
        raw("d", &[(200.0, 60.0), (200.0, 0.0), (200.0, -60.0)], Flow::Both, 50.0),
    ];
    let (network, problems) = network_from_lines(lines.clone());
    assert!(problems.is_empty());
    let expected = [
        row("a", 0, 1, 100.0),
        row("a", 1, 2, 200.0),
        row("b", 3, 1, 50.0),
        row("c", 2, 4, 100.0),
        row("d", 5, 6, 120.0),
    ];
    assert_eq!(table(&network), expected);
    // Sections end exactly on their nodes.
    for section in &network.sections {
        assert_eq!(section.line[0], network.nodes[section.from.0 as usize]);
        assert_eq!(section.line[section.line.len() - 1], network.nodes[section.to.0 as usize]);
    }
    // With a tolerance of a centimetre nothing touches.
    assert_eq!(network_from_lines_within(lines, metres(0.01)).0.nodes.len(), 8);
}

#[test]
fn pieces_without_length_vanish_and_their_ends_are_one_node() {
    // Keys 2 and 3 are at the same place, and a line of no length joins them.
    let lines = vec![
        keyed("a", &[(1, 0.0, 0.0), (2, 100.0, 0.0)]),
        keyed("nothing", &[(2, 100.0, 0.0), (3, 100.0, 0.0)]),
        keyed("b", &[(3, 100.0, 0.0), (4, 180.0, 0.0), (4, 180.0, 0.0)]),
    ];
    let (network, problems) = network_from_lines(lines);
    assert_eq!(table(&network), [row("a", 0, 1, 100.0), row("b", 1, 2, 80.0)]);
    assert_eq!(problems.len(), 1);
    assert_eq!((problems[0].code, problems[0].severity), ("road.line.no_length", ProblemSeverity::Warning));
    assert_eq!(problems[0].subject, "nothing");
}

#[test]
fn a_line_that_cannot_be_used_is_refused_and_the_rest_goes_on() {
    let good = || raw("good", &[(0.0, 0.0), (100.0, 0.0)], Flow::Both, 50.0);
    let with = |change: &dyn Fn(&mut RawLine)| {
        let mut line = RawLine { source_id: "bad".to_owned(), ..good() };
        change(&mut line);
        line
    };
    let bad: Vec<(&str, RawLine)> = vec![
        ("road.line.too_short", with(&|line| line.points.truncate(1))),
        ("road.line.off_globe", with(&|line| line.points[1].lat = f64::NAN)),
        ("road.line.off_globe", with(&|line| line.points[0] = LonLat { lon: 200.0, lat: 0.0 })),
        ("road.line.keys", with(&|line| line.node_keys = Some(vec![1]))),
        ("road.speed", with(&|line| line.attributes.speed = kilometres_per_hour(0.0))),
        ("road.speed", with(&|line| line.attributes.speed = kilometres_per_hour(f64::INFINITY))),
        ("road.width", with(&|line| line.attributes.width = metres(f64::NAN))),
        ("road.width", with(&|line| line.attributes.shoulder = metres(-1.0))),
        ("road.traffic", with(&|line| line.attributes.vehicles_per_day = Some(-3.0))),
    ];
    for (code, line) in bad {
        let (network, problems) = network_from_lines(vec![line, good()]);
        assert_eq!(table(&network), [row("good", 0, 1, 100.0)], "{code}");
        assert_eq!(problems.len(), 1, "{code}");
        assert_eq!((problems[0].code, problems[0].severity), (code, ProblemSeverity::Refused));
        assert!(problems[0].to_string().starts_with("table: bad: "), "{}", problems[0]);
    }
}

#[test]
fn no_lines_make_an_empty_network_that_can_be_prepared() {
    let network = common::network(Vec::new());
    assert!(network.components().is_empty());
    assert_eq!(network.matrix(&[]), roads::Matrix::default());
}

#[test]
fn pieces_that_no_road_joins_are_reported_longest_first() {
    let network = common::network(vec![
        raw("small", &[(5000.0, 0.0), (5100.0, 0.0)], Flow::Both, 50.0),
        raw("large", &[(0.0, 0.0), (800.0, 0.0)], Flow::Both, 50.0),
        raw("large too", &[(800.0, 0.0), (800.0, 300.0)], Flow::Forward, 50.0),
    ]);
    let sizes: Vec<_> =
        network.components().iter().map(|c| (c.nodes, c.sections, c.length.in_metres().round())).collect();
    assert_eq!(sizes, [(3, 2, 1100.0), (2, 1, 100.0)]);
    let pieces: Vec<_> = network.roads().sections.iter().map(|section| network.component_of(section.id)).collect();
    assert_eq!(pieces, [1, 0, 0]);
}

proptest! {
    /// Cutting loses no road: the sections are as long as the lines, and the same whatever the names.
    #[test]
    fn cutting_keeps_length_and_order(walks in prop::collection::vec(prop::collection::vec(0_u64..12, 2..7), 1..8)) {
        let corner = |key: u64| (key, (key % 4) as f64 * 500.0, (key / 4) as f64 * 400.0);
        let lines: Vec<RawLine> = walks
            .iter()
            .enumerate()
            .map(|(index, walk)| keyed(&index.to_string(), &walk.iter().map(|key| corner(*key)).collect::<Vec<_>>()))
            .collect();
        let drawn: f64 = lines
            .iter()
            .flat_map(|line| line.points.windows(2).map(|pair| roads::distance(pair[0], pair[1]).in_metres()))
            .sum();
        let (network, _) = network_from_lines(lines.clone());
        let cut: f64 = network.sections.iter().map(|section| section.length.in_metres()).sum();
        prop_assert!((drawn - cut).abs() < 1e-6);
        let numbers: Vec<usize> = network.sections.iter().map(|section| section.source_id.parse().unwrap()).collect();
        prop_assert!(numbers.is_sorted());
        // A junction is inside no section: every key that is used again is an end.
        for section in &network.sections {
            for inner in &section.line[1..section.line.len() - 1] {
                prop_assert!(!network.nodes.contains(inner));
            }
        }
        prop_assert_eq!(network_from_lines(lines).0, network);
    }
}
