//! What stands at the end of the period: balances, and what of it somebody has to look at.

use std::sync::Arc;

use model::record::stock::{StockItem, StockKind, StockPlace};
use rust_decimal::Decimal;

use crate::facts::{Facts, Zone};
use crate::finding::{Finding, FindingKind};
use crate::posting::Posted;
use crate::settings::Settings;
use crate::stock_book::{Balance, Flows, ItemTotal, LotBalance};
use crate::words;

impl Posted {
    /// The book of each item at each place, where something was or moved.
    pub fn balances(&self) -> Vec<Balance> {
        let balances = self.rows.iter().filter_map(|(place, item, row)| {
            let amount = Flows { closed: row.account.quantity(), ..row.flows }.plain();
            let balance = Balance {
                place: Arc::clone(place),
                item: Arc::clone(item),
                amount,
                value: row.account.value().normalize(),
                average_price: row.account.price().map(|price| price.round_dp(crate::KEPT_DECIMALS).normalize()),
            };
            (!amount.is_empty()).then_some(balance)
        });
        balances.collect()
    }

    /// The sums of each item over all places.
    pub fn totals(&self) -> Vec<ItemTotal> {
        let totals = self.sums.iter().map(|(item, (amount, value))| ItemTotal {
            item: Arc::new(item.clone()),
            amount: amount.plain(),
            value: value.plain(),
        });
        totals.collect()
    }

    /// Lots that are somewhere, but for those in repairs.
    pub fn lots(&self) -> Vec<LotBalance> {
        let held = self.rows.iter().filter(|(place, _, _)| !matches!(**place, StockPlace::Repair { .. }));
        let lots = held.flat_map(|(place, item, row)| {
            row.account.lots.all().map(|piece| LotBalance {
                place: Arc::clone(place),
                item: Arc::clone(item),
                lot: piece.lot,
                amount: piece.amount.normalize(),
            })
        });
        lots.collect()
    }
}

/// What somebody has to look at as it stands at the end of the period.
pub fn at_the_end(facts: &Facts<'_>, posted: &Posted, settings: &Settings) -> Vec<Finding> {
    let mut findings = Vec::new();
    let day = settings.period.to;
    for lot in posted.lots() {
        let Some(use_by) = lot.lot.use_by.filter(|use_by| *use_by < day) else { continue };
        let at = words::place(&lot.place, facts);
        let amount = words::amount(lot.amount, &lot.item);
        findings.push(Finding {
            kind: FindingKind::PastUseBy,
            place: Some(lot.place.as_ref().clone()),
            item: Some(lot.item.as_ref().clone()),
            event: None,
            day,
            amount: Some(lot.amount),
            words: format!("{at}: {amount} of lot {} was to be used by {use_by}", lot.lot.number),
        });
    }
    for (number, zone) in &facts.zones {
        let place = StockPlace::Zone { zone: *number };
        let left = zone.closed.map(|_| devices_left(&place, zone, posted)).unwrap_or_default();
        let closed_by = zone.closed.map(|(_, event)| event);
        for (item, amount, what) in left {
            let at = words::place(&place, facts);
            findings.push(Finding {
                kind: FindingKind::DevicesLeft,
                place: Some(place.clone()),
                item,
                event: closed_by,
                day,
                amount: Some(amount),
                words: format!("{what} still on the road: {at} is closed"),
            });
        }
        if let (Some((opened, event)), None) = (zone.opened, zone.closed)
            && settings.day(opened) < day
        {
            let at = words::place(&place, facts);
            let (kind, place) = (FindingKind::ZoneNotClosed, Some(place));
            let words = format!("{at}: open since {}, and nobody said that the signs are in", settings.day(opened));
            findings.push(Finding { kind, place, item: None, event: Some(event), day, amount: None, words });
        }
    }
    findings
}

/// Devices that stand at a closed zone: by what was moved there, else by what was counted out and in.
fn devices_left(place: &StockPlace, zone: &Zone<'_>, posted: &Posted) -> Vec<(Option<StockItem>, Decimal, String)> {
    let at = posted.rows.partition_point(|(other, _, _)| **other < *place);
    let here = posted.rows[at..].iter().take_while(|(other, _, _)| **other == *place);
    let moved: Vec<_> = here
        .filter(|(_, _, row)| row.account.quantity() > Decimal::ZERO)
        .map(|(_, item, row)| {
            let amount = row.account.quantity();
            (Some(item.as_ref().clone()), amount, words::amount(amount, item))
        })
        .collect();
    if !moved.is_empty() {
        return moved;
    }
    let left = zone.devices_out.zip(zone.devices_in).map_or(0, |(out, taken_in)| out.saturating_sub(taken_in));
    if left == 0 {
        return Vec::new();
    }
    let amount = Decimal::from(left);
    let device = StockItem { what: StockKind::OtherDevice, which: String::new() };
    vec![(None, amount, words::amount(amount, &device).replace("other ", ""))]
}
