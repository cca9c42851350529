//! What the public and city offices send, turned into events of the record and answers in the sender's form.
//!
//! - [`open311`]: requests and answers of Open311 `GeoReport` v2, JSON and XML: a reported hole becomes an event and, kept
//!   apart from it, the reporter's [`contact`].
//! - [`bulk`]: a city's export, CSV or `GeoJSON`, read as a stream; what is wrong is said with line and column, what was
//!   guessed is said too.
//! - [`repeats`]: which rows of an export are of one hole; [`sighting`]: whether a new report is of a hole that is known. Both
//!   ask `triage`.
//! - [`sites`]: fills a minute apart at one spot become one site of several holes, and why.
//!
//! Pure: bytes and readers in, values out. The time, the numbers of new events and the district are passed in.

pub mod bulk;
pub mod contact;
mod ground;
pub mod open311;
pub mod place;
pub mod repeats;
pub mod sighting;
pub mod sites;
pub mod text;
