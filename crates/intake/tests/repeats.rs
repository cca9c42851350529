//! Rows of one hole among many, and a new report beside known holes.

mod support;
#[path = "support/holes.rs"]
mod support_holes;

use std::collections::BTreeSet;
use std::ops::ControlFlow;

use insta::assert_snapshot;
use intake::bulk::BulkRow;
use intake::repeats::{Repeated, Repeats};
use intake::sighting::{Match, OnRoad, Sighting, match_report};
use jiff::civil::{Date, date};
use jiff::tz::TimeZone;
use model::district::UnitSystem;
use model::hole::HoleId;
use model::quantity::metres;
use model::record::happened::{HoleSize, Position};
use model::record::known::{HoleState, KnownHole};
use model::road::SectionId;
use proptest::prelude::*;
use support::rules;
use triage::same_hole::{Report, same_holes_apart};

const METRES_PER_DEGREE: f64 = 111_195.08;

fn place(north_m: f64, east_m: f64) -> Position {
    let lat = 47.3 + north_m / METRES_PER_DEGREE;
    Position { lon: -28.4 + east_m / METRES_PER_DEGREE / 47.3_f64.to_radians().cos(), lat }
}

fn row(north_m: f64, east_m: f64, day: Option<Date>, source: &str) -> BulkRow {
    BulkRow {
        line: 0,
        reference: String::new(),
        position: place(north_m, east_m),
        at: None,
        day,
        note: String::new(),
        address: String::new(),
        source: source.into(),
        size: None,
        closed: None,
        is_told_open: false,
    }
}

fn find(rows: &[BulkRow]) -> Repeated {
    let rules = rules();
    let mut repeats = Repeats::new(&rules);
    for row in rows {
        repeats.add(row);
    }
    repeats.find(&mut |_| ControlFlow::Continue(()))
}

#[test]
fn rows_of_one_hole_name_the_first_and_why() {
    let day = |n: i8| Some(date(2026, 11, n));
    let rows = [
        row(0.0, 0.0, day(5), "public"),
        row(3.0, 4.0, day(3), "public"),
        row(0.0, 40.0, day(3), "public"),
        // The patrol lists each hole once a day.
        row(200.0, 0.0, day(3), "patrol"),
        row(201.0, 0.0, day(3), "patrol"),
        row(201.0, 0.5, None, "public"),
        // Half a year before.
        row(0.0, 0.0, Some(date(2026, 5, 1)), "public"),
    ];
    let shown: Vec<String> = find(&rows).same.iter().map(|same| format!("{same:?}")).collect();
    assert_snapshot!("same_rows", shown.join("\n"));
}

#[test]
fn a_place_that_many_rows_stand_at_is_no_place() {
    let mut rows: Vec<BulkRow> = (0..60).map(|_| row(0.0, 0.0, None, "public")).collect();
    rows.push(row(1.0, 0.0, None, "public"));
    rows.push(row(1.0, 0.5, None, "public"));
    let repeated = find(&rows);
    assert_eq!(repeated.fallback_places, [(0, 60)]);
    assert_eq!(repeated.same.iter().map(|same| same.stays).collect::<Vec<_>>(), [60]);
}

#[test]
fn the_search_can_be_stopped() {
    let rules = rules();
    let mut repeats = Repeats::new(&rules);
    for index in 0..20_000 {
        repeats.add(&row(f64::from(index % 141) * 20.0, f64::from(index / 141) * 20.0, None, "public"));
    }
    let mut told = Vec::new();
    let repeated = repeats.find(&mut |share| {
        told.push(share);
        ControlFlow::Break(())
    });
    assert!(repeated.is_stopped && told.len() == 1 && told[0] > 0.0 && told[0] < 1.0);
}

fn known(n: u128, state: HoleState, north_m: f64) -> Sighting {
    let mut hole = KnownHole { ..support_holes::hole(n, state) };
    hole.position = Some(support_holes::told(place(north_m, 0.0)));
    Sighting::of(&hole, None, &TimeZone::UTC).expect("a hole that is there")
}

fn told_at(north_m: f64) -> Sighting {
    Sighting {
        hole: support_holes::number(100),
        same_as: None,
        position: place(north_m, 0.0),
        on_road: None,
        size: HoleSize::default(),
        seen: Some(date(2026, 11, 20)),
        source: "public".into(),
    }
}

#[test]
fn a_new_report_is_of_the_nearest_hole_or_of_a_new_one() {
    let match_it = |new: &Sighting, known: &[Sighting]| match_report(new, known, &rules(), UnitSystem::Si);
    let holes = [known(1, HoleState::Reported, 0.0), known(2, HoleState::Planned, 12.0)];
    let same = |n: u128, why: &str| Match::SameAs { hole: support_holes::number(n), why: why.into() };
    assert_eq!(match_it(&told_at(4.0), &holes), same(1, "4.0 m apart, 2 days apart"));
    assert_eq!(match_it(&told_at(7.0), &holes), same(2, "5.0 m apart, 2 days apart"));
    assert_eq!(match_it(&told_at(40.0), &holes), Match::New);
    assert_eq!(match_it(&told_at(0.0), &[]), Match::New);
    // A hole that another was merged into: what is too far from that one is another hole.
    let merged = Sighting { same_as: Some(support_holes::number(1)), ..known(3, HoleState::Reported, -6.0) };
    assert_eq!(match_it(&told_at(4.0), &[holes[0].clone(), merged.clone()]), Match::New);
    assert_eq!(match_it(&told_at(1.0), &[holes[0].clone(), merged]), same(1, "1.0 m apart, 2 days apart"));
    // On a road the places may be further off along it, and not on another road at all.
    let on = |section, chainage: f64, sighting: Sighting| {
        let on_road = Some(OnRoad { section: SectionId(section), chainage: metres(chainage), across: metres(1.5) });
        Sighting { on_road, ..sighting }
    };
    let hole = [on(7, 100.0, holes[0].clone())];
    assert_eq!(match_it(&on(7, 112.0, told_at(12.0)), &hole), same(1, "12.0 m along, same side, 2 days apart"));
    assert_eq!(match_it(&on(8, 100.0, told_at(1.0)), &hole), Match::New);
    // Mended holes are not there to be the same as.
    let mended = KnownHole { ..support_holes::hole(4, HoleState::Mended) };
    assert_eq!(Sighting::of(&mended, None, &TimeZone::UTC), None);
}

/// All pairs, in place of those found by bands.
fn by_all_pairs(rows: &[BulkRow]) -> BTreeSet<Vec<usize>> {
    let untold = metres(f64::NAN);
    let reports: Vec<Report> = rows
        .iter()
        .enumerate()
        .map(|(index, row)| Report {
            id: HoleId(format!("{index:010}")),
            section: SectionId(0),
            chainage: metres(0.0),
            across: metres(0.0),
            lane_position: None,
            length: untold,
            width: untold,
            depth: untold,
            seen: row.day,
            source: row.source.clone(),
        })
        .collect();
    let apart = |a: usize, b: usize| {
        let (a, b) = (rows[a].position, rows[b].position);
        let shrink = f64::midpoint(a.lat, b.lat).to_radians().cos();
        metres(((a.lon - b.lon) * shrink).hypot(a.lat - b.lat) * METRES_PER_DEGREE)
    };
    let near: Vec<(usize, usize)> = (0..rows.len()).flat_map(|a| (a + 1..rows.len()).map(move |b| (a, b))).collect();
    same_holes_apart(&reports, &near, &apart, &rules()).into_iter().filter(|group| group.len() > 1).collect()
}

fn any_rows() -> impl Strategy<Value = Vec<BulkRow>> {
    let source = prop::sample::select(vec!["public", "patrol", "address", "gossip", ""]);
    let one = (-40.0f64..40.0, -40.0f64..40.0, prop::option::of(0i64..200), source).prop_map(
        |(north, east, days, source)| {
            let day = days.map(|days| date(2026, 1, 1).saturating_add(jiff::Span::new().days(days)));
            row(north, east, day, source)
        },
    );
    prop::collection::vec(one, 0..60)
}

proptest! {
    /// The bands leave out no pair that is near.
    #[test]
    fn the_same_holes_are_found_as_among_all_pairs(rows in any_rows()) {
        let found: BTreeSet<Vec<usize>> = find(&rows).same.into_iter().map(|same| {
            let mut all: Vec<usize> = same.others.iter().map(|(other, _)| *other).chain([same.stays]).collect();
            all.sort_unstable();
            all
        }).collect();
        prop_assert_eq!(found, by_all_pairs(&rows));
    }

    #[test]
    fn the_row_that_stays_is_the_first_seen(rows in any_rows()) {
        for same in find(&rows).same {
            for (other, why) in &same.others {
                prop_assert!(!why.is_empty());
                prop_assert!(rows[*other].day.is_none() || rows[same.stays].day.is_some_and(|first| Some(first) <= rows[*other].day));
            }
        }
    }
}
