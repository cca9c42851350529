//! Books of what happened: stock that adds up, planned against actual, what repairs cost, when to order what.
//!
//! One call, [`books`], makes the books of a period from the events of the record. Nothing is kept between calls: what is put right
//! later is right in the next books. Amounts and money are exact decimals with six places; what is there at the end is what
//! was there plus what came less what went, to the last digit.
//!
//! How stock is moved and valued stands in the handbook, `methods/stock-and-cost.md`.

mod account;
mod amount;
mod compare;
mod cost;
mod facts;
mod finding;
mod lots;
mod names;
mod posting;
mod reorder;
mod settings;
mod standing;
mod stock_book;
mod table;
mod text_table;
mod told_findings;
mod used;
mod words;
mod workbook;

use jiff::civil::Date;
use model::record::event::Event;
use model::record::in_force::{InForce, in_force};
use model::record::stock::Money;
use schemars::JsonSchema;
use serde::Serialize;

pub use amount::{GREATEST, KEPT_DECIMALS};
pub use compare::{Compared, ComparedRepair, ComparedSum, ComparedTotal, PlannedAgainstActual, Quantities};
pub use cost::{CostBook, CostEntry, CostPart, CostSums, Costs};
pub use finding::{Finding, FindingKind};
pub use lots::LotAmount;
pub use reorder::{GoesOff, Order, Reorder};
pub use settings::{Period, ReorderRule, Settings};
pub use stock_book::{Balance, Flows, ItemTotal, LotBalance, StockMove, Sums, ToldBy};
pub use table::Table;
pub use words::UNKNOWN_CREW;
pub use workbook::{SHEET_ROWS, WorkbookError};

/// The books of a period.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Books {
    /// Its days.
    pub period: Period,
    /// The currency of all money.
    pub currency: String,
    /// Decimals that money is shown with.
    pub money_decimals: u32,
    /// What went from where to where, in the order in which it happened.
    pub moves: Vec<StockMove>,
    /// The book of each item at each place, where something was or moved.
    pub balances: Vec<Balance>,
    /// The sums of each item over all places.
    pub totals: Vec<ItemTotal>,
    /// Lots that are somewhere at the end of the period; by place and item, what goes off first first.
    pub lots: Vec<LotBalance>,
    /// Planned against actual.
    pub planned: PlannedAgainstActual,
    /// What it cost.
    pub costs: CostBook,
    /// What the costs are added up from.
    pub cost_entries: Vec<CostEntry>,
    /// For each rule of ordering, whether to order.
    pub reorders: Vec<Reorder>,
    /// What went off or will go off before the plan uses it.
    pub goes_off: Vec<GoesOff>,
    /// What somebody has to look at, by day.
    pub findings: Vec<Finding>,
}

/// Makes the books of a period from events, given in any order.
///
/// Counted is what stands after corrections and happened by the end of the period; a correction counts whenever it was made. What
/// happened before the period makes what is there when it begins. What can't be counted is a finding; nothing is an error.
/// The work grows with the number of events and its logarithm.
pub fn books<'a>(events: impl IntoIterator<Item = &'a Event>, settings: &Settings) -> Books {
    let (_, after) = settings.bounds();
    let mut standing = in_force(events);
    standing.retain(|stands| stands.event.happened_at() < after);
    of_standing(&standing, settings)
}

fn of_standing(standing: &[InForce<'_>], settings: &Settings) -> Books {
    let facts = facts::Facts::of(standing);
    let used = used::Used::of(standing);
    let mut posted = posting::post(standing, &facts, &used, settings);
    let (of_time, wrong_times) = cost::of_time(standing, &facts, settings);
    let planned = compare::compare(&facts, &posted, settings);
    let (reorders, goes_off) = reorder::look_ahead(&facts, &posted, settings);
    let mut findings = std::mem::take(&mut posted.findings);
    findings.extend(told_findings::of_told(standing, &used, &facts, settings));
    findings.extend(wrong_times);
    findings.extend(standing::at_the_end(&facts, &posted, settings));
    findings.sort_by(|a, b| (a.day, a.kind, a.event, &a.words).cmp(&(b.day, b.kind, b.event, &b.words)));
    let mut cost_entries = std::mem::take(&mut posted.costs);
    cost_entries.extend(of_time);
    cost_entries.sort_by_key(|entry| (entry.day, entry.repair, entry.part));
    Books {
        period: settings.period,
        currency: settings.currency.clone(),
        money_decimals: settings.money_decimals,
        moves: std::mem::take(&mut posted.moves),
        balances: posted.balances(),
        totals: posted.totals(),
        lots: posted.lots(),
        planned,
        costs: CostBook::of(&cost_entries),
        cost_entries,
        reorders,
        goes_off,
        findings,
    }
}

impl Books {
    /// Money as it is shown: rounded to the decimals of the currency, half to the even digit.
    pub fn shown(&self, money: Money) -> String {
        amount::shown(money, self.money_decimals)
    }

    /// A table as CSV (RFC 4180), in UTF-8. Numbers stand in full; text that a spreadsheet would run as a formula has an apostrophe
    /// before it.
    pub fn csv(&self, table: Table) -> String {
        text_table::csv(self, table)
    }

    /// All tables as a workbook (XLSX), a sheet for each, of [`SHEET_ROWS`] rows at most: a last row says how many more there are.
    /// The same books give the same bytes.
    pub fn workbook(&self) -> Result<Vec<u8>, WorkbookError> {
        workbook::workbook(self)
    }

    /// The last day of the books.
    pub fn as_at(&self) -> Date {
        self.period.to
    }
}
