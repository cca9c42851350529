//! The cautions that go with a repair: they show and defer, they never decide.

mod binder;

use model::quantity::InRatio;
use model::rules::repair::RepairRules;

pub(crate) use binder::for_seal;
use binder::{for_applicator, for_binder, for_opening, for_stone};

use crate::input::RepairInput;

/// Every caution for this repair: what always holds, then what its own materials and plant call for.
pub fn cautions(input: &RepairInput, rules: &RepairRules) -> Vec<String> {
    let mut said = always(rules);
    said.extend(for_binder(input.binder, rules));
    said.extend(for_applicator(input.plant, rules));
    said.extend(for_stone(input.cover_stone, rules));
    said.push(for_opening(input.binder, rules));
    said.extend(for_base(input));
    said
}

fn always(rules: &RepairRules) -> Vec<String> {
    let words = &rules.caution;
    [
        &words.traffic,
        &words.buried_services,
        &words.dust,
        &words.vibration,
        &words.manual_handling,
        &words.hot_binder,
        &words.drains,
        &words.heat,
        &words.weather,
    ]
    .map(|caution| caution.value.clone())
    .to_vec()
}

fn for_base(input: &RepairInput) -> Option<String> {
    (input.base.stock_moisture > input.base.optimum_moisture).then(|| {
        format!(
            "The base stock at {:.1} % is wet of the optimum, {:.1} %: spread it and let it dry before compacting.",
            input.base.stock_moisture.in_percent(),
            input.base.optimum_moisture.in_percent()
        )
    })
}
