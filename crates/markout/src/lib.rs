//! markout
