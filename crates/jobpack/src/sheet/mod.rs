//! What stands on each page, in words ready to print: the templates place it and decide nothing.

mod alerts;
mod cover;
mod hole;
mod lists;
mod placing;
mod words;
mod zone;

use jiff::civil::{Date, Weekday};
use model::district::{Paper, UnitSystem};
use model::plan::Plan;
use model::site_unit::SiteCount;
use serde::Serialize;

use crate::display::Units;
use crate::drawing::visited;
use crate::printable::shorten;

/// The whole pack as the templates read it.
#[derive(Debug, Serialize)]
pub struct Pack {
    paper: &'static str,
    units: &'static str,
    title: String,
    district: String,
    date: String,
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
fn site_counts_line(counts: &[SiteCount]) -> String {
    let words = |count: &SiteCount| format!("{} {}", count.good.words(), shorten(&count.words(), 60));
    counts.iter().map(words).collect::<Vec<_>>().join("; ")
}

/// A small fact: what, and its value.
#[derive(Debug, Serialize)]
pub struct Fact {
    label: &'static str,
    value: String,
    /// To be set so that nobody overlooks it.
    loud: bool,
}

/// Puts the plan into words.
pub fn pack(plan: &Plan) -> Pack {
    let units = Units(plan.district.units);
    let mut drawings = vec![("map.svg".to_owned(), crate::route_map_svg(plan))];
    let zones = visited(plan)
        .enumerate()
        .map(|(index, site)| zone::zone_sheet(plan, units, site, index + 1, &mut drawings))
        .collect();
    let date = long_date(plan.date);
    Pack {
        paper: match plan.district.paper {
            Paper::A4 => "a4",
            Paper::UsLetter => "us-letter",
        },
        title: format!("Job pack, {}, {date}", plan.district.name),
        district: shorten(&plan.district.name, 60),
        units: match plan.district.units {
            UnitSystem::Si => "si",
            UnitSystem::UsCustomary => "us",
        },
        crew: shorten(&plan.district.crew.name, 45),
        footer: format!("lengthsman {}, seed {}", env!("CARGO_PKG_VERSION"), plan.seed),
        cover: cover::cover(plan, units),
        date,
        zones,
        drawings,
    }
}

fn fact(label: &'static str, value: impl Into<String>) -> Fact {
    Fact { label, value: value.into(), loud: false }
}

fn loud_fact(label: &'static str, value: impl Into<String>, loud: bool) -> Fact {
    Fact { loud, ..fact(label, value) }
}

/// `Thursday 26 November 2026`.
fn long_date(date: Date) -> String {
    let weekday = match date.weekday() {
        Weekday::Monday => "Monday",
        Weekday::Tuesday => "Tuesday",
        Weekday::Wednesday => "Wednesday",
        Weekday::Thursday => "Thursday",
        Weekday::Friday => "Friday",
        Weekday::Saturday => "Saturday",
        Weekday::Sunday => "Sunday",
    };
    format!("{weekday} {} {} {}", date.day(), month(date), date.year())
}

/// `26 Nov`.
fn short_date(date: Date) -> String {
    format!("{} {}", date.day(), &month(date)[..3])
}

/// The day something is due, and whether that day is past.
fn due_words(today: Date, due: Date) -> String {
    if due < today { format!("{}, overdue", short_date(due)) } else { short_date(due) }
}

fn month(date: Date) -> &'static str {
    const MONTHS: [&str; 12] = [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ];
    MONTHS[(date.month() - 1) as usize]
}

fn counted(count: usize, one: &str, many: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {many}") }
}
