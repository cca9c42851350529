//! The record: what happened, kept so that nothing is lost, and what is known from it.
//!
//! Events ([`model::record`]) are appended and never changed. They lie in an embedded `SQLite` file, or in a `PostgreSQL` database
//! that several servers share; both speak the same SQL but for what [`store`] lists. What is known of each hole, repair, zone
//! and round is worked out by [`fold`], a pure function of the events, and written down beside them in the same transaction; it
//! can be made anew at any time and is then the same. Each event carries a digest over all before it ([`chain`]).
//!
//! Never: reads a clock (the server's time is passed in), knows anything of HTTP.

mod append;
pub mod audit;
pub mod backup;
mod cell;
pub mod chain;
mod checkpoints;
pub mod contacts;
pub mod fold;
pub mod jobs;
mod journal;
mod key;
mod made_anew;
pub mod people;
pub mod photos;
pub mod plan_files;
mod read;
pub mod refused;
mod rows;
pub mod store;
mod stream;
pub mod uploads;

pub use append::{Appended, MOST_EVENTS_AT_ONCE};
pub use journal::{HandedIn, Journal, JournalError};
pub use read::{Page, Query, Row, Span};
