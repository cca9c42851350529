//! What can't be seen from a single event: amounts told that can't be, and repairs told twice in different words.

use model::record::in_force::InForce;
use model::record::stock::{StockItem, StockPlace};

use crate::facts::Facts;
use crate::finding::{Finding, FindingKind};
use crate::settings::Settings;
use crate::used::Used;
use crate::words;

/// Finds it, in the period.
pub fn of_told(events: &[InForce<'_>], used: &Used<'_>, facts: &Facts<'_>, settings: &Settings) -> Vec<Finding> {
    let (from, _) = settings.bounds();
    let mut findings = Vec::new();
    let mut find = |index: usize, kind, place, item, amount, words| {
        let event = events[index].event;
        if event.happened_at() >= from {
            let (day, event, item, amount) =
                (settings.day(event.happened_at()), Some(event.id), Some(item), Some(amount));
            findings.push(Finding { kind, place, item, event, day, amount, words });
        }
    };
    for (index, kind, amount, why) in &used.refused {
        let item = StockItem { what: *kind, which: String::new() };
        let words = format!("{} went into a repair: {why}; not counted", words::amount(*amount, &item));
        find(*index, FindingKind::NotCounted, None, item, *amount, words);
    }
    for differs in used.differing() {
        let item = StockItem { what: differs.kind, which: String::new() };
        let place = StockPlace::Repair { repair: differs.repair };
        let words = format!(
            "{}: {} was moved there by hand, its layers and seal say {}; what was moved by hand counts",
            words::place(&place, facts),
            words::amount(differs.by_hand, &item),
            words::amount(differs.told, &item),
        );
        let amount = (differs.told - differs.by_hand).normalize();
        find(differs.first, FindingKind::MovedAndToldDiffer, Some(place), item, amount, words);
    }
    findings
}
