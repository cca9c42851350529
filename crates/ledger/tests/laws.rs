//! Laws that hold for any events: stock and money are neither made nor lost.

mod common;

use std::collections::{BTreeMap, BTreeSet};

use common::*;
use jiff::Timestamp;
use ledger::{Books, CostSums, Period, Settings, Sums};
use model::record::event::{Event, SCHEMA_VERSION};
use model::record::happened::{Happened, Subject};
use model::record::stock::{StockItem, StockKind, StockLot, StockPlace};
use proptest::prelude::*;
use rust_decimal::Decimal;

fn places() -> Vec<StockPlace> {
    let mut places = vec![supplier(), depot(), truck(), waste("spilt"), repair(50), repair(51)];
    places.push(StockPlace::Supplier { name: "Harrowfen Tar".to_owned() });
    places.push(StockPlace::Truck { crew: "Crew Dunlin".to_owned() });
    places.push(StockPlace::Zone { zone: id(7) });
    places
}

fn items() -> Vec<StockItem> {
    vec![base(), binder(), item(StockKind::Binder, ""), item(StockKind::Spoil, ""), item(StockKind::Cone, "")]
}

/// Mostly amounts of the trade; some with too many digits, some that can't be.
fn any_amount() -> impl Strategy<Value = Decimal> {
    prop_oneof![
        8 => (0_i64..5_000).prop_map(|litres| Decimal::new(litres, 3)),
        2 => (0_i64..900_000_000_000).prop_map(|long| Decimal::new(long, 10)),
        1 => prop_oneof![
            Just(Decimal::MAX),
            Just(Decimal::MIN),
            Just(Decimal::ZERO),
            Just(Decimal::new(1, 28)),
            Just(Decimal::from(10_000_000)),
            Just(Decimal::NEGATIVE_ONE),
        ],
    ]
}

fn any_lot() -> impl Strategy<Value = Option<StockLot>> {
    let lots = [("A", None), ("B", Some("2031-06-10")), ("C", Some("2031-08-01"))];
    prop::option::of(prop::sample::select(lots.to_vec()))
        .prop_map(|lot| lot.map(|(number, use_by)| StockLot { number: number.to_owned(), use_by: use_by.map(day) }))
}

fn any_stock() -> impl Strategy<Value = Happened> {
    let place = || prop::sample::select(places());
    let item = || prop::sample::select(items());
    prop_oneof![
        5 => (place(), place(), item(), any_amount(), prop::option::of(any_amount()), any_lot()).prop_map(
            |(from, to, item, amount, unit_price, lot)| Happened::StockMoved { from, to, item, amount, unit_price, lot }
        ),
        1 => (place(), item(), any_amount()).prop_map(|(place, item, amount)| Happened::StockCounted { place, item, amount }),
    ]
}

fn any_work() -> impl Strategy<Value = Happened> {
    let repair = || prop::sample::select(vec![50_u128, 51, 52]);
    let amount = || prop::option::of(any_amount().prop_map(|amount| amount.to_string()));
    let on = prop::sample::select(vec![
        Subject::Repair(id(50)),
        Subject::Repair(id(99)),
        Subject::Round(id(1)),
        Subject::Zone(id(7)),
        Subject::Hole(id(10_050)),
    ]);
    prop_oneof![
        (repair(), 1_u32..3, amount(), amount()).prop_map(|(repair, number, base, water)| layer(
            repair,
            number,
            base.as_deref(),
            water.as_deref()
        )),
        (repair(), amount(), prop::bool::ANY, amount()).prop_map(|(repair, binder, named, stone)| {
            sealed(repair, binder.as_deref(), if named { "CRS-2" } else { "" }, stone.as_deref())
        }),
        (on, any_amount(), any_amount(), prop::bool::ANY).prop_map(|(on, labour_min, plant_min, named)| {
            let crew = if named { "Crew Dunlin" } else { "" }.to_owned();
            Happened::TimeBooked { on, crew, labour_min, plant_min }
        }),
        (1_u128..3, repair(), any_amount()).prop_map(|(number, repair, minutes)| {
            let mut planned = planned(repair, if repair == 50 { "Kiln Lane" } else { "" }, "0.4", "3", "40");
            planned.minutes = minutes;
            round(number, "2031-06-15", if number == 1 { "Crew Fulmar" } else { "Crew Dunlin" }, vec![planned])
        }),
        (repair(), prop::option::of(Just(7_u128)), -1.0..9.0).prop_map(|(repair, zone, area)| cut(repair, zone, area)),
        prop::option::of(0_u32..9).prop_map(|out| zone_opened(7, Some(1), "Heron Road", out)),
        prop::option::of(0_u32..9).prop_map(|taken_in| zone_closed(7, taken_in)),
    ]
}

/// Seconds from the beginning of May to the end of July.
fn any_second() -> impl Strategy<Value = i64> {
    1_935_367_200_i64..1_943_316_000
}

fn events(happened: impl Strategy<Value = Happened>) -> impl Strategy<Value = Vec<Event>> {
    let corrected = (0_u128..40, prop::option::of(any_stock()));
    let one = (any_second(), happened, prop::option::weighted(0.1, corrected), -90_000_i64..90_000);
    prop::collection::vec(one, 0..40).prop_map(|all| {
        let events = all.into_iter().zip(0_u128..).map(|((second, happened, correction, ahead), number)| Event {
            id: id(1000 + number),
            schema: SCHEMA_VERSION,
            actor: "mara".to_owned(),
            device: "phone-1".to_owned(),
            device_time: Timestamp::from_second(second).expect("in range"),
            clock_ahead_ms: ahead,
            happened: match correction {
                None => happened,
                Some((of, instead)) => {
                    Happened::Corrected { event: id(1000 + of), instead: instead.map(Box::new), why: String::new() }
                }
            },
        });
        events.collect()
    })
}

fn any_events() -> impl Strategy<Value = Vec<Event>> {
    events(prop_oneof![any_stock(), any_work()])
}

fn of_days(from: &str, to: &str) -> Settings {
    Settings { period: Period { from: day(from), to: day(to) }, ..june() }
}

fn is_repair(place: &StockPlace) -> bool {
    matches!(place, StockPlace::Repair { .. })
}

fn add(into: &mut CostSums, costs: &CostSums) {
    into.labour += costs.labour;
    into.plant += costs.plant;
    into.base += costs.base;
    into.cover_stone += costs.cover_stone;
    into.binder += costs.binder;
    into.water += costs.water;
    into.other_material += costs.other_material;
    into.wasted += costs.wasted;
    into.count_difference += costs.count_difference;
    into.price_difference += costs.price_difference;
    into.total += costs.total;
}

fn sum<'a>(all: impl Iterator<Item = &'a CostSums>) -> CostSums {
    let mut whole = CostSums::default();
    all.for_each(|costs| add(&mut whole, costs));
    whole
}

fn stock_is_kept(books: &Books) -> Result<(), TestCaseError> {
    let mut held: BTreeMap<StockItem, (Decimal, Decimal)> = BTreeMap::new();
    let mut between: BTreeMap<StockItem, Decimal> = BTreeMap::new();
    for balance in &books.balances {
        let amount = balance.amount;
        prop_assert_eq!(amount.expected(), amount.closed, "{:?}", balance);
        let sum = held.entry(balance.item.as_ref().clone()).or_default();
        if !is_repair(&balance.place) {
            sum.0 += amount.closed;
            sum.1 += balance.value;
        }
        *between.entry(balance.item.as_ref().clone()).or_default() +=
            amount.moved_in + amount.taken_out - amount.moved_out - amount.used;
        let of_lots = books.lots.iter().filter(|lot| lot.place == balance.place && lot.item == balance.item);
        let of_lots: Decimal = of_lots.map(|lot| lot.amount).sum();
        prop_assert!(of_lots <= amount.closed.max(Decimal::ZERO), "{of_lots} on lots: {balance:?}");
    }
    for total in &books.totals {
        prop_assert_eq!(total.amount.expected(), total.amount.closed, "{:?}", total);
        prop_assert_eq!(total.value.expected(), total.value.closed, "{:?}", total);
        let (amount, value) = held.get(&*total.item).copied().unwrap_or_default();
        prop_assert_eq!((amount, value), (total.amount.closed, total.value.closed), "{:?}", total);
    }
    prop_assert!(between.values().all(Decimal::is_zero), "what left one place came to another: {between:?}");
    Ok(())
}

fn money_is_kept(books: &Books) -> Result<(), TestCaseError> {
    let costs = &books.costs;
    let total = costs.total;
    let parts: Decimal = total.parts().iter().map(|(_, money)| *money).sum();
    prop_assert_eq!(parts, total.total);
    prop_assert_eq!(sum(costs.repairs.iter().map(|of| &of.costs)), total);
    for groups in [&costs.roads, &costs.crews, &costs.months] {
        prop_assert_eq!(sum(groups.iter().map(|of| &of.costs)), total);
    }
    let of_stock = |pick: fn(&Sums) -> Decimal| books.totals.iter().map(|total| pick(&total.value)).sum::<Decimal>();
    let material = total.base + total.cover_stone + total.binder + total.water + total.other_material;
    prop_assert_eq!(material, of_stock(|sums| sums.into_repairs));
    prop_assert_eq!(total.wasted, of_stock(|sums| sums.wasted));
    prop_assert_eq!(total.count_difference, -of_stock(|sums| sums.found));
    prop_assert_eq!(total.price_difference, of_stock(|sums| sums.price_difference));
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn stock_and_money_add_up(events in any_events()) {
        for settings in [june(), of_days("2031-05-01", "2031-08-01"), of_days("2031-06-20", "2031-06-19")] {
            let books = ledger::books(&events, &settings);
            stock_is_kept(&books)?;
            money_is_kept(&books)?;
        }
    }

    /// The moves alone give the balances: an own sum over them.
    #[test]
    fn moves_give_the_balances(events in any_events()) {
        let books = ledger::books(&events, &of_days("2031-01-01", "2031-12-31"));
        let mut sums: BTreeMap<(StockPlace, StockItem), Decimal> = BTreeMap::new();
        for a_move in &books.moves {
            for (place, amount) in [(&a_move.from, -a_move.amount), (&a_move.to, a_move.amount)] {
                if let Some(place) = place {
                    *sums.entry((place.as_ref().clone(), a_move.item.as_ref().clone())).or_default() += amount;
                }
            }
            let of_lots: Decimal = a_move.lots.iter().map(|piece| piece.amount).sum();
            prop_assert!(of_lots <= a_move.amount);
            prop_assert!(a_move.amount > Decimal::ZERO && a_move.value >= Decimal::ZERO);
        }
        for balance in &books.balances {
            let sum = sums.get(&(balance.place.as_ref().clone(), balance.item.as_ref().clone()));
            prop_assert_eq!(sum.copied().unwrap_or_default(), balance.amount.closed);
        }
    }

    /// Which events there are counts, not in which order they came or how often.
    #[test]
    fn the_order_of_arrival_does_not_matter(events in any_events(), turn in 0_usize..40) {
        let settings = june();
        let books = ledger::books(&events, &settings);
        let mut other: Vec<Event> = events.iter().rev().cloned().collect();
        if !other.is_empty() {
            let turn = turn % other.len();
            other.rotate_left(turn);
            other.push(other[0].clone());
        }
        let again = ledger::books(&other, &settings);
        prop_assert_eq!(&books, &again);
        prop_assert_eq!(books.workbook().unwrap(), again.workbook().unwrap());
        let as_json = serde_json::to_string(&books).unwrap();
        prop_assert_eq!(as_json, serde_json::to_string(&again).unwrap());
    }

    /// What June ends with is what July begins with.
    #[test]
    fn one_month_follows_the_other(events in events(any_stock())) {
        let ended = ledger::books(&events, &june());
        let begun = ledger::books(&events, &of_days("2031-07-01", "2031-07-31"));
        let closed: BTreeSet<_> = ended.balances.iter().filter(|balance| !balance.amount.closed.is_zero())
            .map(|balance| (balance.place.clone(), balance.item.clone(), balance.amount.closed.normalize())).collect();
        let opened: BTreeSet<_> = begun.balances.iter().filter(|balance| !balance.amount.opened.is_zero())
            .map(|balance| (balance.place.clone(), balance.item.clone(), balance.amount.opened.normalize())).collect();
        prop_assert_eq!(closed, opened);
        for total in &begun.totals {
            let before = ended.totals.iter().find(|before| before.item == total.item).map(|before| before.value.closed);
            prop_assert_eq!(before.unwrap_or_default(), total.value.opened);
        }
    }
}
