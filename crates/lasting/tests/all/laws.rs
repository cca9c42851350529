//! Laws of the estimates.

use lasting::groups::{Verdict, compare_pairs, group_curves, what_lasts};
use lasting::interval_censored::{IntervalCurve, IntervalError, SeenBetween};
use lasting::life_table::{LifeError, LifeTable, tables_by_group};
use lasting::log_rank::{holm, log_rank};
use lasting::product_limit::SurvivalCurve;
use lasting::proportional::ProportionalFit;
use lasting::regression::{CovariateLife, CovariateLives, FitError};
use proptest::collection::vec;
use proptest::prelude::*;

use crate::support::{assert_near, lives, rules};

fn any_lives() -> impl Strategy<Value = Vec<(f64, bool)>> {
    vec(((0u8..30).prop_map(|half| f64::from(half) / 2.0), any::<bool>()), 1..60)
}

proptest! {
    /// Without censoring the estimate is the plain part that lasts longer.
    #[test]
    fn whole_lives_are_counted(durations in vec(0u8..30, 1..60)) {
        let curve = SurvivalCurve::of(&LifeTable::of(durations.iter().map(|d| (f64::from(*d), true))).unwrap(), 0.95);
        for point in &curve.points {
            let longer = durations.iter().filter(|d| f64::from(**d) > point.time).count();
            prop_assert!((point.survival - longer as f64 / durations.len() as f64).abs() < 1e-12);
        }
    }

    #[test]
    fn curves_fall_within_their_bands(some in any_lives()) {
        let curve = SurvivalCurve::of(&LifeTable::of(some).unwrap(), 0.9);
        for pair in curve.points.windows(2) {
            prop_assert!(pair[1].survival <= pair[0].survival && pair[1].time > pair[0].time);
        }
        for point in &curve.points {
            prop_assert!(0.0 <= point.lower && point.lower <= point.survival);
            prop_assert!(point.survival <= point.upper && point.upper <= 1.0);
        }
        let mean = curve.restricted_mean(7.0);
        prop_assert!(mean.mean <= 7.0 && mean.error.is_finite());
    }

    /// Counted by several cores in pieces or at once, the tables are the same; two merged are the table of both.
    #[test]
    fn tables_merge(a in any_lives(), b in any_lives()) {
        let both = LifeTable::of(a.iter().chain(&b).copied()).unwrap();
        let merged = LifeTable::of(a.iter().copied()).unwrap().merged(LifeTable::of(b.iter().copied()).unwrap());
        prop_assert_eq!(&merged, &both);
        let rows = lives(&[("a", &a), ("b", &b)]);
        let tables = tables_by_group(&rows.rows, 2).unwrap();
        prop_assert_eq!(tables[0].clone().merged(tables[1].clone()), both);
    }

    /// The unit of time does not matter to the test, nor the order of the groups.
    #[test]
    fn the_test_has_no_unit(a in any_lives(), b in any_lives(), c in any_lives()) {
        let table = |lives: &[(f64, bool)], unit: f64| LifeTable::of(lives.iter().map(|(d, f)| (d * unit, *f))).unwrap();
        let days = log_rank(&[table(&a, 1.0), table(&b, 1.0), table(&c, 1.0)]);
        let hours = log_rank(&[table(&c, 24.0), table(&a, 24.0), table(&b, 24.0)]);
        prop_assert_eq!(days.is_some(), hours.is_some());
        if let (Some(days), Some(hours)) = (days, hours) {
            prop_assert!((days.chi2 - hours.chi2).abs() < 1e-7 * (1.0 + days.chi2));
            prop_assert_eq!(days.df, hours.df);
        }
    }

    /// Exact failures and lives never seen failed: the intervals' estimate is the product limit.
    #[test]
    fn intervals_without_width_are_the_product_limit(some in vec((1u8..12, any::<bool>()), 2..25)) {
        let curve = SurvivalCurve::of(&LifeTable::of(some.iter().map(|(d, f)| (f64::from(*d), *f))).unwrap(), 0.95);
        let seen: Vec<SeenBetween> = some
            .iter()
            .map(|(d, failed)| SeenBetween {
                after: f64::from(*d),
                until: if *failed { f64::from(*d) } else { f64::INFINITY },
            })
            .collect();
        let intervals = IntervalCurve::of(&seen, 1e-8).unwrap();
        prop_assume!(intervals.is_top(1e-6));
        for point in curve.points.iter().filter(|point| point.failures > 0) {
            let (_, most) = intervals.survival_at(point.time);
            prop_assert!((most - point.survival).abs() < 1e-4, "{most} {}", point.survival);
        }
    }

    #[test]
    fn masses_add_up(some in vec((0u8..12, 0u8..6, any::<bool>()), 1..25)) {
        let seen: Vec<SeenBetween> = some
            .iter()
            .map(|(after, width, ends)| SeenBetween {
                after: f64::from(*after),
                until: if *ends { f64::from(after + width) } else { f64::INFINITY },
            })
            .collect();
        let curve = IntervalCurve::of(&seen, 1e-6).unwrap();
        let sum: f64 = curve.intervals.iter().map(|interval| interval.mass).sum();
        prop_assert!((sum - 1.0).abs() < 1e-6, "{sum}");
        for pair in curve.intervals.windows(2) {
            prop_assert!(pair[0].until <= pair[1].after);
        }
    }

    #[test]
    fn corrected_chances_are_no_smaller(chances in vec(0.0..1.0f64, 0..20)) {
        let corrected = holm(&chances);
        for (before, after) in chances.iter().zip(&corrected) {
            prop_assert!(after >= before && *after <= 1.0);
        }
    }
}

#[test]
fn lives_that_cannot_be_are_refused() {
    assert_eq!(LifeTable::of([(1.0, true), (-1.0, true)]), Err(LifeError::Duration { row: 1, duration: -1.0 }));
    assert!(matches!(LifeTable::of([(f64::NAN, true)]), Err(LifeError::Duration { row: 0, .. })));
    let mut rows = lives(&[("a", &[(1.0, true)])]);
    rows.rows[0].group = 3;
    assert_eq!(group_curves(&rows, &rules()), Err(LifeError::Group { row: 0, group: 3, groups: 1 }));
    assert_eq!(IntervalCurve::of(&[], 1e-6), Err(IntervalError::None));
    let backwards = SeenBetween { after: 3.0, until: 2.0 };
    assert!(matches!(IntervalCurve::of(&[backwards], 1e-6), Err(IntervalError::Interval { row: 0, .. })));
}

#[test]
fn what_cannot_be_fitted_says_why() {
    let life = |duration: f64, failed: bool, x: f64| CovariateLife { duration, failed, covariates: vec![x] };
    let of = |lives: Vec<CovariateLife>| {
        ProportionalFit::of(&CovariateLives { names: vec!["wet".into()], lives }).unwrap_err()
    };
    assert_eq!(of(vec![life(1.0, true, 0.0), life(2.0, false, 1.0)]), FitError::TooFew { failures: 1, unknowns: 1 });
    let same = (1..9).map(|d| life(f64::from(d), true, 0.3)).collect();
    assert_eq!(of(same), FitError::Constant { name: "wet".into() });
    // every wet one fails before every dry one
    let parted = (1..9).map(|d| life(f64::from(d), d < 5, f64::from(u8::from(d < 5)))).collect();
    assert_eq!(of(parted), FitError::NoTop);
    assert!(matches!(of(vec![life(f64::NAN, true, 0.0)]), FitError::Duration { row: 0, .. }));
}

#[test]
fn few_are_said_to_be_few() {
    let few: Vec<(f64, bool)> = (1..10).map(|d| (f64::from(d), d < 3)).collect();
    let many: Vec<(f64, bool)> = (1..10).map(|d| (f64::from(d), true)).collect();
    let rows = lives(&[("roller", &few), ("hand tamper", &many)]);
    let lasts = what_lasts(&rows, "days", &rules()).unwrap();
    let few: Vec<bool> = lasts.curves.groups.iter().map(|group| group.too_few).collect();
    assert_eq!((few, lasts.verdict), (vec![true, false], Verdict::TooFew { groups: vec!["roller".into()] }));
    assert_eq!(
        lasts.words,
        [
            "roller: 9 repairs, 2 failures: too few to tell.",
            "hand tamper: 9 repairs, 9 failures; half of them outlast 5 days.",
            "Whether the groups differ: too few to tell.",
        ]
    );
    assert!(compare_pairs(&rows, &rules()).unwrap().is_empty());
}

#[test]
fn pairs_are_compared_with_a_correction() {
    let early: Vec<(f64, bool)> = (1..30).map(|d| (f64::from(d), true)).collect();
    let late: Vec<(f64, bool)> = (20..50).map(|d| (f64::from(d), true)).collect();
    let rows = lives(&[("plate", &early), ("roller", &late), ("tamper", &early)]);
    let pairs = compare_pairs(&rows, &rules()).unwrap();
    let named: Vec<[&str; 2]> = pairs.iter().map(|pair| [0, 1].map(|at| pair.groups[at].as_str())).collect();
    assert_eq!(named, [["plate", "roller"], ["plate", "tamper"], ["roller", "tamper"]]);
    assert_near(pairs[1].log_rank.chi2, 0.0, 1e-9, "alike");
    let lasts = what_lasts(&rows, "days", &rules()).unwrap();
    let differing = [["plate", "roller"], ["roller", "tamper"]].map(|pair| pair.map(str::to_owned)).to_vec();
    assert!(matches!(lasts.verdict, Verdict::Differ { p, pairs } if p < 1e-6 && pairs == differing));
    assert!(pairs[0].p_corrected >= 2.0 * pairs[0].log_rank.p && pairs[0].p_corrected < 1e-6);
}

#[test]
fn verdicts_say_what_the_words_say() {
    let alike: Vec<(f64, bool)> = (1..30).map(|d| (f64::from(d), true)).collect();
    let later: Vec<(f64, bool)> = (20..50).map(|d| (f64::from(d), true)).collect();
    let of = |groups: &[(&str, &[(f64, bool)])]| {
        let lasts = what_lasts(&lives(groups), "days", &rules()).unwrap();
        (lasts.verdict, lasts.words.len() - groups.len())
    };
    assert_eq!(of(&[("plate", &alike)]), (Verdict::OneGroup, 0));
    assert_eq!(of(&[]), (Verdict::OneGroup, 0));
    assert!(matches!(of(&[("plate", &alike), ("tamper", &alike)]), (Verdict::NoDifference { p }, 1) if p > 0.99));
    let two = of(&[("plate", &alike), ("tamper", &later)]);
    assert!(matches!(two, (Verdict::Differ { pairs, .. }, 1) if pairs == [["plate".to_owned(), "tamper".to_owned()]]));
}
