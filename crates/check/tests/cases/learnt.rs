//! What the record teaches.

use model::figure::Source;
use model::learnt::{Believed, FactorOf, Factored, LearntFactor, LearntRoad};
use model::plan::Plan;
use model::quantity::{InMass, kilograms};

use super::case;
use crate::{Case, fixture};

/// The small plan with what the record teaches of base: of the district, and more on the first job's road.
pub fn taught() -> Plan {
    let mut plan = fixture::plan();
    let road_of = |plan: &Plan, job: usize| {
        let site = plan.jobs[job].site;
        LearntRoad::of(plan.network.section(plan.sites[site].zone.section))
    };
    let first = road_of(&plan, 0);
    let factor = |of, median| LearntFactor {
        what: Factored::Base,
        of,
        records: 23,
        own: Some(median),
        prior: Believed { median: 1.0, p10: 0.9, p90: 1.1 },
        believed: Believed { median, p10: median - 0.05, p90: median + 0.05 },
        factor: median,
        limits: (0.7, 1.5),
        source: Source::common_practice(),
        is_told: true,
        words: "the plan now loads more".to_owned(),
    };
    let kind =
        (0..plan.jobs.len()).map(|job| road_of(&plan, job)).find(|road| *road != first).and_then(|road| road.kind);
    plan.learnt.factors = vec![
        factor(FactorOf::District, 1.1),
        factor(FactorOf::Road(first.clone()), 1.2),
        factor(FactorOf::Kind(kind.expect("two roads")), 1.15),
    ];
    for job in 0..plan.jobs.len() {
        let road = road_of(&plan, job);
        let learnt = if road == first {
            1.2
        } else if road.kind == kind {
            1.15
        } else {
            1.1
        };
        let job = &mut plan.jobs[job];
        job.factors.base = learnt;
        let mass = &mut job.repair.fill_wet_mass;
        mass.value = kilograms(mass.value.in_kilograms() * learnt);
    }
    plan
}

fn taught_case(rule: &'static str, what: &'static str, spoil: fn(&mut Plan)) -> Case {
    Case { sound: taught, ..case(rule, what, spoil) }
}

pub fn cases() -> Vec<Case> {
    vec![
        Case {
            also: &["learnt.factor", "learnt.taken"],
            ..taught_case("learnt.limits", "a factor beyond its limit", |plan| plan.learnt.factors[0].factor = 1.6)
        },
        taught_case("learnt.spread", "one in ten above the median is below it", |plan| {
            plan.learnt.factors[0].believed.p90 = 1.0;
        }),
        taught_case("learnt.factor", "another factor is believed", |plan| {
            let believed = &mut plan.learnt.factors[1].believed;
            (believed.median, believed.p90) = (1.3, 1.4);
        }),
        taught_case("learnt.why", "learnt from nothing", |plan| plan.learnt.factors[0].records = 0),
        taught_case("learnt.why", "without a word why", |plan| plan.learnt.factors[0].words.clear()),
        taught_case("learnt.twice", "two factors of one road", |plan| {
            let again = plan.learnt.factors[1].clone();
            plan.learnt.factors.push(again);
        }),
        taught_case("learnt.taken", "binder by a factor that nobody learnt", |plan| plan.jobs[0].factors.binder = 1.1),
        Case {
            also: &["repair.moisture_balance"],
            ..taught_case("learnt.taken", "the district's factor on a road with its own", |plan| {
                plan.jobs[0].factors.base = 1.1;
            })
        },
        Case {
            also: &["repair.moisture_balance"],
            ..taught_case("learnt.taken", "the district's factor on a road whose kind has its own", |plan| {
                let of_kind = plan.jobs.iter_mut().find(|job| job.factors.base < 1.16).expect("one of the kind");
                assert!(of_kind.factors.base > 1.14);
                of_kind.factors.base = 1.1;
            })
        },
    ]
}
