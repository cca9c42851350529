//! How bad a hole is, and by when it must be mended.

use jiff::civil::Date;

use crate::figure::Figure;
use crate::quantity::{Area, Length};

/// The judgement on one hole.
#[derive(Debug, Clone, PartialEq)]
pub struct Judgement {
    /// Severity by the named system; `None`: the system does not rate a hole this small.
    pub severity: Option<Severity>,
    /// Which system gave the rating.
    pub system: String,
    /// How the severity was worked out.
    pub severity_why: crate::figure::Why,
    /// As how many holes it counts in that system; `None` where it is not rated.
    pub counts_as: Option<Figure<f64>>,
    /// Severity and due day in one sentence to be read aloud, in the district's units.
    pub sentence: String,
    /// Risk in points; more is worse. Only the order and the ratio matter.
    pub risk: Figure<f64>,
    /// The risk in one sentence.
    pub risk_sentence: String,
    /// To be mended by the end of this day; `None` where the agency sets no time.
    pub due: Option<Date>,
    /// How the due day was worked out.
    pub due_why: crate::figure::Why,
    /// What it may come to if nothing is done.
    pub outlook: Outlook,
}

/// What a hole may come to by the day it is due, if nothing is done. An aid to ranking, no forecast.
#[derive(Debug, Clone, PartialEq)]
pub struct Outlook {
    /// The day looked at: the due day; today where that is past or not set.
    pub day: Date,
    /// Greatest depth on that day.
    pub depth: Figure<Length>,
    /// Area on that day.
    pub area: Figure<Area>,
    /// Severity on that day.
    pub severity: Option<Severity>,
    /// Risk on that day, points.
    pub risk: Figure<f64>,
    /// The severity it passes into next, and the first day of that; `None`: none within the time looked at.
    pub worse: Option<(Severity, Date)>,
    /// All that in one sentence.
    pub sentence: String,
}

/// Severity of a distress.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the words are the definition
pub enum Severity {
    Low,
    Medium,
    High,
}

impl Severity {
    /// The word for it; `None` is a hole too small to be rated, which is not low.
    pub fn word(severity: Option<Severity>) -> &'static str {
        match severity {
            None => "not rated",
            Some(Severity::Low) => "low",
            Some(Severity::Medium) => "medium",
            Some(Severity::High) => "high",
        }
    }
}
