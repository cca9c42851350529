//! All tests of the public surface in one binary: one link instead of one for each file.

mod against_library;
mod effects;
mod handbook;
mod handbook_learning;
mod handbook_stop;
mod hole_rates;
mod laws;
mod patch_lives;
mod plan_lessons;
mod plot;
mod recovery;
mod refills;
mod stop_patching;
mod support;
