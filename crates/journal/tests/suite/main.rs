//! One suite for every store.

mod beside;
mod common;
mod record;
