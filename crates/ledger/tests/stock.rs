//! Stock books, worked by hand.

mod common;

use common::*;
use ledger::{FindingKind, Period, Settings, ToldBy};
use model::record::happened::{Happened, Subject};
use model::record::stock::{StockKind, StockLot, StockPlace};

/// Arithmetic only: two days by hand. The first is before the period.
#[test]
fn a_month_adds_up() {
    let mut story = Story::default();
    story.tell("2031-05-31T08:00", bought(depot(), base(), "20", "30"));
    story.tell("2031-05-31T23:59", moved(depot(), truck(), base(), "1.5"));
    story.tell(
        "2031-06-01T00:00",
        round(1, "2031-06-02", "Crew Fulmar", vec![planned(50, "Kiln Lane", "0.4", "3", "40")]),
    );
    story.tell("2031-06-02T09:00", layer(50, 1, Some("0.2"), None));
    story.tell("2031-06-02T09:30", layer(50, 2, Some("0.25"), None));
    story.tell("2031-06-02T10:00", moved(truck(), waste("spilt"), base(), "0.05"));
    story.tell("2031-06-02T16:00", moved(truck(), depot(), base(), "0.9"));
    story.tell("2031-06-02T16:10", moved(depot(), supplier(), base(), "2"));
    story.tell("2031-06-02T16:20", counted(depot(), base(), "17"));
    story.tell("2031-06-02T16:30", moved(repair(50), truck(), base(), "0.1"));
    let books = story.books(&june());
    let cases = [
        (depot(), "opened 18.5 returned 2 moved_in 0.9 found -0.4 closed 17"),
        (truck(), "opened 1.5 taken_out 0.1 used 0.45 wasted 0.05 moved_out 0.9 closed 0.2"),
        (repair(50), "moved_in 0.45 moved_out 0.1 closed 0.35"),
    ];
    for (place, expected) in cases {
        assert_eq!(balance(&books, &place, &base()).amount, flows(expected), "{place:?}");
    }
    let total = &books.totals[0].amount;
    assert_eq!(total.opened, 20.into());
    assert_eq!((total.bought, total.into_repairs, total.wasted), ((-2).into(), decimal("0.35"), decimal("0.05")));
    assert_eq!((total.found, total.closed), (decimal("-0.4"), decimal("17.2")));
    assert_eq!(books.totals[0].value.closed, decimal("516"), "17.2 at 30");
    assert!(books.findings.is_empty(), "{:?}", books.findings);
    assert_eq!(books.moves.len(), 7, "those of the period");
}

/// Arithmetic only. The day begins at local midnight, not at UTC's.
#[test]
fn days_are_the_districts() {
    let mut story = Story::default();
    story.tell_at("2031-06-01T01:59:59Z".parse().unwrap(), bought(depot(), base(), "1", "30"));
    story.tell_at("2031-06-01T02:00:00Z".parse().unwrap(), bought(depot(), base(), "10", "30"));
    story.tell_at("2031-07-01T01:59:59Z".parse().unwrap(), bought(depot(), base(), "100", "30"));
    story.tell_at("2031-07-01T02:00:00Z".parse().unwrap(), bought(depot(), base(), "1000", "30"));
    let books = story.books(&june());
    assert_eq!(balance(&books, &depot(), &base()).amount, flows("opened 1 received 110 closed 111"));
    let days: Vec<String> = books.moves.iter().map(|a_move| a_move.day.to_string()).collect();
    assert_eq!(days, ["2031-06-01", "2031-06-30"]);
}

/// Where a repair is booked by hand, its layers do not book it again; the difference is said.
#[test]
fn nothing_is_used_twice() {
    let by_hand = || moved(truck(), repair(50), base(), "0.5");
    let told = [layer(50, 1, Some("0.2"), Some("5")), layer(50, 2, Some("0.2"), None)];
    // what more happened, base used by the books, findings of a difference
    let cases: [(&str, Vec<Happened>, &str, usize); 4] = [
        ("by hand alone", vec![by_hand()], "0.5", 0),
        ("told alone", told.to_vec(), "0.4", 0),
        ("by hand first", [vec![by_hand()], told.to_vec()].concat(), "0.5", 1),
        ("by hand last", [told.to_vec(), vec![by_hand()]].concat(), "0.5", 1),
    ];
    for (name, more, used, differing) in cases {
        let mut story = Story::default();
        story.tell("2031-06-02T06:00", bought(truck(), base(), "2", "30"));
        story.tell("2031-06-02T06:01", bought(truck(), common::item(StockKind::Water, ""), "50", "0"));
        story.tell(
            "2031-06-02T06:30",
            round(1, "2031-06-02", "Crew Fulmar", vec![planned(50, "Kiln Lane", "1", "3", "40")]),
        );
        for (minute, happened) in (10..).zip(more) {
            story.tell(&format!("2031-06-02T09:{minute}"), happened);
        }
        let books = story.books(&june());
        assert_eq!(balance(&books, &truck(), &base()).amount.used, decimal(used), "{name}");
        assert_eq!(found(&books, FindingKind::MovedAndToldDiffer).len(), differing, "{name}");
        assert_eq!(books.findings.len(), differing, "{name}");
    }
}

/// The same layer told again is the same layer, with its last amount, from when it was told first.
#[test]
fn a_layer_told_again_is_the_same_layer() {
    let mut story = Story::default();
    story.tell("2031-06-02T06:00", bought(truck(), base(), "2", "30"));
    story.tell(
        "2031-06-02T06:30",
        round(1, "2031-06-02", "Crew Fulmar", vec![planned(50, "Kiln Lane", "1", "3", "40")]),
    );
    story.tell("2031-06-02T09:00", layer(50, 1, Some("0.2"), None));
    story.tell("2031-06-02T12:00", counted(truck(), base(), "1.7"));
    story.tell("2031-06-02T15:00", layer(50, 1, Some("0.3"), None));
    story.tell("2031-06-02T15:30", layer(50, 1, None, None));
    let books = story.books(&june());
    assert_eq!(balance(&books, &truck(), &base()).amount, flows("received 2 used 0.3 closed 1.7"));
}

/// Which truck: the last that was said to have the repair by then; told by rounds, zones and bookings.
#[test]
fn material_comes_from_the_truck_of_the_crew_that_had_the_repair() {
    let dunlin = || StockPlace::Truck { crew: "Crew Dunlin".to_owned() };
    let in_round = |number, crew| round(number, "2031-06-02", crew, vec![planned(50, "Kiln Lane", "1", "3", "40")]);
    let empty_round = |number, crew| round(number, "2031-06-02", crew, Vec::new());
    let unknown = StockPlace::Truck { crew: ledger::UNKNOWN_CREW.to_owned() };
    let by_dunlin = Happened::TimeBooked {
        on: Subject::Repair(id(50)),
        crew: "Crew Dunlin".to_owned(),
        labour_min: 1.into(),
        plant_min: 1.into(),
    };
    let cases = [
        ("planned", vec![in_round(1, "Crew Fulmar")], vec![], truck()),
        ("planned again for another", vec![in_round(1, "Crew Fulmar"), in_round(2, "Crew Dunlin")], vec![], dunlin()),
        ("planned again afterwards", vec![in_round(1, "Crew Fulmar")], vec![in_round(2, "Crew Dunlin")], truck()),
        ("planned only afterwards", vec![], vec![in_round(1, "Crew Fulmar")], truck()),
        (
            "cut in another crew's zone",
            vec![
                in_round(1, "Crew Fulmar"),
                empty_round(2, "Crew Dunlin"),
                zone_opened(7, Some(2), "Kiln Lane", None),
                cut(50, Some(7), 1.0),
            ],
            vec![zone_closed(7, None)],
            dunlin(),
        ),
        ("only booked", vec![], vec![by_dunlin], dunlin()),
        ("nobody says", vec![], vec![], unknown.clone()),
    ];
    for (name, before, after, expected) in cases {
        let mut story = Story::default();
        for place in [truck(), dunlin()] {
            story.tell("2031-06-02T05:00", bought(place, base(), "5", "30"));
        }
        for (minute, happened) in (10..).zip(before) {
            story.tell(&format!("2031-06-02T06:{minute}"), happened);
        }
        story.tell("2031-06-02T09:00", layer(50, 1, Some("0.2"), None));
        for (minute, happened) in (10..).zip(after) {
            story.tell(&format!("2031-06-02T10:{minute}"), happened);
        }
        let books = story.books(&june());
        assert_eq!(balance(&books, &expected, &base()).amount.used, decimal("0.2"), "{name}");
        let unknown_said = found(&books, FindingKind::CrewUnknown).len();
        assert_eq!(unknown_said, usize::from(expected == unknown), "{name}");
        assert_eq!(books.findings.len(), unknown_said, "{name}: {:?}", books.findings);
    }
}

/// Which of several of a kind.
#[test]
fn the_item_used_is_the_one_named_or_the_one_there() {
    let cases = [
        ("named, and there", vec![("CRS-2", "10"), ("MC-800", "10")], "CRS-2", "CRS-2"),
        ("not named: the last that came", vec![("CRS-2", "10"), ("MC-800", "10")], "", "MC-800"),
        ("named, and the books have no names", vec![("", "10")], "CRS-2", ""),
        ("named, and something else is there", vec![("MC-800", "10")], "CRS-2", "CRS-2"),
        ("nothing there: the usual one", vec![], "", "CRS-1h"),
    ];
    for (name, there, told, expected) in cases {
        let mut story = Story::default();
        for (which, amount) in there {
            story.tell("2031-06-02T05:00", bought(truck(), item(StockKind::Binder, which), amount, "2"));
        }
        story.tell(
            "2031-06-02T06:30",
            round(1, "2031-06-02", "Crew Fulmar", vec![planned(50, "Kiln Lane", "1", "3", "40")]),
        );
        story.tell("2031-06-02T09:00", sealed(50, Some("3"), told, None));
        let mut settings = june();
        settings.usual.insert(StockKind::Binder, "CRS-1h".to_owned());
        let books = story.books(&settings);
        assert_eq!(balance(&books, &truck(), &item(StockKind::Binder, expected)).amount.used, 3.into(), "{name}");
    }
}

/// Base is named by its kind: that name counts where the books know it.
#[test]
fn the_base_used_is_the_one_named_where_the_books_have_it() {
    for (name, told, expected) in [
        ("named, and there", "pit gravel", "pit gravel"),
        ("named as the crew speaks: the last that came", "gravel", "crushed rock"),
        ("not named: the last that came", "", "crushed rock"),
    ] {
        let mut story = Story::default();
        for which in ["pit gravel", "crushed rock"] {
            story.tell("2031-06-02T05:00", bought(truck(), item(StockKind::Base, which), "10", "2"));
        }
        story.tell(
            "2031-06-02T06:30",
            round(1, "2031-06-02", "Crew Fulmar", vec![planned(50, "Kiln Lane", "1", "3", "40")]),
        );
        let Happened::LayerPlaced { repair, layer, base_loose_m3, .. } = layer(50, 1, Some("3"), None) else {
            panic!()
        };
        story.tell(
            "2031-06-02T09:00",
            Happened::LayerPlaced {
                repair,
                layer,
                thickness_mm: None,
                base_loose_m3,
                base: told.to_owned(),
                water_l: None,
                moisture: None,
                passes_still: None,
                passes_vibrating: None,
            },
        );
        let books = story.books(&june());
        assert_eq!(balance(&books, &truck(), &item(StockKind::Base, expected)).amount.used, 3.into(), "{name}");
    }
}

/// Below zero is said once, with the event, and is made good without losing money.
#[test]
fn below_zero_is_a_finding() {
    let mut story = Story::default();
    story.tell("2031-06-02T06:00", bought(depot(), base(), "1", "30"));
    let taken = story.tell("2031-06-02T07:00", moved(depot(), truck(), base(), "1.5"));
    story.tell("2031-06-02T08:00", moved(depot(), truck(), base(), "0.5"));
    story.tell("2031-06-03T07:00", bought(depot(), base(), "4", "40"));
    let books = story.books(&june());
    assert_eq!(kinds(&books), [FindingKind::BelowZero]);
    let finding = &books.findings[0];
    assert_eq!((finding.event, finding.amount), (Some(taken), Some(decimal("-0.5"))));
    assert_eq!(
        finding.words,
        "depot Osk Yard: 0.5 m³ of base more was taken than the books know of; a move to it, a count or a purchase is missing"
    );
    // 1 m³ was taken at 30 and cost 40
    assert_eq!(books.costs.total.price_difference, 10.into());
    assert_eq!(
        (balance(&books, &depot(), &base()).value, balance(&books, &truck(), &base()).value),
        (120.into(), 60.into())
    );
    let later = Settings { period: Period { from: day("2031-07-01"), to: day("2031-07-31") }, ..june() };
    assert!(story.books(&later).findings.is_empty(), "made good before");
    story.events.pop();
    assert_eq!(kinds(&story.books(&later)), [FindingKind::BelowZero], "still below");
}

/// What can't be is not counted, and said.
#[test]
fn what_cannot_be_is_a_finding() {
    let cases = [
        ("nothing", moved(depot(), truck(), base(), "0")),
        ("less than nothing", moved(depot(), truck(), base(), "-1")),
        ("not believed", moved(depot(), truck(), base(), "79228162514264337593543950335")),
        ("nowhere to go", moved(depot(), depot(), base(), "1")),
        ("not the district's", moved(supplier(), StockPlace::Supplier { name: "Another".into() }, base(), "1")),
        ("counted outside", counted(supplier(), base(), "1")),
        ("counted in a repair", counted(repair(50), base(), "1")),
        ("counted below nothing", counted(depot(), base(), "-1")),
        ("a layer of less than nothing", layer(50, 1, Some("-0.1"), None)),
        ("time below nothing", booked(Subject::Repair(id(50)), "-10", "0")),
    ];
    for (name, happened) in cases {
        let mut story = Story::default();
        story.tell("2031-06-02T06:00", happened);
        let books = story.books(&june());
        assert_eq!(kinds(&books), [FindingKind::NotCounted], "{name}");
        assert!(books.moves.is_empty() && books.balances.is_empty(), "{name}");
        assert_eq!(books.costs.total.total, 0.into(), "{name}");
    }
}

/// Signs and cones: what stands at a closed zone, by what was moved there or else by what was counted out and in.
#[test]
fn what_still_stands_on_the_road_is_a_finding() {
    let cones = |from: StockPlace, to: StockPlace, count: &str| moved(from, to, item(StockKind::Cone, ""), count);
    let at_zone = || StockPlace::Zone { zone: id(7) };
    let opened = |out| zone_opened(7, None, "Kiln Lane", out);
    let cases: [(&str, Vec<Happened>, &[&str]); 7] = [
        (
            "three cones left",
            vec![opened(None), cones(truck(), at_zone(), "20"), cones(at_zone(), truck(), "17"), zone_closed(7, None)],
            &["3 cones still on the road: zone on Kiln Lane is closed"],
        ),
        (
            "taken in after it was closed",
            vec![opened(None), cones(truck(), at_zone(), "20"), zone_closed(7, None), cones(at_zone(), truck(), "20")],
            &[],
        ),
        (
            "by the count",
            vec![opened(Some(25)), zone_closed(7, Some(24))],
            &["1 device still on the road: zone on Kiln Lane is closed"],
        ),
        ("all in", vec![opened(Some(25)), zone_closed(7, Some(25))], &[]),
        (
            "opened again",
            vec![opened(Some(25)), zone_closed(7, Some(24)), opened(Some(9)), zone_closed(7, Some(7))],
            &["2 devices still on the road: zone on Kiln Lane is closed"],
        ),
        ("in not counted", vec![opened(Some(25)), zone_closed(7, None)], &[]),
        (
            "one cone was run over and written off",
            vec![
                opened(Some(2)),
                cones(truck(), at_zone(), "2"),
                cones(at_zone(), waste("run over"), "1"),
                cones(at_zone(), truck(), "1"),
                zone_closed(7, Some(2)),
            ],
            &[],
        ),
    ];
    for (name, happened, expected) in cases {
        let mut story = Story::default();
        story.tell("2031-06-01T06:00", bought(truck(), item(StockKind::Cone, ""), "40", "9"));
        for (minute, happened) in (10..).zip(happened) {
            story.tell(&format!("2031-06-02T09:{minute}"), happened);
        }
        let books = story.books(&june());
        assert_eq!(found(&books, FindingKind::DevicesLeft), expected, "{name}");
        assert_eq!(books.findings.len(), expected.len(), "{name}: {:?}", books.findings);
    }
    let mut story = Story::default();
    story.tell("2031-06-02T09:00", opened(Some(25)));
    let expected = ["zone on Kiln Lane: open since 2031-06-02, and nobody said that the signs are in"];
    assert_eq!(found(&story.books(&june()), FindingKind::ZoneNotClosed), expected);
    let today = Settings { period: Period { from: day("2031-06-01"), to: day("2031-06-02") }, ..june() };
    assert!(story.books(&today).findings.is_empty(), "work goes on");
}

/// Corrections count from when the thing happened, whenever they were made.
#[test]
fn a_correction_of_july_puts_june_right() {
    let mut story = Story::default();
    let wrong = story.tell("2031-06-02T06:00", bought(depot(), base(), "100", "30"));
    let instead = Some(Box::new(bought(depot(), base(), "10", "30")));
    story.tell("2031-07-20T06:00", Happened::Corrected { event: wrong, instead, why: "typed wrong".to_owned() });
    assert_eq!(balance(&story.books(&june()), &depot(), &base()).amount, flows("received 10 closed 10"));
}

/// Lots: what goes off first goes first, carries its lot along, and what is used too late is said.
#[test]
fn lots_go_out_by_their_last_day() {
    let mut story = Story::default();
    story.tell("2031-06-01T06:00", bought_lot(depot(), binder(), "100", "2", "B-late", Some("2031-09-30")));
    story.tell("2031-06-01T06:10", bought_lot(depot(), binder(), "60", "2", "B-soon", Some("2031-06-10")));
    story.tell("2031-06-02T06:00", moved(depot(), truck(), binder(), "80"));
    story.tell(
        "2031-06-02T06:10",
        round(1, "2031-06-12", "Crew Fulmar", vec![planned(50, "Kiln Lane", "1", "3", "40")]),
    );
    story.tell("2031-06-12T09:00", sealed(50, Some("3"), "CRS-2", None));
    let used = || Some(StockLot { number: "B-9".to_owned(), use_by: None });
    let (from, to, item, amount) = (depot(), truck(), binder(), decimal("1"));
    story.tell("2031-06-13T09:00", Happened::StockMoved { from, to, item, amount, unit_price: None, lot: used() });
    let books = story.books(&june());
    let loaded: Vec<(&str, String)> =
        books.moves[2].lots.iter().map(|piece| (piece.lot.number.as_str(), piece.amount.to_string())).collect();
    assert_eq!(loaded, [("B-soon", "60".to_owned()), ("B-late", "20".to_owned())]);
    assert_eq!(books.moves[3].told_by, ToldBy::Seal);
    assert_eq!(books.moves[3].lots[0].lot.number, "B-soon");
    let held: Vec<(String, String)> =
        books.lots.iter().map(|lot| (lot.lot.number.clone(), lot.amount.to_string())).collect();
    let expected =
        [("B-late", "79"), ("B-soon", "57"), ("B-late", "21")].map(|(lot, amount)| (lot.into(), amount.into()));
    assert_eq!(held, expected);
    assert_eq!(kinds(&books), [FindingKind::UsedPastUseBy, FindingKind::LotNotThere, FindingKind::PastUseBy]);
    let expected = ["3 l of binder CRS-2 of lot B-soon used on 2031-06-12; it was to be used by 2031-06-10"];
    assert_eq!(found(&books, FindingKind::UsedPastUseBy), expected);
    let expected = ["truck of Crew Fulmar: 57 l of binder CRS-2 of lot B-soon was to be used by 2031-06-10"];
    assert_eq!(found(&books, FindingKind::PastUseBy), expected);
}

/// Without a price, the last one paid; with none, nothing; said once.
#[test]
fn goods_without_a_price_are_said() {
    let mut story = Story::default();
    story.tell("2031-06-01T06:00", moved(supplier(), depot(), base(), "1"));
    story.tell("2031-06-02T06:00", bought(depot(), base(), "1", "30"));
    story.tell("2031-06-03T06:00", moved(supplier(), depot(), base(), "1"));
    story.tell("2031-06-03T06:10", moved(supplier(), truck(), item(StockKind::Water, ""), "200"));
    let books = story.books(&june());
    assert_eq!(balance(&books, &depot(), &base()).value, 60.into());
    assert_eq!(kinds(&books), [FindingKind::NoPrice], "water is free");
    assert_eq!(books.findings[0].words, "base came in without a price: it is valued at nothing; said once");
}
