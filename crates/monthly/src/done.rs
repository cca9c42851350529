//! What was done, what it cost, what stock came and went, planned against actual.

use std::collections::{BTreeMap, HashMap};

use jiff::ToSpan;
use jiff::civil::Date;
use ledger::{ComparedSum, Quantities};
use model::month_report::{CostLine, MonthArrivals, MonthCost, MonthDone, PlannedLine, RoadDone, StockLine};
use model::record::stock::StockUnit;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use uuid::Uuid;

use crate::report::MonthFacts;

pub(crate) fn number(decimal: Decimal) -> f64 {
    decimal.to_f64().unwrap_or_default()
}

/// A month as it stands in tables.
pub(crate) fn month_word(day: Date) -> String {
    format!("{:04}-{:02}", day.year(), day.month())
}

pub(crate) fn done(facts: &MonthFacts) -> MonthDone {
    // by repair: the books name a road as it was told, which need not be as the roads name it
    let mut costs: HashMap<Uuid, Decimal> = HashMap::new();
    for entry in &facts.books.cost_entries {
        if let Some(repair) = entry.repair {
            *costs.entry(repair).or_default() += entry.money;
        }
    }
    let mut all = MonthDone::default();
    let mut roads: BTreeMap<&str, RoadDone> = BTreeMap::new();
    let before = facts.month.checked_sub(1.month()).unwrap_or(facts.month);
    for repair in &facts.study.repairs {
        if facts.day(repair.begin).first_of_month() == before {
            all.repairs_before += 1;
        }
        if !facts.in_month(repair.begin) {
            continue;
        }
        let area = repair.area_m2;
        all.repairs += 1;
        all.area_m2 += area.unwrap_or_default();
        all.with_area += usize::from(area.is_some());
        let name = repair.conditions.road.as_deref().unwrap_or_default();
        let road = roads.entry(name).or_insert_with(|| RoadDone {
            road: name.to_owned(),
            repairs: 0,
            area_m2: 0.0,
            cost: 0.0,
        });
        road.repairs += 1;
        road.cost += costs.get(&repair.repair).copied().map(number).unwrap_or_default();
        road.area_m2 += area.unwrap_or_default();
    }
    all.roads = roads.into_values().collect();
    all.roads.sort_by(|a, b| b.repairs.cmp(&a.repairs).then(b.area_m2.total_cmp(&a.area_m2)).then(a.road.cmp(&b.road)));
    all
}

pub(crate) fn cost(facts: &MonthFacts) -> MonthCost {
    let costs = &facts.books.costs.total;
    let parts = costs.parts().into_iter().filter(|(_, money)| !money.is_zero());
    let done = done(facts);
    let total = number(costs.total);
    MonthCost {
        parts: parts.map(|(part, money)| CostLine { part: part.replace('_', " "), money: number(money) }).collect(),
        total,
        per_m2: (done.with_area > 0 && done.area_m2 > 0.0 && done.with_area == done.repairs)
            .then(|| total / done.area_m2),
        per_repair: (done.repairs > 0).then(|| total / done.repairs as f64),
    }
}

pub(crate) fn stock(facts: &MonthFacts) -> Vec<StockLine> {
    let lines = facts.books.totals.iter().map(|total| {
        let (amount, unit) = (&total.amount, total.item.what.unit());
        StockLine {
            item: match total.item.which.as_str() {
                "" => total.item.what.word().to_owned(),
                which => format!("{}, {which}", total.item.what.word()),
            },
            what: total.item.what,
            which: total.item.which.clone(),
            unit: if unit == StockUnit::Pieces { String::new() } else { unit.symbol().to_owned() },
            opening: number(amount.opened),
            bought: number(amount.bought),
            used: number(amount.into_repairs),
            wasted: number(amount.wasted),
            found: number(amount.found),
            closing: number(amount.closed),
            value: number(total.value.closed),
        }
    });
    lines.collect()
}

pub(crate) fn arrivals(facts: &MonthFacts) -> Vec<MonthArrivals> {
    let last = facts.until();
    let mut told: BTreeMap<Date, u32> = BTreeMap::new();
    let mut mended: BTreeMap<Date, u32> = BTreeMap::new();
    for hole in facts.holes.iter().filter(|hole| hole.counts()) {
        let Some(day) = hole.told.map(|at| facts.day(at)).filter(|day| *day <= last) else { continue };
        *told.entry(day.first_of_month()).or_default() += 1;
    }
    for repair in &facts.study.repairs {
        let day = facts.day(repair.begin);
        if day <= last {
            *mended.entry(day.first_of_month()).or_default() += repair.holes.len().max(1) as u32;
        }
    }
    let of = |counts: &BTreeMap<Date, u32>, month: &Date| counts.get(month).copied().unwrap_or_default();
    let line =
        |month: Date| MonthArrivals { month: month_word(month), told: of(&told, &month), mended: of(&mended, &month) };
    facts.months().into_iter().map(line).collect()
}

pub(crate) fn planned(facts: &MonthFacts) -> Vec<PlannedLine> {
    let month = month_word(facts.month);
    let Some(total) = facts.books.planned.months.iter().find(|total| total.of == month) else { return Vec::new() };
    let Quantities { area_m2, base_loose_m3, water_l, binder_l, cover_stone_m3, minutes } = &total.quantities;
    let lines: [(&str, &str, &ComparedSum); 6] = [
        ("area cut", "m²", area_m2),
        ("base, loose", "m³", base_loose_m3),
        ("water", "L", water_l),
        ("binder", "L", binder_l),
        ("cover stone", "m³", cover_stone_m3),
        ("time at the zone", "min", minutes),
    ];
    let line = |(what, unit, sum): (&str, &str, &ComparedSum)| {
        Some(PlannedLine {
            what: what.to_owned(),
            unit: unit.to_owned(),
            repairs: sum.repairs,
            planned: number(sum.compared.planned?),
            actual: number(sum.compared.actual?),
            ratio: sum.compared.ratio.map(number),
        })
    };
    lines.into_iter().filter_map(line).collect()
}
