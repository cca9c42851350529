//! The server as its clients see it: every request through the whole of it, on a record of its own.

mod access;
mod client;
mod document;
mod import;
mod imports;
mod jobs;
mod junk;
mod lasting;
mod open311;
mod open_data;
mod photos;
mod sync;
mod web;
