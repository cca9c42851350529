//! A district's month as it is reported: what was done, what it cost, what is left, what lasts. Worked out by `monthly`, printed by
//! others; amounts in SI, money in the district's currency.

use jiff::civil::Date;
use schemars::JsonSchema;
use serde::Serialize;

use crate::district::{Paper, UnitSystem};

/// The report.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct MonthReport {
    /// The district's name.
    pub district: String,
    /// First day of the month.
    #[schemars(with = "String", extend("format" = "date"))]
    pub month: Date,
    /// Last day that counts: of the month, or today where the month goes on.
    #[schemars(with = "String", extend("format" = "date"))]
    pub until: Date,
    /// Whether days of the month are still to come.
    pub goes_on: bool,
    /// Position of the last event of the record that it is made from.
    pub made_from: u64,
    /// Currency of all money.
    pub currency: String,
    /// Units to show; the values themselves are SI.
    #[serde(skip)]
    pub units: UnitSystem,
    /// Paper to print on.
    #[serde(skip)]
    pub paper: Paper,
    /// What was done.
    pub done: MonthDone,
    /// What it cost.
    pub cost: MonthCost,
    /// Stock by item, over all places.
    pub stock: Vec<StockLine>,
    /// What is left.
    pub left: MonthLeft,
    /// What lasts.
    pub lasts: MonthLasts,
    /// Holes told of and mended in the last months, the last month last.
    pub arrivals: Vec<MonthArrivals>,
    /// Planned against actual.
    pub planned: Vec<PlannedLine>,
    /// Stretches of road nearest to or past patching, the furthest past it first.
    pub stop: StopPart,
    /// How the figures were worked out.
    pub workings: Vec<Working>,
    /// What the report can't say.
    pub limits: Vec<String>,
    /// The plots, SVG.
    #[serde(skip)]
    pub plots: MonthPlots,
}

/// What was done.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct MonthDone {
    /// Repairs that traffic ran over for the first time.
    pub repairs: usize,
    /// Area cut of these, as far as told, m².
    pub area_m2: f64,
    /// How many of them tell their area.
    pub with_area: usize,
    /// The same of the month before.
    pub repairs_before: usize,
    /// By road, the most first.
    pub roads: Vec<RoadDone>,
}

/// What was done on a road.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct RoadDone {
    /// Its name; empty: not known.
    pub road: String,
    /// Repairs.
    pub repairs: usize,
    /// Area cut, m².
    pub area_m2: f64,
    /// Cost of the month there.
    pub cost: f64,
}

/// What it cost.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct MonthCost {
    /// By what it was for; only what cost something.
    pub parts: Vec<CostLine>,
    /// All.
    pub total: f64,
    /// For each square metre cut, where something was.
    pub per_m2: Option<f64>,
    /// For each repair, where there were some.
    pub per_repair: Option<f64>,
}

/// A part of the cost.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct CostLine {
    /// What for: `labour`, `base` ...
    pub part: String,
    /// How much.
    pub money: f64,
}

/// An item's month.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct StockLine {
    /// Its name.
    pub item: String,
    /// `m³`, `L`, or empty for pieces.
    pub unit: String,
    /// There at the beginning.
    pub opening: f64,
    /// Bought.
    pub bought: f64,
    /// Into repairs.
    pub used: f64,
    /// Thrown away.
    pub wasted: f64,
    /// Found by count; below nothing: missed.
    pub found: f64,
    /// There at the end.
    pub closing: f64,
    /// What is there at the end is worth this.
    pub value: f64,
}

/// What is left.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct MonthLeft {
    /// Holes told of and not mended by the end.
    pub open: usize,
    /// Of these, judged: measured and on a road.
    pub judged: usize,
    /// Of the judged, past their day.
    pub overdue: usize,
    /// Points of risk of all judged.
    pub risk: f64,
    /// Holes by severity, the worst first.
    pub by_severity: Vec<(String, usize)>,
    /// The riskiest.
    pub worst: Vec<OpenHole>,
}

/// An open hole.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct OpenHole {
    /// Its number.
    pub hole: String,
    /// Its road.
    pub road: String,
    /// Points of risk.
    pub risk: f64,
    /// Severity.
    pub severity: String,
    /// Day by which it is to be mended.
    #[schemars(with = "Option<String>", extend("format" = "date"))]
    pub due: Option<Date>,
    /// Whether that day is past.
    pub overdue: bool,
    /// Days since it was told of.
    pub days_open: i64,
}

/// What lasts.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct MonthLasts {
    /// Lives known.
    pub lives: usize,
    /// Of these, failed.
    pub failures: usize,
    /// By each property that tells groups apart.
    pub parts: Vec<LastsPart>,
}

/// Lives in groups of a property.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct LastsPart {
    /// The property in a word.
    pub by: String,
    /// The groups.
    pub groups: Vec<LastsGroup>,
    /// In sentences: the groups, then the test.
    pub words: Vec<String>,
    /// The plot, SVG.
    #[serde(skip)]
    pub plot: String,
}

/// A group.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct LastsGroup {
    /// Its name.
    pub name: String,
    /// Lives.
    pub n: u64,
    /// Failures.
    pub failures: u64,
    /// Whether these are too few to tell anything.
    pub too_few: bool,
    /// Days that half outlast.
    pub median_days: Option<f64>,
    /// Mean life within a window, days.
    pub mean_days: f64,
    /// Its standard error.
    pub mean_error: f64,
    /// The window, days.
    pub within_days: f64,
}

/// Holes of a month.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct MonthArrivals {
    /// As `2031-06`.
    pub month: String,
    /// First told of.
    pub told: u32,
    /// Mended.
    pub mended: u32,
}

/// A quantity as planned and as it came.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct PlannedLine {
    /// `base`, `binder` ...
    pub what: String,
    /// Unit.
    pub unit: String,
    /// Repairs of which both are known.
    pub repairs: usize,
    /// As planned.
    pub planned: f64,
    /// As it came.
    pub actual: f64,
    /// Actual over planned.
    pub ratio: Option<f64>,
}

/// When to stop patching.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct StopPart {
    /// Why nothing is worked out; empty where something is.
    pub nothing: String,
    /// Years looked at.
    pub years: usize,
    /// Price of one repair, all in.
    pub repair_cost: f64,
    /// Stretches looked at.
    pub stretches: usize,
    /// Those past patching: renewing now costs less in nine futures of ten.
    pub past: usize,
    /// The first ten.
    pub first: Vec<StopLine>,
    /// All of them, for the tables.
    #[serde(skip)]
    pub all: Vec<StopLine>,
    /// What may be done with each, in the same order.
    #[serde(skip)]
    pub choices: Vec<StretchChoices>,
    /// What money for renewals leaves: its corners, from nothing on.
    pub budget: Vec<BudgetCorner>,
}

/// What may be done with a stretch, and what is expected of each over the years.
#[derive(Debug, Clone, PartialEq)]
pub struct StretchChoices {
    /// Patched on.
    pub patch_on: Choice,
    /// Each way to renew it now.
    pub renewals: Vec<Choice>,
}

/// One of these.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// Its name; empty: patched on.
    pub name: String,
    /// Money that it needs now.
    pub price: f64,
    /// Holes to come over the years: new ones, and repairs that fail.
    pub holes: f64,
    /// All costs over the years at today's worth, the price among them, less what the renewal is still worth at the end.
    pub cost: f64,
}

/// So much money for renewals, spent where it spares most holes, and what is left.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct BudgetCorner {
    /// Money.
    pub budget: f64,
    /// Stretches renewed with it.
    pub stretches: usize,
    /// Holes to come over the years on all stretches.
    pub holes: f64,
    /// All costs over the years at today's worth, that money among them.
    pub cost: f64,
}

/// A stretch of road.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct StopLine {
    /// Name of the road.
    pub road: String,
    /// From and to along its section, m.
    pub from_m: f64,
    /// Likewise.
    pub to_m: f64,
    /// Number of the section in the road file, and its own.
    pub section: String,
    /// New holes a year expected, drawn towards what other stretches have.
    pub holes_per_year: f64,
    /// New holes seen there.
    pub holes_seen: u32,
    /// Patched on for all years: mean, one future in ten below, nine in ten.
    pub patch_on: [f64; 3],
    /// The way to renew that is expected to cost least when done now.
    pub renewal: String,
    /// Its price.
    pub renewal_price: f64,
    /// Renewed now, for all years: mean, one future in ten below, nine in ten.
    pub renew_now: [f64; 3],
    /// Part of the futures in which renewing now costs less.
    pub cheaper: f64,
    /// Year in which patching on has cost as much as renewing now: one future in ten by then, half, nine in ten; absent: not
    /// within the years.
    pub break_even: [Option<usize>; 3],
    /// Part of the futures that have one.
    pub break_even_reached: f64,
    /// Year in which renewing is expected to cost least.
    pub best_year: Option<usize>,
}

/// How figures were worked out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Working {
    /// The part of the report and the figure.
    pub figure: String,
    /// How.
    pub how: String,
    /// Where the way or the values are from.
    pub source: String,
}

/// Plots, SVG.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct MonthPlots {
    /// Holes told of and mended by month.
    pub arrivals: String,
    /// Planned against actual.
    pub planned: String,
}

/// The report in words, section by section: what renderings place and none changes.
#[derive(Debug, Clone, PartialEq)]
pub struct ReportSheet {
    /// `June 2026`.
    pub title: String,
    /// The district's name.
    pub district: String,
    /// What it is, in a line.
    pub about: String,
    /// What it was made from and by.
    pub footer: String,
    /// Paper to print on.
    pub paper: Paper,
    /// The sections.
    pub sections: Vec<SheetSection>,
}

/// A section. Its parts stand in this order.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct SheetSection {
    /// Its heading.
    pub heading: String,
    /// Figures that are seen first: what, and how much.
    pub facts: Vec<[String; 2]>,
    /// Sentences.
    pub lines: Vec<String>,
    /// Tables.
    pub tables: Vec<SheetTable>,
    /// Plots.
    pub plots: Vec<SheetPlot>,
    /// What has to be known to read it right.
    pub notes: Vec<String>,
}

/// A table.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct SheetTable {
    /// What it shows; may be empty.
    pub caption: String,
    /// Its columns: the heading, and whether numbers stand in it.
    pub head: Vec<(String, bool)>,
    /// The column that takes the room that is left.
    pub wide: usize,
    /// Its rows.
    pub rows: Vec<Vec<String>>,
}

/// A plot.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct SheetPlot {
    /// What it shows.
    pub caption: String,
    /// The drawing.
    #[serde(skip)]
    pub svg: String,
}
