//! rounds
