//! When to order, and what goes off: worked by hand.

mod common;

use common::*;
use ledger::{Books, Order, Period, ReorderRule, Settings};
use model::record::stock::{StockItem, StockKind};
use rust_decimal::Decimal;

fn rule(item: StockItem, lead_time_days: u32, safety: &str, order_unit: Option<&str>) -> ReorderRule {
    ReorderRule {
        depot: "Osk Yard".to_owned(),
        item,
        lead_time_days,
        safety_stock: decimal(safety),
        order_unit: order_unit.map(decimal),
        source: "the yard's own".to_owned(),
    }
}

/// The first week of June is over.
fn on_the_seventh(rules: Vec<ReorderRule>) -> Settings {
    Settings { period: Period { from: day("2031-06-01"), to: day("2031-06-07") }, reorder_rules: rules, ..june() }
}

/// 5 m³ at the yard and 1 m³ on the truck; 1.5 m³ are needed on each of four days.
fn four_days() -> Story {
    let mut story = Story::default();
    story.tell("2031-06-01T06:00", bought(depot(), base(), "6", "30"));
    story.tell("2031-06-01T07:00", moved(depot(), truck(), base(), "1"));
    for (number, date) in (1..).zip(["2031-06-09", "2031-06-10", "2031-06-11", "2031-06-12"]) {
        story.tell(
            "2031-06-02T06:00",
            round(number, date, "Crew Fulmar", vec![planned(50 + number, "", "1.5", "20", "40")]),
        );
    }
    story
}

fn order(books: &Books) -> Option<&Order> {
    books.reorders[0].order.as_ref()
}

/// Arithmetic only: 6, 4.5, 3, 1.5, 0 at the ends of the days.
#[test]
fn orders_come_in_time() {
    // lead time, safety stock, order unit; short on, order by, days late, amount
    let cases = [
        (2, "1", None, Some(("2031-06-12", "2031-06-10", 0, "1"))),
        (2, "2", None, Some(("2031-06-11", "2031-06-09", 0, "2"))),
        (2, "2", Some("1.5"), Some(("2031-06-11", "2031-06-09", 0, "3"))),
        (7, "2", None, Some(("2031-06-11", "2031-06-04", 3, "2"))),
        (2, "0", None, None),
        (2, "7", None, Some(("2031-06-07", "2031-06-05", 2, "7"))),
        (u32::MAX, "2", None, Some(("2031-06-11", "2021-06-13", 3646, "2"))),
    ];
    for (lead, safety, unit, expected) in cases {
        let books = four_days().books(&on_the_seventh(vec![rule(base(), lead, safety, unit)]));
        let expected = expected.map(|(short_on, order_by, late_days, amount)| Order {
            short_on: day(short_on),
            order_by: day(order_by),
            late_days,
            amount: decimal(amount),
        });
        assert_eq!(order(&books), expected.as_ref(), "{lead} days, {safety} m³");
        assert_eq!((books.reorders[0].stock, books.reorders[0].needed), (6.into(), 6.into()));
    }
}

#[test]
fn orders_are_said_in_words() {
    let cases = [
        (
            2,
            "2",
            "Order 2 m³ of base by 2031-06-09: 6 m³ of base at Osk Yard and on its trucks; by the end of 2031-06-11 less than the \
             safety stock of 2 m³ of base is left",
        ),
        (
            7,
            "2",
            "Order 2 m³ of base now, 3 days late (it takes 7 days): 6 m³ of base at Osk Yard and on its trucks; by the end of \
             2031-06-11 less than the safety stock of 2 m³ of base is left",
        ),
        (2, "0", "6 m³ of base at Osk Yard and on its trucks; the plan needs 6 m³ of base: no order is needed"),
    ];
    for (lead, safety, expected) in cases {
        let books = four_days().books(&on_the_seventh(vec![rule(base(), lead, safety, None)]));
        assert_eq!(books.reorders[0].words, expected);
    }
}

/// What is done needs no more; what is begun needs the rest; what is planned again counts once, on its last day; other depots'
/// crews and the past do not count.
#[test]
fn needs_are_those_of_the_plan_as_it_stands() {
    let mut story = four_days();
    story.tell("2031-06-06T09:00", sealed(51, None, "", None));
    story.tell("2031-06-06T10:00", layer(52, 1, Some("0.6"), None));
    story.tell("2031-06-06T11:00", round(9, "2031-06-20", "Crew Fulmar", vec![planned(53, "", "1.4", "20", "40")]));
    story.tell("2031-06-06T12:00", round(10, "2031-06-10", "Crew Dunlin", vec![planned(70, "", "5", "20", "40")]));
    story.tell("2031-06-06T13:00", round(11, "2031-06-06", "Crew Fulmar", vec![planned(71, "", "7", "20", "40")]));
    let mut settings = on_the_seventh(vec![rule(base(), 1, "0", None)]);
    settings.crew_depots.insert("Crew Dunlin".to_owned(), "Knot Yard".to_owned());
    let books = story.books(&settings);
    // 52 needs 0.9 more, 53 1.4, 54 1.5
    assert_eq!(books.reorders[0].needed, decimal("3.8"));
    assert_eq!(books.reorders[0].stock, decimal("5.4"));
}

/// Arithmetic only: 20 l are needed each day from the 9th to the 12th; a lot of 50 l keeps until the 10th.
#[test]
fn what_goes_off_before_the_plan_uses_it() {
    let mut story = four_days();
    story.tell("2031-06-02T07:00", bought_lot(depot(), binder(), "50", "2", "B-soon", Some("2031-06-10")));
    story.tell("2031-06-02T07:10", bought_lot(depot(), binder(), "30", "2", "B-late", Some("2031-07-31")));
    let books = story.books(&on_the_seventh(vec![rule(binder(), 3, "5", Some("200"))]));
    assert_eq!(books.reorders[0].goes_off, 10.into());
    // 80, 60, 40 less 10 gone off, 10, -10
    let expected = Order { short_on: day("2031-06-12"), order_by: day("2031-06-09"), late_days: 0, amount: 200.into() };
    assert_eq!(order(&books), Some(&expected));
    let words: Vec<&str> = books.goes_off.iter().map(|lot| lot.words.as_str()).collect();
    assert_eq!(
        words,
        ["10 l of binder CRS-2 of lot B-soon at Osk Yard will not be used by 2031-06-10: the plan needs less"]
    );
    let mut settings = on_the_seventh(vec![rule(binder(), 3, "5", None)]);
    settings.usual.insert(StockKind::Binder, "MC-800".to_owned());
    let books = story.books(&settings);
    assert_eq!(books.reorders[0].needed, Decimal::ZERO, "another binder is the usual one");
    assert_eq!(books.goes_off.iter().map(|lot| lot.amount).sum::<Decimal>(), 80.into());
}

#[test]
fn what_went_off_is_no_stock() {
    let mut story = four_days();
    story.tell("2031-06-02T07:00", bought_lot(depot(), binder(), "100", "2", "B-old", Some("2031-06-05")));
    let books = story.books(&on_the_seventh(vec![rule(binder(), 1, "0", None)]));
    assert_eq!(
        books.goes_off[0].words,
        "100 l of binder CRS-2 of lot B-old at Osk Yard went off: it was to be used by 2031-06-05"
    );
    let expected = Order { short_on: day("2031-06-09"), order_by: day("2031-06-08"), late_days: 0, amount: 80.into() };
    assert_eq!(order(&books), Some(&expected));
}

/// A rule for goods that were never there.
#[test]
fn no_stock_at_all_is_ordered_at_once() {
    let books = Story::default().books(&on_the_seventh(vec![rule(base(), 3, "2", None)]));
    let expected = Order { short_on: day("2031-06-07"), order_by: day("2031-06-04"), late_days: 3, amount: 2.into() };
    assert_eq!(order(&books), Some(&expected));
}
