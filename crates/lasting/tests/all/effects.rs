//! Several properties held together, against the estimates that are checked with a reference library and against lives that were
//! made so.

use jiff::{SignedDuration, Timestamp};
use lasting::effects::{between_looks, effects, log_rank_within};
use lasting::life_table::tables_by_group;
use lasting::log_rank::log_rank;
use lasting::patch_lives::{Conditions, LifeEnd, PatchLife, Property, rows_by, rows_by_traffic};
use rand::{RngExt, SeedableRng};
use uuid::Uuid;

use crate::support::{assert_near, rules};

fn life(days: f64, failed: bool, crew: &str, road: &str) -> PatchLife {
    let begin = Timestamp::from_second(1_767_225_600).unwrap();
    let at = begin + SignedDuration::from_secs((days * 86_400.0) as i64);
    let conditions = Conditions {
        crew: Some(crew.into()),
        road_class: Some(road.into()),
        vehicles_per_day: Some(500.0),
        ..Conditions::default()
    };
    let end = if failed { LifeEnd::ToldFailed(at) } else { LifeEnd::Holds(at) };
    PatchLife { repair: Uuid::nil(), begin, end, conditions }
}

/// Crew B works on the busy roads mostly, where repairs fail three times as often; the crew itself changes nothing.
fn made(number: usize) -> Vec<PatchLife> {
    let mut chance = rand_pcg::Pcg64::seed_from_u64(11);
    let one = |_| {
        let busy = chance.random_bool(0.5);
        let is_b = chance.random_bool(if busy { 0.8 } else { 0.2 });
        let scale = if busy { 300.0 } else { 900.0 };
        let days = -scale * (1.0 - chance.random::<f64>()).ln();
        let watched = 1000.0 * chance.random::<f64>();
        life(
            days.min(watched).max(1.0),
            days <= watched,
            if is_b { "B" } else { "A" },
            if busy { "busy" } else { "quiet" },
        )
    };
    (0..number).map(one).collect()
}

#[test]
fn what_only_goes_together_is_parted() {
    let lives = made(3000);
    // alone, crews differ
    let rows = rows_by(&lives, Property::Crew);
    let alone = log_rank(&tables_by_group(&rows.rows, 2).unwrap()).unwrap();
    assert!(alone.p < 1e-6, "{alone:?}");
    // within roads of one kind they do not
    let within = log_rank_within(&lives, Property::Crew, Property::RoadClass).unwrap();
    assert!(within.p > 0.05 && within.df == 1, "{within:?}");
    let found = effects(&lives, &[Property::Crew, Property::RoadClass], &rules()).unwrap();
    let of = |property: &str| found.each.iter().find(|effect| effect.property == property).unwrap();
    let [times, low, high] = of("crew").failing;
    assert!(low < 1.0 && 1.0 < high && (0.8..1.25).contains(&times), "{:?}", of("crew"));
    let (road, against) = (of("road-class"), &found.against[1].group);
    let expected: f64 = if against == "quiet" { 3.0 } else { 1.0 / 3.0 };
    assert!(road.failing[1] < expected && expected < road.failing[2], "{road:?}");
    // lives are exponential: three times as often is a third as long
    assert!(road.living[1] < 1.0 / expected && 1.0 / expected < road.living[2], "{road:?}");
    assert_near((road.failing[0] * road.living[0]).ln(), 0.0, 0.15, "one is the other's inverse");
    assert!(road.p_corrected < 1e-6 && found.words(&rules())[0].starts_with("road-class"));
    assert_eq!(found.lives, 3000);
}

#[test]
fn few_failures_are_no_group_of_their_own() {
    let mut lives = made(400);
    lives.extend([life(50.0, true, "C", "busy"), life(900.0, false, "C", "quiet"), life(0.0, true, "D", "busy")]);
    let found = effects(&lives, &[Property::Crew], &rules()).unwrap();
    assert_eq!((found.left_out, found.against[0].with.as_slice()), (1, &["C".to_owned()][..]));
    assert_eq!(found.each.len(), 1);
    for name in ["E", "F", "G"] {
        lives.extend((1..=2).map(|age| life(f64::from(age) * 100.0, true, name, "busy")));
    }
    let found = effects(&lives, &[Property::Crew], &rules()).unwrap();
    let groups: Vec<(&str, usize, usize)> =
        found.each.iter().map(|effect| (effect.group.as_str(), effect.lives, effect.failures)).collect();
    assert!(groups.contains(&("others", 8, 7)) && found.against[0].with.is_empty(), "{groups:?}");
    assert!(effects(&lives[..3], &[Property::Crew], &rules()).is_err(), "three lives are too few");
}

#[test]
fn traffic_is_counted_in_place_of_days() {
    let mut lives = vec![life(100.0, true, "A", "busy"), life(40.0, false, "A", "busy")];
    lives[1].conditions.vehicles_per_day = None;
    let (rows, left_out) = rows_by_traffic(&lives, Property::Crew);
    assert_eq!((rows.rows.len(), left_out, rows.rows[0].duration), (1, 1, 50.0));
}

#[test]
fn a_failure_found_at_a_look_lies_before_it() {
    let mut lives = vec![life(200.0, true, "A", "busy"), life(300.0, false, "A", "busy")];
    assert!(between_looks(&lives, Property::Crew, &[150.0]).is_empty(), "no look found any");
    let begin = lives[0].begin;
    let at = |days: i64| begin + SignedDuration::from_hours(24 * days);
    lives[0].end = LifeEnd::FoundFailed { held: at(100), found: at(200) };
    let found = between_looks(&lives, Property::Crew, &[90.0, 150.0, 250.0]);
    assert_eq!((found.len(), found[0].lives, found[0].failures), (1, 2, 1));
    // somewhere between day 100 and 200 one of two failed
    let [before, amid, after] = [found[0].lasting[0], found[0].lasting[1], found[0].lasting[2]];
    assert_near(before[1], 1.0, 1e-6, "before");
    assert_near(amid[1], 0.5, 1e-6, "least amid");
    assert_near(amid[2], 1.0, 1e-6, "greatest amid");
    assert_near(after[2], 0.5, 1e-6, "after");
}
