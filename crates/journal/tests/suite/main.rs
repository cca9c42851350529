//! One suite for every store.

mod beside;
mod common;
mod faults;
mod record;
mod simulation;
