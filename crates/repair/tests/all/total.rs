//! Sums over holes: against a million draws of numpy (tests/reference/growth.py), and their laws.

use model::quantity::InVolume;
use model::road::RoadClass;
use model::rules::repair::RepairRules;
use model::total::Totals;
use repair::{Drawn, Part, Supply, at_quantile, repair};
use serde::Deserialize;

use crate::support::{Example, near, rules};

#[derive(Deserialize)]
struct Reference {
    sums: Vec<Sum>,
}

#[derive(Deserialize)]
struct Sum {
    roads: Vec<usize>,
    rho: f64,
    volumes_m3: Vec<f64>,
    p10: f64,
    p50: f64,
    p90: f64,
}

/// Without a crown the base's volume is exactly in proportion to growth, as in the reference.
fn proportional(draws: u32) -> RepairRules {
    let mut rules = rules();
    rules.fill.crown_m.value = 0.0;
    rules.growth.draws.value = draws;
    rules
}

/// Holes of 1 m2 as deep as need be.
fn holes(volumes_m3: &[f64]) -> Vec<Example> {
    volumes_m3.iter().map(|volume| Example::sized(1.0, 1.0, *volume)).collect()
}

fn parts<'a>(examples: &'a [Example], roads: &[usize]) -> Vec<Part<'a>> {
    examples.iter().zip(roads).map(|(example, &road)| Part { road, input: example.input() }).collect()
}

fn all(parts: &[Part]) -> Vec<usize> {
    (0..parts.len()).collect()
}

/// Loose base in m3: P10, P50, P90.
fn base(totals: &Totals) -> [f64; 3] {
    let spread = totals.base_volume.spread.unwrap();
    [spread.p10, spread.p50, spread.p90].map(InVolume::in_cubic_metres)
}

/// Tolerance 0.4 %: both sides' sampling error at these widths is below 0.15 % (one standard deviation).
#[test]
fn sums_agree_with_a_million_draws_of_numpy() {
    let reference: Reference = serde_json::from_str(include_str!("../reference/growth.json")).unwrap();
    assert_eq!(reference.sums.len(), 9);
    for Sum { roads, rho, volumes_m3, p10, p50, p90 } in reference.sums {
        let mut rules = proportional(50_000);
        rules.growth.same_road_correlation.value = rho;
        let examples = holes(&volumes_m3);
        let parts = parts(&examples, &roads);
        let drawn = Drawn::new(&parts, &rules, 1);
        let totals = drawn.totals(&all(&parts));
        // From compacted volume to loose: one factor for all.
        let loose = totals.base_volume.value.in_cubic_metres() / volumes_m3.iter().sum::<f64>();
        for (found, expected) in base(&totals).into_iter().zip([p10, p50, p90]) {
            near(found / loose, expected, 4e-3);
        }
    }
}

/// The shipped count of draws is good to about half a per cent (one standard deviation): other seeds give nearly the same.
#[test]
fn the_shipped_count_of_draws_is_enough() {
    let examples = holes(&[0.1, 0.25, 0.05, 0.4]);
    let parts = parts(&examples, &[0, 0, 1, 2]);
    let rules = rules();
    let of_seed = |seed| base(&Drawn::new(&parts, &rules, seed).totals(&all(&parts)));
    let first = of_seed(1);
    for seed in 2..6 {
        for (found, expected) in of_seed(seed).into_iter().zip(first) {
            near(found, expected, 1.5e-2);
        }
    }
    assert_eq!(of_seed(1), first);
    assert_ne!(of_seed(2), first);
}

#[test]
fn one_hole_is_its_own_total() {
    let examples = [Example::worked(), Example::sized(0.6, 0.5, 0.12)];
    let (parts, rules) = (parts(&examples, &[0, 1]), rules());
    let drawn = Drawn::new(&parts, &rules, 1);
    let (totals, alone) = (drawn.totals(&[0]), repair(&examples[0].input(), &rules));
    assert_eq!(totals.cuts, 1);
    assert_eq!(totals.base_volume.spread, alone.loose_volume.spread);
    assert_eq!(totals.base_mass.spread, alone.fill_wet_mass.spread);
    assert_eq!(totals.water_volume.value.in_litres(), alone.water_to_add.value.value);
    assert_eq!(totals.binder_volume.spread, alone.binder_volume_hot.spread);
    assert_eq!(totals.cover_volume.spread, alone.cover_volume.spread);
    assert_eq!(totals.cover_mass.spread, alone.cover_mass.spread);
    assert_eq!(totals.spoil_volume.spread, alone.spoil_volume.spread);
    assert_eq!(totals.spoil_mass.spread, alone.spoil_mass.spread);
    assert_eq!(totals.duration.spread, alone.duration.spread);
    assert_eq!(totals.duration.value, alone.duration.value);
    assert_eq!(drawn.load(&[0], 0.9), at_quantile(&examples[0].input(), &rules, 0.9));
}

#[test]
fn errors_cancel_in_part_and_less_on_one_road() {
    let examples = holes(&[0.2; 8]);
    let rules = rules();
    let width = |roads: &[usize]| {
        let parts = parts(&examples, roads);
        let [p10, p50, p90] = base(&Drawn::new(&parts, &rules, 1).totals(&all(&parts)));
        (p90 - p10) / p50
    };
    let (apart, together, alone) = (width(&[0, 1, 2, 3, 4, 5, 6, 7]), width(&[0; 8]), {
        let spread = repair(&examples[0].input(), &rules).loose_volume.spread.unwrap();
        ((spread.p90 - spread.p10) / spread.p50).value
    });
    assert!(apart < 0.8 * together && together < 0.95 * alone, "{apart} {together} {alone}");
    // The class's own doubt does not cancel at all: never narrower than it, sigma / sqrt(k) = 0.096 of ln g.
    assert!(apart > 2.0 * 1.28 * 0.096, "{apart}");
}

/// Each hole grows as its own class does: 0.2 m3 that take 1.2 times as much, 0.2 m3 that take twice as much.
#[test]
fn holes_of_two_classes_each_grow_as_theirs() {
    let mut rules = proportional(10_000);
    let mut main = rules.growth.default.clone();
    main.median.value = 2.0;
    for class in [&mut main, &mut rules.growth.default] {
        class.sigma.value = 0.02;
    }
    main.roads = vec![RoadClass::Primary];
    rules.growth.class.insert("main".into(), main);
    let examples = holes(&[0.2, 0.2]);
    let mut parts = parts(&examples, &[0, 1]);
    parts[1].input = parts[1].input.on_road(RoadClass::Primary);
    let totals = Drawn::new(&parts, &rules, 1).totals(&[0, 1]);
    let loose = totals.base_volume.value.in_cubic_metres() / 0.4;
    near(base(&totals)[1] / loose, 0.2 * 1.2 + 0.2 * 2.0, 2e-3);
}

/// Arithmetic only: two trips that each suffice nine times in ten do so together nine times in ten where they grow as one,
/// and from 0.9 x 0.9 upwards where only the belief about their class is common.
#[test]
fn two_trips_suffice_together_as_their_growths_hang_together() {
    let examples = holes(&[0.1, 0.3]);
    let together = |rho: f64, roads: &[usize]| {
        let mut rules = proportional(20_000);
        rules.growth.same_road_correlation.value = rho;
        let parts = parts(&examples, roads);
        let drawn = Drawn::new(&parts, &rules, 1);
        let groups = [vec![0], vec![1]];
        let trip = |group| {
            let load = drawn.load(group, 0.9);
            (Supply { group, load, materials: [true; 4] }, drawn.chance(group, &load))
        };
        let [(one, of_one), (other, of_other)] = [trip(&groups[0]), trip(&groups[1])];
        near(of_one, 0.9, 0.01);
        near(of_other, 0.9, 0.01);
        // A material that is not part of a supply can't run out.
        near(drawn.joint_chance(&[Supply { materials: [false; 4], ..one }]), 1.0, 0.0);
        drawn.joint_chance(&[one, other])
    };
    near(together(1.0, &[0, 0]), 0.9, 0.01);
    let apart = together(0.0, &[0, 1]);
    assert!((0.80..0.885).contains(&apart), "{apart}");
}

#[test]
fn a_trips_load_suffices_as_often_as_asked() {
    let examples = holes(&[0.1, 0.25, 0.05, 0.4, 0.2]);
    let (parts, rules) = (parts(&examples, &[0, 0, 1, 2, 3]), rules());
    let drawn = Drawn::new(&parts, &rules, 1);
    let every = all(&parts);
    for confidence in [0.5, 0.9, 0.99] {
        let load = drawn.load(&every, confidence);
        let chance = drawn.chance(&every, &load);
        assert!((confidence..confidence + 0.002).contains(&chance), "{confidence}: {chance}");
        // With other draws likewise.
        let other = Drawn::new(&parts, &rules, 2).chance(&every, &load);
        assert!((other - confidence).abs() < 0.015, "{confidence}: {other}");
    }
    let load = drawn.load(&every, 0.9);
    // Enough for all together is less than enough for each.
    let each: f64 = parts.iter().map(|part| at_quantile(&part.input, &rules, 0.9).base_volume.in_cubic_metres()).sum();
    let together = load.base_volume.in_cubic_metres();
    assert!(together < 0.97 * each && together >= base(&drawn.totals(&every))[2], "{together} of {each}");
    // One material short is short.
    for spoil in [
        |load: &mut model::round::Demand| load.base_volume *= 0.9,
        |load: &mut model::round::Demand| load.water_volume *= 0.9,
        |load: &mut model::round::Demand| load.binder_volume *= 0.9,
        |load: &mut model::round::Demand| load.cover_volume *= 0.9,
    ] {
        let mut less = load;
        spoil(&mut less);
        assert!(drawn.chance(&every, &less) < 0.88);
    }
    // Density of the stock and of the binder as supplied.
    near(load.base_mass.value / load.base_volume.value, 1650.0, 1e-9);
    near(load.cover_mass.value / load.cover_volume.value, 1450.0, 1e-9);
}

#[test]
fn a_sum_says_how_it_was_drawn() {
    let examples = holes(&[0.1, 0.25, 0.05]);
    let (parts, rules) = (parts(&examples, &[0, 0, 1]), rules());
    let totals = Drawn::new(&parts, &rules, 7).totals(&[0, 1, 2]);
    assert_eq!(totals.cuts, 3);
    let why = totals.spoil_mass.why.to_string();
    for said in ["cuts = 3", "roads = 2", "rho = 0.5", "draws = 10000", "seed = 7"] {
        assert!(why.contains(said), "{why}");
    }
}

#[test]
fn nothing_adds_up_to_nothing() {
    let rules = rules();
    let drawn = Drawn::new(&[], &rules, 1);
    let totals = drawn.totals(&[]);
    assert_eq!((totals.cuts, base(&totals)), (0, [0.0; 3]));
    assert_eq!(drawn.load(&[], 0.9), model::round::Demand::default());
    // No water where the stock is wet enough, and that is no bar to a load.
    let mut examples = holes(&[0.2, 0.3]);
    for example in &mut examples {
        example.base.stock_moisture = example.base.optimum_moisture;
    }
    let parts = parts(&examples, &[0, 1]);
    let drawn = Drawn::new(&parts, &rules, 1);
    let load = drawn.load(&[0, 1], 0.9);
    assert_eq!(load.water_volume.value, 0.0);
    assert!((drawn.chance(&[0, 1], &load) - 0.9).abs() < 0.002);
}

#[derive(Deserialize)]
struct SumCase {
    roads: Vec<usize>,
    volumes_m3: Vec<f64>,
    same_road_correlation: f64,
    p10_m3: f64,
    p50_m3: f64,
    p90_m3: f64,
}

#[test]
fn the_handbooks_examples() {
    for case in testkit::worked_examples::<SumCase>("totals", "sum") {
        let mut rules = proportional(50_000);
        rules.growth.same_road_correlation.value = case.same_road_correlation;
        let examples = holes(&case.volumes_m3);
        let parts = parts(&examples, &case.roads);
        let totals = Drawn::new(&parts, &rules, 3).totals(&all(&parts));
        let loose = totals.base_volume.value.in_cubic_metres() / case.volumes_m3.iter().sum::<f64>();
        for (found, expected) in base(&totals).into_iter().zip([case.p10_m3, case.p50_m3, case.p90_m3]) {
            near(found / loose, expected, 5e-3);
        }
    }
}
