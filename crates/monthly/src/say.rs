//! Amounts of the report in the reader's language and the district's units.

use jiff::civil::Date;
use model::district::UnitSystem;
use model::month_report::MonthReport;
use words::{Value, Words};

/// Square feet of a square metre, cubic feet of a cubic metre, US gallons of a litre, feet of a metre: by definition.
pub(crate) const FT2: f64 = 10.763_910_4;
const FT3: f64 = 35.314_666_7;
const GALLONS: f64 = 0.264_172_052;
const FEET: f64 = 3.280_839_9;

const MONTHS: [&str; 12] = [
    "month-january",
    "month-february",
    "month-march",
    "month-april",
    "month-may",
    "month-june",
    "month-july",
    "month-august",
    "month-september",
    "month-october",
    "month-november",
    "month-december",
];

const SHORT_MONTHS: [&str; 12] = [
    "month-short-january",
    "month-short-february",
    "month-short-march",
    "month-short-april",
    "month-short-may",
    "month-short-june",
    "month-short-july",
    "month-short-august",
    "month-short-september",
    "month-short-october",
    "month-short-november",
    "month-short-december",
];

/// A report, to be said in a language.
#[derive(Clone, Copy)]
pub(crate) struct Say<'r> {
    pub report: &'r MonthReport,
    pub words: Words,
}

impl Say<'_> {
    pub(crate) fn say(self, key: &str) -> String {
        self.words.say(key)
    }

    pub(crate) fn with<const N: usize>(self, key: &str, values: [(&str, Value); N]) -> String {
        self.words.say_with(key, values)
    }

    pub(crate) fn counted(self, key: &str, count: usize) -> String {
        self.with(key, [("count", count.into())])
    }

    pub(crate) fn is_si(self) -> bool {
        self.report.units == UnitSystem::Si
    }

    pub(crate) fn number(self, value: f64, decimals: usize) -> String {
        self.words.number(&fixed(value, decimals))
    }

    /// A part as per cent.
    pub(crate) fn per_cent(self, part: f64, decimals: usize) -> String {
        self.with("sheet-percent", [("number", self.number(100.0 * part, decimals).into())])
    }

    /// By how much more than one, in per cent with its sign.
    pub(crate) fn more(self, ratio: f64) -> String {
        let more = 100.0 * (ratio - 1.0);
        let sign = if more >= 0.5 { "+" } else { "" };
        self.with("sheet-percent", [("number", format!("{sign}{}", self.number(more, 0)).into())])
    }

    /// So many of a hundred cases.
    pub(crate) fn of_hundred(self, p: f64) -> String {
        if p < 0.001 {
            self.with("report-less-than", [("number", self.number(0.1, 1).into())])
        } else {
            self.number(100.0 * p, 1)
        }
    }

    fn with_unit(self, value: f64, decimals: usize, unit: &str) -> String {
        format!("{} {}", self.number(value, decimals), self.say(unit))
    }

    pub(crate) fn area(self, m2: f64) -> String {
        if self.is_si() { self.with_unit(m2, 1, "unit-m2") } else { self.with_unit(m2 * FT2, 0, "unit-ft2") }
    }

    /// A distance along a road, without its unit.
    pub(crate) fn along(self, metres: f64) -> String {
        self.number(if self.is_si() { metres } else { metres * FEET }, 0)
    }

    /// A distance with its unit.
    pub(crate) fn distance(self, metres: f64) -> String {
        format!("{} {}", self.along(metres), self.say(if self.is_si() { "unit-m" } else { "unit-ft" }))
    }

    /// An amount in the district's units; `unit` is the one that it is told in.
    pub(crate) fn quantity(self, value: f64, unit: &str) -> String {
        let (value, unit) = match (unit, self.is_si()) {
            ("m²", true) => (value, "unit-m2"),
            ("m²", false) => (value * FT2, "unit-ft2"),
            ("m³", true) => (value, "unit-m3"),
            ("m³", false) => (value * FT3, "unit-ft3"),
            ("l" | "L", true) => (value, "unit-l"),
            ("l" | "L", false) => (value * GALLONS, "unit-gal"),
            ("min", _) => (value, "unit-min"),
            _ => return self.number(value, 0),
        };
        // enough digits that small amounts are seen, none that nobody can measure
        let decimals = match value.abs() {
            size if size < 10.0 => 2,
            size if size < 100.0 => 1,
            _ => 0,
        };
        let decimals = if fixed(value, decimals).trim_matches(['0', '.']).is_empty() { 0 } else { decimals };
        self.with_unit(value, decimals, unit)
    }

    pub(crate) fn money(self, value: f64) -> String {
        self.price(value, 0)
    }

    /// The price of one unit, small as it may be.
    pub(crate) fn price(self, value: f64, decimals: usize) -> String {
        let amount = self.number(value, decimals);
        self.with("report-price", [("amount", amount.into()), ("currency", (&self.report.currency).into())])
    }

    pub(crate) fn day(self, day: Date) -> String {
        let month = self.say(SHORT_MONTHS[index(day.month())]);
        let (number, year) = (day.day().to_string(), day.year().to_string());
        self.with("report-date", [("day", number.into()), ("month", month.into()), ("year", year.into())])
    }

    /// A month's name, 1 to 12.
    pub(crate) fn month(self, month: i8) -> String {
        self.say(MONTHS[index(month)])
    }

    pub(crate) fn short_month(self, month: i8) -> String {
        self.say(SHORT_MONTHS[index(month)])
    }

    pub(crate) fn list(self, items: impl IntoIterator<Item = String>) -> String {
        let mut items = items.into_iter();
        let first = items.next().unwrap_or_default();
        items.fold(first, |first, second| self.with("sheet-list", [("first", first.into()), ("second", second.into())]))
    }

    /// A text of our rules in the language; what a district brought itself stays.
    pub(crate) fn of_rules(self, text: &str) -> String {
        self.words.of_rule(text).unwrap_or_else(|| text.to_owned())
    }
}

fn index(month: i8) -> usize {
    (month - 1).clamp(0, 11) as usize
}

/// Without a minus before what is rounded to nothing.
fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(size) if size.trim_matches(['0', '.']).is_empty() => size.to_owned(),
        _ => text,
    }
}

/// With a capital first letter, as a sentence begins.
pub(crate) fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
