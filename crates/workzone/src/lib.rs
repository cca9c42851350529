//! workzone
