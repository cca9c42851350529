//! Everything behind a report as tables: lives, holes and costs by road and month, stretches of road.

use std::collections::BTreeMap;

use jiff::civil::Date;
use lasting::patch_lives::{Conditions, LifeEnd, PatchLife, Property, patch_lives};
use ledger::CostPart;
use model::month_report::MonthReport;
use model::place::Side;
use uuid::Uuid;

use crate::done::{month_word, number};
use crate::report::MonthFacts;

/// A table.
#[derive(Debug, Clone, PartialEq)]
pub struct MonthTable {
    /// Its name: that of its files.
    pub name: &'static str,
    /// What a row is.
    pub about: &'static str,
    /// Its columns.
    pub columns: Vec<MonthColumn>,
    /// Its rows, a cell for each column.
    pub rows: Vec<Vec<MonthCell>>,
}

/// A column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MonthColumn {
    /// Its name.
    pub name: &'static str,
    /// What its cells hold.
    pub kind: CellKind,
    /// Unit; may be empty.
    pub unit: &'static str,
    /// What it means.
    pub meaning: &'static str,
}

/// What cells of a column hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)] // the words are the definition
pub enum CellKind {
    Text,
    Number,
    Whole,
    YesNo,
}

/// A cell, of the kind of its column or nothing.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs)] // the words are the definition
pub enum MonthCell {
    Nothing,
    Text(String),
    Number(f64),
    Whole(i64),
    YesNo(bool),
}

impl CellKind {
    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            CellKind::Text => "text",
            CellKind::Number => "number",
            CellKind::Whole => "whole number",
            CellKind::YesNo => "true or false",
        }
    }
}

/// The tables of a month: of the twelve months that end with it.
pub fn month_tables(facts: &MonthFacts, report: &MonthReport) -> Vec<MonthTable> {
    let mut tables = vec![lives(facts), arrivals(facts), costs(facts), stop(report)];
    tables.push(columns(&tables));
    tables
}

fn column(name: &'static str, kind: CellKind, unit: &'static str, meaning: &'static str) -> MonthColumn {
    MonthColumn { name, kind, unit, meaning }
}

fn text(text: impl Into<String>) -> MonthCell {
    let text = text.into();
    if text.is_empty() { MonthCell::Nothing } else { MonthCell::Text(text) }
}

fn some<T>(value: Option<T>, cell: impl Fn(T) -> MonthCell) -> MonthCell {
    value.map_or(MonthCell::Nothing, cell)
}

fn lives(facts: &MonthFacts) -> MonthTable {
    use CellKind::{Number, Text, Whole, YesNo};
    let columns = vec![
        column("repair", Text, "", "number of the repair in the record"),
        column("begin", Text, "", "when its life began, universal time"),
        column("end", Text, "", "when it failed, or was last seen whole"),
        column("failed", YesNo, "", "whether it failed; if not, it lasted longer than its days"),
        column("ended_by", Text, "", "told_failed, found_failed (at a look), new_hole, resurfaced or holds"),
        column("days", Number, "days", "from begin to end"),
        column(
            "held_at_days",
            Number,
            "days",
            "last age at which it is known to have held; less than days where a look found it failed",
        ),
        column("crew", Text, "", "crew of its round"),
        column("material", Text, "", "base, where told"),
        column("binder", Text, "", "grade or product of the binder"),
        column("layers", Whole, "", "layers of base"),
        column("fewest_passes", Whole, "", "passes of the compactor over the layer that got fewest"),
        column("moisture", Text, "", "of the layer that was furthest from right, by the hand"),
        column("wetness", Text, "", "how wet it was below"),
        column("dry_surface", YesNo, "", "whether the surface was dry when it was sealed"),
        column("weather", Text, "", "weather around the sealing"),
        column("air_temperature", Number, "°C", "temperature of the air when it was sealed"),
        column("month", Whole, "", "calendar month in which it was opened"),
        column("road", Text, "", "name of the road"),
        column("road_class", Text, "", "class of the road"),
        column("vehicles_per_day", Number, "vehicles a day", "traffic, where known"),
        column("drainage", Text, "", "how water leaves the road there"),
        column("deviations", Text, "", "what was not done by the rules, between semicolons"),
        column("section", Text, "", "section of the road file, and its number"),
        column("chainage", Number, "m", "along the section"),
        column("side", Text, "", "left or right of increasing chainage"),
    ];
    let places: BTreeMap<_, _> =
        facts.study.repairs.iter().filter_map(|repair| Some((repair.repair, repair.place.as_ref()?))).collect();
    let row = |life: &PatchLife| {
        let conditions: &Conditions = &life.conditions;
        let known = |by: Property, known: bool| if known { text(conditions.group(by)) } else { MonthCell::Nothing };
        let place = places.get(&life.repair);
        vec![
            text(life.repair.to_string()),
            text(life.begin.to_string()),
            text(life.end.at().to_string()),
            MonthCell::YesNo(life.end.failed()),
            text(match life.end {
                LifeEnd::ToldFailed(_) => "told_failed",
                LifeEnd::FoundFailed { .. } => "found_failed",
                LifeEnd::NewHole { .. } => "new_hole",
                LifeEnd::Resurfaced(_) => "resurfaced",
                LifeEnd::Holds(_) => "holds",
            }),
            MonthCell::Number(life.days()),
            MonthCell::Number(life.seen_between().after),
            text(conditions.crew.clone().unwrap_or_default()),
            text(conditions.base.clone().unwrap_or_default()),
            text(conditions.binder.clone().unwrap_or_default()),
            some(conditions.layers, |layers| MonthCell::Whole(layers.into())),
            some(conditions.fewest_passes, |passes| MonthCell::Whole(passes.into())),
            known(Property::Moisture, conditions.moisture.is_some()),
            known(Property::Wetness, conditions.wetness.is_some()),
            some(conditions.dry, MonthCell::YesNo),
            known(Property::Weather, conditions.weather.is_some()),
            some(conditions.air_temperature_c, MonthCell::Number),
            some(conditions.month, |month| MonthCell::Whole(month.into())),
            text(conditions.road.clone().unwrap_or_default()),
            text(conditions.road_class.clone().unwrap_or_default()),
            some(conditions.vehicles_per_day, MonthCell::Number),
            known(Property::Drainage, conditions.drainage.is_some()),
            text(conditions.deviations.join("; ")),
            text(place.map_or("", |place| &place.road)),
            some(place, |place| MonthCell::Number(place.chainage_m)),
            text(place.map_or("", |place| if place.side == Side::Left { "left" } else { "right" })),
        ]
    };
    let rows = patch_lives(facts.study).iter().map(row).collect();
    MonthTable { name: "lives", about: "one repair that traffic ran over", columns, rows }
}

fn arrivals(facts: &MonthFacts) -> MonthTable {
    use CellKind::{Number, Text, Whole};
    let columns = vec![
        column("month", Text, "", "year and month"),
        column("road", Text, "", "name of the road; nothing: the hole lies on no road that is kept up"),
        column("holes", Whole, "", "holes first told of, repeats left out"),
        column("length", Number, "km", "length of the road that is kept up"),
        column("exposure", Number, "km days", "length by days of the month up to the report's last day"),
    ];
    let mut lengths: BTreeMap<&str, f64> = BTreeMap::new();
    for section in facts.sections {
        *lengths.entry(&section.name).or_default() += section.length_m / 1000.0;
    }
    let mut counts: BTreeMap<(String, &str), i64> = BTreeMap::new();
    let last = facts.until();
    for hole in facts.holes.iter().filter(|hole| hole.counts()) {
        let Some(day) = hole.told.map(|at| facts.day(at)).filter(|day| *day <= last) else { continue };
        *counts.entry((month_word(day), &hole.road)).or_default() += 1;
    }
    let mut rows = Vec::new();
    for month in facts.months() {
        let days = days_of(month, last);
        let word = month_word(month);
        let roads = lengths.iter().map(|(road, km)| (*road, Some(*km)));
        let elsewhere = counts.keys().filter(|(of, road)| *of == word && !lengths.contains_key(road));
        let elsewhere: Vec<(&str, Option<f64>)> = elsewhere.map(|(_, road)| (*road, None)).collect();
        for (road, km) in roads.chain(elsewhere) {
            rows.push(vec![
                text(word.clone()),
                text(road),
                MonthCell::Whole(counts.get(&(word.clone(), road)).copied().unwrap_or_default()),
                some(km, MonthCell::Number),
                some(km, |km| MonthCell::Number(km * days)),
            ]);
        }
    }
    MonthTable { name: "arrivals", about: "one road in one of twelve months", columns, rows }
}

/// Days of a month up to the last one that counts.
fn days_of(month: Date, last: Date) -> f64 {
    let end = month.last_of_month().min(last);
    f64::from(month.until(end).map_or(0, |span| span.get_days()) + 1)
}

fn costs(facts: &MonthFacts) -> MonthTable {
    use CellKind::{Number, Text};
    let columns = vec![
        column("month", Text, "", "year and month"),
        column("road", Text, "", "name of the road; nothing: the cost is of no road"),
        column("part", Text, "", "what it was for"),
        column("money", Number, "of the currency", "how much"),
        column("currency", Text, "", "three letters"),
    ];
    // the books name a road as it was told, which need not be as the roads name it
    let roads: BTreeMap<Uuid, &str> = facts
        .study
        .repairs
        .iter()
        .filter_map(|repair| Some((repair.repair, repair.conditions.road.as_deref()?)))
        .collect();
    let mut sums: BTreeMap<(String, &str, &str), rust_decimal::Decimal> = BTreeMap::new();
    for entry in &facts.year.cost_entries {
        let part = match entry.part {
            CostPart::Labour => "labour",
            CostPart::Plant => "plant",
            CostPart::Material(kind) => kind.word(),
            CostPart::Wasted => "wasted",
            CostPart::CountDifference => "count difference",
            CostPart::PriceDifference => "price difference",
        };
        let known = entry.repair.and_then(|repair| roads.get(&repair).copied());
        *sums.entry((month_word(entry.day), known.unwrap_or(&entry.road), part)).or_default() += entry.money;
    }
    let rows = sums.into_iter().map(|((month, road, part), money)| {
        vec![text(month), text(road), text(part), MonthCell::Number(number(money)), text(facts.year.currency.clone())]
    });
    MonthTable {
        name: "costs",
        about: "one part of one road's cost in one of twelve months",
        columns,
        rows: rows.collect(),
    }
}

fn stop(report: &MonthReport) -> MonthTable {
    use CellKind::{Number, Text, Whole};
    let columns = vec![
        column("road", Text, "", "name of the road"),
        column("section", Text, "", "section of the road file, and its number"),
        column("from", Number, "m", "begin of the stretch along the section"),
        column("to", Number, "m", "its end"),
        column(
            "holes_seen",
            Whole,
            "",
            "new holes seen on it since it got its surface, those that are a repair's failure left out",
        ),
        column("holes_per_year", Number, "holes a year", "expected, drawn towards what other stretches have"),
        column("patch_on", Number, "of the currency", "patched on for all years, at today's worth: mean"),
        column("patch_on_p10", Number, "of the currency", "one future in ten is below"),
        column("patch_on_p90", Number, "of the currency", "nine in ten are below"),
        column("renewal", Text, "", "the way to renew that is expected to cost least when done now"),
        column("renewal_price", Number, "of the currency", "its price"),
        column("renew_now", Number, "of the currency", "renewed now, for all years, at today's worth: mean"),
        column("renew_now_p10", Number, "of the currency", "one future in ten is below"),
        column("renew_now_p90", Number, "of the currency", "nine in ten are below"),
        column("cheaper", Number, "part", "futures in which renewing now costs less"),
        column(
            "break_even_p10",
            Whole,
            "year",
            "one future in ten has the break-even by then; nothing: not within the years",
        ),
        column("break_even_p50", Whole, "year", "half have it"),
        column("break_even_p90", Whole, "year", "nine in ten have it"),
        column("break_even_reached", Number, "part", "futures that have one"),
        column("best_year", Whole, "year", "in which renewing is expected to cost least; nothing: patching on does"),
    ];
    let year = |year: Option<usize>| some(year, |year| MonthCell::Whole(i64::try_from(year).unwrap_or(i64::MAX)));
    let rows = report.stop.all.iter().map(|line| {
        let [on, on_low, on_high] = line.patch_on.map(MonthCell::Number);
        let [now, now_low, now_high] = line.renew_now.map(MonthCell::Number);
        let [low, middle, high] = line.break_even.map(year);
        vec![
            text(line.road.clone()),
            text(line.section.clone()),
            MonthCell::Number(line.from_m),
            MonthCell::Number(line.to_m),
            MonthCell::Whole(line.holes_seen.into()),
            MonthCell::Number(line.holes_per_year),
            on,
            on_low,
            on_high,
            text(line.renewal.clone()),
            MonthCell::Number(line.renewal_price),
            now,
            now_low,
            now_high,
            MonthCell::Number(line.cheaper),
            low,
            middle,
            high,
            MonthCell::Number(line.break_even_reached),
            year(line.best_year),
        ]
    });
    MonthTable { name: "stop_patching", about: "one stretch of road with holes", columns, rows: rows.collect() }
}

/// The description of all columns.
fn columns(tables: &[MonthTable]) -> MonthTable {
    use CellKind::Text;
    let of = |table: &MonthTable| {
        let about = table.about;
        let rows = table.columns.iter().map(move |of| (of, about));
        let name = table.name;
        let row = move |(of, about): (&MonthColumn, &str)| {
            vec![text(name), text(about), text(of.name), text(of.kind.word()), text(of.unit), text(of.meaning)]
        };
        rows.map(row).collect::<Vec<_>>()
    };
    MonthTable {
        name: "columns",
        about: "one column of the other tables",
        columns: vec![
            column("table", Text, "", "name of the table"),
            column("row", Text, "", "what one of its rows is"),
            column("column", Text, "", "name of the column"),
            column("holds", Text, "", "text, number, whole number, or true or false; an empty cell: not known"),
            column("unit", Text, "", "unit"),
            column("meaning", Text, "", "what it means"),
        ],
        rows: tables.iter().flat_map(of).collect(),
    }
}
