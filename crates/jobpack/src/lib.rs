//! jobpack
