//! Events to moves: every move takes from one account what it puts into another.

use std::collections::{BTreeMap, HashMap};
use std::sync::Arc;

use jiff::Timestamp;
use jiff::civil::Date;
use model::record::happened::Happened;
use model::record::in_force::InForce;
use model::record::stock::{Money, StockItem, StockKind, StockLot, StockPlace};
use rust_decimal::Decimal;
use uuid::Uuid;

use crate::account::Account;
use crate::amount;
use crate::cost::{CostEntry, CostPart};
use crate::facts::Facts;
use crate::finding::{Finding, FindingKind};
use crate::lots::LotAmount;
use crate::names::Names;
use crate::settings::Settings;
use crate::stock_book::{Flows, StockMove, Sums, ToldBy};
use crate::used::{Use, Used};
use crate::words;

/// What was booked, and what stands at each place then.
#[derive(Debug)]
pub struct Posted {
    /// Moves of the period, in the order in which they happened.
    pub moves: Vec<StockMove>,
    /// The book of each item at each place that holds stock.
    pub rows: Vec<(Arc<StockPlace>, Arc<StockItem>, Row)>,
    /// The sums of each item over all places.
    pub sums: BTreeMap<StockItem, (Sums, Sums)>,
    /// What the moves of the period cost.
    pub costs: Vec<CostEntry>,
    /// What somebody has to look at.
    pub findings: Vec<Finding>,
}

/// The book of an item at a place.
#[derive(Debug, Default)]
pub struct Row {
    place: usize,
    item: usize,
    /// What is there.
    pub account: Account,
    /// What came and went in the period; closed is not set.
    pub flows: Flows,
    /// What it was worth at the beginning of the period.
    pub opened_value: Money,
    /// Event and day since which the books are below zero here.
    below_since: Option<(Uuid, Date)>,
}

/// One end of a move.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum End {
    Place(usize),
    Count,
}

/// What kind of end it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    Supplier,
    Held,
    Repair,
    Waste,
    Count,
}

/// A move to be booked.
struct Move<'a> {
    from: End,
    to: End,
    item: usize,
    amount: Decimal,
    unit_price: Option<Money>,
    lot: Option<&'a StockLot>,
    told_by: ToldBy,
}

/// The event that is being booked.
#[derive(Clone, Copy)]
struct Now {
    index: usize,
    event: Uuid,
    at: Timestamp,
    day: Date,
    in_period: bool,
}

/// Books all events, which are in the order in which they happened and none of which is later than the period.
pub fn post(events: &[InForce<'_>], facts: &Facts<'_>, used: &Used<'_>, settings: &Settings) -> Posted {
    let mut desk = Desk::new(facts, settings);
    let (from, _) = settings.bounds();
    let mut opened = false;
    for (index, stands) in events.iter().enumerate() {
        let at = stands.event.happened_at();
        if at >= from && !opened {
            desk.open();
            opened = true;
        }
        let now = Now { index, event: stands.event.id, at, day: settings.day(at), in_period: opened };
        desk.take_in(now, stands.happened, used);
    }
    if !opened {
        desk.open();
    }
    desk.close()
}

struct Desk<'a> {
    facts: &'a Facts<'a>,
    settings: &'a Settings,
    places: Names<StockPlace>,
    items: Names<StockItem>,
    rows: Vec<Row>,
    /// Where in the rows the book of an item at a place is.
    row_of: HashMap<(usize, usize), usize>,
    /// Items of a kind that have been at a place, the one that came last at the end.
    of_kind: HashMap<(usize, StockKind), Vec<usize>>,
    last_bought: HashMap<usize, Money>,
    sums: HashMap<usize, (Sums, Sums)>,
    moves: Vec<StockMove>,
    costs: Vec<CostEntry>,
    findings: Vec<Finding>,
    no_price_said: Vec<usize>,
}

impl<'a> Desk<'a> {
    fn new(facts: &'a Facts<'a>, settings: &'a Settings) -> Self {
        Self {
            facts,
            settings,
            places: Names::new(),
            items: Names::new(),
            rows: Vec::new(),
            row_of: HashMap::new(),
            of_kind: HashMap::new(),
            last_bought: HashMap::new(),
            sums: HashMap::new(),
            moves: Vec::new(),
            costs: Vec::new(),
            findings: Vec::new(),
            no_price_said: Vec::new(),
        }
    }

    /// The period begins.
    fn open(&mut self) {
        for row in &mut self.rows {
            row.flows.opened = row.account.quantity();
            row.opened_value = row.account.value();
            if !matches!(**self.places.value(row.place), StockPlace::Repair { .. }) {
                let (amounts, values) = self.sums.entry(row.item).or_default();
                amounts.opened += row.account.quantity();
                values.opened += row.account.value();
            }
        }
    }

    fn take_in(&mut self, now: Now, happened: &Happened, used: &Used<'_>) {
        match happened {
            Happened::StockMoved { from, to, item, amount, unit_price, lot } => {
                self.take_move(now, (from, to), item, *amount, *unit_price, lot.as_ref());
            }
            Happened::StockCounted { place, item, amount } => self.take_count(now, place, item, *amount),
            Happened::LayerPlaced { .. } | Happened::Sealed { .. } => {
                let told_by = if matches!(happened, Happened::Sealed { .. }) { ToldBy::Seal } else { ToldBy::Layer };
                for (repair, use_) in used.at(now.index, happened) {
                    self.take_use(now, repair, use_, told_by);
                }
            }
            _ => {}
        }
    }

    fn take_move(
        &mut self,
        now: Now,
        (from, to): (&StockPlace, &StockPlace),
        item: &StockItem,
        amount: Decimal,
        unit_price: Option<Money>,
        lot: Option<&StockLot>,
    ) {
        let outside = |place: &StockPlace| matches!(place, StockPlace::Supplier { .. } | StockPlace::Waste { .. });
        let wrong = match amount::moved(amount) {
            Err(why) => Some(why),
            Ok(_) if from == to => Some("it goes to where it is"),
            Ok(_) if outside(from) && outside(to) && side(from) == side(to) => Some("neither place is the district's"),
            Ok(_) => None,
        };
        if let Some(why) = wrong {
            let what = words::amount(amount, item);
            let words = format!("{what} moved to {}: {why}; not counted", words::place(to, self.facts));
            self.find(now, FindingKind::NotCounted, Some(from), Some(item), Some(amount), words);
            return;
        }
        let Ok(amount) = amount::moved(amount) else { return };
        let item_number = self.items.number(item);
        let mut price = unit_price.and_then(|price| amount::counted(price).ok());
        if unit_price.is_some() && (price.is_none() || side(from) != Side::Supplier) {
            price = None;
            let words = format!("a price on {}: it is not from a supplier or can't be; not used", words::item(item));
            self.find(now, FindingKind::PriceNotUsed, Some(from), Some(item), unit_price, words);
        }
        let (from, to) = (End::Place(self.places.number(from)), End::Place(self.places.number(to)));
        let told_by = ToldBy::Move;
        self.book(now, &Move { from, to, item: item_number, amount, unit_price: price, lot, told_by });
    }

    fn take_count(&mut self, now: Now, place: &StockPlace, item: &StockItem, counted: Decimal) {
        let wrong = match (side(place), amount::counted(counted)) {
            (Side::Held, Ok(_)) => None,
            (Side::Held, Err(why)) => Some(why),
            _ => Some("nothing is held there"),
        };
        if let Some(why) = wrong {
            let what = words::amount(counted, item);
            let words = format!("{what} counted at {}: {why}; not counted", words::place(place, self.facts));
            self.find(now, FindingKind::NotCounted, Some(place), Some(item), Some(counted), words);
            return;
        }
        let (place, item) = (self.places.number(place), self.items.number(item));
        let there = self.row_there(place, item).map_or(Decimal::ZERO, |row| row.account.quantity());
        let difference = amount::kept(counted) - there;
        if difference.is_zero() {
            return;
        }
        let there = End::Place(place);
        let (from, to) = if difference > Decimal::ZERO { (End::Count, there) } else { (there, End::Count) };
        let amount = difference.abs();
        self.book(now, &Move { from, to, item, amount, unit_price: None, lot: None, told_by: ToldBy::Count });
    }

    /// Material that a layer or a seal says went into a repair, from the truck of the crew.
    fn take_use(&mut self, now: Now, repair: Uuid, use_: Use<'_>, told_by: ToldBy) {
        let crew = self.facts.crew_at(repair, now.index);
        let place = StockPlace::Truck { crew: crew.unwrap_or(words::UNKNOWN_CREW).to_owned() };
        let from = self.places.number(&place);
        let item = self.which(from, use_);
        if crew.is_none() {
            let item = Arc::clone(self.items.value(item));
            let amount = words::amount(use_.amount, &item);
            let words = format!("{amount} went into a repair of which no round, zone or booking names the crew");
            self.find(now, FindingKind::CrewUnknown, Some(&place), Some(&item), Some(use_.amount), words);
        }
        let (from, to) = (End::Place(from), End::Place(self.places.number(&StockPlace::Repair { repair })));
        self.book(now, &Move { from, to, item, amount: use_.amount, unit_price: None, lot: None, told_by });
    }

    /// Which item of its kind was used from a place.
    ///
    /// The one named, if it has been there or nothing without a name is there (base only if it has been there: crews name it by its
    /// kind as they speak, binder by what is on its drum); else of those of which something is there the one
    /// that came last; else the one that came last at all; else the usual one.
    fn which(&mut self, place: usize, use_: Use<'_>) -> usize {
        let named = StockItem { what: use_.kind, which: use_.which.to_owned() };
        let there = self.of_kind.get(&(place, use_.kind)).map_or(&[][..], Vec::as_slice);
        if !use_.which.is_empty() {
            let without_name = there.iter().find(|item| self.items.value(**item).which.is_empty());
            let has_been = there.iter().find(|item| **self.items.value(**item) == named);
            if let Some(item) = has_been {
                return *item;
            }
            if use_.kind != StockKind::Base {
                return without_name.copied().unwrap_or_else(|| self.items.number(&named));
            }
        }
        let some_there =
            |item: &&usize| self.row_there(place, **item).is_some_and(|row| row.account.quantity() > Decimal::ZERO);
        if let Some(item) = there.iter().rev().find(some_there).or(there.last()) {
            return *item;
        }
        let usual = self.settings.usual.get(&use_.kind).cloned().unwrap_or_default();
        self.items.number(&StockItem { what: use_.kind, which: usual })
    }

    fn book(&mut self, now: Now, a_move: &Move<'_>) {
        let (value, lots) = self.take_out(now, a_move);
        let dearer = self.put_in(a_move, value, &lots);
        let sides = (self.side(a_move.from), self.side(a_move.to));
        if sides.1 == Side::Repair {
            self.check_use_by(now, a_move, &lots);
        }
        if !now.in_period {
            return;
        }
        self.add_flows(a_move, sides);
        self.add_sums(a_move, sides, value, dearer);
        self.add_costs(now, a_move, sides, value, dearer);
        let place = |end: End, desk: &Self| match end {
            End::Place(number) => Some(Arc::clone(desk.places.value(number))),
            End::Count => None,
        };
        self.moves.push(StockMove {
            event: now.event,
            at: now.at,
            day: now.day,
            told_by: a_move.told_by,
            from: place(a_move.from, self),
            to: place(a_move.to, self),
            item: Arc::clone(self.items.value(a_move.item)),
            amount: a_move.amount.normalize(),
            value: value.normalize(),
            lots,
        });
    }

    /// Takes it from where it was; says what it is worth and of which lots it is.
    fn take_out(&mut self, now: Now, a_move: &Move<'_>) -> (Money, Vec<LotAmount>) {
        let Move { from, item, amount, lot, .. } = *a_move;
        let told_lot = || lot.map(|lot| LotAmount { lot: lot.clone(), amount }).into_iter().collect();
        let place = match (self.side(from), from) {
            (Side::Held | Side::Repair, End::Place(place)) => place,
            (Side::Supplier, _) => {
                let price = self.price_of_purchase(now, a_move);
                return (amount::of_amount(amount, price), told_lot());
            }
            _ => return (amount::of_amount(amount, self.price_there(a_move.to, item)), told_lot()),
        };
        let other_price = self.last_bought.get(&item).copied().unwrap_or_default();
        let row = self.row(place, item);
        let lot_short = lot.filter(|lot| row.account.lots.of_number(&lot.number) < amount);
        let taken = row.account.take(amount, lot, other_price);
        let below = row.account.quantity();
        let newly_below = below < Decimal::ZERO && row.below_since.is_none();
        if newly_below {
            row.below_since = Some((now.event, now.day));
        }
        let (place, item) = (Arc::clone(self.places.value(place)), Arc::clone(self.items.value(item)));
        if let Some(lot) = lot_short {
            let what = words::amount(amount, &item);
            let at = words::place(&place, self.facts);
            let words =
                format!("{what} of lot {} taken from {at}: the books do not have as much of it there", lot.number);
            self.find(now, FindingKind::LotNotThere, Some(&place), Some(&item), Some(amount), words);
        }
        if newly_below && now.in_period && may_not_go_below(&place, &item) {
            self.find_below(now.event, now.day, &place, &item, below);
        }
        (taken.value, taken.lots)
    }

    /// Puts it where it goes; says by how much it is dearer than what it makes good.
    fn put_in(&mut self, a_move: &Move<'_>, value: Money, lots: &[LotAmount]) -> Money {
        let (End::Place(place), Side::Held | Side::Repair) = (a_move.to, self.side(a_move.to)) else {
            return Decimal::ZERO;
        };
        let of_kind = self.of_kind.entry((place, self.items.value(a_move.item).what)).or_default();
        if of_kind.last() != Some(&a_move.item) {
            of_kind.retain(|item| *item != a_move.item);
            of_kind.push(a_move.item);
        }
        let row = self.row(place, a_move.item);
        let dearer = row.account.put(a_move.amount, value, lots);
        if row.account.quantity() >= Decimal::ZERO {
            row.below_since = None;
        }
        dearer
    }

    /// What one costs that comes from a supplier: the price told, or else the last one paid.
    fn price_of_purchase(&mut self, now: Now, a_move: &Move<'_>) -> Money {
        if let Some(price) = a_move.unit_price {
            self.last_bought.insert(a_move.item, price);
            return price;
        }
        let last = self.last_bought.get(&a_move.item).copied();
        let item = Arc::clone(self.items.value(a_move.item));
        let is_free = matches!(item.what, StockKind::Water | StockKind::Spoil) && last.is_none();
        if !is_free && now.in_period && !self.no_price_said.contains(&a_move.item) {
            self.no_price_said.push(a_move.item);
            let valued = match last {
                Some(price) => format!("the last price paid, {}, is taken", price.normalize()),
                None => "it is valued at nothing".to_owned(),
            };
            let words = format!("{} came in without a price: {valued}; said once", words::item(&item));
            self.find(now, FindingKind::NoPrice, None, Some(&item), Some(a_move.amount), words);
        }
        last.unwrap_or_default()
    }

    /// What one is worth at a place, or was last, or was when last bought.
    fn price_there(&self, end: End, item: usize) -> Money {
        let there = match end {
            End::Place(place) => self.row_there(place, item).and_then(|row| row.account.price()),
            End::Count => None,
        };
        there.or_else(|| self.last_bought.get(&item).copied()).unwrap_or_default()
    }

    fn check_use_by(&mut self, now: Now, a_move: &Move<'_>, lots: &[LotAmount]) {
        for piece in lots {
            let Some(use_by) = piece.lot.use_by.filter(|use_by| *use_by < now.day) else { continue };
            let item = Arc::clone(self.items.value(a_move.item));
            let what = words::amount(piece.amount, &item);
            let words =
                format!("{what} of lot {} used on {}; it was to be used by {use_by}", piece.lot.number, now.day);
            let End::Place(from) = a_move.from else { continue };
            let place = Arc::clone(self.places.value(from));
            self.find(now, FindingKind::UsedPastUseBy, Some(&place), Some(&item), Some(piece.amount), words);
        }
    }

    fn add_flows(&mut self, a_move: &Move<'_>, (from, to): (Side, Side)) {
        let amount = a_move.amount;
        if let (End::Place(place), Side::Held | Side::Repair) = (a_move.from, from) {
            let flows = &mut self.row(place, a_move.item).flows;
            match to {
                Side::Supplier => flows.returned += amount,
                Side::Repair if from == Side::Held => flows.used += amount,
                Side::Held | Side::Repair => flows.moved_out += amount,
                Side::Waste => flows.wasted += amount,
                Side::Count => flows.found -= amount,
            }
        }
        if let (End::Place(place), Side::Held | Side::Repair) = (a_move.to, to) {
            let flows = &mut self.row(place, a_move.item).flows;
            match from {
                Side::Supplier => flows.received += amount,
                Side::Repair if to == Side::Held => flows.taken_out += amount,
                Side::Held | Side::Repair => flows.moved_in += amount,
                Side::Waste | Side::Count => flows.found += amount,
            }
        }
    }

    fn add_sums(&mut self, a_move: &Move<'_>, (from, to): (Side, Side), value: Money, dearer: Money) {
        let (amounts, values) = self.sums.entry(a_move.item).or_default();
        for (sums, moved) in [(amounts, a_move.amount), (values, value)] {
            for (side, moved) in [(from, -moved), (to, moved)] {
                match side {
                    Side::Supplier => sums.bought -= moved,
                    Side::Repair => sums.into_repairs += moved,
                    Side::Waste => sums.wasted += moved,
                    Side::Count => sums.found -= moved,
                    Side::Held => {}
                }
            }
        }
        if to == Side::Held {
            self.sums.entry(a_move.item).or_default().1.price_difference += dearer;
        }
    }

    fn add_costs(&mut self, now: Now, a_move: &Move<'_>, (from, to): (Side, Side), value: Money, dearer: Money) {
        let kind = self.items.value(a_move.item).what;
        let ends = [(a_move.from, from, -value, a_move.to), (a_move.to, to, value, a_move.from)];
        for (end, side, money, other) in ends {
            let repair = self.repair(end);
            let (part, money) = match side {
                Side::Repair => (CostPart::Material(kind), money),
                Side::Waste => (CostPart::Wasted, money),
                Side::Count => (CostPart::CountDifference, money),
                Side::Held if end == a_move.to => (CostPart::PriceDifference, dearer),
                Side::Held | Side::Supplier => continue,
            };
            if money.is_zero() {
                continue;
            }
            let truck = if side == Side::Held { end } else { other };
            let of_repair = || repair.or(self.repair(other)).and_then(|repair| self.facts.crew_at(repair, now.index));
            let crew = self.crew(truck).or_else(|| of_repair().map(str::to_owned)).unwrap_or_default();
            let road = repair.map_or("", |repair| self.facts.road_of(repair)).to_owned();
            self.costs.push(CostEntry { day: now.day, repair, road, crew, part, money: money.normalize() });
        }
    }

    fn close(mut self) -> Posted {
        let mut booked = std::mem::take(&mut self.rows);
        let (place_ranks, item_ranks) = (self.places.ranks(), self.items.ranks());
        let mut order: Vec<usize> = (0..booked.len()).collect();
        order.sort_unstable_by_key(|at| (place_ranks[booked[*at].place], item_ranks[booked[*at].item]));
        let mut rows = Vec::with_capacity(booked.len());
        for at in order {
            let row = std::mem::take(&mut booked[at]);
            let (place, item_name) = (Arc::clone(self.places.value(row.place)), Arc::clone(self.items.value(row.item)));
            if !matches!(*place, StockPlace::Repair { .. }) {
                let (amounts, values) = self.sums.entry(row.item).or_default();
                amounts.closed += row.account.quantity();
                values.closed += row.account.value();
            }
            if let Some((event, day)) = row.below_since.filter(|(_, day)| *day < self.settings.period.from)
                && may_not_go_below(&place, &item_name)
            {
                self.find_below(event, day, &place, &item_name, row.account.quantity());
            }
            rows.push((place, item_name, row));
        }
        let sums = std::mem::take(&mut self.sums);
        let sums = sums.into_iter().map(|(item, sums)| (self.items.value(item).as_ref().clone(), sums)).collect();
        Posted { moves: self.moves, rows, sums, costs: self.costs, findings: self.findings }
    }

    fn find_below(&mut self, event: Uuid, day: Date, place: &StockPlace, item: &StockItem, quantity: Decimal) {
        let at = words::place(place, self.facts);
        let missing = words::amount(-quantity, item);
        let words = format!(
            "{at}: {missing} more was taken than the books know of; a move to it, a count or a purchase is missing"
        );
        let (place, item) = (Some(place.clone()), Some(item.clone()));
        let kind = FindingKind::BelowZero;
        self.findings.push(Finding {
            kind,
            place,
            item,
            event: Some(event),
            day,
            amount: Some(quantity.normalize()),
            words,
        });
    }

    fn find(
        &mut self,
        now: Now,
        kind: FindingKind,
        place: Option<&StockPlace>,
        item: Option<&StockItem>,
        amount: Option<Decimal>,
        words: String,
    ) {
        if now.in_period {
            let (place, item) = (place.cloned(), item.cloned());
            self.findings.push(Finding { kind, place, item, event: Some(now.event), day: now.day, amount, words });
        }
    }

    fn row(&mut self, place: usize, item: usize) -> &mut Row {
        let rows = &mut self.rows;
        let at = *self.row_of.entry((place, item)).or_insert_with(|| {
            rows.push(Row { place, item, ..Row::default() });
            rows.len() - 1
        });
        &mut self.rows[at]
    }

    fn row_there(&self, place: usize, item: usize) -> Option<&Row> {
        self.row_of.get(&(place, item)).map(|at| &self.rows[*at])
    }

    fn side(&self, end: End) -> Side {
        match end {
            End::Place(place) => side(self.places.value(place)),
            End::Count => Side::Count,
        }
    }

    fn repair(&self, end: End) -> Option<Uuid> {
        match end {
            End::Place(place) => match **self.places.value(place) {
                StockPlace::Repair { repair } => Some(repair),
                _ => None,
            },
            End::Count => None,
        }
    }

    fn crew(&self, end: End) -> Option<String> {
        match end {
            End::Place(place) => match &**self.places.value(place) {
                StockPlace::Truck { crew } => Some(crew.clone()),
                _ => None,
            },
            End::Count => None,
        }
    }
}

fn side(place: &StockPlace) -> Side {
    match place {
        StockPlace::Supplier { .. } => Side::Supplier,
        StockPlace::Depot { .. } | StockPlace::Truck { .. } | StockPlace::Zone { .. } => Side::Held,
        StockPlace::Repair { .. } => Side::Repair,
        StockPlace::Waste { .. } => Side::Waste,
    }
}

/// Spoil comes from repairs, and what an unknown crew used is said as such.
fn may_not_go_below(place: &StockPlace, item: &StockItem) -> bool {
    match place {
        StockPlace::Repair { .. } => item.what != StockKind::Spoil,
        StockPlace::Truck { crew } => crew != words::UNKNOWN_CREW,
        _ => true,
    }
}
