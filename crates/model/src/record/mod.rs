//! What happened, as it is kept: events that nobody changes any more, and what is known from them.
//!
//! An [`event::Event`] is one thing that happened, told by one person on one device. Events may arrive days late and out of
//! order; what is known of a hole or a repair ([`known`]) depends on which events there are, never on when they came.

pub mod conditions;
pub mod event;
pub mod happened;
pub mod in_force;
pub mod known;
pub mod stock;
pub mod stretch;
pub mod told;
