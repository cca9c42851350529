//! What of a road lies between two places on it.

mod common;

use common::{at, network, raw};
use model::place::Travel::Forward;
use model::quantity::InLength as _;
use model::road::{Flow, RoadSection};
use roads::Network;

/// A road of three sections to the east, the middle one drawn from east to west and one-way against us; a second road beside the
/// middle one, shorter; one that leads nowhere.
fn roads() -> Network {
    let named = |source_id: &str, name: &str, flow, table: &[(f64, f64)]| {
        let mut line = raw(source_id, table, flow, 50.0);
        name.clone_into(&mut line.attributes.name);
        line
    };
    network(vec![
        named("a", "Long Road", Flow::Both, &[(0.0, 0.0), (1000.0, 0.0)]),
        named("b", "Long Road", Flow::Forward, &[(2000.0, 0.0), (1500.0, 300.0), (1000.0, 0.0)]),
        named("c", "Long Road", Flow::Both, &[(2000.0, 0.0), (3000.0, 0.0)]),
        named("d", "Short Cut", Flow::Both, &[(1000.0, 0.0), (2000.0, 0.0)]),
        named("e", "Elsewhere", Flow::Both, &[(0.0, 900.0), (500.0, 900.0)]),
    ])
}

/// Section, from and to in whole metres, and whether it is followed with its chainage.
fn between(roads: &Network, from: (u32, f64), to: (u32, f64), accept: &dyn Fn(&RoadSection) -> bool) -> Vec<Row> {
    let [from, to] = [from, to].map(|(section, chainage)| at(section, chainage, Forward));
    let found = roads.stretches_between(&from, &to, accept);
    let row = |stretch: roads::SectionStretch| {
        let name = roads.section(stretch.section).source_id.clone();
        let whole = |length: model::quantity::Length| length.in_metres().round() as i64;
        (name, whole(stretch.from), whole(stretch.to), stretch.direction == Forward)
    };
    found.into_iter().map(row).collect()
}

type Row = (String, i64, i64, bool);

#[test]
fn a_stretch_goes_along_the_road_whichever_way_it_is_drawn() {
    let roads = roads();
    let all = |_: &RoadSection| true;
    let row = |name: &str, from, to, forward| (name.to_owned(), from, to, forward);
    // half of the middle road: twice the hypotenuse of 500 m and 300 m is 1,166 m
    for (name, from, to, expected) in [
        ("on one section", (0, 200.0), (0, 700.0), vec![row("a", 200, 700, true)]),
        ("the other way round", (0, 700.0), (0, 200.0), vec![row("a", 200, 700, false)]),
        ("over a junction", (0, 900.0), (1, 583.0), vec![row("a", 900, 1000, true), row("b", 583, 1166, false)]),
        (
            "past a short cut of another name",
            (0, 900.0),
            (2, 100.0),
            vec![row("a", 900, 1000, true), row("b", 0, 1166, false), row("c", 0, 100, true)],
        ),
        (
            "back",
            (2, 100.0),
            (0, 900.0),
            vec![row("c", 0, 100, false), row("b", 0, 1166, true), row("a", 900, 1000, false)],
        ),
        ("no way", (0, 900.0), (4, 100.0), vec![]),
    ] {
        assert_eq!(between(&roads, from, to, &all), expected, "{name}");
    }
}

#[test]
fn roads_that_are_not_accepted_are_not_on_the_way() {
    let roads = roads();
    let without = |section: &RoadSection| section.source_id != "b";
    let row = |name: &str, from, to, forward| (name.to_owned(), from, to, forward);
    assert_eq!(
        between(&roads, (0, 900.0), (2, 100.0), &without),
        [row("a", 900, 1000, true), row("d", 0, 1000, true), row("c", 0, 100, true)]
    );
    assert_eq!(between(&roads, (0, 900.0), (2, 100.0), &|section| section.source_id == "a"), []);
}
