//! Events of an invented district, made by hand.
#![allow(dead_code, missing_docs)] // each test uses some of it

use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use ledger::{Balance, Books, FindingKind, Flows, Period, Settings};
use model::record::event::{Event, SCHEMA_VERSION};
use model::record::happened::{Happened, PlannedRepair, Position, Subject};
use model::record::known::TimePrices;
use model::record::stock::{StockItem, StockKind, StockLot, StockPlace};
use rust_decimal::Decimal;
use uuid::Uuid;

/// Exact, as written.
pub fn decimal(text: &str) -> Decimal {
    text.parse().expect("a decimal")
}

pub fn day(text: &str) -> Date {
    text.parse().expect("a day")
}

pub fn id(number: u128) -> Uuid {
    Uuid::from_u128(number)
}

/// Two hours behind UTC all year, as in the demo's district.
pub fn zone() -> TimeZone {
    TimeZone::get("Etc/GMT+2").expect("in the database")
}

/// June 2031, at 30 an hour of a person and 45 an hour of the truck.
pub fn june() -> Settings {
    Settings {
        prices: TimePrices { labour_per_h: 30.into(), plant_per_h: 45.into() },
        depot: "Osk Yard".to_owned(),
        ..Settings::new(Period { from: day("2031-06-01"), to: day("2031-06-30") }, zone())
    }
}

/// Events one after another, each with a number of its own.
#[derive(Default)]
pub struct Story {
    pub events: Vec<Event>,
}

impl Story {
    /// Something happened at a local time, e.g. `2031-06-02T07:15`; returns the event's number.
    pub fn tell(&mut self, local: &str, happened: Happened) -> Uuid {
        let local: jiff::civil::DateTime = local.parse().expect("a local time");
        let at = zone().to_ambiguous_timestamp(local).compatible().expect("it exists");
        self.tell_at(at, happened)
    }

    pub fn tell_at(&mut self, at: Timestamp, happened: Happened) -> Uuid {
        let id = id(1000 + self.events.len() as u128);
        let (actor, device) = ("mara".to_owned(), "phone-1".to_owned());
        self.events.push(Event {
            id,
            schema: SCHEMA_VERSION,
            actor,
            device,
            device_time: at,
            clock_ahead_ms: 0,
            happened,
        });
        id
    }

    pub fn books(&self, settings: &Settings) -> Books {
        ledger::books(&self.events, settings)
    }
}

pub fn item(what: StockKind, which: &str) -> StockItem {
    StockItem { what, which: which.to_owned() }
}

pub fn base() -> StockItem {
    item(StockKind::Base, "")
}

pub fn binder() -> StockItem {
    item(StockKind::Binder, "CRS-2")
}

pub fn supplier() -> StockPlace {
    StockPlace::Supplier { name: "Grinstead Pit".to_owned() }
}

pub fn depot() -> StockPlace {
    StockPlace::Depot { name: "Osk Yard".to_owned() }
}

pub fn truck() -> StockPlace {
    StockPlace::Truck { crew: "Crew Fulmar".to_owned() }
}

pub fn repair(number: u128) -> StockPlace {
    StockPlace::Repair { repair: id(number) }
}

pub fn waste(why: &str) -> StockPlace {
    StockPlace::Waste { why: why.to_owned() }
}

pub fn moved(from: StockPlace, to: StockPlace, item: StockItem, amount: &str) -> Happened {
    Happened::StockMoved { from, to, item, amount: decimal(amount), unit_price: None, lot: None }
}

pub fn bought(to: StockPlace, item: StockItem, amount: &str, price: &str) -> Happened {
    let unit_price = Some(decimal(price));
    Happened::StockMoved { from: supplier(), to, item, amount: decimal(amount), unit_price, lot: None }
}

pub fn bought_lot(
    to: StockPlace,
    item: StockItem,
    amount: &str,
    price: &str,
    lot: &str,
    use_by: Option<&str>,
) -> Happened {
    let lot = Some(StockLot { number: lot.to_owned(), use_by: use_by.map(day) });
    let unit_price = Some(decimal(price));
    Happened::StockMoved { from: supplier(), to, item, amount: decimal(amount), unit_price, lot }
}

pub fn counted(place: StockPlace, item: StockItem, amount: &str) -> Happened {
    Happened::StockCounted { place, item, amount: decimal(amount) }
}

pub fn planned(repair: u128, road: &str, base: &str, binder: &str, minutes: &str) -> PlannedRepair {
    PlannedRepair {
        repair: id(repair),
        holes: vec![id(repair + 10_000)],
        road: road.to_owned(),
        area_m2: 1.2,
        base_loose_m3: decimal(base),
        water_l: 10.into(),
        binder_l: decimal(binder),
        cover_stone_m3: decimal("0.015"),
        minutes: decimal(minutes),
        road_kind: None,
        basis: None,
    }
}

pub fn round(number: u128, date: &str, crew: &str, repairs: Vec<PlannedRepair>) -> Happened {
    Happened::RoundPlanned {
        round: id(number),
        date: day(date),
        crew: crew.to_owned(),
        repairs,
        zones: Vec::new(),
        plan: String::new(),
    }
}

pub fn cut(repair: u128, zone: Option<u128>, area_m2: f64) -> Happened {
    Happened::HoleCut {
        repair: id(repair),
        holes: vec![id(repair + 10_000)],
        zone: zone.map(id),
        area_m2: Some(area_m2),
        depths_mm: Vec::new(),
        bottom_firm: None,
        sides_upright: None,
        wetness: None,
        drainage: None,
    }
}

pub fn layer(repair: u128, layer: u32, base: Option<&str>, water: Option<&str>) -> Happened {
    Happened::LayerPlaced {
        repair: id(repair),
        layer,
        thickness_mm: None,
        base_loose_m3: base.map(decimal),
        base: String::new(),
        water_l: water.map(decimal),
        moisture: None,
        passes_still: None,
        passes_vibrating: None,
    }
}

pub fn sealed(repair: u128, binder_l: Option<&str>, binder: &str, cover_stone: Option<&str>) -> Happened {
    Happened::Sealed {
        repair: id(repair),
        binder_l: binder_l.map(decimal),
        binder: binder.to_owned(),
        cover_stone_m3: cover_stone.map(decimal),
        area_m2: None,
        crown_mm: None,
        dry: None,
        weather: None,
        air_temperature_c: None,
    }
}

pub fn zone_opened(zone: u128, round: Option<u128>, road: &str, devices_out: Option<u32>) -> Happened {
    Happened::ZoneOpened {
        zone: id(zone),
        round: round.map(id),
        holes: Vec::new(),
        position: Position { lon: -28.4, lat: 47.3 },
        road: road.to_owned(),
        layout: String::new(),
        devices_out,
        stretches: Vec::new(),
    }
}

pub fn zone_closed(zone: u128, devices_in: Option<u32>) -> Happened {
    Happened::ZoneClosed { zone: id(zone), devices_in }
}

pub fn booked(on: Subject, labour: &str, plant: &str) -> Happened {
    let crew = "Crew Fulmar".to_owned();
    Happened::TimeBooked { on, crew, labour_min: decimal(labour), plant_min: decimal(plant) }
}

/// The book of an item at a place.
pub fn balance<'a>(books: &'a Books, place: &StockPlace, item: &StockItem) -> &'a Balance {
    let found = books.balances.iter().find(|balance| *balance.place == *place && *balance.item == *item);
    found.unwrap_or_else(|| panic!("no book of {item:?} at {place:?}"))
}

/// Flows from a line such as `opened 1 received 2 closed 3`.
pub fn flows(text: &str) -> Flows {
    let mut flows = Flows::default();
    let words: Vec<&str> = text.split_whitespace().collect();
    for pair in words.chunks(2) {
        let value = decimal(pair[1]);
        match pair[0] {
            "opened" => flows.opened = value,
            "received" => flows.received = value,
            "returned" => flows.returned = value,
            "taken_out" => flows.taken_out = value,
            "used" => flows.used = value,
            "wasted" => flows.wasted = value,
            "moved_in" => flows.moved_in = value,
            "moved_out" => flows.moved_out = value,
            "found" => flows.found = value,
            "closed" => flows.closed = value,
            other => panic!("{other}"),
        }
    }
    flows
}

/// Words of the findings of a kind.
pub fn found(books: &Books, kind: FindingKind) -> Vec<&str> {
    books.findings.iter().filter(|finding| finding.kind == kind).map(|finding| finding.words.as_str()).collect()
}

/// Kinds of all findings.
pub fn kinds(books: &Books) -> Vec<FindingKind> {
    books.findings.iter().map(|finding| finding.kind).collect()
}
