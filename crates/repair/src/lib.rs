//! repair
