//! Worked examples of the handbook's page, read from the page itself.

mod common;

use common::*;
use ledger::{Books, Period, ReorderRule, Settings};
use model::record::happened::{Happened, Subject};
use model::record::known::TimePrices;
use serde::Deserialize;
use testkit::worked_examples;

#[derive(Deserialize)]
struct Valued {
    steps: Vec<String>,
    amount: String,
    value: String,
    average: String,
    price_difference: String,
}

#[test]
fn stock_is_valued_at_its_moving_average() {
    for case in worked_examples::<Valued>("stock-and-cost", "average") {
        let mut story = Story::default();
        for (minute, step) in (10..).zip(&case.steps) {
            let happened = match step.split(' ').collect::<Vec<_>>()[..] {
                ["buy", amount, "at", price] => bought(depot(), base(), amount, price),
                ["use", amount] => moved(depot(), repair(50), base(), amount),
                ["waste", amount] => moved(depot(), waste("spilt"), base(), amount),
                ["count", amount] => counted(depot(), base(), amount),
                _ => panic!("{step}"),
            };
            story.tell(&format!("2031-06-02T06:{minute}"), happened);
        }
        let books = story.books(&june());
        let balance = balance(&books, &depot(), &base());
        assert_eq!(balance.amount.closed, decimal(&case.amount), "{:?}", case.steps);
        assert_eq!(balance.value, decimal(&case.value), "{:?}", case.steps);
        assert_eq!(balance.average_price, Some(decimal(&case.average)), "{:?}", case.steps);
        assert_eq!(books.costs.total.price_difference, decimal(&case.price_difference), "{:?}", case.steps);
    }
}

#[derive(Deserialize)]
struct SharedTime {
    minutes: String,
    price_per_h: String,
    planned_minutes: Vec<String>,
    begun: Vec<bool>,
    costs: Vec<String>,
}

#[test]
fn time_on_a_round_is_shared() {
    for case in worked_examples::<SharedTime>("stock-and-cost", "shared_time") {
        let mut story = Story::default();
        let repairs = (50..).zip(&case.planned_minutes).map(|(repair, minutes)| planned(repair, "", "1", "1", minutes));
        story.tell("2031-06-02T06:00", round(1, "2031-06-02", "Crew Fulmar", repairs.collect()));
        for (repair, _) in (50..).zip(&case.begun).filter(|(_, begun)| **begun) {
            story.tell("2031-06-02T08:00", cut(repair, None, 1.0));
        }
        let (labour_min, plant_min) = (decimal(&case.minutes), 0.into());
        let (on, crew) = (Subject::Round(id(1)), "Crew Fulmar".to_owned());
        story.tell("2031-06-02T16:00", Happened::TimeBooked { on, crew, labour_min, plant_min });
        let prices = TimePrices { labour_per_h: decimal(&case.price_per_h), plant_per_h: 0.into() };
        let books = story.books(&Settings { prices, ..june() });
        let costs: Vec<String> = books.costs.repairs.iter().map(|of| of.costs.labour.to_string()).collect();
        assert_eq!(costs, case.costs);
    }
}

#[derive(Deserialize)]
struct Rounding {
    money: String,
    decimals: u32,
    shown: String,
}

#[test]
fn money_is_shown_half_to_even() {
    for case in worked_examples::<Rounding>("stock-and-cost", "shown") {
        let books = Books { money_decimals: case.decimals, ..Story::default().books(&june()) };
        assert_eq!(books.shown(decimal(&case.money)), case.shown);
    }
}

#[derive(Deserialize)]
struct Ordered {
    today: String,
    stock: String,
    needs: Vec<(String, String)>,
    lead_time_days: u32,
    safety_stock: String,
    order_unit: String,
    short_on: String,
    order_by: String,
    amount: String,
}

#[test]
fn orders_come_in_time() {
    for case in worked_examples::<Ordered>("stock-and-cost", "order") {
        let mut story = Story::default();
        story.tell("2031-06-01T06:00", bought(depot(), base(), &case.stock, "30"));
        for (number, (date, need)) in (1..).zip(&case.needs) {
            story.tell(
                "2031-06-02T06:00",
                round(number, date, "Crew Fulmar", vec![planned(50 + number, "", need, "1", "40")]),
            );
        }
        let rule = ReorderRule {
            depot: "Osk Yard".to_owned(),
            item: base(),
            lead_time_days: case.lead_time_days,
            safety_stock: decimal(&case.safety_stock),
            order_unit: Some(decimal(&case.order_unit)),
            source: "the page".to_owned(),
        };
        let period = Period { from: day("2031-06-01"), to: day(&case.today) };
        let books = story.books(&Settings { period, reorder_rules: vec![rule], ..june() });
        let order = books.reorders[0].order.as_ref().expect("to be ordered");
        assert_eq!((order.short_on, order.order_by), (day(&case.short_on), day(&case.order_by)));
        assert_eq!(order.amount, decimal(&case.amount));
    }
}
