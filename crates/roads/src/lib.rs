//! roads
