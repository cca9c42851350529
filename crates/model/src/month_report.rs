//! A district's month as it is reported: what was done, what it cost, what is left, what lasts. Worked out by `monthly`, printed by
//! others; amounts in SI, money in the district's currency.

use jiff::civil::Date;
use schemars::JsonSchema;
use serde::Serialize;

use crate::district::{Paper, UnitSystem};
use crate::life::{GroupCurve, Verdict};
use crate::record::stock::StockKind;

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
    /// How the figures were worked out, in English.
    pub workings: Vec<Working>,
    /// What the report can't say, in English.
    pub limits: Vec<String>,
    /// What both are said from, for other languages.
    #[serde(skip)]
    pub basis: MonthBasis,
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
    /// Its name: what and which.
    pub item: String,
    /// What kind of thing.
    pub what: StockKind,
    /// Which of the kind; may be empty.
    pub which: String,
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
    /// Whether the groups differ.
    pub verdict: Verdict,
    /// In English sentences: the groups, then the test.
    pub words: Vec<String>,
    /// What is drawn.
    #[serde(skip)]
    pub curves: Vec<GroupCurve>,
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
    /// Why nothing is worked out, in English; empty where something is.
    pub nothing: String,
    /// The same for other languages.
    #[serde(skip)]
    pub why_nothing: Option<StopNothing>,
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

/// Settings and counts that workings and limits tell.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct MonthBasis {
    /// A new hole so near to a repair is its failure, m.
    pub same_place_m: f64,
    /// Where that distance is from.
    pub same_place_source: String,
    /// Chance that a band covers the truth.
    pub confidence: f64,
    /// Fewer failures are too few to tell.
    pub fewest_failures: u64,
    /// Whether no repair is on a known road.
    pub no_repair_placed: bool,
    /// New surfaces told of that lie on no known road.
    pub resurfaced_nowhere: u64,
    /// Findings of the books that somebody has to look at.
    pub findings: usize,
    /// What the stop of patching was worked out with; nothing where it was not.
    pub stop: Option<StopBasis>,
}

/// What the stop of patching was worked out with.
#[derive(Debug, Clone, PartialEq)]
pub struct StopBasis {
    /// All costs of the last twelve months.
    pub cost: f64,
    /// Over so many repairs.
    pub repairs: usize,
    /// New holes.
    pub holes: u32,
    /// Seen in so many years.
    pub watched_years: f64,
    /// Length by years of watching, where a stretch got a new surface only those since then.
    pub km_years: f64,
    /// Whether a stretch got a new surface.
    pub is_anew: bool,
    /// A kilometre and year.
    pub per_km_year: f64,
    /// Holes that a stretch's own count is drawn by; nothing where stretches differ no more than by chance.
    pub drawn_by: Option<f64>,
    /// Law of repairs' lives.
    pub law: LawBasis,
    /// Futures drawn.
    pub futures: u64,
    /// Interest for a year, as a part.
    pub interest: f64,
    /// Growth of new holes for a year, as a part.
    pub growth: f64,
    /// Ways to renew.
    pub renewals: Vec<RenewalBasis>,
}

/// A Weibull law of repairs' lives.
#[derive(Debug, Clone, PartialEq)]
pub struct LawBasis {
    /// Its scale, years.
    pub scale_years: f64,
    /// Its shape.
    pub shape: f64,
    /// Where it is from.
    pub from: LawFrom,
}

/// Where a law is from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LawFrom {
    /// Fitted to the record.
    Lives {
        /// Lives.
        lives: usize,
        /// Failures among them.
        failures: usize,
    },
    /// The rules: too few have failed.
    Rules {
        /// Their source.
        source: String,
    },
}

/// A way to renew.
#[derive(Debug, Clone, PartialEq)]
pub struct RenewalBasis {
    /// Its name in the rules.
    pub name: String,
    /// Price of a square metre.
    pub price_per_m2: f64,
    /// Part of new holes that is left.
    pub rate_left: f64,
    /// Written off over so many years.
    pub life_years: f64,
    /// Source of its price.
    pub source: String,
}

/// Why nothing can be said of when patching should stop.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StopNothing {
    /// No roads are known.
    NoRoads,
    /// The record is too short.
    TooShort,
    /// No repair has a cost.
    NoCost,
    /// No new hole is on a road that is kept up.
    NoHole,
    /// The rules' law can't be.
    NoLaw,
    /// The rules' settings can't be worked with.
    Unworkable,
}

/// The report in words, section by section: what renderings place and none changes.
#[derive(Debug, Clone, PartialEq)]
pub struct ReportSheet {
    /// Code of the language that it is in (ISO 639-1).
    pub language: String,
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
