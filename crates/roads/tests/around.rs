//! The road around a section: what goes on, what joins, where it stops.

mod common;
mod lawful;

use common::{network, on_table, raw};
use lawful::lawful;
use model::place::{Side, Travel};
use model::quantity::{InLength, Length, metres};
use model::road::{Flow, RawLine, RoadClass, SectionId};
use model::road_around::{AxisEnd, RoadAround, StructureKind};
use proptest::prelude::*;

/// 600 m of the road each way, 200 m of side roads.
fn around(lines: Vec<RawLine>, section: u32) -> RoadAround {
    network(lines).around(SectionId(section), metres(600.0), metres(600.0), metres(200.0))
}

fn two_way(name: &str, table: &[(f64, f64)]) -> RawLine {
    raw(name, table, Flow::Both, 50.0)
}

fn near(found: Length, expected: f64) -> bool {
    // The table is flat to a millimetre.
    (found.in_metres() - expected).abs() < 1e-3
}

/// ```text
///                 lane (comes from the north, one-way to the main road)
///                  |
///   west -----0----+----main----+----east        all three "main"; east is drawn towards the junction
///                               |
///                              mole (south)
/// ```
fn main_street() -> Vec<RawLine> {
    vec![
        two_way("main", &[(0.0, 0.0), (300.0, 0.0)]),
        two_way("main", &[(-400.0, 0.0), (0.0, 0.0)]),
        two_way("main", &[(1300.0, 0.0), (300.0, 0.0)]),
        raw("lane", &[(0.0, 0.0), (0.0, 150.0), (50.0, 150.0)], Flow::Backward, 30.0),
        raw("mole", &[(300.0, 0.0), (320.0, -400.0)], Flow::Forward, 60.0),
    ]
}

#[test]
fn the_axis_goes_on_through_junctions_and_keeps_the_sections_chainage() {
    let found = around(main_street(), 0);
    let pieces: Vec<(u32, Travel)> = found.axis.pieces.iter().map(|p| (p.section.0, p.direction)).collect();
    assert_eq!(pieces, [(1, Travel::Forward), (0, Travel::Forward), (2, Travel::Backward)]);
    let expected = [(-400.0, 0.0, 0.0), (0.0, 300.0, 0.0), (300.0, 900.0, 1000.0)];
    for (piece, (from, to, own)) in found.axis.pieces.iter().zip(expected) {
        assert!(near(piece.from, from) && near(piece.to, to) && near(piece.section_at_from, own), "{piece:?}");
    }
    assert_eq!((found.axis.begins, found.axis.ends), (AxisEnd::MapEdge, AxisEnd::AsFarAsAsked));
    let junctions: Vec<i64> = found.axis.junctions.iter().map(|j| j.chainage.in_metres().round() as i64).collect();
    assert_eq!(junctions, [0, 300]);
    assert!(found.axis.junctions.iter().all(|junction| !junction.roundabout));

    let [lane, mole] = &found.side_roads[..] else { panic!("{:?}", found.side_roads) };
    assert!(near(lane.at, 0.0) && near(mole.at, 300.0));
    assert_eq!((lane.side, mole.side), (Side::Left, Side::Right));
    assert_eq!((lane.name.as_str(), lane.traffic_comes_out), ("lane", true));
    assert_eq!((mole.name.as_str(), mole.traffic_comes_out), ("mole", false));
    // 200 m of 200 m, and 200 m of 400 m.
    assert!(near(lane.axis.pieces[0].to, 200.0), "{lane:?}");
    assert_eq!((lane.axis.pieces[0].flow, mole.axis.pieces[0].flow), (Flow::Backward, Flow::Forward));
    assert!(near(mole.axis.pieces[0].to, 200.0) && mole.axis.ends == AxisEnd::AsFarAsAsked);
    let last = mole.axis.points.last().unwrap();
    assert!((last.east_m - 309.9875).abs() < 1e-3 && (last.north_m + 199.7505).abs() < 0.01, "{last:?}");
}

#[test]
fn one_way_traffic_is_seen_in_the_direction_of_the_axis() {
    let mut lines = main_street();
    lines[2].attributes.flow = Flow::Forward;
    let found = around(lines, 0);
    // East is drawn towards the junction: its traffic comes against the axis.
    assert_eq!(found.axis.pieces[2].flow, Flow::Backward);
}

#[test]
fn bridges_and_tunnels_over_several_sections_are_one() {
    let mut lines = main_street();
    lines[0].attributes.structure = Some(StructureKind::Bridge);
    lines[1].attributes.structure = Some(StructureKind::Bridge);
    lines[2].attributes.structure = Some(StructureKind::Tunnel);
    let found = around(lines, 0).axis.structures;
    let kinds: Vec<StructureKind> = found.iter().map(|structure| structure.kind).collect();
    assert_eq!(kinds, [StructureKind::Bridge, StructureKind::Tunnel]);
    assert!(near(found[0].from, -400.0) && near(found[0].to, 300.0));
    assert!(near(found[1].from, 300.0) && near(found[1].to, 900.0));
}

/// Two arms leave the end of a road at 100 m, so many degrees to the left; which goes on?
fn goes_on(arms: [(&str, f64, RoadClass, Flow); 2]) -> Option<u32> {
    let mut lines = vec![two_way("main", &[(0.0, 0.0), (100.0, 0.0)])];
    lines.extend(arms.map(|(name, left_deg, class, flow)| {
        let (sin, cos) = f64::to_radians(left_deg).sin_cos();
        let mut line = raw(name, &[(100.0, 0.0), (100.0 + 300.0 * cos, 300.0 * sin)], flow, 50.0);
        line.attributes.class = class;
        line
    }));
    let axis = around(lines, 0).axis;
    assert_eq!(axis.ends == AxisEnd::Junction, axis.pieces.len() == 1);
    axis.pieces.get(1).map(|piece| piece.section.0)
}

#[test]
fn a_driver_keeps_to_the_road_then_to_the_straightest_then_to_the_higher_class() {
    use Flow::{Backward, Both, Forward};
    use RoadClass::{Primary, Service, Tertiary};
    let table = [
        ([("a", 30.0, Primary, Both), ("b", 10.0, Service, Both)], Some(2)),
        ([("a", 30.0, Primary, Both), ("main", -100.0, Service, Both)], Some(2)),
        ([("a", 30.0, Primary, Both), ("main", -130.0, Service, Both)], Some(1)),
        ([("a", 14.0, Primary, Both), ("b", 8.0, Service, Both)], Some(1)),
        ([("a", 16.0, Primary, Both), ("b", 8.0, Service, Both)], Some(2)),
        ([("a", 8.0, Tertiary, Both), ("b", 7.0, Tertiary, Both)], Some(2)),
        ([("a", 7.0, Tertiary, Both), ("b", -7.0, Tertiary, Both)], Some(1)),
        // Traffic only leaves by b: whoever comes, comes by a.
        ([("a", 40.0, Tertiary, Both), ("b", 0.0, Tertiary, Forward)], Some(1)),
        ([("a", 40.0, Tertiary, Both), ("b", 0.0, Tertiary, Backward)], Some(2)),
        ([("main", 10.0, Tertiary, Forward), ("main", -20.0, Tertiary, Backward)], Some(2)),
        // A T: none goes straight on.
        ([("a", 90.0, Tertiary, Both), ("b", -90.0, Tertiary, Both)], None),
        ([("a", 61.0, Tertiary, Both), ("b", -90.0, Tertiary, Both)], None),
        ([("a", 59.0, Tertiary, Both), ("b", -90.0, Tertiary, Both)], Some(1)),
    ];
    for (arms, expected) in table {
        assert_eq!(goes_on(arms), expected, "{arms:?}");
    }
}

#[test]
fn from_a_one_way_road_traffic_goes_on_where_it_may() {
    let lines = vec![
        raw("main", &[(0.0, 0.0), (100.0, 0.0)], Flow::Forward, 50.0),
        raw("in", &[(100.0, 0.0), (200.0, 0.0)], Flow::Backward, 50.0),
        raw("out", &[(100.0, 0.0), (200.0, -50.0)], Flow::Forward, 50.0),
    ];
    assert_eq!(around(lines, 0).axis.pieces[1].section, SectionId(2));
}

#[test]
fn a_road_that_no_other_meets_goes_on_however_it_turns() {
    let lines = vec![two_way("a", &[(0.0, 0.0), (100.0, 0.0)]), two_way("b", &[(100.0, 0.0), (20.0, 30.0)])];
    let found = around(lines, 0);
    assert_eq!((found.axis.pieces.len(), found.axis.junctions.len()), (2, 0));
    assert!(found.side_roads.is_empty());
}

#[test]
fn at_a_t_both_arms_are_side_roads() {
    let lines = vec![
        two_way("stem", &[(0.0, 0.0), (100.0, 0.0)]),
        two_way("cross", &[(100.0, -300.0), (100.0, 0.0)]),
        two_way("cross", &[(100.0, 0.0), (100.0, 300.0)]),
    ];
    let found = around(lines, 0);
    assert_eq!((found.axis.begins, found.axis.ends), (AxisEnd::MapEdge, AxisEnd::Junction));
    let sides: Vec<Side> = found.side_roads.iter().map(|side| side.side).collect();
    assert_eq!(sides, [Side::Right, Side::Left]);
    // Each arm's own road does not run back over the other: that would be a turn on the spot, not a road.
    assert!(found.side_roads.iter().all(|side| near(side.axis.pieces[0].to, 200.0)));
}

#[test]
fn roundabouts_and_loops_stop_the_axis() {
    let ring: Vec<(f64, f64)> = (0..=12)
        .map(|i| f64::from(i % 12) * 30.0)
        .map(f64::to_radians)
        .map(|a| (120.0 - 20.0 * a.cos(), 20.0 * a.sin()))
        .collect();
    let mut roundabout = raw("ring", &ring, Flow::Forward, 30.0);
    roundabout.attributes.roundabout = true;
    let lines =
        vec![two_way("main", &[(0.0, 0.0), (100.0, 0.0)]), roundabout, two_way("main", &[ring[6], (400.0, 0.0)])];
    let found = around(lines.clone(), 0);
    assert_eq!(found.axis.ends, AxisEnd::Roundabout);
    assert_eq!(found.axis.junctions.iter().map(|j| j.roundabout).collect::<Vec<_>>(), [true]);
    let [leg] = &found.side_roads[..] else { panic!("{:?}", found.side_roads) };
    assert!(near(leg.at, 100.0) && leg.name == "main" && leg.traffic_comes_out);
    assert!(near(leg.axis.pieces[0].to, 200.0) && found.axis.pieces.len() == 1);
    // Work on the ring itself.
    let on_ring = around(lines, 1);
    assert_eq!((on_ring.axis.begins, on_ring.axis.ends), (AxisEnd::Roundabout, AxisEnd::Roundabout));
    assert!(on_ring.side_roads.is_empty());

    let square = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0), (0.0, 0.0)];
    let sides = square.windows(2).map(|side| two_way("square", side)).collect();
    let found = around(sides, 0);
    assert_eq!((found.axis.begins, found.axis.ends), (AxisEnd::Loop, AxisEnd::Loop));
    assert_eq!(found.axis.pieces.len(), 4);
}

#[test]
fn a_reach_that_is_no_use_gives_the_section_alone() {
    let network = network(main_street());
    for reach in [0.0, -5.0, f64::NAN] {
        let found = network.around(SectionId(0), metres(reach), metres(reach), metres(reach));
        assert_eq!(found.axis.pieces.len(), 1);
        assert!(found.side_roads.iter().all(|side| side.axis.points.is_empty()));
    }
    let all = network.around(SectionId(0), metres(f64::INFINITY), metres(1e12), metres(f64::INFINITY));
    assert_eq!((all.axis.begins, all.axis.ends), (AxisEnd::MapEdge, AxisEnd::MapEdge));
}

#[test]
fn a_road_ends_in_truth_where_the_map_goes_on_beyond() {
    let ends_with = |beyond: Option<(f64, f64)>| {
        let mut lines = vec![two_way("close", &[(0.0, 0.0), (100.0, 0.0)])];
        lines.extend(beyond.map(|(east, north)| two_way("beyond", &[(east, north), (east, north + 50.0)])));
        around(lines, 0).axis.ends
    };
    let table = [
        (None, AxisEnd::MapEdge),
        (Some((500.0, 0.0)), AxisEnd::DeadEnd),
        (Some((300.0, 300.0)), AxisEnd::DeadEnd),
        // Too far, beside, and behind.
        (Some((1200.0, 0.0)), AxisEnd::MapEdge),
        (Some((150.0, 300.0)), AxisEnd::MapEdge),
        (Some((-500.0, 0.0)), AxisEnd::MapEdge),
    ];
    for (beyond, expected) in table {
        assert_eq!(ends_with(beyond), expected, "{beyond:?}");
    }
}

fn networks() -> impl Strategy<Value = Vec<RawLine>> {
    let line = (0..30_u32, 0..30_u32, 0..3_u8, 0..4_u8, 0..6_u8, proptest::bool::weighted(0.1));
    proptest::collection::vec(line, 1..60).prop_map(|lines| {
        let node = |n: u32| (f64::from(n % 6) * 140.0 + f64::from(n % 5) * 13.0, f64::from(n / 6) * 120.0);
        let mut made = Vec::new();
        for (from, to, flow, name, class, roundabout) in lines {
            if from == to {
                continue;
            }
            let flow = [Flow::Both, Flow::Forward, Flow::Backward][usize::from(flow)];
            let (a, b) = (node(from), node(to));
            let middle = (f64::midpoint(a.0, b.0) + 11.0, f64::midpoint(a.1, b.1) - 7.0);
            let mut line = raw(["", "a", "b", "c"][usize::from(name)], &[a, middle, b], flow, 50.0);
            line.node_keys = Some(vec![u64::from(from), 100 + made.len() as u64, u64::from(to)]);
            line.attributes.class = RoadClass::ALL[usize::from(class)];
            line.attributes.roundabout = roundabout;
            line.attributes.structure = (class == 3).then_some(StructureKind::Bridge);
            made.push(line);
        }
        made
    })
}

/// Each section of the real extracts, 700 m each way.
#[test]
fn every_axis_of_real_roads_is_lawful() {
    let Some(data) = lawful::shared_data() else { return };
    for file in ["osm/liechtenstein.osm.pbf", "osm/north-bayreuth.osm.gz"] {
        let network = lawful::read(&data.join(file));
        let mut ends = [0; 6];
        let (mut sides, mut structures, mut reached) = (0, 0, 0.0);
        for section in &network.roads().sections {
            let found = network.around(section.id, metres(700.0), metres(700.0), metres(300.0));
            lawful(&network, &found.axis, found.axis.pieces[0].from.in_metres()).unwrap();
            for side in &found.side_roads {
                lawful(&network, &side.axis, 0.0).unwrap();
            }
            for end in [found.axis.begins, found.axis.ends] {
                ends[end as usize] += 1;
            }
            sides += found.side_roads.len();
            structures += found.axis.structures.len();
            reached += (found.axis.pieces.last().unwrap().to - found.axis.pieces[0].from).in_metres();
        }
        println!(
            "{file}: {} sections; ends as far as asked, dead end, map edge, junction, roundabout, loop {ends:?}; {sides} side roads, \
             {structures} structures, {:.0} km of axis",
            network.roads().sections.len(),
            reached / 1000.0
        );
        assert!(sides > 1000 && structures > 10 && ends[0] > 1000);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]
    #[test]
    fn every_axis_is_lawful(lines in networks(), pick in 0..1000_u32, before in 0.0..900.0, after in 0.0..900.0, side in 0.0..400.0) {
        prop_assume!(!lines.is_empty());
        let network = network(lines);
        let section = SectionId(pick % network.roads().sections.len() as u32);
        let reach = [before, after, side].map(metres);
        let found = network.around(section, reach[0], reach[1], reach[2]);
        prop_assert_eq!(&found, &network.around(section, reach[0], reach[1], reach[2]), "the same each time");
        let own = found.axis.pieces.iter().find(|piece| piece.section == section).unwrap();
        prop_assert_eq!((own.from, own.to, own.section_at_from), (metres(0.0), network.length(section), metres(0.0)));
        prop_assert!(found.axis.pieces[0].from >= -reach[0] - metres(1e-6));
        prop_assert!(found.axis.pieces.last().unwrap().to <= own.to + reach[1] + metres(1e-6));
        if found.axis.begins == AxisEnd::AsFarAsAsked {
            prop_assert!((found.axis.pieces[0].from + reach[0]).in_metres().abs() < 2e-6);
        }
        lawful(&network, &found.axis, found.axis.pieces[0].from.in_metres())?;
        for road in &found.side_roads {
            lawful(&network, &road.axis, 0.0)?;
            let ends = [found.axis.points[0].chainage, found.axis.points.last().unwrap().chainage];
            let at_junction = found.axis.junctions.iter().any(|junction| junction.chainage == road.at);
            prop_assert!(at_junction || ends.contains(&road.at));
            prop_assert!(road.axis.pieces.iter().all(|piece| found.axis.pieces.iter().all(|own| own.section != piece.section)));
        }
        // The road beyond the ends is the one on which the network finds its places.
        if found.axis.pieces.len() > 1 && network.roads().sections.iter().all(|section| !section.roundabout) {
            let last = found.axis.points.last().unwrap();
            if found.axis.ends == AxisEnd::AsFarAsAsked {
                let (place, _) = network.point_at(section, last.chainage);
                prop_assert!(roads::distance(place, last.place).in_metres() < 1e-4);
            }
        }
        prop_assert!(on_table(found.axis.points[0].place).0.is_finite());
    }
}
