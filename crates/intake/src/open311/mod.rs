//! Open311 `GeoReport` v2: how the public's programs tell a road office of a hole and ask what became of it.
//!
//! Source: the published specification, `GeoReport/v2` of the open311 project, by its examples and schemas; the codes of its
//! errors from memory of it. [`form`] reads a report, [`report`] makes it an event, [`query`] reads what is asked for, [`status`]
//! tells how far a hole has come, [`answers`] are the answers, [`wire`] writes and reads them as JSON and XML, [`refusal`] is
//! the standard's list of errors. [`service`] is the one service that is offered.

pub mod answers;
pub mod form;
mod lenient;
pub mod query;
pub mod refusal;
pub mod report;
pub mod service;
pub mod status;
pub mod wire;
mod xml;

use crate::place::District;
use service::HoleService;

/// The office that answers.
#[derive(Debug, Clone)]
pub struct Office {
    /// Its identifier for programs that serve several; `None` takes any.
    pub jurisdiction: Option<String>,
    /// Who mends, as reporters are told.
    pub agency: Option<String>,
    /// The service that is offered.
    pub service: HoleService,
    /// Where it mends, and its time.
    pub district: District,
    /// Whether answers to everybody show the reporter's words. They may name people: better not.
    pub shows_words: bool,
}
