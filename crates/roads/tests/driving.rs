//! Driving obeys one-way roads, arrives on the right side, and turns round at nodes only.

mod common;

use common::{at, network, on_table, prepare, raw};
use model::place::Travel::{Backward, Forward};
use model::quantity::{InLength, fraction, kilometres_per_hour, metres};
use model::road::{Flow, NodeId};
use roads::{AccessPlace, Network, PrepareError, TruckSpeeds, UNREACHABLE_METRES, UNREACHABLE_MS, network_from_lines};

/// Time between two places, at 36 km/h: a tenth of a second a metre, so metres read off the milliseconds.
fn metres_driven(network: &Network, from: &AccessPlace, to: &AccessPlace) -> f64 {
    let matrix = network.matrix(&[*from, *to]);
    assert_eq!(matrix.travel_ms[0][0], 0);
    assert!((f64::from(matrix.travel_ms[0][1]) / 100.0 - matrix.metres[0][1]).abs() < 0.05);
    matrix.metres[0][1].round()
}

#[test]
fn a_hole_on_the_far_side_costs_the_way_to_a_turning_node() {
    // A ---- 1000 m ---- B: the depot at 100 m, holes at 400 m. The near lane is reached directly; the far lane by
    // turning at B and coming back.
    let network = network(vec![raw("road", &[(0.0, 0.0), (1000.0, 0.0)], Flow::Both, 36.0)]);
    let depot = AccessPlace::depot(at(0, 100.0, Forward));
    let near = AccessPlace::site(at(0, 400.0, Forward));
    let far = AccessPlace::site(at(0, 400.0, Backward));
    let table = [
        (depot, near, 300.0),
        (depot, far, 900.0 + 600.0),
        // From the near lane the truck must go on to B and back to A's side of the depot.
        (near, depot, 600.0 + 900.0),
        (far, depot, 300.0),
        (near, far, 600.0 + 600.0),
        (far, near, 400.0 + 400.0),
        // A second hole in the same lane behind the first: all the way round.
        (near, AccessPlace::site(at(0, 300.0, Forward)), 600.0 + 1000.0 + 300.0),
        (near, AccessPlace::site(at(0, 450.0, Forward)), 50.0),
    ];
    for (from, to, expected) in table {
        assert_eq!(metres_driven(&network, &from, &to), expected, "{from:?} {to:?}");
    }
}

#[test]
fn one_way_roads_are_obeyed() {
    //   0 --a--> 1     a square of 100 m, one-way round: 0 1 2 3
    //   ^        |
    //   d        b
    //   |        v
    //   3 <--c-- 2
    let corners = [(0.0, 100.0), (100.0, 100.0), (100.0, 0.0), (0.0, 0.0)];
    let lines = (0..4)
        .map(|i| {
            let (from, to) = (corners[i], corners[(i + 1) % 4]);
            // Every other road is drawn against its traffic.
            if i % 2 == 0 {
                raw("road", &[from, to], Flow::Forward, 36.0)
            } else {
                raw("road", &[to, from], Flow::Backward, 36.0)
            }
        })
        .collect();
    let network = network(lines);
    let travel = |section: u32| if section.is_multiple_of(2) { Forward } else { Backward };
    let middle = |section: u32| AccessPlace::site(at(section, 50.0, travel(section)));
    for (from, to, expected) in [(0, 1, 100.0), (1, 0, 300.0), (0, 2, 200.0), (3, 0, 100.0), (0, 3, 300.0)] {
        assert_eq!(metres_driven(&network, &middle(from), &middle(to)), expected, "{from} -> {to}");
    }
    // Both ways does not mean against the traffic; and a lane against the traffic can't be reached.
    let depot = AccessPlace::depot(at(0, 50.0, Forward));
    assert_eq!(metres_driven(&network, &depot, &middle(3)), 300.0);
    let against = AccessPlace::site(at(0, 50.0, Backward));
    assert_eq!(network.matrix(&[depot, against]).travel_ms[0][1], UNREACHABLE_MS);
    // Behind on the same one-way road: once round.
    let behind = AccessPlace::site(at(0, 20.0, Forward));
    assert_eq!(metres_driven(&network, &middle(0), &behind), 370.0);
}

#[test]
fn what_no_road_leads_to_is_unreachable() {
    let network = network(vec![
        raw("here", &[(0.0, 0.0), (100.0, 0.0)], Flow::Both, 36.0),
        raw("island", &[(5000.0, 0.0), (5100.0, 0.0)], Flow::Both, 36.0),
    ]);
    let places = [AccessPlace::depot(at(0, 50.0, Forward)), AccessPlace::site(at(1, 50.0, Forward))];
    let matrix = network.matrix(&places);
    assert_eq!(matrix.travel_ms, [[0, UNREACHABLE_MS], [UNREACHABLE_MS, 0]]);
    assert_eq!(matrix.metres, [[0.0, UNREACHABLE_METRES], [UNREACHABLE_METRES, 0.0]]);
    assert_eq!(matrix.travel_s(), [[0, u32::MAX], [u32::MAX, 0]]);
    assert_eq!(network.way(&places[0], &places[1]), None);
}

#[test]
fn the_fastest_way_counts_not_the_shortest() {
    // From the west stub to the east stub: 200 m at 10 km/h, or 220 m round at 90 km/h.
    let network = network(vec![
        raw("west", &[(-100.0, 0.0), (0.0, 0.0)], Flow::Both, 36.0),
        raw("slow", &[(0.0, 0.0), (200.0, 0.0)], Flow::Both, 10.0),
        raw("fast", &[(0.0, 0.0), (100.0, 45.83), (200.0, 0.0)], Flow::Both, 90.0),
        raw("east", &[(200.0, 0.0), (300.0, 0.0)], Flow::Both, 36.0),
    ]);
    let (west, east) = (AccessPlace::site(at(0, 50.0, Forward)), AccessPlace::site(at(3, 50.0, Forward)));
    let matrix = network.matrix(&[west, east]);
    // 5 s + 220 m / 25 m/s + 5 s = 18.8 s
    assert!(matrix.travel_ms[0][1].abs_diff(18_800) < 5, "{:?}", matrix.travel_ms);
    assert!((matrix.metres[0][1] - 320.0).abs() < 0.1);
    assert_eq!(matrix.travel_s()[0][1], 19);
    let way = network.way(&west, &east).unwrap();
    let line: Vec<(f64, f64)> = way.line.iter().map(|p| on_table(*p)).map(|(e, n)| (e.round(), n.round())).collect();
    assert_eq!(line, [(-50.0, 0.0), (0.0, 0.0), (100.0, 46.0), (200.0, 0.0), (250.0, 0.0)]);
    assert_eq!((way.travel_s, way.distance.in_metres().round()), (19, 320.0));
}

#[test]
fn the_truck_drives_at_a_part_of_the_limit_but_no_faster_than_it_can() {
    // 1000 m; limit, factor, greatest: milliseconds
    for (limit, factor, max, expected) in
        [(60.0, 0.9, 80.0, 66_667), (100.0, 0.9, 80.0, 45_000), (50.0, 1.0, 80.0, 72_000)]
    {
        let roads = network_from_lines(vec![raw("road", &[(0.0, 0.0), (1000.0, 0.0)], Flow::Both, limit)]).0;
        let truck = TruckSpeeds { factor: fraction(factor), max: kilometres_per_hour(max) };
        let network = Network::prepare(roads, truck).unwrap();
        let (start, end) = (AccessPlace::site(at(0, 0.0, Forward)), AccessPlace::site(at(0, 1000.0, Forward)));
        assert!(network.matrix(&[start, end]).travel_ms[0][1].abs_diff(expected) <= 1, "{limit} {factor} {max}");
    }
}

#[test]
fn a_network_that_is_not_whole_is_refused() {
    let good = network_from_lines(vec![raw("road", &[(0.0, 0.0), (100.0, 0.0)], Flow::Both, 36.0)]).0;
    let truck = TruckSpeeds { factor: fraction(0.9), max: kilometres_per_hour(80.0) };
    for (factor, max) in [(0.0, 80.0), (f64::NAN, 80.0), (0.9, -1.0)] {
        let truck = TruckSpeeds { factor: fraction(factor), max: kilometres_per_hour(max) };
        assert!(matches!(Network::prepare(good.clone(), truck), Err(PrepareError::TruckSpeeds { .. })));
    }
    let refused = |change: &dyn Fn(&mut model::road::RoadSection)| {
        let mut roads = good.clone();
        change(&mut roads.sections[0]);
        Network::prepare(roads, truck).err().unwrap()
    };
    assert!(matches!(refused(&|s| s.to = NodeId(7)), PrepareError::MissingNode { node: 7, .. }));
    assert!(matches!(refused(&|s| s.id.0 = 3), PrepareError::Numbering { index: 0, id: 3 }));
    assert!(matches!(refused(&|s| s.line.truncate(1)), PrepareError::Line { .. }));
    assert!(matches!(refused(&|s| s.line[1] = s.line[0]), PrepareError::Line { .. }));
    assert!(matches!(refused(&|s| s.speed = kilometres_per_hour(0.0)), PrepareError::Speed { .. }));
    assert!(prepare(good).length(model::road::SectionId(0)) > metres(99.9));
}
