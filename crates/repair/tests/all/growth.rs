//! The belief about growth: against scipy and brute force (tests/reference/growth.py), and its laws.

use model::growth::{DugSize, GrowthRecord};
use model::problem::Locator;
use model::quantity::{cubic_metres, metres};
use model::road::RoadClass;
use model::rules::repair::{GrowthClassRules, GrowthRules};
use proptest::prelude::*;
use repair::belief::{Belief, student_quantile};
use repair::growth::Growth;
use repair::{at_quantile, check_rules, learn, repair};
use serde::Deserialize;

use crate::support::{Example, near, rules};

#[derive(Deserialize)]
struct Reference {
    quantiles: Vec<Quantile>,
    updates: Vec<Update>,
}

#[derive(Deserialize)]
struct Quantile {
    p: f64,
    freedom: f64,
    t: f64,
}

#[derive(Deserialize)]
struct Update {
    prior: Prior,
    records: Vec<f64>,
    mean: f64,
    sigma: f64,
    p10: f64,
    p50: f64,
    p90: f64,
}

#[derive(Deserialize)]
struct Prior {
    mean: f64,
    mean_weight: f64,
    sigma: f64,
    spread_weight: f64,
}

fn reference() -> Reference {
    serde_json::from_str(include_str!("../reference/growth.json")).unwrap()
}

/// What the shipped rules believe.
fn shipped() -> Belief {
    repair::growth::belief_of(&rules().growth.default)
}

#[test]
fn student_quantiles_agree_with_scipy() {
    for Quantile { p, freedom, t } in reference().quantiles {
        let found = student_quantile(p, freedom);
        assert!((found - t).abs() < 1e-9 * t.abs().max(1.0), "p {p}, freedom {freedom}: {found} against {t}");
    }
}

/// Student's t table (any textbook): 1.372 and 2.764 with 10 degrees of freedom, 1.638 with 3.
#[test]
fn student_quantiles_agree_with_the_printed_table() {
    for (p, freedom, t) in [(0.9, 10.0, 1.372), (0.99, 10.0, 2.764), (0.9, 3.0, 1.638)] {
        assert!((student_quantile(p, freedom) - t).abs() < 5e-4);
    }
    assert_eq!(student_quantile(0.5, 7.0), 0.0);
    // Out of range and not a number stay finite, on the cautious side.
    assert_eq!(student_quantile(f64::NAN, 7.0), student_quantile(1.0, 7.0));
    assert_eq!(student_quantile(-3.0, 7.0), -student_quantile(1.0, 7.0));
    assert!(student_quantile(1.0, 7.0).is_finite());
    // Degrees of freedom that the rules' check refuses.
    assert!(student_quantile(0.9, 0.0).is_nan() && student_quantile(0.9, f64::NAN).is_nan());
}

/// The grid of the reference is good to about 1e-5.
#[test]
fn a_belief_after_records_agrees_with_brute_force() {
    for Update { prior, records, mean, sigma, p10, p50, p90 } in reference().updates {
        let Prior { mean: before, mean_weight, sigma: sigma_before, spread_weight } = prior;
        let belief = Belief { mean: before, mean_weight, sigma: sigma_before, spread_weight }.after(&records);
        near(belief.mean, mean, 1e-4);
        near(belief.sigma, sigma, 1e-4);
        for (p, expected) in [(0.1, p10), (0.5, p50), (0.9, p90)] {
            let found = belief.quantile(p);
            assert!((found - expected).abs() < 2e-5, "{p}: {found} against {expected}");
        }
    }
}

/// Of all holes one in ten takes less than 0.87 of the surveyed volume and one in ten more than 1.65, half more than 1.20.
#[test]
fn without_records_the_prior_speaks() {
    for (p, g) in [(0.1, 0.872), (0.5, 1.200), (0.9, 1.652)] {
        assert!((shipped().quantile(p).exp() - g).abs() < 5e-4, "{p}: {}", shipped().quantile(p).exp());
    }
    assert_eq!(shipped().after(&[]), shipped());
    let learnt = learn(&rules().growth, &[], "records.csv");
    assert_eq!(learnt.rules, rules().growth);
    assert_eq!((learnt.classes.len(), learnt.classes[0].records, learnt.depth_records), (1, 0, 0));
    assert_eq!(learnt.classes[0].prior_share(), 1.0);
}

fn record(class: &str, surveyed: f64, dug: f64, depths: Option<(f64, f64)>) -> GrowthRecord {
    let size = |volume: f64, depth: Option<f64>| DugSize { volume: cubic_metres(volume), depth: depth.map(metres) };
    GrowthRecord {
        hole: "A1".into(),
        road: String::new(),
        class: class.into(),
        surveyed: size(surveyed, depths.map(|(before, _)| before)),
        dug: size(dug, depths.map(|(_, after)| after)),
        date: None,
        from: Locator::default(),
    }
}

/// Two classes: `default`, and `main` for primary roads.
fn two_classes() -> GrowthRules {
    let mut growth = rules().growth;
    let main = GrowthClassRules { roads: vec![RoadClass::Primary, RoadClass::Trunk], ..growth.default.clone() };
    growth.class.insert("Main".into(), main);
    growth
}

#[test]
fn each_class_learns_from_its_own_records() {
    let records = [
        record("primary", 0.2, 0.3, None),
        record("main", 0.2, 0.3, None),
        record("tertiary", 0.2, 0.2, None),
        record("", 0.1, 0.1, None),
        record("nobody knows this", 0.4, 0.4, None),
    ];
    let learnt = learn(&two_classes(), &records, "records.csv");
    let [other, main] = &learnt.classes[..] else { panic!("{:?}", learnt.classes) };
    assert_eq!((other.name.as_str(), other.records, main.name.as_str(), main.records), ("default", 3, "Main", 2));
    // By hand: (5 ln 1.2 + 2 ln 1.5) / 7 and (5 ln 1.2 + 3 * 0) / 8.
    near(main.posterior.mean, 0.24607686, 1e-7);
    near(other.posterior.mean, 0.11395097, 1e-7);
    near(main.prior_share(), 5.0 / 7.0, 1e-12);
    assert_eq!(learnt.rules.class["Main"].mean_weight.value, 7.0);
    assert_eq!(learnt.rules.default.spread_weight.value, 15.0);
    near(learnt.rules.class["Main"].median.value, main.growth.value, 1e-12);
    let source = &learnt.rules.default.median.source.cite;
    assert!(source.starts_with("3 records of records.csv, added to: common practice"), "{source}");
    assert!(learnt.rules.class["Main"].sigma.source.cite.starts_with("2 records of"));
    // What is shown is the belief's own.
    let spread = main.growth.spread.unwrap();
    for (p, shown) in [(0.1, spread.p10), (0.5, spread.p50), (0.9, spread.p90)] {
        near(shown, main.posterior.quantile(p).exp(), 1e-12);
    }
    let why = main.growth.why.to_string();
    for said in ["exp(m0) = 1.200", "k0 = 5", "v0 = 12", "n = 2", "exp(mean(ln g)) = 1.500", "exp(m) = 1.279"] {
        assert!(why.contains(said), "{said}: {why}");
    }
    let one = learn(&two_classes(), &records[..1], "r.csv");
    assert!(one.rules.class["Main"].median.source.cite.starts_with("1 record of r.csv, added to"));
    assert!(one.classes[0].growth.why.to_string().contains("exp(mean(ln g)) = none"));
    // Roads take their class's growth.
    assert_eq!(learnt.rules.of_road(Some(RoadClass::Trunk)).0, "Main");
    assert_eq!(learnt.rules.of_road(Some(RoadClass::Service)).0, "default");
    assert_eq!(learnt.rules.of_road(None).0, "default");
}

#[test]
fn words_of_records_find_their_class() {
    let growth = two_classes();
    for (word, class) in [
        ("", Some("default")),
        ("Default", Some("default")),
        (" MAIN ", Some("Main")),
        ("trunk", Some("Main")),
        ("track", Some("default")),
        ("mainly", None),
    ] {
        assert_eq!(growth.named(word), class, "{word}");
    }
}

/// The rules learnt are a prior themselves: records in two lots give what they give at once.
#[test]
fn learning_on_goes_on_where_it_stopped() {
    let records: Vec<GrowthRecord> =
        [(0.2, 0.31), (0.1, 0.12), (0.3, 0.29), (0.25, 0.4)].map(|(s, d)| record("", s, d, None)).to_vec();
    let once = learn(&rules().growth, &records, "a").rules;
    let twice = learn(&learn(&rules().growth, &records[..1], "a").rules, &records[1..], "a").rules;
    for read in [
        |r: &GrowthRules| r.default.median.value,
        |r: &GrowthRules| r.default.sigma.value,
        |r: &GrowthRules| r.default.spread_weight.value,
    ] {
        near(read(&once), read(&twice), 1e-12);
    }
}

/// By hand: q = (ln 1.2)^2 + 0.215^2 = 0.0794662, w = 10. A hole of twice the volume at 2^0.5 of the depth has
/// ln g = 0.693147, ln d = 0.346574: s = (0.794662 * 0.6 + 0.240227) / (0.794662 + 0.480453) = 0.562321.
#[test]
fn the_depth_share_is_drawn_towards_the_records() {
    let root = 2.0_f64.sqrt();
    let records = [record("", 0.1, 0.2, Some((0.15, 0.15 * root))), record("", 0.1, 0.2, None)];
    let learnt = learn(&rules().growth, &records, "r");
    assert_eq!(learnt.depth_records, 1);
    near(learnt.depth_share.value, 0.562_321, 1e-5);
    assert_eq!(learnt.rules.depth_share.value, learnt.depth_share.value);
    assert_eq!(learnt.rules.depth_share_weight.value, 11.0);
    assert!(learnt.depth_share.why.to_string().contains("s0 = 0.6, w = 10, q = 0.0795, records = 1"));
    // Nothing to go by: a share that counts as no record, and a hole that did not grow.
    let mut weightless = rules().growth;
    weightless.depth_share_weight.value = 0.0;
    assert_eq!(learn(&weightless, &[record("", 0.1, 0.1, Some((0.1, 0.1)))], "r").depth_share.value, 0.6);
    // A hole that grew in area only, and one that got shallower, can't take it below zero; nor above one.
    let many = |before: f64, after: f64| vec![record("", 0.1, 0.3, Some((before, after))); 200];
    assert_eq!(learn(&rules().growth, &many(0.2, 0.1), "r").depth_share.value, 0.0);
    assert_eq!(learn(&rules().growth, &many(0.1, 0.6), "r").depth_share.value, 1.0);
}

#[test]
fn growth_is_shared_between_depth_and_area() {
    let growth = Growth::of_volume(1.728, 2.0 / 3.0);
    near(growth.depth, 1.44, 1e-12);
    near(growth.area, 1.2, 1e-12);
    near(growth.side(), 1.2_f64.sqrt(), 1e-12);
}

type Spoil = fn(&mut GrowthRules);

#[test]
fn growth_rules_at_their_bounds() {
    let said = |change: Spoil| {
        let mut rules = rules();
        rules.growth = two_classes();
        change(&mut rules.growth);
        check_rules(&rules).err().unwrap_or_default().iter().map(|error| error.what.clone()).collect::<Vec<_>>()
    };
    let within: [Spoil; 8] = [
        |growth| growth.default.median.value = 0.2,
        |growth| growth.default.median.value = 5.0,
        |growth| growth.default.sigma.value = 0.0,
        |growth| growth.default.sigma.value = 2.0,
        |growth| growth.default.mean_weight.value = 0.1,
        |growth| growth.default.spread_weight.value = 3.0,
        |growth| growth.depth_share_weight.value = 0.0,
        |growth| growth.draws.value = 1000,
    ];
    for change in within {
        assert_eq!(said(change), Vec::<String>::new());
    }
    let beyond: [(&str, Spoil); 11] = [
        ("growth.default.median", |growth| growth.default.median.value = 0.19),
        ("growth.class.Main.median", |growth| growth.class.get_mut("Main").unwrap().median.value = 5.01),
        ("growth.class.Main.sigma", |growth| growth.class.get_mut("Main").unwrap().sigma.value = -0.01),
        ("growth.default.mean_weight", |growth| growth.default.mean_weight.value = 0.09),
        ("growth.default.mean_weight", |growth| growth.default.mean_weight.value = 1.1e6),
        ("growth.default.spread_weight", |growth| growth.default.spread_weight.value = 2.9),
        ("growth.depth_share_weight", |growth| growth.depth_share_weight.value = -0.1),
        ("growth.draws", |growth| growth.draws.value = 999),
        ("growth.draws", |growth| growth.draws.value = 1_000_001),
        ("growth.class.default", |growth| {
            let class = GrowthClassRules { roads: vec![], ..growth.default.clone() };
            growth.class.insert("default".into(), class);
        }),
        ("roads of growth.class", |growth| {
            let class = GrowthClassRules { roads: vec![RoadClass::Trunk], ..growth.default.clone() };
            growth.class.insert("other".into(), class);
        }),
    ];
    for (what, change) in beyond {
        assert_eq!(said(change), [what], "{what}");
    }
}

/// A hole's figures follow what its road's class has learnt.
#[test]
fn a_repair_takes_its_class() {
    let mut rules = rules();
    rules.growth = two_classes();
    rules.growth.class.get_mut("Main").unwrap().median.value = 2.0;
    let example = Example::worked();
    let (other, main) = (example.input(), example.input().on_road(RoadClass::Primary));
    let median = |input| repair(&input, &rules).spoil_volume.spread.unwrap().p50.value;
    // Spoil is all that is dug less what is open: 0.2376 * 1.2 - 0.1 and 0.2376 * 2 - 0.1 in place.
    near(median(main) / median(other), (0.2376 * 2.0 - 0.1) / (0.2376 * 1.2 - 0.1), 1e-9);
    let why = repair(&main, &rules).depth.why.to_string();
    assert!(why.contains("of class Main"), "{why}");
    assert!(at_quantile(&main, &rules, 0.9).spoil_volume > at_quantile(&other, &rules, 0.9).spoil_volume);
}

proptest! {
    #[test]
    fn the_order_of_records_does_not_matter_nor_whether_they_come_at_once(
        records in prop::collection::vec(-1.0..1.5_f64, 1..30),
    ) {
        let at_once = shipped().after(&records);
        let one_by_one = records.iter().fold(shipped(), |belief, record| belief.after(&[*record]));
        let backwards: Vec<f64> = records.iter().rev().copied().collect();
        for other in [one_by_one, shipped().after(&backwards)] {
            prop_assert!((at_once.mean - other.mean).abs() < 1e-12);
            prop_assert!((at_once.sigma - other.sigma).abs() < 1e-12);
            prop_assert_eq!(at_once.mean_weight, other.mean_weight);
            prop_assert_eq!(at_once.spread_weight, other.spread_weight);
        }
    }

    #[test]
    fn the_mean_lies_between_prior_and_records(records in prop::collection::vec(-1.0..1.5_f64, 1..30)) {
        let mean = records.iter().sum::<f64>() / records.len() as f64;
        let (low, high) = (mean.min(shipped().mean), mean.max(shipped().mean));
        prop_assert!((low - 1e-12..=high + 1e-12).contains(&shipped().after(&records).mean));
    }

    /// A record just as expected makes surer, of the mean and of the next hole.
    #[test]
    fn a_record_as_expected_narrows(records in prop::collection::vec(-1.0..1.5_f64, 0..10)) {
        let before = shipped().after(&records);
        let after = before.after(&[before.mean]);
        prop_assert!(after.sigma / after.mean_weight.sqrt() < before.sigma / before.mean_weight.sqrt());
        prop_assert!(after.scale() < before.scale());
    }

    /// Many records drown the prior. What is left of it in the variance is at most (12 * 0.215^2 + 5 * 0.71^2) / 4000.
    #[test]
    fn many_records_have_the_last_word(low in -0.5..0.5_f64, width in 0.05..0.5_f64) {
        let records: Vec<f64> = (0..4000).map(|i| low + width * f64::from(i % 2)).collect();
        let belief = shipped().after(&records);
        prop_assert!((belief.mean - (low + width / 2.0)).abs() < 0.002);
        prop_assert!((belief.sigma.powi(2) - (width / 2.0).powi(2)).abs() < 0.001);
    }
}

#[derive(Deserialize)]
struct BeliefCase {
    median: f64,
    mean_weight: f64,
    sigma: f64,
    spread_weight: f64,
    log_growths: Vec<f64>,
    median_after: f64,
    sigma_after: f64,
    p10: f64,
    p50: f64,
    p90: f64,
}

#[derive(Deserialize)]
struct DepthShareCase {
    log_growth: f64,
    log_deepening: f64,
    share_after: f64,
}

#[test]
fn the_handbooks_examples() {
    for case in testkit::worked_examples::<BeliefCase>("growth", "belief") {
        let BeliefCase { median, mean_weight, sigma, spread_weight, .. } = case;
        let prior = Belief { mean: median.ln(), mean_weight, sigma, spread_weight };
        let belief = prior.after(&case.log_growths);
        near(belief.mean.exp(), case.median_after, 1e-4);
        near(belief.sigma, case.sigma_after, 1e-4);
        for (p, g) in [(0.1, case.p10), (0.5, case.p50), (0.9, case.p90)] {
            near(belief.quantile(p).exp(), g, 1e-4);
        }
    }
    for case in testkit::worked_examples::<DepthShareCase>("growth", "depth_share") {
        let depths = Some((0.1, 0.1 * case.log_deepening.exp()));
        let learnt = learn(&rules().growth, &[record("", 0.1, 0.1 * case.log_growth.exp(), depths)], "r");
        near(learnt.depth_share.value, case.share_after, 1e-5);
    }
}
