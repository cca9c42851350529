//! triage
