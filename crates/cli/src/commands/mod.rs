//! One file a command.

pub(crate) mod check;
pub(crate) mod growth;
pub(crate) mod judge;
pub(crate) mod mark_out;
pub(crate) mod plan;
pub(crate) mod repair;
pub(crate) mod round;
pub(crate) mod snap;
pub(crate) mod zone;
