//! What stands on each page, in words ready to print: the templates place it and decide nothing.

mod alerts;
mod cover;
mod hole;
mod lists;
mod looks;
mod placing;
mod words;
mod zone;

use ::words::Language;
use jiff::civil::{Date, Weekday};
use model::district::{Paper, UnitSystem};
use model::figure::Spread;
use model::plan::Plan;
use model::site_unit::{SiteCount, SiteGood};
use model::triage::Severity;
use serde::Serialize;

use crate::display::Units;
use crate::drawing::visited;
use crate::printable::{printable, shorten};

/// The whole pack as the templates read it.
#[derive(Debug, Serialize)]
pub struct Pack {
    paper: &'static str,
    units: &'static str,
    /// Language of everything that is said.
    #[serde(skip)]
    pub language: Language,
    #[serde(rename = "language")]
    language_code: &'static str,
    title: String,
    district: String,
    date: String,
    /// District and date, at the head of every page but the first.
    head: String,
    crew: String,
    footer: String,
    cover: cover::Cover,
    zones: Vec<zone::ZoneSheet>,
    #[serde(skip)]
    drawings: Vec<(String, String)>,
}

impl Pack {
    /// The drawings by file name.
    pub fn drawings(&self) -> impl Iterator<Item = (&str, &str)> {
        self.drawings.iter().map(|(name, svg)| (name.as_str(), svg.as_str()))
    }
}

/// `base about 12 wheelbarrows, 9 to 17; water about 2 buckets, 2 to 3`.
fn site_counts_line(units: Units, counts: &[SiteCount]) -> String {
    let words = |count: &SiteCount| {
        let good = units.words.say(match count.good {
            SiteGood::Base => "sheet-good-base",
            SiteGood::Water => "sheet-good-water",
            SiteGood::Binder => "sheet-good-binder",
            SiteGood::CoverStone => "sheet-good-stone",
            SiteGood::Spoil => "sheet-good-spoil",
        });
        format!("{good} {}", shorten(&count_words(units, count), 60))
    };
    counts.iter().map(words).collect::<Vec<_>>().join("; ")
}

/// `about 12 wheelbarrows, 9 to 17`: the median and what nine in ten and one in ten exceed. The units have the names that the
/// district gave them.
fn count_words(units: Units, count: &SiteCount) -> String {
    let counted = |number: u32| format!("{number} {}", if number == 1 { &count.name } else { &count.plural });
    match count.count.spread {
        None => counted(count.count.value),
        Some(Spread { p10, p50, p90 }) if p10 == p90 => {
            units.words.say_with("sheet-about", [("counted", counted(p50).into())])
        }
        Some(Spread { p10, p50, p90 }) => units.words.say_with(
            "sheet-about-range",
            [("counted", counted(p50).into()), ("low", p10.into()), ("high", p90.into())],
        ),
    }
}

/// A small fact: what, and its value.
#[derive(Debug, Serialize)]
pub struct Fact {
    label: String,
    value: String,
    /// To be set so that nobody overlooks it.
    loud: bool,
}

/// Puts the plan into words.
pub fn pack(plan: &Plan) -> Pack {
    let units = Units::of(&plan.district);
    let mut drawings = vec![("map.svg".to_owned(), crate::route_map_svg(plan))];
    let zones = visited(plan)
        .enumerate()
        .map(|(index, site)| zone::zone_sheet(plan, units, site, index + 1, &mut drawings))
        .collect();
    let date = long_date(units, plan.date);
    Pack {
        paper: match plan.district.paper {
            Paper::A4 => "a4",
            Paper::UsLetter => "us-letter",
        },
        title: units.words.say_with(
            "sheet-title",
            [("district", printable(&plan.district.name).as_ref().into()), ("date", (&date).into())],
        ),
        head: units.list(&[shorten(&plan.district.name, 60), date.clone()]),
        district: shorten(&plan.district.name, 60),
        units: match plan.district.units {
            UnitSystem::Si => "si",
            UnitSystem::UsCustomary => "us",
        },
        crew: shorten(&plan.district.crew.name, 45),
        footer: units.words.say_with(
            "sheet-footer",
            [("version", env!("CARGO_PKG_VERSION").into()), ("seed", plan.seed.to_string().into())],
        ),
        language: units.words.language(),
        language_code: units.words.language().code(),
        cover: cover::cover(plan, units),
        date,
        zones,
        drawings,
    }
}

/// A fact by the key of its label.
fn fact(units: Units, label: &str, value: impl Into<String>) -> Fact {
    Fact { label: units.words.say(label), value: value.into(), loud: false }
}

fn loud_fact(units: Units, label: &str, value: impl Into<String>, loud: bool) -> Fact {
    Fact { loud, ..fact(units, label, value) }
}

/// Keys of the months, January first.
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

/// `Thursday 26 November 2026`.
fn long_date(units: Units, date: Date) -> String {
    let weekday = match date.weekday() {
        Weekday::Monday => "day-monday",
        Weekday::Tuesday => "day-tuesday",
        Weekday::Wednesday => "day-wednesday",
        Weekday::Thursday => "day-thursday",
        Weekday::Friday => "day-friday",
        Weekday::Saturday => "day-saturday",
        Weekday::Sunday => "day-sunday",
    };
    let month = MONTHS[(date.month() - 1) as usize];
    let values = [
        ("weekday", units.words.say(weekday).into()),
        ("day", date.day().to_string().into()),
        ("month", units.words.say(month).into()),
        ("year", date.year().to_string().into()),
    ];
    units.words.say_with("sheet-long-date", values)
}

/// `26 Nov`.
fn short_date(units: Units, date: Date) -> String {
    const MONTHS: [&str; 12] = [
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
    let month = units.words.say(MONTHS[(date.month() - 1) as usize]);
    units.words.say_with("sheet-short-date", [("day", date.day().to_string().into()), ("month", month.into())])
}

/// The day something is due, and whether that day is past.
fn due_words(units: Units, today: Date, due: Date) -> String {
    let day = short_date(units, due);
    if due < today { units.words.say_with("sheet-overdue", [("day", day.into())]) } else { day }
}

/// The word for a severity; `None` is a hole too small to be rated.
fn severity_word(units: Units, severity: Option<Severity>) -> String {
    units.words.say(match severity {
        None => "sheet-severity-none",
        Some(Severity::Low) => "sheet-severity-low",
        Some(Severity::Medium) => "sheet-severity-medium",
        Some(Severity::High) => "sheet-severity-high",
    })
}
