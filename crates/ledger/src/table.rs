//! The books as tables: what CSV files and workbooks are written from.

use std::borrow::Cow;
use std::collections::HashMap;

use jiff::Timestamp;
use jiff::civil::Date;
use model::record::stock::{StockItem, StockPlace, StockUnit};
use rust_decimal::Decimal;
use uuid::Uuid;

use crate::Books;
use crate::compare::{Compared, ComparedTotal};
use crate::cost::CostSums;
use crate::lots::LotAmount;
use crate::stock_book::Flows;
use crate::words::place_cells;

/// The tables that books are written as.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Table {
    /// What went from where to where.
    Moves,
    /// The book of each item at each place.
    Balances,
    /// The sums of each item over all places, in amounts and in money.
    Totals,
    /// What it cost, by repair, road, crew and month.
    Costs,
    /// Planned against actual, by repair, road, crew and month.
    PlannedAgainstActual,
    /// Lots at the end of the period.
    Lots,
    /// What to order.
    Orders,
    /// What somebody has to look at.
    Findings,
}

/// One cell.
#[derive(Debug, Clone, PartialEq)]
pub enum Cell<'a> {
    /// Nothing.
    Empty,
    /// Text.
    Text(Cow<'a, str>),
    /// A number, and how a spreadsheet shows it.
    Number(Decimal, Shown),
    /// A day.
    Day(Date),
    /// A moment, UTC.
    Moment(Timestamp),
}

/// How a spreadsheet shows a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Shown {
    /// Whole.
    Whole,
    /// With three decimals: cubic metres to the litre, litres to the millilitre.
    Amount,
    /// With the decimals of the currency.
    Money,
    /// With four decimals.
    Price,
    /// With two decimals.
    Ratio,
}

/// One row.
pub type Cells<'a> = Vec<Cell<'a>>;

impl Table {
    /// All, in the order of the workbook's sheets.
    pub const ALL: [Table; 8] = [
        Table::Balances,
        Table::Totals,
        Table::Costs,
        Table::PlannedAgainstActual,
        Table::Orders,
        Table::Lots,
        Table::Findings,
        Table::Moves,
    ];

    /// The name of its sheet, and of its file without an ending.
    pub fn name(self) -> &'static str {
        match self {
            Table::Moves => "moves",
            Table::Balances => "balances",
            Table::Totals => "totals",
            Table::Costs => "costs",
            Table::PlannedAgainstActual => "planned-against-actual",
            Table::Lots => "lots",
            Table::Orders => "orders",
            Table::Findings => "findings",
        }
    }

    /// Its headings.
    pub fn headings(self) -> Vec<&'static str> {
        let text = match self {
            Table::Moves => "day,at_utc,told_by,from_kind,from,to_kind,to,item,which,unit,amount,value,lots,event",
            Table::Balances => {
                "place_kind,place,item,which,unit,opened,received,returned,taken_out,used,wasted,moved_in,moved_out,found,\
                 closed,average_price,value"
            }
            Table::Totals => "item,which,unit,opened,bought,into_repairs,wasted,found,price_difference,closed",
            Table::Costs => {
                "by,of,road,labour,plant,base,cover_stone,binder,water,other_material,wasted,count_difference,\
                 price_difference,total"
            }
            Table::PlannedAgainstActual => {
                "by,of,day,road,crew,done,quantity,repairs_compared,planned,actual,difference,ratio"
            }
            Table::Lots => "place_kind,place,item,which,unit,lot,use_by,amount",
            Table::Orders => {
                "depot,item,which,unit,stock,needed,goes_off,safety_stock,lead_time_days,short_on,order_by,late_days,order,\
                 words,source"
            }
            Table::Findings => "day,kind,place_kind,place,item,which,amount,words,event",
        };
        text.split(',').collect()
    }

    /// Its rows.
    pub fn rows(self, books: &Books) -> Box<dyn Iterator<Item = Cells<'_>> + '_> {
        match self {
            Table::Moves => Box::new(moves(books)),
            Table::Balances => Box::new(balances(books)),
            Table::Totals => Box::new(totals(books)),
            Table::Costs => Box::new(costs(books)),
            Table::PlannedAgainstActual => Box::new(planned(books)),
            Table::Lots => Box::new(lots(books)),
            Table::Orders => Box::new(orders(books)),
            Table::Findings => Box::new(findings(books)),
        }
    }
}

fn moves(books: &Books) -> impl Iterator<Item = Cells<'_>> {
    books.moves.iter().map(|a_move| {
        let mut cells = vec![Cell::Day(a_move.day), Cell::Moment(a_move.at), Cell::from(a_move.told_by.word())];
        cells.extend(of_place(a_move.from.as_deref()));
        cells.extend(of_place(a_move.to.as_deref()));
        cells.extend(of_item(&a_move.item));
        cells.push(amount(a_move.amount, &a_move.item));
        cells.push(money(a_move.value));
        cells.push(Cell::from(lots_in_words(&a_move.lots)));
        cells.push(Cell::from(a_move.event.to_string()));
        cells
    })
}

fn balances(books: &Books) -> impl Iterator<Item = Cells<'_>> {
    books.balances.iter().map(|balance| {
        let mut cells = Vec::from(of_place(Some(&balance.place)));
        cells.extend(of_item(&balance.item));
        cells.extend(in_order(&balance.amount).map(|flow| amount(flow, &balance.item)));
        cells.push(balance.average_price.map_or(Cell::Empty, |price| Cell::Number(price, Shown::Price)));
        cells.push(money(balance.value));
        cells
    })
}

fn in_order(flows: &Flows) -> [Decimal; 10] {
    let Flows { opened, received, returned, taken_out, used, wasted, moved_in, moved_out, found, closed } = *flows;
    [opened, received, returned, taken_out, used, wasted, moved_in, moved_out, found, closed]
}

/// Two rows for each item: its amounts, and their value.
fn totals(books: &Books) -> impl Iterator<Item = Cells<'_>> {
    books.totals.iter().flat_map(|total| {
        [(false, total.amount), (true, total.value)].map(|(in_money, sums)| {
            let [item, which, unit] = of_item(&total.item);
            let unit = if in_money { Cell::from(books.currency.as_str()) } else { unit };
            let mut cells = vec![item, which, unit];
            let numbers = [
                sums.opened,
                sums.bought,
                sums.into_repairs,
                sums.wasted,
                sums.found,
                sums.price_difference,
                sums.closed,
            ];
            cells.extend(numbers.map(|number| if in_money { money(number) } else { amount(number, &total.item) }));
            cells
        })
    })
}

fn costs(books: &Books) -> impl Iterator<Item = Cells<'_>> {
    let roads: HashMap<Uuid, &str> =
        books.cost_entries.iter().filter_map(|entry| Some((entry.repair?, entry.road.as_str()))).collect();
    let book = &books.costs;
    let of_repairs = book.repairs.iter().map(move |costs| {
        let of = costs.of.map(|repair| repair.to_string()).unwrap_or_default();
        let road = costs.of.and_then(|repair| roads.get(&repair).copied()).unwrap_or("");
        cost_row("repair", of.into(), road, &costs.costs)
    });
    let groups = [("road", &book.roads), ("crew", &book.crews), ("month", &book.months)];
    let of_groups = groups.into_iter().flat_map(|(by, all)| {
        all.iter().map(move |costs| {
            let road = if by == "road" { costs.of.as_str() } else { "" };
            cost_row(by, costs.of.as_str().into(), road, &costs.costs)
        })
    });
    of_repairs.chain(of_groups).chain([cost_row("all", "".into(), "", &book.total)])
}

fn cost_row<'a>(by: &'static str, of: Cow<'a, str>, road: &'a str, costs: &CostSums) -> Cells<'a> {
    let mut cells = vec![Cell::from(by), Cell::Text(of), Cell::from(road)];
    cells.extend(costs.parts().map(|(_, part)| money(part)));
    cells.push(money(costs.total));
    cells
}

/// A row for each quantity of each repair, road, crew and month.
fn planned(books: &Books) -> impl Iterator<Item = Cells<'_>> {
    let planned = &books.planned;
    let of_repairs = planned.repairs.iter().flat_map(|repair| {
        repair.quantities.each().into_iter().map(move |(quantity, compared)| {
            let mut cells = vec![
                Cell::from("repair"),
                Cell::from(repair.repair.to_string()),
                Cell::Day(repair.day),
                Cell::from(repair.road.as_str()),
                Cell::from(repair.crew.as_str()),
                Cell::from(if repair.done { "yes" } else { "no" }),
                Cell::from(quantity),
                Cell::Number(Decimal::from(u8::from(compared.difference.is_some())), Shown::Whole),
            ];
            cells.extend(compared_cells(compared));
            cells
        })
    });
    let of_totals = [("road", &planned.roads), ("crew", &planned.crews), ("month", &planned.months)];
    of_repairs
        .chain(of_totals.into_iter().flat_map(|(by, totals)| totals.iter().flat_map(move |of| total_rows(by, of))))
}

fn total_rows<'a>(by: &'static str, total: &'a ComparedTotal) -> impl Iterator<Item = Cells<'a>> {
    total.quantities.each().into_iter().map(move |(quantity, sum)| {
        let mut cells = vec![Cell::from(by), Cell::from(total.of.as_str())];
        cells.extend([Cell::Empty, Cell::Empty, Cell::Empty, Cell::Empty, Cell::from(quantity)]);
        cells.push(Cell::Number(sum.repairs.into(), Shown::Whole));
        cells.extend(compared_cells(&sum.compared));
        cells
    })
}

fn compared_cells(compared: &Compared) -> [Cell<'static>; 4] {
    let number = |value: Option<Decimal>, shown| value.map_or(Cell::Empty, |value| Cell::Number(value, shown));
    [
        number(compared.planned, Shown::Amount),
        number(compared.actual, Shown::Amount),
        number(compared.difference, Shown::Amount),
        number(compared.ratio, Shown::Ratio),
    ]
}

fn lots(books: &Books) -> impl Iterator<Item = Cells<'_>> {
    books.lots.iter().map(|lot| {
        let mut cells = Vec::from(of_place(Some(&lot.place)));
        cells.extend(of_item(&lot.item));
        cells.push(Cell::from(lot.lot.number.as_str()));
        cells.push(day(lot.lot.use_by));
        cells.push(amount(lot.amount, &lot.item));
        cells
    })
}

fn orders(books: &Books) -> impl Iterator<Item = Cells<'_>> {
    books.reorders.iter().map(|reorder| {
        let item = &reorder.rule.item;
        let order = reorder.order.as_ref();
        let whole = |number: i64| Cell::Number(number.into(), Shown::Whole);
        let mut cells = vec![Cell::from(reorder.rule.depot.as_str())];
        cells.extend(of_item(item));
        cells.extend(
            [reorder.stock, reorder.needed, reorder.goes_off, reorder.rule.safety_stock].map(|of| amount(of, item)),
        );
        cells.push(whole(reorder.rule.lead_time_days.into()));
        cells.push(day(order.map(|order| order.short_on)));
        cells.push(day(order.map(|order| order.order_by)));
        cells.push(order.map_or(Cell::Empty, |order| whole(order.late_days)));
        cells.push(order.map_or(Cell::Empty, |order| amount(order.amount, item)));
        cells.push(Cell::from(reorder.words.as_str()));
        cells.push(Cell::from(reorder.rule.source.as_str()));
        cells
    })
}

fn findings(books: &Books) -> impl Iterator<Item = Cells<'_>> {
    books.findings.iter().map(|finding| {
        let mut cells = vec![Cell::Day(finding.day), Cell::from(finding.kind.word())];
        match &finding.place {
            Some(place) => cells.extend(of_place(Some(place))),
            None => cells.extend([Cell::Empty, Cell::Empty]),
        }
        let item = finding.item.as_ref();
        cells.push(item.map_or(Cell::Empty, |item| Cell::from(item.what.word())));
        cells.push(item.map_or(Cell::Empty, |item| Cell::from(item.which.as_str())));
        cells.push(finding.amount.map_or(Cell::Empty, |amount| Cell::Number(amount, Shown::Amount)));
        cells.push(Cell::from(finding.words.as_str()));
        cells.push(finding.event.map_or(Cell::Empty, |event| Cell::from(event.to_string())));
        cells
    })
}

fn of_place(place: Option<&StockPlace>) -> [Cell<'static>; 2] {
    let (kind, name) = place_cells(place);
    [Cell::from(kind), Cell::from(name)]
}

fn of_item(item: &StockItem) -> [Cell<'_>; 3] {
    [Cell::from(item.what.word()), Cell::from(item.which.as_str()), Cell::from(item.what.unit().symbol())]
}

fn amount(amount: Decimal, of: &StockItem) -> Cell<'static> {
    let shown = if of.what.unit() == StockUnit::Pieces { Shown::Whole } else { Shown::Amount };
    Cell::Number(amount, shown)
}

fn money(money: Decimal) -> Cell<'static> {
    Cell::Number(money, Shown::Money)
}

fn day(day: Option<Date>) -> Cell<'static> {
    day.map_or(Cell::Empty, Cell::Day)
}

fn lots_in_words(lots: &[LotAmount]) -> String {
    let each = lots.iter().map(|piece| format!("{}: {}", piece.lot.number, piece.amount.normalize()));
    each.collect::<Vec<_>>().join("; ")
}

impl<'a> From<&'a str> for Cell<'a> {
    fn from(text: &'a str) -> Self {
        Cell::Text(Cow::Borrowed(text))
    }
}

impl From<String> for Cell<'_> {
    fn from(text: String) -> Self {
        Cell::Text(Cow::Owned(text))
    }
}
