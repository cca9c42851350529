//! Backups.
