//! How bad a hole is, and by when it must be mended.

use jiff::civil::Date;

use crate::figure::Figure;

/// The judgement on one hole.
#[derive(Debug, Clone, PartialEq)]
pub struct Judgement {
    /// Severity by the named system; `None`: the system does not rate a hole this small.
    pub severity: Option<Severity>,
    /// Which system gave the rating.
    pub system: String,
    /// How the severity was worked out.
    pub severity_why: crate::figure::Why,
    /// Risk in points; more is worse. Only the order and the ratio matter.
    pub risk: Figure<f64>,
    /// To be mended by the end of this day; `None` where the agency sets no time.
    pub due: Option<Date>,
    /// How the due day was worked out.
    pub due_why: crate::figure::Why,
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
