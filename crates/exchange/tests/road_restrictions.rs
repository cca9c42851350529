//! Restrictions of turns and limits for trucks, as the open map has them.

mod road_support;

use exchange::road_files::RoadFile;
use model::quantity::{InLength, InMass, kilograms};
use model::road::{HoldsFor, RawVia, TruckAccess, TurnRule};
use road_support::{RelationOf, WayOf, codes, pbf_with, read_bytes, xml_of, xml_with};

/// Tags of one way or relation.
type Tags<'t> = &'t [(&'static str, &'static str)];

const ROAD: [(&str, &str); 1] = [("highway", "tertiary")];

fn ways() -> Vec<WayOf> {
    let road = |id: i64, nodes: Vec<i64>| (id, nodes, ROAD.to_vec());
    vec![
        road(1, vec![11, 12]),
        road(2, vec![12, 13]),
        road(3, vec![12, 14]),
        (4, vec![13, 14], vec![("highway", "footway")]),
    ]
}

/// From way 1 over node 12 to way 2.
fn plain(tags: &[(&'static str, &'static str)]) -> RelationOf {
    let tags = [("type", "restriction")].iter().chain(tags).copied().collect();
    (77, vec![("way", 1, "from"), ("node", 12, "via"), ("way", 2, "to")], tags)
}

/// Reads the ways with relations, from XML and PBF alike.
fn read(relations: &[RelationOf]) -> RoadFile {
    let xml = read_bytes("roads.osm", xml_with(&ways(), relations).as_bytes());
    let pbf = read_bytes("roads.osm.pbf", &pbf_with(&ways(), relations));
    assert_eq!(xml.restrictions.len(), pbf.restrictions.len());
    for (one, other) in xml.restrictions.iter().zip(&pbf.restrictions) {
        let mut other = other.clone();
        other.at = one.at.clone();
        assert_eq!(*one, other);
    }
    assert_eq!((codes(&xml.problems), &xml.left_out), (codes(&pbf.problems), &pbf.left_out));
    assert_eq!(xml.lines.len(), 3);
    xml
}

#[test]
fn kinds_of_restriction() {
    // OpenStreetMap wiki, Relation:restriction (from memory).
    let table: [(&str, Option<(TurnRule, bool)>); 13] = [
        ("no_left_turn", Some((TurnRule::No, false))),
        ("no_right_turn", Some((TurnRule::No, false))),
        ("no_straight_on", Some((TurnRule::No, false))),
        ("no_u_turn", Some((TurnRule::No, true))),
        ("no_entry", Some((TurnRule::No, false))),
        ("no_exit", Some((TurnRule::No, false))),
        ("only_left_turn", Some((TurnRule::Only, false))),
        ("only_right_turn", Some((TurnRule::Only, false))),
        ("only_straight_on", Some((TurnRule::Only, false))),
        ("only_u_turn", Some((TurnRule::Only, true))),
        ("only_entry", None),
        ("give_way", None),
        ("no", None),
    ];
    for (word, expected) in table {
        let file = read(&[plain(&[("restriction", word)])]);
        let found = file.restrictions.first().map(|found| (found.rule, found.turns_round));
        assert_eq!(found, expected, "{word}");
        let problems: &[&str] = if expected.is_some() { &[] } else { &["road.restriction.unknown_kind"] };
        assert_eq!(codes(&file.problems), problems, "{word}");
    }
    let found = &read(&[plain(&[("restriction", "no_left_turn")])]).restrictions[0];
    assert_eq!((found.source_id.as_str(), &found.via), ("77", &RawVia::Point(12)));
    assert_eq!(
        (found.from.as_slice(), found.to.as_slice()),
        (["1".to_owned()].as_slice(), ["2".to_owned()].as_slice())
    );
    assert!(found.at.line > 20, "{:?}", found.at);
}

#[test]
fn whom_restrictions_hold_for() {
    let heavy = kilograms(3500.0);
    // OpenStreetMap wiki, Relation:restriction, keys except and restriction:<vehicle> (from memory).
    let table: [(Tags, Option<HoldsFor>); 11] = [
        (&[("restriction", "no_left_turn")], Some(HoldsFor::All)),
        (&[("restriction", "no_left_turn"), ("except", "bus;bicycle")], Some(HoldsFor::All)),
        (&[("restriction", "no_left_turn"), ("except", "psv; hgv")], Some(HoldsFor::UpTo(heavy))),
        (&[("restriction", "no_left_turn"), ("except", "goods")], Some(HoldsFor::HeavierThan(heavy))),
        (&[("restriction", "no_left_turn"), ("except", "goods;hgv")], None),
        (&[("restriction", "no_left_turn"), ("except", "motor_vehicle")], None),
        (&[("restriction:hgv", "no_left_turn")], Some(HoldsFor::HeavierThan(heavy))),
        (&[("restriction:goods", "no_left_turn")], Some(HoldsFor::UpTo(heavy))),
        (&[("restriction:motor_vehicle", "no_left_turn")], Some(HoldsFor::All)),
        (&[("restriction:bicycle", "no_left_turn")], None),
        (&[("restriction:hgv", "no_left_turn"), ("except", "hgv")], None),
    ];
    for (tags, expected) in table {
        let tags: Vec<(&'static str, &'static str)> = tags.to_vec();
        let file = read(&[plain(&tags)]);
        assert_eq!(file.restrictions.first().map(|found| found.holds_for), expected, "{tags:?}");
        assert!(file.problems.is_empty(), "{tags:?} {:?}", file.problems);
        assert_eq!(file.left_out.get("restriction for others than trucks").copied(), expected.is_none().then_some(1));
    }
}

#[test]
fn restrictions_at_times_are_obeyed_always_and_said() {
    let file = read(&[plain(&[("restriction:conditional", "no_left_turn @ (Mo-Fr 07:00-09:00)")])]);
    assert_eq!(codes(&file.problems), ["road.restriction.conditional"]);
    assert_eq!(file.restrictions[0].holds_for, HoldsFor::All);
    let file = read(&[plain(&[("restriction:hgv:conditional", "only_straight_on @ (22:00-06:00)")])]);
    assert_eq!(file.restrictions[0].holds_for, HoldsFor::HeavierThan(kilograms(3500.0)));
}

#[test]
fn members_of_restrictions() {
    let tags = |word| vec![("type", "restriction"), ("restriction", word)];
    let table: [(&str, RelationOf, &[&str], usize); 10] = [
        (
            "ways between",
            (1, vec![("way", 1, "from"), ("way", 2, "via"), ("way", 3, "via"), ("way", 1, "to")], tags("no_u_turn")),
            &[],
            1,
        ),
        (
            "no via",
            (1, vec![("way", 1, "from"), ("way", 2, "to")], tags("no_u_turn")),
            &["road.restriction.members"],
            0,
        ),
        (
            "no from",
            (1, vec![("node", 12, "via"), ("way", 2, "to")], tags("no_u_turn")),
            &["road.restriction.members"],
            0,
        ),
        (
            "a node as to",
            (1, vec![("way", 1, "from"), ("node", 12, "via"), ("node", 13, "to")], tags("no_u_turn")),
            &["road.restriction.members"],
            0,
        ),
        (
            "two nodes as via",
            (
                1,
                vec![("way", 1, "from"), ("node", 12, "via"), ("node", 13, "via"), ("way", 2, "to")],
                tags("no_u_turn"),
            ),
            &["road.restriction.members"],
            0,
        ),
        (
            "two from of a turn",
            (
                1,
                vec![("way", 1, "from"), ("way", 3, "from"), ("node", 12, "via"), ("way", 2, "to")],
                tags("no_left_turn"),
            ),
            &["road.restriction.members"],
            0,
        ),
        (
            "two from of no entry",
            (1, vec![("way", 1, "from"), ("way", 3, "from"), ("node", 12, "via"), ("way", 2, "to")], tags("no_entry")),
            &[],
            1,
        ),
        (
            "two to of no exit",
            (1, vec![("way", 1, "from"), ("node", 12, "via"), ("way", 2, "to"), ("way", 3, "to")], tags("no_exit")),
            &[],
            1,
        ),
        // Nothing is said of a turn that can't be made, but it is counted.
        ("to a footway", (1, vec![("way", 1, "from"), ("node", 13, "via"), ("way", 4, "to")], tags("no_exit")), &[], 0),
        ("other relations", (1, vec![("way", 1, "from")], vec![("type", "route"), ("restriction", "no")]), &[], 0),
    ];
    for (what, relation, problems, count) in table {
        let file = read(&[relation]);
        assert_eq!((codes(&file.problems).as_slice(), file.restrictions.len()), (problems, count), "{what}");
        let unread = file.left_out.get("restriction between ways that are not read").copied();
        assert_eq!(unread, (what == "to a footway").then_some(1));
    }
    let twice = [plain(&[("restriction", "no_left_turn")]), plain(&[("restriction", "no_right_turn")])];
    let file = read(&twice);
    assert_eq!((codes(&file.problems), file.restrictions.len()), (vec!["road.restriction.twice"], 1));
    let mut deleted = xml_with(&ways(), &[plain(&[("restriction", "no_left_turn")])]);
    deleted = deleted.replace("<relation id=\"77\"", "<relation id=\"77\" action=\"delete\"");
    assert!(read_bytes("roads.osm", deleted.as_bytes()).restrictions.is_empty());
}

#[test]
fn limits_for_trucks() {
    let t = |tonnes: f64| Some(kilograms(1000.0 * tonnes));
    let m = |length: f64| Some(model::quantity::metres(length));
    let none = TruckAccess::default();
    // Forms: OpenStreetMap wiki, Key:maxweight, Key:maxheight, Key:hgv (from memory).
    let table: [(Tags, TruckAccess, bool); 16] = [
        (&[("maxweight", "7.5")], TruckAccess { mass: t(7.5), ..none }, true),
        (&[("maxweight", "7,5 t")], TruckAccess { mass: t(7.5), ..none }, true),
        (&[("maxweight", "3500 kg")], TruckAccess { mass: t(3.5), ..none }, true),
        (&[("maxweight", "12"), ("maxweightrating", "7.5")], TruckAccess { mass: t(7.5), ..none }, true),
        (&[("maxweight", "none")], none, true),
        (&[("maxweight", "heavy")], none, false),
        (&[("maxweight", "7500")], none, false),
        (&[("maxheight", "3.8")], TruckAccess { height: m(3.8), ..none }, true),
        (&[("maxheight", "12'6\"")], TruckAccess { height: m(3.81), ..none }, true),
        (&[("maxheight", "default"), ("maxheight:physical", "4.1")], TruckAccess { height: m(4.1), ..none }, true),
        (&[("maxwidth", "2.2"), ("maxlength", "10 m")], TruckAccess { width: m(2.2), length: m(10.0), ..none }, true),
        (&[("maxwidth", "-3")], none, false),
        (&[("hgv", "no")], TruckAccess { no_heavier_than: t(3.5), ..none }, true),
        (&[("hgv", "destination")], none, true),
        (&[("hgv", "delivery")], none, true),
        (&[("hgv", "yes")], none, true),
    ];
    for (tags, expected, good) in table {
        let tags: Vec<_> = ROAD.iter().chain(tags).copied().collect();
        let file = read_bytes("roads.osm", xml_of(&[(1, vec![11, 12], tags.clone())]).as_bytes());
        let found = file.lines[0].attributes.truck;
        let near = |one: Option<f64>, other: Option<f64>| match (one, other) {
            (Some(one), Some(other)) => (one - other).abs() < 1e-9,
            (one, other) => one == other,
        };
        let kg = |mass: Option<model::quantity::Mass>| mass.map(InMass::in_kilograms);
        let metre = |length: Option<model::quantity::Length>| length.map(InLength::in_metres);
        let same = near(kg(found.mass), kg(expected.mass))
            && near(kg(found.no_heavier_than), kg(expected.no_heavier_than))
            && near(metre(found.height), metre(expected.height))
            && near(metre(found.width), metre(expected.width))
            && near(metre(found.length), metre(expected.length));
        assert!(same, "{tags:?}: {found:?}");
        let problems: &[&str] = if good { &[] } else { &["road.limit.unreadable"] };
        assert_eq!(codes(&file.problems), problems, "{tags:?}");
    }
}

#[test]
fn damaged_relations_harm_no_roads() {
    let whole = pbf_with(&ways(), &[plain(&[("restriction", "no_left_turn")])]);
    let block = road_support::relation_block(&[plain(&[("restriction", "no_left_turn")])]);
    let sound = read_bytes("roads.osm.pbf", &pbf_with(&ways(), &[]));
    for index in 0..block.len() {
        for flip in [0x01, 0x10, 0x80] {
            let mut damaged = block.clone();
            damaged[index] ^= flip;
            let mut file = pbf_with(&ways(), &[]);
            file.extend(road_support::blob("OSMData", &damaged, false));
            let read = read_bytes("roads.osm.pbf", &file);
            assert!(read.lines.len() >= sound.lines.len(), "byte {index}");
            assert!(read.restrictions.len() <= 1);
        }
    }
    for cut in whole.len() - 60..whole.len() {
        let read = read_bytes("roads.osm.pbf", &whole[..cut]);
        assert_eq!(read.lines.len(), 3);
        assert!(codes(&read.problems).contains(&"road.pbf.broken"));
    }
}
