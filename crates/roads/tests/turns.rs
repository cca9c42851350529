//! Restrictions of turns and limits for trucks: drawn junctions, laws, and real extracts.

mod by_definition;
mod common;
mod lawful;

use by_definition::ByDefinition;
use common::{at, keyed, prepare};
use model::district::TruckSize;
use model::place::Travel::{self, Backward, Forward};
use model::quantity::{InLength, Length, fraction, kilograms, kilometres_per_hour, metres};
use model::road::{
    Flow, HoldsFor, RawLine, RawRestriction, RawVia, RoadNetwork, SectionId, TruckAccess, TurnRestriction, TurnRule,
};
use proptest::prelude::*;
use roads::{AccessPlace, Network, TruckSpeeds, UNREACHABLE_MS, network_with_restrictions};

fn line(id: &str, flow: Flow, table: &[(u64, f64, f64)]) -> RawLine {
    let mut line = keyed(id, table);
    line.attributes.flow = flow;
    line.attributes.speed = kilometres_per_hour(36.0);
    line
}

/// Four arms of 100 m that meet at node 0, each drawn towards it and ending in a dead end.
fn cross() -> Vec<RawLine> {
    let arms = [("west", -100.0, 0.0), ("east", 100.0, 0.0), ("north", 0.0, 100.0), ("south", 0.0, -100.0)];
    let arm =
        |(key, (id, e, n)): (usize, (&str, f64, f64))| line(id, Flow::Both, &[(key as u64 + 1, e, n), (0, 0.0, 0.0)]);
    arms.into_iter().enumerate().map(arm).collect()
}

fn restriction(rule: TurnRule, from: &[&str], via: RawVia, to: &[&str]) -> RawRestriction {
    let owned = |list: &[&str]| list.iter().map(|id| (*id).to_owned()).collect();
    RawRestriction {
        source_id: "1".to_owned(),
        at: model::problem::Locator::default(),
        rule,
        turns_round: from == to,
        holds_for: HoldsFor::All,
        from: owned(from),
        via,
        to: owned(to),
    }
}

fn ways(list: &[&str]) -> RawVia {
    RawVia::Lines(list.iter().map(|id| (*id).to_owned()).collect())
}

fn for_truck(roads: RoadNetwork, size: TruckSize) -> Network {
    let speeds = TruckSpeeds { factor: fraction(1.0), max: kilometres_per_hour(200.0) };
    Network::prepare_for(roads, speeds, size).unwrap()
}

fn with(lines: Vec<RawLine>, restrictions: &[RawRestriction]) -> Network {
    let (roads, problems) = network_with_restrictions(lines, restrictions);
    assert!(problems.is_empty(), "{problems:?}");
    assert!(!roads.restrictions.is_empty() || restrictions.is_empty());
    prepare(roads)
}

/// The middle of a road, in a direction of travel.
fn middle(network: &Network, id: &str, travel: Travel) -> AccessPlace {
    let section = network.roads().sections.iter().find(|section| section.source_id == id).unwrap();
    AccessPlace::site(at(section.id.0, network.length(section.id).in_metres() / 2.0, travel))
}

/// Metres driven; `None` where no way leads there. The way drawn is the way counted.
fn metres_driven(network: &Network, from: &AccessPlace, to: &AccessPlace) -> Option<f64> {
    let matrix = network.matrix(&[*from, *to]);
    let ms = Some(matrix.travel_ms[0][1]).filter(|ms| *ms != UNREACHABLE_MS)?;
    let way = network.way(from, to).unwrap();
    assert!((way.distance.in_metres() - f64::from(ms) / 100.0).abs() < 0.1, "{way:?} {ms}");
    Some((f64::from(ms) / 100.0).round())
}

/// What it is, the restrictions, from and to which arm, metres.
type Crossed = (&'static str, Vec<RawRestriction>, &'static str, &'static str, Option<f64>);

#[test]
fn each_kind_of_restriction_at_a_crossing() {
    use TurnRule::{No, Only};
    // From the middle of one arm to the middle of another is 100 m. Where the turn is forbidden the truck turns round at the
    // end of a third arm: 200 m more. Kinds: OpenStreetMap wiki, Relation:restriction (from memory).
    let here = || RawVia::Point(0);
    let table: [Crossed; 14] = [
        ("none", vec![], "south", "west", Some(100.0)),
        ("none: back where it came from", vec![], "south", "south", Some(100.0)),
        ("no left turn", vec![restriction(No, &["south"], here(), &["west"])], "south", "west", Some(300.0)),
        (
            "no left turn, from elsewhere",
            vec![restriction(No, &["south"], here(), &["west"])],
            "east",
            "west",
            Some(100.0),
        ),
        (
            "no left turn, to elsewhere",
            vec![restriction(No, &["south"], here(), &["west"])],
            "south",
            "north",
            Some(100.0),
        ),
        ("no turning round", vec![restriction(No, &["south"], here(), &["south"])], "south", "south", Some(300.0)),
        (
            "no turning round, turning",
            vec![restriction(No, &["south"], here(), &["south"])],
            "south",
            "west",
            Some(100.0),
        ),
        (
            "only straight on, ahead",
            vec![restriction(Only, &["south"], here(), &["north"])],
            "south",
            "north",
            Some(100.0),
        ),
        (
            "only straight on, left",
            vec![restriction(Only, &["south"], here(), &["north"])],
            "south",
            "west",
            Some(300.0),
        ),
        (
            "only straight on, round",
            vec![restriction(Only, &["south"], here(), &["north"])],
            "south",
            "south",
            Some(300.0),
        ),
        ("no entry", vec![restriction(No, &["south", "east"], here(), &["west"])], "east", "west", Some(300.0)),
        ("no exit", vec![restriction(No, &["south"], here(), &["west", "north"])], "south", "north", Some(300.0)),
        (
            "no exit, two ways round shut",
            vec![restriction(No, &["south"], here(), &["west", "north", "south"])],
            "south",
            "north",
            Some(300.0),
        ),
        (
            "no way on at all",
            vec![
                restriction(No, &["south"], here(), &["west", "north", "east"]),
                restriction(No, &["south"], here(), &["south"]),
            ],
            "south",
            "north",
            None,
        ),
    ];
    for (what, restrictions, from, to, expected) in table {
        let network = with(cross(), &restrictions);
        let (from, to) = (middle(&network, from, Forward), middle(&network, to, Backward));
        assert_eq!(metres_driven(&network, &from, &to), expected, "{what}");
    }
}

/// A case of the handbook: what is forbidden, or alone allowed, to whoever comes from the south.
#[derive(serde::Deserialize)]
struct Crossing {
    rule: String,
    forbidden_to: Vec<String>,
    to: String,
    metres: f64,
}

#[test]
fn the_handbooks_crossing() {
    for case in testkit::worked_examples::<Crossing>("driving", "crossing") {
        let rule = if case.rule == "only" { TurnRule::Only } else { TurnRule::No };
        let to: Vec<&str> = case.forbidden_to.iter().map(String::as_str).collect();
        let turns = [restriction(rule, &["south"], RawVia::Point(0), &to)];
        let network = with(cross(), if to.is_empty() { &[] } else { &turns });
        let (from, to) = (middle(&network, "south", Forward), middle(&network, &case.to, Backward));
        assert_eq!(metres_driven(&network, &from, &to), Some(case.metres), "{} {}", case.rule, case.to);
    }
}

#[test]
fn the_way_says_where_the_truck_turns_round() {
    let network = with(cross(), &[restriction(TurnRule::No, &["south"], RawVia::Point(0), &["west"])]);
    let (from, to) = (middle(&network, "south", Forward), middle(&network, "west", Backward));
    let way = network.way(&from, &to).unwrap();
    let [turn] = &way.turns_round[..] else { panic!("{:?}", way.turns_round) };
    let place = common::on_table(turn.place);
    assert!((place.0.abs().max(place.1.abs()) - 100.0).abs() < 0.1, "at the end of an arm, not at {place:?}");
    assert!(roads::distance(network.roads().nodes[turn.node.0 as usize], turn.place).in_metres() < 1e-9);
    // Coming from a place to the far lane of the same road, at its end.
    let far = middle(&network, "south", Backward);
    let back = network.way(&middle(&network, "south", Forward), &far).unwrap();
    assert_eq!(back.turns_round.len(), 1);
    assert!(network.way(&from, &middle(&network, "north", Backward)).unwrap().turns_round.is_empty());
}

/// A divided road from west to east and back, joined by a one-way link in the middle and at the east end.
///
/// ```text
/// 10 <-back_w- 11 <-back_e- 12
///              |            |
///             link         end
///              |            |
///  0 --out_w-> 1  --out_e-> 2
/// ```
fn divided() -> Vec<RawLine> {
    vec![
        line("out_w", Flow::Forward, &[(0, 0.0, 0.0), (1, 100.0, 0.0)]),
        line("out_e", Flow::Forward, &[(1, 100.0, 0.0), (2, 200.0, 0.0)]),
        line("back_e", Flow::Backward, &[(11, 100.0, 20.0), (12, 200.0, 20.0)]),
        line("back_w", Flow::Forward, &[(11, 100.0, 20.0), (10, 0.0, 20.0)]),
        line("link", Flow::Forward, &[(1, 100.0, 0.0), (11, 100.0, 20.0)]),
        line("end", Flow::Both, &[(2, 200.0, 0.0), (12, 200.0, 20.0)]),
    ]
}

/// What it is, the restrictions, onto which road and in which direction, metres.
type Onto = (&'static str, Vec<RawRestriction>, &'static str, Travel, Option<f64>);

#[test]
fn restrictions_over_a_road_between() {
    use TurnRule::{No, Only};
    let no_turning_round = || restriction(No, &["out_w"], ways(&["link"]), &["back_w"]);
    let only_back = || restriction(Only, &["out_w"], ways(&["link"]), &["back_w"]);
    let table: [Onto; 6] = [
        // 50 m out, the link of 20 m, 50 m back.
        ("none", vec![], "back_w", Forward, Some(120.0)),
        // On to the end instead.
        ("no turning round over the link", vec![no_turning_round()], "back_w", Forward, Some(320.0)),
        // The link itself may be driven into.
        ("no turning round, into the link", vec![no_turning_round()], "link", Forward, Some(60.0)),
        ("only back", vec![only_back()], "back_w", Forward, Some(120.0)),
        // Whoever comes from there may only take the link and go back: the road ahead is not reached.
        ("only back, ahead", vec![only_back()], "out_e", Forward, None),
        ("none, ahead", vec![], "out_e", Forward, Some(100.0)),
    ];
    for (what, restrictions, to, travel, expected) in table {
        let network = with(divided(), &restrictions);
        let (from, to) = (middle(&network, "out_w", Forward), middle(&network, to, travel));
        assert_eq!(metres_driven(&network, &from, &to), expected, "{what}");
    }
}

#[test]
fn restrictions_that_lead_nowhere_are_reported_and_left_out() {
    let through = |id: &str| line(id, Flow::Both, &[(1, -100.0, 0.0), (0, 0.0, 0.0), (2, 100.0, 0.0)]);
    let arm = |id: &str| line(id, Flow::Both, &[(3, 0.0, 100.0), (0, 0.0, 0.0)]);
    let table = [
        ("no such point", restriction(TurnRule::No, &["arm"], RawVia::Point(99), &["main"]), "not_joined"),
        ("a via that they don't meet", restriction(TurnRule::No, &["arm"], RawVia::Point(1), &["main"]), "not_joined"),
        ("two ways to go on", restriction(TurnRule::No, &["arm"], RawVia::Point(0), &["main"]), "unclear"),
        ("two ways to come", restriction(TurnRule::No, &["main"], RawVia::Point(0), &["arm"]), "unclear"),
        ("no way over the via", restriction(TurnRule::No, &["arm"], ways(&["arm"]), &["arm"]), "not_joined"),
        ("a line that is not there", restriction(TurnRule::No, &["arm"], ways(&["none"]), &["main"]), "not_joined"),
    ];
    for (what, restriction, code) in table {
        let (roads, problems) = network_with_restrictions(vec![through("main"), arm("arm")], &[restriction]);
        let codes: Vec<&str> = problems.iter().map(|problem| problem.code).collect();
        assert_eq!(codes, [format!("road.restriction.{code}")], "{what}");
        assert!(roads.restrictions.is_empty(), "{what}");
        assert_eq!(problems[0].subject, "restriction 1");
    }
    // A road that goes through turns round on the side it came from.
    let round = restriction(TurnRule::No, &["main"], RawVia::Point(0), &["main"]);
    let (roads, problems) = network_with_restrictions(vec![through("main"), arm("arm")], &[round]);
    assert!(problems.is_empty() && roads.restrictions.len() == 2);
    assert!(roads.restrictions.iter().all(|turn| turn.path[0].0 == turn.path[1].0));
}

#[test]
fn lines_that_run_over_themselves_end_the_search() {
    // A line back and forth between two points: its sections can be followed in endlessly many ways.
    let there_and_back =
        (0..40).map(|step| if step % 2 == 0 { (0, 0.0, 0.0) } else { (1, 100.0, 0.0) }).collect::<Vec<_>>();
    let lines = vec![
        line("from", Flow::Both, &[(2, -100.0, 0.0), (0, 0.0, 0.0)]),
        line("tangle", Flow::Both, &there_and_back),
        line("to", Flow::Both, &[(1, 100.0, 0.0), (3, 200.0, 0.0)]),
    ];
    let problems =
        network_with_restrictions(lines, &[restriction(TurnRule::No, &["from"], ways(&["tangle"]), &["to"])]).1;
    assert_eq!(problems.iter().map(|problem| problem.code).collect::<Vec<_>>(), ["road.restriction.unclear"]);
}

#[test]
fn restrictions_for_heavy_or_light_trucks_only() {
    let limit = kilograms(3500.0);
    let table: [(HoldsFor, Option<f64>, f64); 6] = [
        (HoldsFor::HeavierThan(limit), Some(12_000.0), 300.0),
        (HoldsFor::HeavierThan(limit), Some(3500.0), 100.0),
        // No mass given: no limit looked at, and an exception for heavy ones not claimed.
        (HoldsFor::HeavierThan(limit), None, 100.0),
        (HoldsFor::UpTo(limit), Some(12_000.0), 100.0),
        (HoldsFor::UpTo(limit), Some(3500.0), 300.0),
        (HoldsFor::UpTo(limit), None, 300.0),
    ];
    for (holds_for, kg, expected) in table {
        let turn = RawRestriction { holds_for, ..restriction(TurnRule::No, &["south"], RawVia::Point(0), &["west"]) };
        let roads = network_with_restrictions(cross(), &[turn]).0;
        let network = for_truck(roads, TruckSize { gross_mass: kg.map(kilograms), ..TruckSize::default() });
        let (from, to) = (middle(&network, "south", Forward), middle(&network, "west", Backward));
        assert_eq!(metres_driven(&network, &from, &to), Some(expected), "{holds_for:?} {kg:?}");
    }
}

#[test]
fn roads_with_a_lower_limit_are_not_driven() {
    // From one stub to the other 100 m straight over a bridge with limits, or 200 m round.
    let table: [(TruckAccess, TruckSize, bool); 9] = {
        let size = TruckSize::default();
        let all = TruckAccess::default();
        let m = |value: f64| Some(metres(value));
        let t = |value: f64| Some(kilograms(1000.0 * value));
        [
            (TruckAccess { mass: t(7.5), ..all }, TruckSize { gross_mass: t(12.0), ..size }, true),
            (TruckAccess { mass: t(7.5), ..all }, TruckSize { gross_mass: t(7.5), ..size }, false),
            (TruckAccess { mass: t(7.5), ..all }, size, false),
            (TruckAccess { height: m(3.2), ..all }, TruckSize { height: m(3.4), ..size }, true),
            (TruckAccess { width: m(2.2), ..all }, TruckSize { width: m(2.5), ..size }, true),
            (TruckAccess { length: m(10.0), ..all }, TruckSize { length: m(12.0), ..size }, true),
            (TruckAccess { length: m(10.0), ..all }, TruckSize { length: m(9.0), height: m(9.0), ..size }, false),
            (TruckAccess { no_heavier_than: t(3.5), ..all }, TruckSize { gross_mass: t(12.0), ..size }, true),
            (TruckAccess { no_heavier_than: t(3.5), ..all }, TruckSize { gross_mass: t(3.0), ..size }, false),
        ]
    };
    for (limits, size, barred) in table {
        let mut bridge = line("bridge", Flow::Both, &[(1, 0.0, 0.0), (2, 100.0, 0.0)]);
        bridge.attributes.truck = limits;
        let lines = vec![
            line("west", Flow::Both, &[(0, -100.0, 0.0), (1, 0.0, 0.0)]),
            bridge,
            line("round", Flow::Both, &[(1, 0.0, 0.0), (4, 0.0, 50.0), (5, 100.0, 50.0), (2, 100.0, 0.0)]),
            line("east", Flow::Both, &[(2, 100.0, 0.0), (3, 200.0, 0.0)]),
        ];
        let network = for_truck(network_with_restrictions(lines, &[]).0, size);
        let (from, to) = (middle(&network, "west", Forward), middle(&network, "east", Forward));
        let expected = if barred { 300.0 } else { 200.0 };
        assert_eq!(metres_driven(&network, &from, &to), Some(expected), "{limits:?} {size:?}");
        let onto = middle(&network, "bridge", Forward);
        assert_eq!(metres_driven(&network, &from, &onto), (!barred).then_some(100.0), "{limits:?}");
        let said = network.barred(onto.position.section);
        assert_eq!(said.is_some(), barred);
        assert!(said.is_none_or(|said| said.contains("limit") || said.contains("barred")));
    }
}

#[test]
fn a_known_driving_speed_counts_instead_of_a_part_of_the_limit() {
    // 1000 m: limit, known speed, factor, greatest of the truck; seconds.
    for (limit, known, factor, max, seconds) in [
        (60.0, Some(30.0), 0.9, 80.0, 120.0),
        (60.0, None, 0.5, 80.0, 120.0),
        (36.0, Some(72.0), 0.9, 80.0, 100.0),
        (72.0, Some(72.0), 0.9, 36.0, 100.0),
    ] {
        let mut road = line("road", Flow::Both, &[(0, 0.0, 0.0), (1, 1000.0, 0.0)]);
        road.attributes.speed = kilometres_per_hour(limit);
        road.attributes.truck.driving_speed = known.map(kilometres_per_hour);
        let truck = TruckSpeeds { factor: fraction(factor), max: kilometres_per_hour(max) };
        let network = Network::prepare(network_with_restrictions(vec![road], &[]).0, truck).unwrap();
        let ends = [0.0, 1000.0].map(|chainage| AccessPlace::site(at(0, chainage, Forward)));
        let ms = network.matrix(&ends).travel_ms[0][1];
        assert!((f64::from(ms) / 1000.0 - seconds).abs() < 0.01, "{limit} {known:?}: {ms}");
    }
}

#[test]
fn an_order_worked_out_before_gives_the_same_and_one_that_does_not_fit_is_not_used() {
    let roads = network_with_restrictions(divided(), &[]).0;
    let speeds = TruckSpeeds { factor: fraction(1.0), max: kilometres_per_hour(200.0) };
    let fresh = Network::prepare(roads.clone(), speeds).unwrap();
    let places = ["out_w", "out_e", "back_w", "link"].map(|id| middle(&fresh, id, Forward));
    let matrix = fresh.matrix(&places);
    let good = Network::order_of(&roads);
    assert_eq!(good, fresh.order());
    let reversed: Vec<u32> = good.iter().rev().copied().collect();
    for order in [good.clone(), reversed, vec![], vec![0; good.len()], vec![u32::MAX, 1, 2]] {
        let roads = RoadNetwork { contraction_order: order.clone(), ..roads.clone() };
        let again = Network::prepare(roads, speeds).unwrap();
        assert_eq!(again.matrix(&places), matrix, "{order:?}");
        let is_used = order.len() == good.len() && order.iter().any(|node| *node != 0);
        assert_eq!(again.order() == order, is_used);
    }
}

#[test]
fn a_restriction_that_is_no_way_is_refused() {
    let good = network_with_restrictions(cross(), &[]).0;
    let speeds = TruckSpeeds { factor: fraction(1.0), max: kilometres_per_hour(200.0) };
    let section = SectionId;
    for path in [
        vec![],
        vec![(section(0), Forward)],
        vec![(section(0), Backward), (section(1), Backward)],
        vec![(section(0), Forward), (section(9), Backward)],
    ] {
        let mut roads = good.clone();
        roads.restrictions.push(TurnRestriction {
            source_id: "bad".into(),
            rule: TurnRule::No,
            holds_for: HoldsFor::All,
            path,
        });
        let error = Network::prepare(roads, speeds).err().expect("refused");
        assert!(error.to_string().contains("restriction bad"), "{error}");
    }
}

/// A network with restrictions along ways that can be driven, and places on it.
#[derive(Debug, Clone)]
struct Case {
    nodes: Vec<(f64, f64)>,
    roads: Vec<(usize, usize, Flow, f64, Option<f64>)>,
    /// Where a walk begins, its turns, and what is said of it.
    restrictions: Vec<(usize, Vec<usize>, bool)>,
    places: Vec<(usize, f64, bool)>,
    truck_t: f64,
}

fn cases(longest_walk: usize) -> impl Strategy<Value = Case> {
    let flow = prop_oneof![3 => Just(Flow::Both), 1 => Just(Flow::Forward), 1 => Just(Flow::Backward)];
    (2_usize..7).prop_flat_map(move |count| {
        let nodes = prop::collection::vec((-3000.0..3000.0_f64, -3000.0..3000.0_f64), count);
        let limit = prop::option::weighted(0.2, 1.0..20.0_f64);
        let roads = prop::collection::vec((0..count, 0..count, flow.clone(), 20.0..100.0_f64, limit), 2..14);
        let walk = (0_usize..1000, prop::collection::vec(0_usize..1000, 1..=longest_walk), any::<bool>());
        let restrictions = prop::collection::vec(walk, 0..6);
        let places = prop::collection::vec((0_usize..1000, 0.01..0.99_f64, any::<bool>()), 2..6);
        (nodes, roads, restrictions, places, 1.0..20.0_f64).prop_map(|(nodes, roads, restrictions, places, truck_t)| {
            Case { nodes, roads, restrictions, places, truck_t }
        })
    })
}

fn roads_of(case: &Case, with_restrictions: bool) -> RoadNetwork {
    let lines = case.roads.iter().enumerate().map(|(index, &(from, to, flow, kmh, limit))| {
        let (a, b) = (case.nodes[from], case.nodes[to]);
        let middle = (f64::midpoint(a.0, b.0) + 150.0 + 10.0 * index as f64, f64::midpoint(a.1, b.1) + 90.0);
        let keys = [(from as u64, a), (1000 + index as u64, middle), (to as u64, b)];
        let mut line = line(&format!("road {index}"), flow, &keys.map(|(key, (e, n))| (key, e, n)));
        line.attributes.speed = kilometres_per_hour(kmh);
        line.attributes.truck.mass = limit.map(|t| kilograms(1000.0 * t));
        line
    });
    let mut roads = network_with_restrictions(lines.collect(), &[]).0;
    if with_restrictions {
        roads.restrictions = case.restrictions.iter().filter_map(|walk| restriction_along(&roads, walk)).collect();
    }
    roads
}

fn restriction_along(roads: &RoadNetwork, (start, turns, no): &(usize, Vec<usize>, bool)) -> Option<TurnRestriction> {
    let driven: Vec<(SectionId, Travel)> = roads
        .sections
        .iter()
        .flat_map(|section| match section.flow {
            Flow::Both => vec![(section.id, Forward), (section.id, Backward)],
            Flow::Forward => vec![(section.id, Forward)],
            Flow::Backward => vec![(section.id, Backward)],
        })
        .collect();
    let ends = |(section, travel): (SectionId, Travel)| {
        let section = roads.section(section);
        if travel == Forward { (section.from, section.to) } else { (section.to, section.from) }
    };
    let mut path = vec![driven[start % driven.len()]];
    for turn in turns {
        let here = ends(path[path.len() - 1]).1;
        let onward: Vec<_> = driven.iter().filter(|next| ends(**next).0 == here).collect();
        path.push(**onward.get(turn % onward.len().max(1))?);
    }
    let rule = if *no { TurnRule::No } else { TurnRule::Only };
    Some(TurnRestriction { source_id: "walk".into(), rule, holds_for: HoldsFor::All, path })
}

fn places_of(case: &Case, network: &Network) -> Vec<AccessPlace> {
    let place = |&(pick, along, forward): &(usize, f64, bool)| {
        let section = &network.roads().sections[pick % network.roads().sections.len()];
        let travel = match section.flow {
            Flow::Forward => Forward,
            Flow::Both if forward => Forward,
            Flow::Both | Flow::Backward => Backward,
        };
        AccessPlace::site(at(section.id.0, along * network.length(section.id).in_metres(), travel))
    };
    case.places.iter().map(place).collect()
}

fn size_of(case: &Case) -> TruckSize {
    TruckSize { gross_mass: Some(kilograms(1000.0 * case.truck_t)), ..TruckSize::default() }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    #[test]
    fn times_are_those_by_the_restrictions_own_words(case in cases(3)) {
        let network = for_truck(roads_of(&case, true), size_of(&case));
        let places = places_of(&case, &network);
        let matrix = network.matrix(&places);
        let reference = ByDefinition::new(&network, size_of(&case));
        for (row, from) in places.iter().enumerate() {
            for (column, time) in reference.times(from, &places).into_iter().enumerate() {
                let found = matrix.travel_ms[row][column];
                let same = time.map_or(found == UNREACHABLE_MS, |ms| (f64::from(found) - ms).abs() <= 3.0);
                prop_assert!(same, "{row} -> {column}: {found}, not {time:?}");
            }
        }
    }

    #[test]
    fn restrictions_and_limits_never_shorten_a_way(case in cases(3)) {
        let free = for_truck(roads_of(&case, false), TruckSize::default());
        let places = places_of(&case, &free);
        let free_ms = free.matrix(&places).travel_ms;
        let restricted = for_truck(roads_of(&case, true), TruckSize::default()).matrix(&places).travel_ms;
        let limited = for_truck(roads_of(&case, true), size_of(&case)).matrix(&places).travel_ms;
        for ((free, restricted), limited) in
            free_ms.iter().flatten().zip(restricted.iter().flatten()).zip(limited.iter().flatten())
        {
            prop_assert!(free <= restricted && restricted <= limited, "{free} {restricted} {limited}");
        }
    }

    #[test]
    fn a_matrix_is_its_single_ways_and_a_halt_never_saves_time(case in cases(1)) {
        let network = for_truck(roads_of(&case, true), size_of(&case));
        let places = places_of(&case, &network);
        let ms = network.matrix(&places).travel_ms;
        for (row, from) in places.iter().enumerate() {
            for (column, to) in places.iter().enumerate().filter(|(_, to)| *to != from) {
                prop_assert_eq!(network.matrix(&[*from, *to]).travel_ms[0][1], ms[row][column]);
                let way = network.way(from, to).map(|way| way.travel_s);
                prop_assert_eq!(way, Some(ms[row][column]).filter(|ms| *ms != UNREACHABLE_MS).map(|ms| ms.div_ceil(1000)));
                for halt in 0..places.len() {
                    // Each leg is rounded to a millisecond.
                    let over = ms[row][halt].saturating_add(ms[halt][column]).saturating_add(4);
                    prop_assert!(ms[row][column] <= over, "{row} -> {column}: {}, over {halt} {over}", ms[row][column]);
                }
            }
        }
    }
}

#[test]
fn real_extracts_are_driven_by_the_restrictions_own_words() {
    let Some(data) = lawful::shared_data() else { return };
    for (file, least) in [("osm/liechtenstein.osm.pbf", 1), ("osm/north-bayreuth.osm.gz", 20)] {
        let network = lawful::read(&data.join(file));
        let (roads, size) = (network.roads(), TruckSize::default());
        assert!(roads.restrictions.len() >= least, "{file}: {} restrictions", roads.restrictions.len());
        // The ends of restrictions, where it matters, and places spread over the sections.
        let spread = roads.sections.iter().step_by(roads.sections.len() / 25).map(|section| section.id);
        let turns = roads.restrictions.iter().flat_map(|turn| [turn.path[0], turn.path[turn.path.len() - 1]]);
        let turns = turns.map(|(section, travel)| (section, Some(travel))).take(60);
        let half = |section: SectionId| -> Length { network.length(section) / 2.0 };
        let places: Vec<AccessPlace> = turns
            .chain(spread.map(|section| (section, None)))
            .map(|(section, travel)| {
                let by_flow = if roads.section(section).flow == Flow::Backward { Backward } else { Forward };
                AccessPlace::site(at(section.0, half(section).in_metres(), travel.unwrap_or(by_flow)))
            })
            .collect();
        let matrix = network.matrix(&places);
        let reference = ByDefinition::new(&network, size);
        for (row, from) in places.iter().enumerate().step_by(3) {
            for (column, time) in reference.times(from, &places).into_iter().enumerate() {
                let found = matrix.travel_ms[row][column];
                let same = time.map_or(found == UNREACHABLE_MS, |ms| (f64::from(found) - ms).abs() <= 3.0);
                assert!(same || from == &places[column], "{file} {row} -> {column}: {found}, not {time:?}");
            }
        }
    }
}
