//! Records taken up at once, one by one, or without one group of them.

use belief::{Belief, Records};
use proptest::prelude::*;

const PRIOR: Belief = Belief { mean: 0.0, mean_weight: 5.0, sigma: 0.2, spread_weight: 12.0 };

fn near(got: f64, wanted: f64) -> bool {
    (got - wanted).abs() <= 1e-9 * wanted.abs().max(1.0)
}

fn same(got: Belief, wanted: Belief) -> bool {
    near(got.mean, wanted.mean)
        && near(got.mean_weight, wanted.mean_weight)
        && near(got.sigma, wanted.sigma)
        && near(got.spread_weight, wanted.spread_weight)
}

#[test]
fn summed_up_by_hand() {
    // Groups, and of the others of each: how many, mean, and sum of squares about it.
    type Case<'c> = (&'c [&'c [f64]], &'c [(usize, f64, f64)]);
    let cases: [Case; 4] = [
        (&[&[0.2, 0.2], &[0.0, 0.1, -0.1, 0.0]], &[(4, 0.0, 0.02), (2, 0.2, 0.0)]),
        // 0, 3 and 3 without one of them: {0, 3} has 1.5 and 2 · 1.5²
        (&[&[0.0, 3.0], &[3.0]], &[(1, 3.0, 0.0), (2, 1.5, 4.5)]),
        (&[&[1.0], &[2.0], &[6.0]], &[(2, 4.0, 8.0), (2, 3.5, 12.5), (2, 1.5, 0.5)]),
        (&[&[1.0, 2.0]], &[(0, 0.0, 0.0)]),
    ];
    for (groups, wanted) in cases {
        let summed: Vec<Records> = groups.iter().map(|logs| Records::of(logs)).collect();
        let others = Records::of_others(&summed);
        assert_eq!(others.len(), wanted.len());
        for (got, &(count, mean, scatter)) in others.iter().zip(wanted) {
            assert_eq!(got.count, count, "{groups:?}");
            assert!(near(got.mean, mean) && near(got.scatter, scatter), "{groups:?}: {got:?}");
        }
    }
    assert!(Records::of_others(&[]).is_empty());
}

proptest! {
    /// Others and then a group's own, or its own and then the others, is all at once.
    #[test]
    fn others_and_own_are_all(groups in prop::collection::vec(prop::collection::vec(-1.0_f64..1.0, 0..8), 1..8)) {
        let all: Vec<f64> = groups.concat();
        let whole = PRIOR.after(&all);
        let summed: Vec<Records> = groups.iter().map(|logs| Records::of(logs)).collect();
        for (own, others) in summed.iter().zip(Records::of_others(&summed)) {
            prop_assert!(same(PRIOR.after_records(others).after_records(*own), whole));
            prop_assert!(same(PRIOR.after_records(*own).after_records(others), whole));
        }
        let in_turn = all.iter().rev().fold(PRIOR, |belief, &log| belief.after(&[log]));
        prop_assert!(same(in_turn, whole));
    }

    /// The others of a group are what they are without it.
    #[test]
    fn others_know_nothing_of_ones_own(
        groups in prop::collection::vec(prop::collection::vec(-1.0_f64..1.0, 0..8), 2..8),
        own in prop::collection::vec(-1.0_f64..1.0, 0..8),
    ) {
        let others_of_first = |first: &[f64]| {
            let summed: Vec<Records> =
                std::iter::once(first).chain(groups.iter().map(Vec::as_slice)).map(Records::of).collect();
            Records::of_others(&summed)[0]
        };
        prop_assert_eq!(others_of_first(&own), others_of_first(&[]));
        let wanted = Records::of(&groups.concat());
        let got = others_of_first(&own);
        prop_assert!(got.count == wanted.count && near(got.mean, wanted.mean) && near(got.scatter, wanted.scatter));
    }
}
