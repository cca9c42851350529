//! Whether two plans expect the same of a repair.

use model::learnt::{Factored, Yardstick};
use model::quantity::{fraction, kilograms_per_cubic_metre, kilometres_per_hour};
use model::road::RoadClass;
use model::rules::repair::{GrowthRules, RepairRules};
use repair::yardstick;

use crate::support::{Example, rules};

fn of(example: &Example, rules: &RepairRules) -> Yardstick {
    yardstick(&example.plant, &example.base, &example.cover_stone, &example.binder, rules)
}

/// What is changed, and what is then expected otherwise.
type Change = (&'static str, fn(&mut Example, &mut RepairRules), &'static [Factored]);

#[test]
fn a_change_is_seen_where_it_moves_a_figure() {
    let (example, rules) = (Example::worked(), rules());
    let before = of(&example, &rules);
    for what in Factored::ALL {
        assert!(before.of(what).is_finite() && before.of(what) > 0.0, "{before:?}");
    }
    let changes: [Change; 8] = [
        ("nothing", |_, _| {}, &[]),
        ("growth by default", |_, rules| rules.growth.default.median.value *= 1.1, &[Factored::Growth]),
        (
            "loose density",
            |example, _| example.base.loose_density = kilograms_per_cubic_metre(1500.0),
            &[Factored::Base],
        ),
        ("moisture of the stock, as measured", |example, _| example.base.stock_moisture = fraction(0.031), &[]),
        ("optimum moisture", |example, _| example.base.optimum_moisture = fraction(0.08), &[Factored::Water]),
        (
            "cover stone's loose density",
            |example, _| example.cover_stone.loose_density = kilograms_per_cubic_metre(1200.0),
            &[Factored::CoverStone],
        ),
        (
            "pace of the plant",
            |example, _| {
                for machine in &mut example.plant.compactors {
                    machine.speed = Some(kilometres_per_hour(0.9));
                }
            },
            &[Factored::Time],
        ),
        ("traffic of roads elsewhere", |example, _| example.vehicles_per_day = Some(9000.0), &[]),
    ];
    for (words, change, moved) in changes {
        let (mut example, mut rules) = (example.clone(), rules.clone());
        change(&mut example, &mut rules);
        let after = of(&example, &rules);
        for what in moved {
            assert!(!after.agrees(&before, *what), "{words}: {} is {}", what.word(), after.of(*what));
        }
        if moved.is_empty() {
            assert_eq!(after, before, "{words}");
        }
        if moved == [Factored::Growth] {
            let others = Factored::ALL.into_iter().filter(|what| *what != Factored::Growth);
            assert!(others.into_iter().all(|what| after.agrees(&before, what)), "{words}: {before:?} {after:?}");
        }
    }
}

#[test]
fn every_class_of_road_counts() {
    let (example, rules) = (Example::worked(), rules());
    let before = of(&example, &rules);
    for class in RoadClass::ALL {
        let (name, own) = rules.growth.of_road(Some(class));
        let (name, mut otherwise) = (name.to_owned(), own.clone());
        otherwise.median.value *= 1.2;
        let mut rules = rules.clone();
        if name == GrowthRules::DEFAULT {
            rules.growth.default = otherwise;
        } else {
            rules.growth.class.insert(name, otherwise);
        }
        assert!(!of(&example, &rules).agrees(&before, Factored::Growth), "{class:?}");
    }
}
