//! All tests of the public surface in one binary: one link instead of one for each file.

mod against_library;
mod handbook;
mod laws;
mod plot;
mod recovery;
mod support;
