//! Driving times against two independent ways to find shortest paths.

mod common;

use std::collections::BTreeMap;

use common::{at, prepare, raw};
use model::place::{LonLat, Travel};
use model::quantity::{InLength, InVelocity};
use model::road::{Flow, RawLine};
use petgraph::graph::{DiGraph, NodeIndex};
use proptest::prelude::*;
use roads::{AccessPlace, Network, UNREACHABLE_METRES, UNREACHABLE_MS, network_from_lines};
use serde::Deserialize;

/// Made by `reference/shortest_paths.py`: lengths by geographiclib, paths by networkx.
#[derive(Deserialize)]
struct Reference {
    nodes_microdegrees: Vec<(f64, f64)>,
    arcs: Vec<(usize, usize, f64)>,
    places: Vec<u32>,
    milliseconds: Vec<Vec<Option<u32>>>,
    metres: Vec<Vec<Option<f64>>>,
}

#[test]
fn times_and_distances_on_two_thousand_nodes_equal_networkx() {
    let reference: Reference = serde_json::from_str(include_str!("reference/shortest_paths.json")).unwrap();
    let node = |index: usize| {
        let (lon, lat) = reference.nodes_microdegrees[index];
        LonLat { lon: lon / 1e6, lat: lat / 1e6 }
    };
    let lines = reference
        .arcs
        .iter()
        .map(|&(from, to, kmh)| RawLine {
            points: vec![node(from), node(to)],
            node_keys: Some(vec![from as u64, to as u64]),
            ..raw("", &[], Flow::Forward, kmh)
        })
        .collect();
    let network = prepare(network_from_lines(lines).0);
    assert_eq!(network.roads().sections.len(), reference.arcs.len());
    let places: Vec<AccessPlace> =
        reference.places.iter().map(|&section| AccessPlace::site(at(section, 0.0, Travel::Forward))).collect();

    let matrix = network.matrix(&places);

    for (row, (times, lengths)) in reference.milliseconds.iter().zip(&reference.metres).enumerate() {
        for (column, (ms, metres)) in times.iter().zip(lengths).enumerate() {
            assert_eq!(matrix.travel_ms[row][column], ms.unwrap_or(UNREACHABLE_MS), "{row} -> {column}");
            let found = matrix.metres[row][column];
            match metres {
                // The reference is rounded to a centimetre, each section of ours to a millimetre or less.
                Some(metres) => assert!((found - metres).abs() < 0.02, "{row} -> {column}: {found} m, not {metres} m"),
                None => assert_eq!(found, UNREACHABLE_METRES),
            }
        }
    }
    let missing = reference.milliseconds.iter().flatten().filter(|ms| ms.is_none()).count();
    assert!(missing > 100, "the table must have pairs that no road joins, has {missing}");
}

/// A network and places on it, small enough to be hard: loops, parallel roads, one-way roads, nothing joined.
#[derive(Debug, Clone)]
struct Case {
    nodes: Vec<(f64, f64)>,
    roads: Vec<(usize, usize, Flow, f64)>,
    places: Vec<(usize, f64, bool, bool)>,
}

fn cases() -> impl Strategy<Value = Case> {
    let flow = prop_oneof![Just(Flow::Both), Just(Flow::Forward), Just(Flow::Backward)];
    (2_usize..9).prop_flat_map(move |count| {
        let nodes = prop::collection::vec((-3000.0..3000.0_f64, -3000.0..3000.0_f64), count);
        let roads = prop::collection::vec((0..count, 0..count, flow.clone(), 20.0..100.0_f64), 1..22);
        let places = prop::collection::vec((0_usize..1000, 0.01..0.99_f64, any::<bool>(), any::<bool>()), 1..7);
        (nodes, roads, places).prop_map(|(nodes, roads, places)| Case { nodes, roads, places })
    })
}

/// The network of a case; a loop goes out to a point of its own and back.
fn build(case: &Case) -> (Network, Vec<AccessPlace>) {
    let lines = case
        .roads
        .iter()
        .enumerate()
        .map(|(index, &(from, to, flow, kmh))| {
            let (a, b) = (case.nodes[from], case.nodes[to]);
            let middle = (f64::midpoint(a.0, b.0) + 150.0 + 10.0 * index as f64, f64::midpoint(a.1, b.1) + 90.0);
            RawLine {
                node_keys: Some(vec![from as u64, 1000 + index as u64, to as u64]),
                ..raw(&format!("road {index}"), &[a, middle, b], flow, kmh)
            }
        })
        .collect();
    let network = prepare(network_from_lines(lines).0);
    let places = case
        .places
        .iter()
        .map(|&(pick, along, forward, both_ways)| {
            let section = &network.roads().sections[pick % network.roads().sections.len()];
            let travel = match section.flow {
                Flow::Forward => Travel::Forward,
                Flow::Both if forward => Travel::Forward,
                Flow::Both | Flow::Backward => Travel::Backward,
            };
            let position = at(section.id.0, along * network.length(section.id).in_metres(), travel);
            AccessPlace { position, both_ways }
        })
        .collect();
    (network, places)
}

/// Milliseconds by Dijkstra's algorithm (petgraph) on a graph in which every road is split at every place on it.
fn by_dijkstra(network: &Network, places: &[AccessPlace]) -> Vec<Vec<Option<f64>>> {
    let mut graph: DiGraph<(), f64> = DiGraph::new();
    let nodes: Vec<NodeIndex> = network.roads().nodes.iter().map(|_| graph.add_node(())).collect();
    let mut place_nodes: BTreeMap<(usize, Travel), NodeIndex> = BTreeMap::new();
    for section in &network.roads().sections {
        let (length, speed) = (network.length(section.id).in_metres(), section.speed.in_metres_per_second());
        let mut stops: Vec<(f64, usize)> = places
            .iter()
            .enumerate()
            .filter(|(_, place)| place.position.section == section.id)
            .map(|(index, place)| (place.position.chainage.in_metres(), index))
            .collect();
        stops.sort_by(|a, b| a.0.total_cmp(&b.0));
        for travel in [Travel::Forward, Travel::Backward] {
            let forward = travel == Travel::Forward;
            if section.flow == if forward { Flow::Backward } else { Flow::Forward } {
                continue;
            }
            let (mut last, end) =
                if forward { (section.from, section.to) } else { (section.to, section.from) }.into_nodes(&nodes);
            let mut last_chainage = if forward { 0.0 } else { length };
            let order: Vec<(f64, usize)> = if forward { stops.clone() } else { stops.iter().rev().copied().collect() };
            for (chainage, index) in order {
                let node = graph.add_node(());
                place_nodes.insert((index, travel), node);
                graph.add_edge(last, node, (chainage - last_chainage).abs() / speed * 1000.0);
                (last, last_chainage) = (node, chainage);
            }
            let rest = if forward { length - last_chainage } else { last_chainage };
            graph.add_edge(last, end, rest / speed * 1000.0);
        }
    }
    let doors = |index: usize| {
        let place = &places[index];
        [Travel::Forward, Travel::Backward]
            .into_iter()
            .filter(move |travel| place.both_ways || *travel == place.position.travel)
            .filter_map(|travel| place_nodes.get(&(index, travel)).copied())
            .collect::<Vec<_>>()
    };
    (0..places.len())
        .map(|row| {
            let reached: Vec<_> = doors(row)
                .into_iter()
                .map(|door| petgraph::algo::dijkstra(&graph, door, None, |edge| *edge.weight()))
                .collect();
            (0..places.len())
                .map(|column| {
                    if row == column {
                        return Some(0.0);
                    }
                    let times = reached
                        .iter()
                        .flat_map(|from| doors(column).into_iter().filter_map(|door| from.get(&door).copied()));
                    times.min_by(f64::total_cmp)
                })
                .collect()
        })
        .collect()
}

/// From and to as nodes of the test's graph.
trait IntoNodes {
    fn into_nodes(self, nodes: &[NodeIndex]) -> (NodeIndex, NodeIndex);
}

impl IntoNodes for (model::road::NodeId, model::road::NodeId) {
    fn into_nodes(self, nodes: &[NodeIndex]) -> (NodeIndex, NodeIndex) {
        (nodes[self.0.0 as usize], nodes[self.1.0 as usize])
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn times_between_any_places_equal_dijkstras(case in cases()) {
        let (network, places) = build(&case);
        let matrix = network.matrix(&places);
        let expected = by_dijkstra(&network, &places);
        for (row, times) in expected.iter().enumerate() {
            for (column, time) in times.iter().enumerate() {
                let found = matrix.travel_ms[row][column];
                // Each section and each leg is rounded to a whole millisecond.
                let same = time.map_or(found == UNREACHABLE_MS, |ms| (f64::from(found) - ms).abs() <= 6.0);
                prop_assert!(same, "{row} -> {column}: {found}, not {time:?}");
            }
        }
    }

    #[test]
    fn the_way_drawn_is_the_way_counted(case in cases()) {
        let (network, places) = build(&case);
        let matrix = network.matrix(&places);
        for (row, from) in places.iter().enumerate() {
            for (column, to) in places.iter().enumerate() {
                let Some(way) = network.way(from, to) else {
                    prop_assert_eq!(matrix.travel_ms[row][column], UNREACHABLE_MS);
                    continue;
                };
                if row == column { continue; }
                prop_assert_eq!(way.travel_s, matrix.travel_s()[row][column]);
                prop_assert!((way.distance.in_metres() - matrix.metres[row][column]).abs() < 1e-3);
                let drawn: f64 = way.line.windows(2).map(|pair| roads::distance(pair[0], pair[1]).in_metres()).sum();
                prop_assert!((drawn - way.distance.in_metres()).abs() < 1e-3, "{drawn} m drawn, {:?}", way.distance);
                for (end, place) in [(way.line[0], from), (way.line[way.line.len() - 1], to)] {
                    let there = network.point_at(place.position.section, place.position.chainage).0;
                    prop_assert!(roads::distance(end, there).in_metres() < 1e-3);
                }
            }
        }
    }
}
