//! Lives of repairs from the record.

use jiff::Timestamp;
use jiff::tz::TimeZone;
use lasting::patch_lives::{
    Conditions, LifeEnd, OnRoad, PatchLife, Property, SeenHole, StudiedRepair, Study, patch_lives, rows_by,
};
use lasting::resurfaced::{Resurfaced, Resurfacings};
use model::place::Side;
use model::record::known::{KnownHole, KnownRepair};
use serde_json::{Value, json};
use uuid::Uuid;

/// Midnight so many days after the begin of a made year.
fn day(day: i64) -> Timestamp {
    Timestamp::from_second(1_767_225_600 + 86_400 * day).unwrap()
}

fn by(at: i64) -> Value {
    json!({"event": Uuid::from_u128(1), "actor": "mara", "device": "phone-1", "at": day(at)})
}

fn told(value: impl Into<Value>) -> Value {
    json!({"value": value.into(), "by": by(0), "otherwise": []})
}

/// A repair opened on day 10, with what else is known of it.
fn repair(number: u128, more: Value) -> KnownRepair {
    let mut known = json!({
        "repair": Uuid::from_u128(number), "state": "open", "holes": [Uuid::from_u128(1000 + number)], "layers": [],
        "opened": by(10), "inspections": [], "failed_how": "", "labour_min": "0", "plant_min": "0", "photos": [],
        "signatures": [], "last_told": day(10),
    });
    let Value::Object(more) = more else { panic!("{more}") };
    known.as_object_mut().unwrap().extend(more);
    serde_json::from_value(known).unwrap()
}

fn place(chainage_m: f64, side: Side) -> OnRoad {
    OnRoad { road: "mill lane".into(), chainage_m, side }
}

fn look(at: i64, found: &str) -> Value {
    json!({"by": by(at), "found": found, "note": ""})
}

fn hole(number: u128, seen: i64, chainage_m: f64, side: Side) -> SeenHole {
    SeenHole { hole: Uuid::from_u128(number), seen: day(seen), place: place(chainage_m, side) }
}

/// Repairs on the left every hundred metres; what is seen besides.
fn study(repairs: &[KnownRepair], holes: Vec<SeenHole>, resurfaced: Vec<Resurfaced>) -> Vec<PatchLife> {
    let studied = repairs.iter().enumerate().filter_map(|(at, known)| {
        let place = Some(place(100.0 * at as f64, Side::Left));
        StudiedRepair::of(known, place, Conditions::of(known, &TimeZone::UTC, None))
    });
    patch_lives(&Study { repairs: studied.collect(), holes, resurfaced, at: day(400), same_place_m: 10.0 })
}

#[test]
fn a_life_ends_as_it_is_told() {
    let cases = [
        ("it holds", json!({}), LifeEnd::Holds(day(400)), 390.0),
        ("told", json!({"failed": by(50)}), LifeEnd::ToldFailed(day(50)), 40.0),
        (
            "found at the second look",
            json!({"inspections": [look(40, "worn"), look(70, "failed"), look(90, "failed")], "failed": by(70)}),
            LifeEnd::FoundFailed { held: day(40), found: day(70) },
            60.0,
        ),
        (
            "found at the first look",
            json!({"inspections": [look(70, "failed")]}),
            LifeEnd::FoundFailed { held: day(10), found: day(70) },
            60.0,
        ),
        (
            "told before the look",
            json!({"inspections": [look(70, "failed")], "failed": by(30)}),
            LifeEnd::ToldFailed(day(30)),
            20.0,
        ),
        ("sealed only", json!({"opened": null, "sealed": by(9)}), LifeEnd::Holds(day(400)), 391.0),
        ("a failure after the study", json!({"failed": by(500)}), LifeEnd::Holds(day(400)), 390.0),
    ];
    for (name, more, end, days) in cases {
        let lives = study(&[repair(1, more)], vec![], vec![]);
        assert_eq!((lives[0].end, lives[0].days()), (end, days), "{name}");
    }
    assert!(study(&[repair(1, json!({"opened": null}))], vec![], vec![]).is_empty(), "never opened");
    assert!(study(&[repair(1, json!({"opened": by(500)}))], vec![], vec![]).is_empty(), "opened after the study");
}

#[test]
fn looks_leave_an_interval() {
    let found = json!({"inspections": [look(40, "holds"), look(70, "failed")]});
    let lives = study(&[repair(1, found), repair(2, json!({"failed": by(50)})), repair(3, json!({}))], vec![], vec![]);
    let seen: Vec<(f64, f64)> = lives.iter().map(PatchLife::seen_between).map(|s| (s.after, s.until)).collect();
    assert_eq!(seen, [(30.0, 60.0), (40.0, 40.0), (390.0, f64::INFINITY)]);
}

#[test]
fn a_new_hole_near_by_is_the_failure_of_one_repair() {
    let repairs = [repair(1, json!({})), repair(2, json!({}))];
    let cases = [
        ("near", hole(1, 60, 6.0, Side::Left), Some(0)),
        ("too far", hole(1, 60, 11.0, Side::Left), None),
        ("the other side", hole(1, 60, 6.0, Side::Right), None),
        ("before it was opened", hole(1, 9, 6.0, Side::Left), None),
        ("the hole that it mends", hole(1001, 60, 6.0, Side::Left), None),
        ("near the second", hole(1, 60, 97.0, Side::Left), Some(1)),
    ];
    for (name, hole, ends) in cases {
        let lives = study(&repairs, vec![hole], vec![]);
        let failed: Vec<usize> = (0..2).filter(|at| lives[*at].end.failed()).collect();
        assert_eq!(failed, ends.into_iter().collect::<Vec<usize>>(), "{name}");
    }
}

#[test]
fn of_two_repairs_near_a_hole_the_nearest_that_stands_fails() {
    let repairs = [repair(1, json!({})), repair(2, json!({}))];
    let studied: Vec<StudiedRepair> = repairs
        .iter()
        .zip([0.0, 8.0])
        .filter_map(|(known, at)| StudiedRepair::of(known, Some(place(at, Side::Left)), Conditions::default()))
        .collect();
    let holes = vec![hole(1, 60, 7.0, Side::Left), hole(2, 80, 7.0, Side::Left), hole(3, 90, 7.0, Side::Left)];
    let lives = patch_lives(&Study { repairs: studied, holes, resurfaced: vec![], at: day(400), same_place_m: 10.0 });
    let ends: Vec<f64> = lives.iter().map(PatchLife::days).collect();
    assert_eq!(ends, [70.0, 50.0], "the third hole finds none standing");
}

/// The first repair fails, which is told with its hole; the neighbour 8 m away stands.
#[test]
fn a_hole_told_to_be_a_failure_ends_no_other_life() {
    let told = |at| json!({"failed": by(at), "failed_hole": Uuid::from_u128(1)});
    for (name, failed, lasted) in [
        ("told the day after", told(61), [51.0, 390.0]),
        ("told on the day before the hole was reported", told(59), [49.0, 390.0]),
        ("told after the study: nobody knows it then", told(500), [390.0, 50.0]),
    ] {
        let repairs = [repair(1, failed), repair(2, json!({}))];
        let studied = repairs
            .iter()
            .zip([0.0, 8.0])
            .filter_map(|(known, at)| StudiedRepair::of(known, Some(place(at, Side::Left)), Conditions::default()));
        let study = Study {
            repairs: studied.collect(),
            holes: vec![hole(1, 60, 7.0, Side::Left)],
            resurfaced: vec![],
            at: day(400),
            same_place_m: 10.0,
        };
        let ends: Vec<f64> = patch_lives(&study).iter().map(PatchLife::days).collect();
        assert_eq!(ends, lasted, "{name}");
    }
}

#[test]
fn a_new_surface_cuts_lives_short() {
    let over = |from, to, at| over("mill lane", (from, to), None, at);
    let lives = study(
        &[repair(1, json!({})), repair(2, json!({"failed": by(300)}))],
        vec![],
        vec![over(-5.0, 50.0, 200), over(50.0, 150.0, 200), over(-5.0, 50.0, 5)],
    );
    assert_eq!(lives[0].end, LifeEnd::Resurfaced(day(200)));
    assert_eq!(lives[1].end, LifeEnd::Resurfaced(day(200)), "what fails later is no longer this repair");
}

fn over(road: &str, stretch_m: (f64, f64), side: Option<Side>, at: i64) -> Resurfaced {
    Resurfaced { road: road.into(), stretch_m, side, at: day(at) }
}

/// The repair lies on the left at 100 m and is opened on day 10; a hole is seen there on day 300.
#[test]
fn only_a_surface_over_the_repair_cuts_its_life_short() {
    let seen = || hole(7, 300, 101.0, Side::Left);
    let failed = LifeEnd::NewHole { seen: day(300), hole: Uuid::from_u128(7) };
    let cut = LifeEnd::Resurfaced(day(200));
    for (name, over, end) in [
        ("over it", over("mill lane", (90.0, 110.0), None, 200), cut),
        ("beside it along the road", over("mill lane", (101.0, 300.0), None, 200), failed),
        ("its side", over("mill lane", (90.0, 110.0), Some(Side::Left), 200), cut),
        ("the other side", over("mill lane", (90.0, 110.0), Some(Side::Right), 200), failed),
        ("another road", over("kiln lane", (90.0, 110.0), None, 200), failed),
        ("before it was opened", over("mill lane", (90.0, 110.0), None, 9), failed),
        ("after it failed", over("mill lane", (90.0, 110.0), None, 301), failed),
    ] {
        let lives = study(&[repair(1, json!({})), repair(2, json!({}))], vec![seen()], vec![over]);
        assert_eq!(lives[1].end, end, "{name}");
        assert_eq!(lives[0].end, LifeEnd::Holds(day(400)), "{name}: the neighbour stands");
    }
}

/// A stretch of 200 m, watched for 100 days, by hand: metres of each side times days since its surface.
#[test]
fn what_got_a_new_surface_is_watched_anew() {
    let all = [over("a", (0.0, 50.0), None, 40), over("a", (50.0, 100.0), Some(Side::Left), 80)];
    let surfaces = Resurfacings::of(&all);
    let span = (day(0), day(100));
    // both sides of 50 m for 60 days, of 50 m one for 20 and one for 100, of 100 m for 100
    let by_hand = (50.0 * 60.0 + 50.0 * (0.5 * 20.0 + 0.5 * 100.0) + 100.0 * 100.0) / 200.0 / 100.0;
    assert!((surfaces.watched_part("a", (0.0, 200.0), span) - by_hand).abs() < 1e-12);
    let whole = [("another road", "b", (0.0, 200.0), span), ("beyond", "a", (100.0, 200.0), span)];
    for (name, road, stretch, span) in whole {
        assert_eq!(surfaces.watched_part(road, stretch, span).to_bits(), 1.0_f64.to_bits(), "{name}");
    }
    let later = (day(90), day(100));
    assert!((surfaces.watched_part("a", (0.0, 100.0), later) - 1.0).abs() < 1e-12, "before the span");
    let at = |chainage_m, side| OnRoad { road: "a".into(), chainage_m, side };
    assert_eq!(surfaces.last_until(&at(60.0, Side::Left), day(100)), Some(day(80)));
    assert_eq!(surfaces.last_until(&at(60.0, Side::Left), day(79)), None);
    assert_eq!(surfaces.last_until(&at(60.0, Side::Right), day(100)), None);
}

#[test]
fn conditions_come_from_the_record() {
    let layer = |feel: &str, base: &str| {
        json!({"layer": 1, "moisture": told(feel), "base": told(base), "passes_still": told(2),
            "passes_vibrating": told(10)})
    };
    let known = repair(
        1,
        json!({
            "layers": [layer("keeps_shape", "pit gravel"), layer("oozes", "crushed rock"), layer("oozes", "pit gravel")], "binder": told("RS-1"), "dry": told(false), "bottom_firm": told(true),
            "wetness": told("damp"), "drainage": told("high_verge"), "weather": told("rain_within_a_day"),
            "air_temperature_c": told(9.5),
        }),
    );
    let conditions = Conditions::of(&known, &TimeZone::UTC, None);
    assert_eq!((conditions.layers, conditions.fewest_passes, conditions.month), (Some(3), Some(12), Some(1)));
    assert_eq!(conditions.deviations, ["sealed on a wet surface", "base too wet"], "no rule says how cold it may be");
    for (least, cold) in [(9.5, false), (10.0, true)] {
        let words = Conditions::of(&known, &TimeZone::UTC, Some(least)).deviations;
        assert_eq!(words.contains(&"sealed too cold".to_owned()), cold, "{least}");
    }
    let named = ["material", "drainage", "weather", "temperature"];
    let words = named.map(|by| conditions.group(Property::of(by).unwrap()));
    assert_eq!(words, ["pit gravel + crushed rock", "verge higher than the road", "rain within a day", "under 10 °C"]);
    for (air, band) in [(10.0, "10 to 20 °C"), (29.9, "20 to 30 °C"), (30.0, "30 °C and more")] {
        let warm = Conditions { air_temperature_c: Some(air), ..Conditions::default() };
        assert_eq!(warm.group(Property::Temperature), band);
    }
    let named = ["layers", "binder", "wetness", "rules", "crew", "season", "traffic"];
    let words = named.map(|by| conditions.group(Property::of(by).unwrap()));
    let read = ["3 layers", "RS-1", "damp", "not by the rules", "not known", "December to February", "not known"];
    assert_eq!(words, read);
    for (vehicles, band) in [(199.0, "under 200 a day"), (200.0, "200 to 1000 a day"), (4000.0, "4000 a day and more")]
    {
        let busy = Conditions { vehicles_per_day: Some(vehicles), ..Conditions::default() };
        assert_eq!(busy.group(Property::Traffic), band);
    }

    let lives = study(&[known, repair(2, json!({"failed": by(50)}))], vec![], vec![]);
    let rows = rows_by(&lives, Property::Layers);
    assert_eq!(rows.groups, ["3 layers", "not known"]);
    assert_eq!(rows.rows.iter().map(|row| (row.group, row.failed)).collect::<Vec<_>>(), [(0, false), (1, true)]);
}

#[test]
fn holes_that_are_none_end_no_life() {
    let known = |state: &str| -> KnownHole {
        let report = json!({"by": by(20), "note": "", "source": "patrol", "reference": ""});
        serde_json::from_value(json!({
            "hole": Uuid::from_u128(7), "state": state, "reports": [report], "merged": [], "repairs": [], "photos": [],
            "last_told": day(20),
        }))
        .unwrap()
    };
    assert_eq!(SeenHole::of(&known("reported"), place(1.0, Side::Left)).unwrap().seen, day(20));
    assert!(SeenHole::of(&known("same_as_other"), place(1.0, Side::Left)).is_none());
    assert!(SeenHole::of(&known("dismissed"), place(1.0, Side::Left)).is_none());
    let closed_at_office = KnownHole { dealt_with: true, ..known("dismissed") };
    assert_eq!(SeenHole::of(&closed_at_office, place(1.0, Side::Left)).unwrap().seen, day(20));
    assert!(SeenHole::of(&known("resurfaced"), place(1.0, Side::Left)).is_some(), "it was a hole");
}
