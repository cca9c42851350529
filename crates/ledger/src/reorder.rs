//! When to order what, and what will go off before it is used.

use std::collections::BTreeMap;

use jiff::ToSpan;
use jiff::civil::Date;
use model::record::happened::PlannedRepair;
use model::record::stock::{StockItem, StockKind, StockLot, StockPlace};
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::Serialize;
use uuid::Uuid;

use crate::amount;
use crate::facts::Facts;
use crate::lots::{LotAmount, Lots};
use crate::posting::Posted;
use crate::settings::{ReorderRule, Settings};
use crate::words;

/// Whether an item has to be ordered for a depot.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Reorder {
    /// The rule, with its source.
    pub rule: ReorderRule,
    /// At the depot and on the trucks that load there, at the end of the period.
    pub stock: Decimal,
    /// What rounds planned for the last day of the period and later still need.
    pub needed: Decimal,
    /// What will go off before it is used.
    pub goes_off: Decimal,
    /// What must be done; absent: the plan needs no order.
    pub order: Option<Order>,
    /// In words.
    pub words: String,
}

/// An order to be made.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Order {
    /// First day at the end of which less than the safety stock would be left.
    #[schemars(with = "String", extend("format" = "date"))]
    pub short_on: Date,
    /// Last day on which an order comes in time; it may be over.
    #[schemars(with = "String", extend("format" = "date"))]
    pub order_by: Date,
    /// Days since then, on the last day of the period.
    pub late_days: i64,
    /// How much: what keeps the safety stock to the end of the plan, in whole order units.
    pub amount: Decimal,
}

/// An amount of a lot that will go off before the plan uses it, or that is past its day.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct GoesOff {
    /// Name of the depot at which it, or the truck that it is on, is.
    pub depot: String,
    /// What.
    pub item: StockItem,
    /// The lot.
    pub lot: StockLot,
    /// How much of it.
    pub amount: Decimal,
    /// In words.
    pub words: String,
}

/// Looks ahead: what to order, and what goes off.
pub fn look_ahead(facts: &Facts<'_>, posted: &Posted, settings: &Settings) -> (Vec<Reorder>, Vec<GoesOff>) {
    let needs = needs(facts, posted, settings);
    let stocks = stocks(posted, settings);
    let nothing = (BTreeMap::new(), Stock::default());
    let mut goes_off = Vec::new();
    for ((depot, item), stock) in &stocks {
        let needed = of_item(&needs, depot, item, settings).unwrap_or(&nothing.0);
        goes_off.extend(run_down(stock, needed, settings.period.to).went_off.into_iter().map(|piece| {
            let words = goes_off_words(depot, item, &piece, settings.period.to);
            GoesOff {
                depot: depot.clone(),
                item: item.clone(),
                lot: piece.lot,
                amount: piece.amount.normalize(),
                words,
            }
        }));
    }
    let reorders = settings.reorder_rules.iter().map(|rule| {
        let stock = stocks.get(&(rule.depot.clone(), rule.item.clone())).unwrap_or(&nothing.1);
        let needed = of_item(&needs, &rule.depot, &rule.item, settings).unwrap_or(&nothing.0);
        reorder(rule, stock, needed, settings.period.to)
    });
    (reorders.collect(), goes_off)
}

/// No order takes longer than this; what a rule says beyond it is cut to it.
const LONGEST_LEAD_DAYS: u32 = 3650;

/// Needs of a kind at a depot, by day.
type Needs = BTreeMap<(String, StockKind), BTreeMap<Date, Decimal>>;

/// What there is of an item at a depot and on the trucks that load there.
#[derive(Debug, Clone, Default)]
struct Stock {
    quantity: Decimal,
    lots: Lots,
}

/// How stock runs down.
struct RunDown {
    /// What is left at the end of each day on which something is needed or goes off.
    left: Vec<(Date, Decimal)>,
    went_off: Vec<LotAmount>,
}

/// What planned repairs that are not done still need: what was planned less what is in them.
fn needs(facts: &Facts<'_>, posted: &Posted, settings: &Settings) -> Needs {
    let mut there: BTreeMap<(Uuid, StockKind), Decimal> = BTreeMap::new();
    for (place, item, row) in &posted.rows {
        if let StockPlace::Repair { repair } = **place {
            *there.entry((repair, item.what)).or_default() += row.account.quantity();
        }
    }
    let mut needs = Needs::new();
    for (number, round) in facts.rounds.iter().filter(|(_, round)| round.date >= settings.period.to) {
        let depot = settings.depot_of(round.crew);
        for planned in round.repairs {
            let Some(repair) = facts.repairs.get(&planned.repair) else { continue };
            // planned again in another round: it is needed there
            if repair.done || repair.planned.is_none_or(|(last, _)| last != *number) {
                continue;
            }
            for (kind, amount) in planned_materials(planned) {
                let Ok(amount) = amount::counted(amount) else { continue };
                let there = there.get(&(planned.repair, kind)).copied().unwrap_or_default().max(Decimal::ZERO);
                let needed = (amount - there).max(Decimal::ZERO);
                *needs.entry((depot.to_owned(), kind)).or_default().entry(round.date).or_default() += needed;
            }
        }
    }
    needs
}

fn planned_materials(planned: &PlannedRepair) -> [(StockKind, Decimal); 4] {
    [
        (StockKind::Base, planned.base_loose_m3),
        (StockKind::Water, planned.water_l),
        (StockKind::Binder, planned.binder_l),
        (StockKind::CoverStone, planned.cover_stone_m3),
    ]
}

/// The needs that an item has to meet: those of its kind, unless another of the kind is the usual one.
fn of_item<'a>(
    needs: &'a Needs,
    depot: &str,
    item: &StockItem,
    settings: &Settings,
) -> Option<&'a BTreeMap<Date, Decimal>> {
    let another = settings.usual.get(&item.what).is_some_and(|usual| *usual != item.which);
    if another { None } else { needs.get(&(depot.to_owned(), item.what)) }
}

fn stocks(posted: &Posted, settings: &Settings) -> BTreeMap<(String, StockItem), Stock> {
    let mut stocks: BTreeMap<(String, StockItem), Stock> = BTreeMap::new();
    for (place, item, row) in &posted.rows {
        let depot = match &**place {
            StockPlace::Depot { name } => name,
            StockPlace::Truck { crew } => settings.depot_of(crew),
            _ => continue,
        };
        let stock = stocks.entry((depot.to_owned(), item.as_ref().clone())).or_default();
        stock.quantity += row.account.quantity();
        for piece in row.account.lots.all() {
            stock.lots.put(&piece.lot, piece.amount);
        }
    }
    stocks
}

/// Uses stock day by day, what goes off first first; what is left of a lot at the end of its last day is lost.
fn run_down(stock: &Stock, needed: &BTreeMap<Date, Decimal>, today: Date) -> RunDown {
    let mut lots = stock.lots.clone();
    // more on lots than there is at all: some truck is overdrawn, and what was taken there is taken of the lots
    let over = lots.total() - stock.quantity.max(Decimal::ZERO);
    if over > Decimal::ZERO {
        lots.take(over, None);
    }
    let mut quantity = stock.quantity;
    let mut days: Vec<Date> = needed.keys().copied().collect();
    days.extend(lots.all().filter_map(|piece| piece.lot.use_by).map(|use_by| use_by.max(today)));
    days.sort_unstable();
    days.dedup();
    let mut run = RunDown { left: Vec::with_capacity(days.len()), went_off: Vec::new() };
    for day in days {
        run.went_off.extend(gone(&mut lots, &mut quantity, |use_by| use_by < day));
        if let Some(amount) = needed.get(&day) {
            lots.take(*amount, None);
            quantity -= *amount;
        }
        run.went_off.extend(gone(&mut lots, &mut quantity, |use_by| use_by <= day));
        run.left.push((day, quantity));
    }
    run
}

/// Takes out the lots whose last day is over.
fn gone(lots: &mut Lots, quantity: &mut Decimal, is_over: impl Fn(Date) -> bool) -> Vec<LotAmount> {
    let gone: Vec<LotAmount> = lots.all().filter(|piece| piece.lot.use_by.is_some_and(&is_over)).collect();
    for piece in &gone {
        // those that go off first are also taken first
        lots.take(piece.amount, None);
        *quantity -= piece.amount;
    }
    gone
}

fn reorder(rule: &ReorderRule, stock: &Stock, needed: &BTreeMap<Date, Decimal>, today: Date) -> Reorder {
    let run = run_down(stock, needed, today);
    let needed: Decimal = needed.values().sum();
    let goes_off: Decimal = run.went_off.iter().map(|piece| piece.amount).sum();
    let safety = rule.safety_stock.clamp(Decimal::ZERO, amount::GREATEST);
    let short_now = (stock.quantity < safety).then_some(today);
    let short_on = short_now.or_else(|| run.left.iter().find(|(_, left)| *left < safety).map(|(day, _)| *day));
    let least = run.left.iter().map(|(_, left)| *left).min().unwrap_or(stock.quantity).min(stock.quantity);
    let order = short_on.map(|short_on| {
        let lead = i64::from(rule.lead_time_days.min(LONGEST_LEAD_DAYS));
        let order_by = short_on.checked_sub(lead.days()).unwrap_or(Date::MIN);
        let late_days = i64::from((today - order_by).get_days()).max(0);
        Order { short_on, order_by, late_days, amount: in_units(safety - least, rule.order_unit) }
    });
    let words = reorder_words(rule, stock.quantity, needed, order.as_ref());
    Reorder {
        rule: rule.clone(),
        stock: stock.quantity.normalize(),
        needed: needed.normalize(),
        goes_off: goes_off.normalize(),
        order,
        words,
    }
}

/// Rounded up to whole order units.
fn in_units(amount: Decimal, unit: Option<Decimal>) -> Decimal {
    match unit.and_then(|unit| amount::moved(unit).ok()) {
        Some(unit) => ((amount / unit).ceil() * unit).normalize(),
        None => amount.normalize(),
    }
}

fn reorder_words(rule: &ReorderRule, stock: Decimal, needed: Decimal, order: Option<&Order>) -> String {
    let item = &rule.item;
    let there = format!("{} at {} and on its trucks", words::amount(stock, item), rule.depot);
    let Some(order) = order else {
        return format!("{there}; the plan needs {}: no order is needed", words::amount(needed, item));
    };
    let amount = words::amount(order.amount, item);
    let safety = words::amount(rule.safety_stock, item);
    let short = format!("{there}; by the end of {} less than the safety stock of {safety} is left", order.short_on);
    if order.late_days == 0 {
        format!("Order {amount} by {}: {short}", order.order_by)
    } else {
        let late = words::days(order.late_days);
        format!("Order {amount} now, {late} late (it takes {}): {short}", words::days(rule.lead_time_days.into()))
    }
}

fn goes_off_words(depot: &str, item: &StockItem, piece: &LotAmount, today: Date) -> String {
    let amount = words::amount(piece.amount, item);
    let number = &piece.lot.number;
    match piece.lot.use_by {
        Some(use_by) if use_by < today => {
            format!("{amount} of lot {number} at {depot} went off: it was to be used by {use_by}")
        }
        Some(use_by) => {
            format!("{amount} of lot {number} at {depot} will not be used by {use_by}: the plan needs less")
        }
        None => format!("{amount} of lot {number} at {depot}"),
    }
}
