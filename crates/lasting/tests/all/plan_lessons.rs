//! What the next plan takes over from repairs that were planned and then measured.

use jiff::Timestamp;
use lasting::plan_lessons::Lessons;
use model::learnt::{FactorOf, Factored, Learnt, LearntRoad, PlannedOtherwise, UseFactors, Yardstick};
use model::record::known::{KnownRepair, KnownRound};
use model::road_kind::RoadKind;
use proptest::prelude::*;
use serde_json::{Value, json};
use uuid::Uuid;

use crate::support::{assert_near, rules};

const DAY_S: i64 = 86_400;

fn at(day: i64) -> Timestamp {
    Timestamp::from_second(1_767_225_600 + DAY_S * day).unwrap()
}

fn by(day: i64) -> Value {
    json!({"event": Uuid::from_u128(1), "actor": "mara", "device": "phone-1", "at": at(day)})
}

fn told(value: impl Into<Value>) -> Value {
    json!({"value": value.into(), "by": by(0), "otherwise": []})
}

/// A repair of 2 m2 and 200 mm, as it was planned and as it turned out.
struct Turned {
    road: &'static str,
    kind: Option<&'static str>,
    day: i64,
    /// Base, binder, minutes planned; with the factors that are in them.
    planned: [f64; 3],
    factors: UseFactors,
    /// Area cut, m2, and depth, mm.
    cut: (f64, f64),
    /// Base, binder, minutes used.
    used: [f64; 3],
    /// What rules and settings expected when it was planned.
    then: Option<Yardstick>,
}

/// What they expect today.
const TODAY: Yardstick =
    Yardstick { growth: 9.0, base_loose_m3: 8.0, water_l: 700.0, binder_l: 60.0, cover_stone_m3: 0.5, minutes: 400.0 };

const AS_PLANNED: Turned = Turned {
    road: "Fennow Road",
    kind: None,
    day: 1,
    planned: [0.5, 6.0, 60.0],
    factors: UseFactors::NONE,
    cut: (2.0, 240.0),
    used: [0.6, 6.0, 60.0],
    then: Some(TODAY),
};

impl Turned {
    fn known(&self) -> KnownRepair {
        let text = |number: f64| format!("{number:.6}");
        let planned = json!({
            "repair": Uuid::from_u128(7), "holes": [], "road": self.road, "road_kind": self.kind, "area_m2": 2.0,
            "base_loose_m3": text(self.planned[0]), "water_l": "20", "binder_l": text(self.planned[1]),
            "cover_stone_m3": "0.05", "minutes": text(self.planned[2]),
            // the rules expect 1.2 times the volume
            "basis": {"depth_mm": 200.0, "growth": 1.2, "minutes_power": 0.0, "factors": self.factors,
                "yardstick": self.then},
        });
        serde_json::from_value(json!({
            "repair": Uuid::from_u128(7), "state": "open", "holes": [], "inspections": [], "failed_how": "", "labour_min": "0",
            "plant_min": text(self.used[2]), "photos": [], "signatures": [], "last_told": at(0), "cut": by(self.day),
            "round": told(json!(Uuid::from_u128(9))), "planned": told(planned), "area_m2": told(self.cut.0),
            "depths_mm": told(json!([self.cut.1 - 10.0, self.cut.1 + 10.0])),
            "layers": [{"layer": 1, "base_loose_m3": told(text(self.used[0]))}], "binder_l": told(text(self.used[1])),
        }))
        .unwrap()
    }
}

fn round() -> KnownRound {
    serde_json::from_value(json!({
        "round": Uuid::from_u128(9), "crew": told("North crew"), "zones": [], "labour_min": "0", "plant_min": "0",
        "signatures": [], "last_told": at(0),
    }))
    .unwrap()
}

fn lessons(repairs: &[Turned]) -> Lessons {
    let mut lessons = Lessons::new(vec![("North crew".to_owned(), TODAY)]);
    lessons.take_round(&round());
    for repair in repairs {
        lessons.take_repair(&repair.known(), at(100));
    }
    lessons
}

fn median(learnt: &Learnt, what: Factored, of: &FactorOf) -> f64 {
    learnt.factors.iter().find(|factor| factor.what == what && factor.of == *of).unwrap().believed.median
}

fn fennow() -> LearntRoad {
    LearntRoad { name: "Fennow Road".into(), kind: None }
}

fn road() -> FactorOf {
    FactorOf::Road(fennow())
}

#[test]
fn a_greater_hole_is_growth_and_not_a_waste_of_base() {
    // 1.2 times the volume took 1.2 times the base: as the rules expect, so nothing is learnt.
    let learnt = lessons(&[AS_PLANNED]).learnt(&rules(), &[]);
    for what in [Factored::Growth, Factored::Base, Factored::Binder] {
        assert_near(median(&learnt, what, &road()), 1.0, 1e-6, what.word());
    }
    assert_near(median(&learnt, Factored::Time, &FactorOf::Crew("North crew".into())), 1.0, 1e-6, "time");
    assert!(!learnt.factors.iter().any(|factor| factor.what == Factored::Water), "nobody told the water");
}

#[test]
fn what_is_learnt_follows_the_conjugate_update() {
    // One repair with 1.5 times the base for what was dug. District: ln 1.5 / (5 + 1). It is the road's too, which has nothing
    // of others to begin with and takes its own record once.
    let learnt = lessons(&[Turned { used: [0.9, 6.0, 60.0], ..AS_PLANNED }]).learnt(&rules(), &[]);
    let whole = 1.5_f64.ln();
    assert_near(median(&learnt, Factored::Base, &FactorOf::District), (whole / 6.0).exp(), 1e-6, "district");
    assert_near(median(&learnt, Factored::Base, &road()), (whole / 6.0).exp(), 1e-6, "road");
    let base = learnt.counting(Factored::Base, &fennow(), "").unwrap();
    assert_eq!((base.records, base.is_told), (1, true));
    assert!(base.believed.p10 < base.believed.median && base.believed.median < base.believed.p90, "{base:?}");
    assert_eq!(
        learnt.counting(Factored::Base, &LearntRoad { name: "Alder Lane".into(), kind: None }, "").unwrap().of,
        FactorOf::District
    );
    let told = "the plan now loads 7 % more base on Fennow Road, because 1 repair there took 1.50 times what was planned; \
                weighed with the others 1.07 (";
    assert!(base.words.starts_with(told), "{}", base.words);
    let whole = &learnt.factors.iter().find(|factor| factor.of == FactorOf::District).unwrap().words;
    assert!(whole.contains("1 repair of the district") && whole.contains("; weighed with the rules 1.0"), "{whole}");
}

#[test]
fn a_plan_that_has_learnt_does_not_unlearn() {
    // The plan already loaded 1.2 times the base, and it was used: the same is taught as by a plan that loaded 0.5.
    let factors = UseFactors { base: 1.2, ..UseFactors::NONE };
    let used = [0.5 * 1.2 * 1.2, 6.0, 60.0];
    let again = lessons(&[Turned { planned: [0.6, 6.0, 60.0], factors, used, ..AS_PLANNED }]).learnt(&rules(), &[]);
    let first = lessons(&[Turned { used, ..AS_PLANNED }]).learnt(&rules(), &[]);
    assert_near(median(&again, Factored::Base, &road()), median(&first, Factored::Base, &road()), 1e-9, "base");
}

#[test]
fn a_road_without_records_takes_its_kind_s() {
    let of = |road, kind, base| Turned { road, kind: Some(kind), used: [base, 6.0, 60.0], ..AS_PLANNED };
    let bare = "tertiary_without_shoulder";
    let repairs =
        [of("Fennow Road", bare, 0.9), of("Moss Road", bare, 0.9), of("", bare, 0.9), of("Quay Road", "primary", 0.6)];
    let learnt = lessons(&repairs).learnt(&rules(), &[]);
    let kind = |word: &str| RoadKind::try_from(word.to_owned()).ok();
    let counting = |name: &str, word| {
        let road = LearntRoad { name: name.to_owned(), kind: kind(word) };
        learnt.counting(Factored::Base, &road, "").unwrap().clone()
    };
    let unknown = counting("Alder Lane", bare);
    assert_eq!(
        (&unknown.of, unknown.records),
        (&FactorOf::Kind(kind(bare).unwrap()), 3),
        "the road without a name too"
    );
    // others: ln 1 once, so it begins at 0 with 5 of the 6; three of ln 1.5 make 3/8 of it
    assert_near(unknown.believed.median, (1.5_f64.ln() * 3.0 / 8.0).exp(), 1e-6, "kind");
    let told = "the plan now loads 16 % more base on tertiary roads without a shoulder, because 3 repairs there took 1.50 times";
    assert!(unknown.words.starts_with(told), "{}", unknown.words);
    assert_eq!(counting("Fennow Road", bare).records, 1, "its own");
    assert_eq!(counting("Fennow Road", "primary").of, FactorOf::Kind(kind("primary").unwrap()), "another part of it");
    assert_eq!(counting("Alder Lane", "track").of, FactorOf::District);
    let time = learnt.factors.iter().filter(|factor| factor.what == Factored::Time);
    assert!(time.into_iter().all(|factor| matches!(factor.of, FactorOf::District | FactorOf::Crew(_))));
}

#[test]
fn what_the_rules_took_over_is_not_taught_again() {
    // Base turned out 1.5 times; then the rule was set so. Only what is planned by the new rule teaches, and the plan says so.
    let more = Turned { used: [0.9, 6.0, 60.0], ..AS_PLANNED };
    let old = Yardstick { base_loose_m3: TODAY.base_loose_m3 / 1.5, ..TODAY };
    let before = Turned { then: Some(old), ..more };
    let learnt = lessons(&[before, AS_PLANNED]).learnt(&rules(), &[]);
    let base = learnt.counting(Factored::Base, &fennow(), "").unwrap();
    assert_eq!(base.records, 1);
    assert_near(base.factor, 1.0, 1e-6, "the lesson is in the rule");
    assert_eq!(learnt.counting(Factored::Growth, &fennow(), "").unwrap().records, 2, "growth is as it was");
    assert_eq!(learnt.planned_otherwise, [PlannedOtherwise { what: Factored::Base, records: 1 }]);

    // nobody knows by which rules
    let untold = lessons(&[Turned { then: None, ..AS_PLANNED }]);
    let learnt = untold.learnt(&rules(), &[Factored::Time]);
    assert!(learnt.factors.is_empty(), "{learnt:?}");
    let left: Vec<Factored> = learnt.planned_otherwise.iter().map(|left| left.what).collect();
    assert_eq!(left, [Factored::Growth, Factored::Base, Factored::Binder], "the water was not told, time is off");

    // the last digit on another machine
    let near = Yardstick { base_loose_m3: TODAY.base_loose_m3 * (1.0 + 1e-9), ..TODAY };
    assert!(lessons(&[Turned { then: Some(near), ..AS_PLANNED }]).learnt(&rules(), &[]).planned_otherwise.is_empty());
}

#[test]
fn a_crew_is_held_to_what_is_expected_of_it() {
    let slower = Yardstick { minutes: 500.0, ..TODAY };
    let of_crews = |today: &[(&str, Yardstick)]| {
        let mut lessons =
            Lessons::new(today.iter().map(|(crew, yardstick)| ((*crew).to_owned(), *yardstick)).collect());
        lessons.take_round(&round());
        lessons.take_repair(&AS_PLANNED.known(), at(100));
        lessons.records(Factored::Time)
    };
    assert_eq!(of_crews(&[("South crew", slower), ("North crew", TODAY)]), 1);
    assert_eq!(of_crews(&[("South crew", TODAY), ("North crew", slower)]), 0);
    // a crew that is no more: as of the first
    assert_eq!((of_crews(&[("South crew", TODAY)]), of_crews(&[("South crew", slower)]), of_crews(&[])), (1, 0, 0));
}

#[test]
fn no_factor_goes_beyond_its_limit() {
    let many: Vec<Turned> = (0..200).map(|_| Turned { used: [3.0, 6.0, 60.0], ..AS_PLANNED }).collect();
    let learnt = lessons(&many).learnt(&rules(), &[]);
    let base = learnt.counting(Factored::Base, &fennow(), "").unwrap();
    assert!(base.is_limited() && base.believed.median > 4.0, "{base:?}");
    assert!(base.factor.total_cmp(&1.5).is_eq(), "{base:?}");
    assert!(base.words.ends_with("; kept within 0.70 to 1.50"), "{}", base.words);
}

#[test]
fn what_is_turned_off_or_not_yet_cut_teaches_nothing() {
    let more = || Turned { used: [0.9, 9.0, 90.0], ..AS_PLANNED };
    let taught = lessons(&[more()]);
    let without = taught.learnt(&rules(), &[Factored::Base]);
    assert!(without.counting(Factored::Base, &fennow(), "").is_none());
    assert!(without.counting(Factored::Binder, &fennow(), "").is_some());
    assert_eq!(taught.learnt(&rules(), &Factored::ALL), Learnt::default());
    let later = lessons(&[Turned { day: 100, ..more() }]);
    assert_eq!(later.learnt(&rules(), &[]), Learnt::default());
    assert_eq!((taught.records(Factored::Base), later.records(Factored::Base)), (1, 0));
}

proptest! {
    /// A road's factor lies between its own records and the district, and a road of few records keeps nearer to the district
    /// than one of many with the same mean.
    #[test]
    fn few_records_keep_to_the_district(ratio in 0.75_f64..1.4, few in 1_usize..5, others in 20_usize..40) {
        let other = |_| Turned { road: "Alder Lane", ..AS_PLANNED };
        let own = |_| Turned { used: [0.6 * ratio, 6.0, 60.0], ..AS_PLANNED };
        let of = |count: usize| {
            let all: Vec<Turned> = (0..others).map(other).chain((0..count).map(own)).collect();
            let learnt = lessons(&all).learnt(&rules(), &[]);
            let district = median(&learnt, Factored::Base, &FactorOf::District).ln();
            (median(&learnt, Factored::Base, &road()).ln(), district)
        };
        let ((with_few, district), (with_many, _)) = (of(few), of(few + 25));
        let between = |value: f64| value >= district.min(ratio.ln()) - 1e-9 && value <= district.max(ratio.ln()) + 1e-9;
        prop_assert!(between(with_few), "{with_few} {district} {ratio}");
        prop_assert!((with_many - ratio.ln()).abs() <= (with_few - ratio.ln()).abs() + 1e-9);
    }
}
