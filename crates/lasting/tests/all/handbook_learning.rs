//! The handbook's worked examples of what is learnt, of holes to come and of looks.

use belief::Belief;
use jiff::Timestamp;
use lasting::arrivals::{ArrivalFit, HoleCount, RoadCount, road_factors};
use lasting::follow_up::due_looks;
use lasting::hole_growth::{SizeBelief, SizedTwice, SurfaceState};
use lasting::learnt::{Planned, PlannedActual, learn_factors};
use lasting::refills::{Fill, RefillRules, refill_lives};
use model::record::known::KnownRepair;
use model::road_kind::RoadKind;
use serde::Deserialize;
use serde_json::json;
use testkit::worked_examples;
use uuid::Uuid;

use crate::support::{assert_all_near, assert_near, rules};

#[derive(Deserialize)]
struct Fills {
    at_m: Vec<f64>,
    day: Vec<f64>,
    last_day: f64,
    same_place_m: f64,
    same_repair_days: f64,
    watched_days: f64,
    lives: Vec<Life>,
}

#[derive(Deserialize)]
struct Life {
    first: usize,
    fills: usize,
    days: f64,
    failed: bool,
}

#[test]
fn lives_of_fills() {
    for case in worked_examples::<Fills>("patch-lives", "fills") {
        let fills = case.at_m.iter().zip(&case.day).map(|(at, day)| Fill { lon: 0.0, lat: at / 111_195.0, day: *day });
        let rules = RefillRules {
            same_place_m: case.same_place_m,
            same_repair_days: case.same_repair_days,
            watched_days: case.watched_days,
        };
        let lives = refill_lives(&fills.collect::<Vec<_>>(), rules, case.last_day).unwrap();
        assert_eq!(lives.len(), case.lives.len());
        for (ours, expected) in lives.iter().zip(&case.lives) {
            assert_eq!((ours.fill, ours.fills, ours.failed), (expected.first, expected.fills, expected.failed));
            assert_near(ours.days, expected.days, 1e-9, "days");
        }
    }
}

#[derive(Deserialize)]
struct Counts {
    km_days: Vec<f64>,
    holes: Vec<u32>,
    wet: Vec<f64>,
    intercept: f64,
    coefficient: f64,
    intercept_error: f64,
    coefficient_error: f64,
}

#[test]
fn counts() {
    for case in worked_examples::<Counts>("hole-arrival", "counts") {
        let counts = (0..case.holes.len()).map(|at| HoleCount {
            km_days: case.km_days[at],
            holes: case.holes[at],
            covariates: vec![case.wet[at]],
        });
        let fit = ArrivalFit::of(&["wet".into()], &counts.collect::<Vec<_>>()).unwrap();
        let [wet, intercept] = [&fit.coefficients.each[0], &fit.coefficients.each[1]];
        assert_near(wet.value, case.coefficient, 1e-8, "coefficient");
        assert_near(wet.error, case.coefficient_error, 1e-8, "its error");
        assert_near(intercept.value, case.intercept, 1e-8, "intercept");
        assert_near(intercept.error, case.intercept_error, 1e-8, "its error");
        assert_near(fit.expected(50.0, &[1.0]), 1.0, 1e-7, "expected");
    }
}

#[derive(Deserialize)]
struct Roads {
    holes: Vec<u32>,
    expected: Vec<f64>,
    shape: f64,
    factors: Vec<f64>,
    p10: Vec<f64>,
    p90: Vec<f64>,
}

#[test]
fn roads() {
    for case in worked_examples::<Roads>("hole-arrival", "roads") {
        let counts = case.holes.iter().zip(&case.expected).map(|(holes, expected)| RoadCount {
            road: String::new(),
            holes: *holes,
            expected: *expected,
        });
        let found = road_factors(&counts.collect::<Vec<_>>());
        assert_near(found.shape.unwrap(), case.shape, 1e-4, "shape");
        let each = |of: fn(&lasting::arrivals::RoadFactor) -> f64| found.roads.iter().map(of).collect::<Vec<f64>>();
        assert_all_near(&each(|road| road.factor), &case.factors, 1e-4, "factors");
        assert_all_near(&each(|road| road.p10), &case.p10, 1e-4, "p10");
        assert_all_near(&each(|road| road.p90), &case.p90, 1e-4, "p90");
    }
}

/// Where every road has what is expected of it, none has anything of its own.
#[test]
fn roads_that_are_alike_keep_to_the_mean() {
    let road = |holes: u32| RoadCount { road: "any".into(), holes, expected: f64::from(holes) };
    let found = road_factors(&[road(3), road(5), road(4), road(9)]);
    assert_eq!((found.shape, found.roads[0].factor), (None, 1.0));
}

#[derive(Deserialize)]
struct Size {
    drift: f64,
    years: f64,
    straying: f64,
    sightings: f64,
    seen_years: Vec<f64>,
    seen_ratios: Vec<f64>,
    drift_after: f64,
    straying_after: f64,
}

#[test]
fn growth_in_size() {
    for case in worked_examples::<Size>("hole-arrival", "size") {
        let prior =
            SizeBelief { drift: case.drift, years: case.years, straying: case.straying, sightings: case.sightings };
        let seen: Vec<SizedTwice> = case
            .seen_years
            .iter()
            .zip(&case.seen_ratios)
            .map(|(years, ratio)| SizedTwice { years: *years, ratio: *ratio })
            .collect();
        let after = prior.after(&seen);
        assert_near(after.drift, case.drift_after, 1e-6, "drift");
        assert_near(after.straying, case.straying_after, 1e-6, "straying");
        assert_near(after.growth(2.0, 0.5), (2.0 * case.drift_after).exp(), 1e-5, "median");
        assert!(after.growth(2.0, 0.1) < after.growth(2.0, 0.5) && after.growth(2.0, 0.9) > after.growth(2.0, 0.5));
        // one by one, and the other way round, is the same
        let one_by_one = seen.iter().rev().fold(prior, |belief, twice| belief.after(&[*twice]));
        assert_near(one_by_one.straying, after.straying, 1e-12, "one by one");
        assert_eq!(prior.after(&[SizedTwice { years: 0.0, ratio: 2.0 }]), prior);
    }
}

#[derive(Deserialize)]
struct FirstPothole {
    seal_mm: Vec<f64>,
    million_axles: Vec<f64>,
    years: Vec<f64>,
}

#[test]
fn first_pothole() {
    for case in worked_examples::<FirstPothole>("hole-arrival", "first_pothole") {
        for ((seal_mm, million_axles), years) in case.seal_mm.iter().zip(&case.million_axles).zip(&case.years) {
            let state = SurfaceState {
                seal_mm: *seal_mm,
                million_axles: *million_axles,
                structural_number: 2.0,
                rain_m_per_month: 0.1,
                faulty: 0.0,
                cracked: 0.0,
                ravelled: 0.0,
                potholed: 0.0,
            };
            assert_near(state.years_to_first_pothole(), *years, 1e-9, "years");
            assert_eq!(state.growth().total(), 0.0, "nothing cracked, nothing grows");
        }
    }
}

#[derive(Deserialize)]
struct Surface {
    seal_mm: f64,
    million_axles: f64,
    structural_number: f64,
    rain_m_per_month: f64,
    faulty: f64,
    cracked: f64,
    ravelled: f64,
    potholed: f64,
    from_cracks: f64,
    from_ravelling: f64,
    enlarging: f64,
}

#[test]
fn surface() {
    for case in worked_examples::<Surface>("hole-arrival", "surface") {
        let state = SurfaceState {
            seal_mm: case.seal_mm,
            million_axles: case.million_axles,
            structural_number: case.structural_number,
            rain_m_per_month: case.rain_m_per_month,
            faulty: case.faulty,
            cracked: case.cracked,
            ravelled: case.ravelled,
            potholed: case.potholed,
        };
        let growth = state.growth();
        assert_near(growth.from_cracks, case.from_cracks, 5e-5, "cracks");
        assert_near(growth.from_ravelling, case.from_ravelling, 5e-5, "ravelling");
        assert_near(growth.enlarging, case.enlarging, 5e-5, "enlarging");
        let worst = SurfaceState { cracked: 100.0, ravelled: 100.0, potholed: 50.0, million_axles: 50.0, ..state };
        assert_eq!(worst.growth().total(), 10.0);
    }
}

#[derive(Deserialize)]
struct Factors {
    mean_weight: f64,
    sigma: f64,
    spread_weight: f64,
    district_weight: f64,
    first: Vec<f64>,
    second: Vec<f64>,
    district_factor: f64,
    first_begin: f64,
    first_factor: f64,
    second_begin: f64,
    second_factor: f64,
}

#[test]
fn factors() {
    for case in worked_examples::<Factors>("planned-and-actual", "factors") {
        let prior =
            Belief { mean: 0.0, mean_weight: case.mean_weight, sigma: case.sigma, spread_weight: case.spread_weight };
        let of = |name: &str, logs: &[f64]| -> Vec<PlannedActual> {
            let record =
                |log: &f64| PlannedActual { kind: None, of: name.into(), planned: 2.0, actual: 2.0 * log.exp() };
            logs.iter().map(record).collect()
        };
        let records = [of("north crew", &case.first), of("south crew", &case.second)].concat();
        let rules = rules();
        assert_eq!(rules.district_weight.value, case.district_weight);
        let learnt = learn_factors(prior, &records, &rules);
        assert_near(learnt.district.belief.median(), case.district_factor, 1e-6, "district");
        let [(None, first_name, first), (None, _, second)] = &learnt.each[..] else { panic!("{learnt:?}") };
        assert_eq!((first_name.as_str(), first.records), ("north crew", case.first.len()));
        assert_near(first.begin.median(), case.first_begin, 1e-6, "what the first begins with");
        assert_near(first.belief.median(), case.first_factor, 1e-6, "first");
        assert_near(second.begin.median(), case.second_begin, 1e-6, "what the second begins with");
        assert_near(second.belief.median(), case.second_factor, 1e-6, "second");
        let nothing = learn_factors(prior, &[], &rules);
        assert_eq!((nothing.district.belief, nothing.district.own, nothing.each.len()), (prior, None, 0));
    }
}

#[derive(Deserialize)]
struct OfKind {
    kind: RoadKind,
    roads: Vec<Vec<f64>>,
    begin: f64,
    believed: f64,
    road_begin: Vec<f64>,
    road_believed: Vec<f64>,
}

#[derive(Deserialize)]
struct Kinds {
    mean_weight: f64,
    sigma: f64,
    spread_weight: f64,
    district: f64,
    kind: Vec<OfKind>,
}

#[test]
fn kinds_of_road() {
    for case in worked_examples::<Kinds>("planned-and-actual", "kinds") {
        let prior =
            Belief { mean: 0.0, mean_weight: case.mean_weight, sigma: case.sigma, spread_weight: case.spread_weight };
        let mut records = Vec::new();
        for of in &case.kind {
            for (number, log) in
                of.roads.iter().enumerate().flat_map(|(number, logs)| logs.iter().map(move |log| (number, log)))
            {
                records.push(PlannedActual {
                    kind: Some(of.kind),
                    of: number.to_string(),
                    planned: 3.0,
                    actual: 3.0 * log.exp(),
                });
            }
        }
        let learnt = learn_factors(prior, &records, &rules());
        assert_near(learnt.district.belief.mean, case.district, 1e-6, "district");
        let of_road = |kind, number: usize| {
            let found = learnt.each.iter().find(|(of, name, _)| *of == Some(kind) && *name == number.to_string());
            &found.expect("the road").2
        };
        for of in &case.kind {
            let found = &learnt.kinds.iter().find(|(kind, _)| *kind == of.kind).expect("the kind").1;
            assert_near(found.begin.mean, of.begin, 1e-6, "kind begins");
            assert_near(found.belief.mean, of.believed, 1e-6, "kind");
            for (number, (begin, believed)) in of.road_begin.iter().zip(&of.road_believed).enumerate() {
                assert_near(of_road(of.kind, number).begin.mean, *begin, 1e-6, "road begins");
                assert_near(of_road(of.kind, number).belief.mean, *believed, 1e-6, "road");
            }
        }
    }
}

fn told(value: serde_json::Value) -> serde_json::Value {
    let mut told = json!({"by": by(0), "otherwise": []});
    told["value"] = value;
    told
}

fn day(day: i64) -> Timestamp {
    Timestamp::from_second(1_767_225_600 + 86_400 * day).unwrap()
}

fn by(at: i64) -> serde_json::Value {
    json!({"event": Uuid::from_u128(1), "actor": "mara", "device": "phone-1", "at": day(at)})
}

fn repair(more: serde_json::Value) -> KnownRepair {
    let mut known = json!({
        "repair": Uuid::from_u128(1), "state": "open", "holes": [], "layers": [], "opened": by(0), "inspections": [],
        "failed_how": "", "labour_min": "0", "plant_min": "0", "photos": [], "signatures": [], "last_told": day(0),
    });
    let serde_json::Value::Object(more) = more else { panic!("{more}") };
    known.as_object_mut().unwrap().extend(more);
    serde_json::from_value(known).unwrap()
}

#[test]
fn planned_and_actual_come_from_the_record() {
    let planned = json!({
        "repair": Uuid::from_u128(1), "holes": [], "area_m2": 2.0, "base_loose_m3": "0.4", "water_l": "20", "binder_l": "6",
        "cover_stone_m3": "0.05", "minutes": "40",
    });
    let layer = |base: Option<&str>| json!({"layer": 1, "base_loose_m3": base.map(|base| told(json!(base)))});
    let of = |layers: serde_json::Value, what: Planned| {
        let more =
            json!({"planned": told(planned.clone()), "layers": layers, "area_m2": told(json!(2.5)), "plant_min": "50"});
        what.of(&repair(more), "north crew").map(|record| (record.planned, record.actual))
    };
    let both = json!([layer(Some("0.3")), layer(Some("0.25"))]);
    assert_eq!(of(both.clone(), Planned::Base), Some((0.4, 0.55)));
    assert_eq!(of(both.clone(), Planned::Area), Some((2.0, 2.5)));
    assert_eq!(of(both.clone(), Planned::Time), Some((40.0, 50.0)));
    assert_eq!(of(both, Planned::Water), None, "nobody told the water");
    assert_eq!(of(json!([layer(Some("0.3")), layer(None)]), Planned::Base), None, "a layer is missing");
    assert!(Planned::ALL.iter().all(|what| what.of(&repair(json!({})), "x").is_none()), "not planned");
}

#[derive(Deserialize)]
struct Looks {
    looked: Vec<Looked>,
    now: Vec<i64>,
    due: Vec<String>,
}

#[derive(Deserialize)]
struct Looked {
    day: i64,
    found: String,
}

#[test]
fn looks() {
    for case in worked_examples::<Looks>("follow-up", "looks") {
        let looked: Vec<_> =
            case.looked.iter().map(|look| json!({"by": by(look.day), "found": look.found, "note": ""})).collect();
        let repair = repair(json!({"inspections": looked}));
        for (now, due) in case.now.iter().zip(&case.due) {
            let looks = due_looks(std::slice::from_ref(&repair), day(*now), &rules());
            let words = looks.first().map_or(String::new(), |look| {
                let days = |from: Timestamp, to: Timestamp| to.duration_since(from).as_hours() / 24;
                assert_eq!(look.is_due, look.due <= day(*now));
                if look.is_due {
                    format!("since {} days", days(look.due, day(*now)))
                } else {
                    format!("in {} days", days(day(*now), look.due))
                }
            });
            assert_eq!(words, *due, "on day {now}");
        }
        assert_eq!(case.now.len(), case.due.len());
    }
}
