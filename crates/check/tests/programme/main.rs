//! Each rule of a work programme by itself: a sound one broken in one way breaches that rule, and no other.

mod cases;
mod fixture;

use std::collections::BTreeSet;

use check::programme_breaches;
use fixture::{Case, sound};
use model::programme::{CrewRound, CrewStop, CrewStopKind, ProgrammeCost};
use model::quantity::Length;
use model::round::LeftOutReason;
use proptest::prelude::*;

fn rules(case: &Case) -> BTreeSet<&'static str> {
    programme_breaches(&case.problem, &case.programme).iter().map(|breach| breach.rule).collect()
}

#[test]
fn a_sound_programme_breaks_no_rule() {
    let case = sound();
    assert_eq!(programme_breaches(&case.problem, &case.programme), []);
}

#[test]
fn a_programme_at_its_limits_breaks_no_rule() {
    for (what, change) in cases::at_the_limits() {
        let mut case = sound();
        change(&mut case);
        assert_eq!(programme_breaches(&case.problem, &case.programme), [], "{what}");
    }
}

#[test]
fn a_programme_broken_in_one_way_breaks_that_rule() {
    let wrong = cases::all().into_iter().filter_map(|spoiling| {
        let mut case = sound();
        (spoiling.spoil)(&mut case);
        let found = programme_breaches(&case.problem, &case.programme);
        (rules(&case) != BTreeSet::from([spoiling.rule]))
            .then(|| format!("{}, {}: {found:#?}", spoiling.rule, spoiling.what))
    });
    let wrong: Vec<String> = wrong.collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_rule_has_a_case_and_stands_in_the_list() {
    let folder = testkit::crate_folder().join("src/programme");
    let files = std::fs::read_dir(&folder).expect("the source").map(|entry| entry.expect("an entry").path());
    let texts: Vec<String> = files.map(|file| std::fs::read_to_string(file).expect("a source file")).collect();
    let quoted = texts.iter().flat_map(|text| text.split('"'));
    let named: BTreeSet<&str> = quoted.filter(|word| word.starts_with("programme.")).collect();
    let tried: BTreeSet<&str> = cases::all().iter().map(|spoiling| spoiling.rule).collect();
    assert!(named.len() > 35, "the search finds rules");
    assert_eq!(tried, named);

    let list = std::fs::read_to_string(folder.join("mod.rs")).expect("the list");
    let rows = list.lines().filter_map(|line| line.strip_prefix("//! | `")?.split(" |").next());
    let listed: BTreeSet<String> =
        rows.flat_map(|row| row.split('`').step_by(2).map(|n| format!("programme.{n}"))).collect();
    assert_eq!(listed, named.into_iter().map(str::to_owned).collect());
}

/// Any index: known ones, and some that lead to nothing.
fn index() -> impl Strategy<Value = usize> {
    prop_oneof![6 => 0_usize..10, 1 => Just(usize::MAX)]
}

fn stop() -> impl Strategy<Value = CrewStop> {
    let kind = prop_oneof![
        index().prop_map(CrewStopKind::Load),
        index().prop_map(CrewStopKind::Tip),
        index().prop_map(CrewStopKind::Drive),
        index().prop_map(CrewStopKind::Work),
        Just(CrewStopKind::Wait),
        Just(CrewStopKind::Rest),
    ];
    (kind, -100_000_i64..200_000, -100_000_i64..200_000).prop_map(|(kind, from, to)| CrewStop { kind, from, to })
}

proptest! {
    /// Whatever a programme says, the answer is a list of breaches.
    #[test]
    fn nonsense_is_a_list_of_breaches(
        rounds in prop::collection::vec((index(), prop::collection::vec(stop(), 0..8)), 1..4),
        left_out in prop::collection::vec(index(), 0..4),
    ) {
        let mut case = sound();
        let round = |(shift, stops)| CrewRound { shift, stops, driving_s: 7, driving: Length::default() };
        case.programme.rounds = rounds.into_iter().map(round).collect();
        case.programme.left_out = left_out.into_iter().map(|site| (site, LeftOutReason::LessUrgent)).collect();
        case.programme.cost = ProgrammeCost { waiting: f64::NAN, ..ProgrammeCost::default() };
        prop_assert!(rules(&case).contains("programme.waiting"));
    }
}
