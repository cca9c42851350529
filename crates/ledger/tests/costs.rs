//! Costs, planned against actual: worked by hand.

mod common;

use common::*;
use ledger::{Books, Compared, CostSums, Settings};
use model::record::happened::{Happened, Subject};
use model::record::known::TimePrices;
use rust_decimal::Decimal;
use uuid::Uuid;

/// Two repairs of one round, one of them bigger than planned; a third that was not begun.
fn a_day() -> Story {
    let mut story = Story::default();
    story.tell("2031-05-30T08:00", bought(depot(), base(), "10", "30"));
    story.tell("2031-06-02T06:00", moved(depot(), truck(), base(), "2"));
    story.tell("2031-06-02T06:01", bought(truck(), binder(), "50", "2"));
    let repairs = vec![
        planned(50, "Kiln Lane", "0.4", "3", "30"),
        planned(51, "Heron Road", "0.2", "2", "15"),
        planned(52, "Heron Road", "0.3", "2", "20"),
    ];
    story.tell("2031-06-02T06:10", round(1, "2031-06-02", "Crew Fulmar", repairs));
    story.tell("2031-06-02T08:00", cut(50, None, 1.5));
    story.tell("2031-06-02T08:10", layer(50, 1, Some("0.5"), None));
    story.tell("2031-06-02T08:30", sealed(50, Some("3.5"), "CRS-2", None));
    story.tell("2031-06-02T09:00", layer(51, 1, Some("0.2"), None));
    story.tell("2031-06-02T11:00", booked(Subject::Repair(id(50)), "90", "40"));
    story.tell("2031-06-02T16:00", booked(Subject::Round(id(1)), "45", "0"));
    story.tell("2031-06-02T16:10", moved(truck(), waste("spilt"), base(), "0.1"));
    story
}

fn of_repair(books: &Books, repair: Option<Uuid>) -> CostSums {
    books.costs.repairs.iter().find(|costs| costs.of == repair).expect("it cost something").costs
}

/// Arithmetic only: labour at 30 an hour, plant at 45, base at 30, binder at 2.
#[test]
fn what_a_repair_costs() {
    let books = a_day().books(&june());
    // labour 90 min = 45, and 2/3 of the round's 22.50
    let kiln = of_repair(&books, Some(id(50)));
    let expected = CostSums {
        labour: 60.into(),
        plant: 30.into(),
        base: 15.into(),
        binder: 7.into(),
        total: 112.into(),
        ..CostSums::default()
    };
    assert_eq!(kiln, expected);
    let heron = of_repair(&books, Some(id(51)));
    assert_eq!(
        heron,
        CostSums { labour: decimal("7.5"), base: 6.into(), total: decimal("13.5"), ..CostSums::default() }
    );
    assert_eq!(of_repair(&books, None), CostSums { wasted: 3.into(), total: 3.into(), ..CostSums::default() });
    let named = |all: &[ledger::Costs<String>]| -> Vec<(String, String)> {
        all.iter().map(|costs| (costs.of.clone(), books.shown(costs.costs.total))).collect()
    };
    let pairs = |all: &[(&str, &str)]| -> Vec<(String, String)> {
        all.iter().map(|(of, money)| ((*of).to_owned(), (*money).to_owned())).collect()
    };
    assert_eq!(named(&books.costs.roads), pairs(&[("", "3.00"), ("Heron Road", "13.50"), ("Kiln Lane", "112.00")]));
    assert_eq!(named(&books.costs.crews), pairs(&[("Crew Fulmar", "128.50")]));
    assert_eq!(named(&books.costs.months), pairs(&[("2031-06", "128.50")]));
}

/// Time that belongs to no repair stays a cost, and a third of a minute is not lost in sharing.
#[test]
fn shared_time_adds_up_to_what_was_booked() {
    let mut story = Story::default();
    let repairs = (50..57).map(|repair| planned(repair, "", "0", "0", "0")).collect();
    story.tell("2031-06-02T06:00", round(1, "2031-06-02", "Crew Fulmar", repairs));
    story.tell("2031-06-02T07:00", booked(Subject::Round(id(1)), "1", "0"));
    let settings = Settings { prices: TimePrices { labour_per_h: 1.into(), plant_per_h: 1.into() }, ..june() };
    let none_begun = story.books(&settings);
    assert_eq!(none_begun.costs.repairs.len(), 1);
    assert_eq!(of_repair(&none_begun, None).total, decimal("0.016667"), "a sixtieth, kept to six decimals");
    for repair in 50..57 {
        story.tell("2031-06-02T08:00", layer(repair, 1, None, None));
    }
    let shared = story.books(&settings);
    assert_eq!(shared.costs.repairs.len(), 7);
    let least = decimal("0.002381");
    assert_eq!(of_repair(&shared, Some(id(50))).total, least);
    let sum: Decimal = shared.costs.repairs.iter().map(|costs| costs.costs.total).sum();
    assert_eq!(sum, decimal("0.016667"));
}

/// Costs are of the day they were booked on, repairs of the day of their last stage.
#[test]
fn months_are_kept_apart() {
    let mut story = a_day();
    story.tell("2031-07-01T08:00", booked(Subject::Repair(id(50)), "60", "0"));
    let july = Settings { period: ledger::Period { from: day("2031-07-01"), to: day("2031-07-31") }, ..june() };
    let books = story.books(&july);
    assert_eq!(books.costs.total, CostSums { labour: 30.into(), total: 30.into(), ..CostSums::default() });
    assert!(books.planned.repairs.is_empty());
}

fn compared(planned: &str, actual: &str, difference: &str, ratio: &str) -> Compared {
    let some = |text: &str| (!text.is_empty()).then(|| decimal(text));
    Compared { planned: some(planned), actual: some(actual), difference: some(difference), ratio: some(ratio) }
}

/// Arithmetic only.
#[test]
fn planned_against_actual() {
    let books = a_day().books(&june());
    let repairs = &books.planned.repairs;
    assert_eq!(repairs.iter().map(|repair| repair.repair).collect::<Vec<_>>(), [id(50), id(51), id(52)]);
    let kiln = &repairs[0].quantities;
    assert_eq!(kiln.area_m2, compared("1.2", "1.5", "0.3", "1.25"));
    assert_eq!(kiln.base_loose_m3, compared("0.4", "0.5", "0.1", "1.25"));
    assert_eq!(kiln.binder_l, compared("3", "3.5", "0.5", "1.1667"));
    assert_eq!(kiln.water_l, compared("10", "", "", ""), "nobody said");
    assert_eq!(kiln.minutes, compared("30", "40", "10", "1.3333"));
    assert!(repairs[0].done && !repairs[1].done);
    assert_eq!(repairs[2].quantities.base_loose_m3, compared("0.3", "", "", ""), "not begun");
    let heron = books.planned.roads.iter().find(|total| total.of == "Heron Road").expect("planned");
    assert_eq!((heron.repairs, heron.quantities.base_loose_m3.repairs), (2, 1));
    assert_eq!(heron.quantities.base_loose_m3.compared, compared("0.2", "0.2", "0", "1"));
    assert_eq!(heron.quantities.binder_l.compared, compared("", "", "", ""));
    let crew = &books.planned.crews[0];
    assert_eq!((crew.of.as_str(), crew.repairs), ("Crew Fulmar", 3));
    assert_eq!(crew.quantities.base_loose_m3.compared, compared("0.6", "0.7", "0.1", "1.1667"));
    assert_eq!(books.planned.months[0].quantities, crew.quantities);
}

/// The crew is the booking's; where it names none, the repair's or the round's.
#[test]
fn time_without_a_crew_is_the_crews_of_the_round() {
    let mut story = a_day();
    let on = Subject::Round(id(1));
    story.tell(
        "2031-06-02T17:00",
        Happened::TimeBooked { on, crew: String::new(), labour_min: 60.into(), plant_min: 0.into() },
    );
    let books = story.books(&june());
    assert_eq!(books.costs.crews.len(), 1);
    assert_eq!(books.costs.crews[0].costs.labour, decimal("97.5"));
}
