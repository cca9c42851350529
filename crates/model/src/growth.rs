//! Records of how a hole turned out against its survey.

use jiff::civil::Date;

use crate::problem::Locator;
use crate::quantity::{Length, Volume};

/// One hole, surveyed and dug.
#[derive(Debug, Clone, PartialEq)]
pub struct GrowthRecord {
    /// The hole's identifier.
    pub hole: String,
    /// Road or section, empty where not written.
    pub road: String,
    /// Pavement class or class of road as written; empty where not written.
    pub class: String,
    /// The cut as marked out, to the depth surveyed.
    pub surveyed: DugSize,
    /// The cut as dug.
    pub dug: DugSize,
    /// The day it was dug.
    pub date: Option<Date>,
    /// Where in the input it came from.
    pub from: Locator,
}

/// Size of a cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DugSize {
    /// Area times depth.
    pub volume: Volume,
    /// Depth, where it was measured.
    pub depth: Option<Length>,
}
