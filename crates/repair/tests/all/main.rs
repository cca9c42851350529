//! All tests of the public surface in one binary: one link instead of one for each file.

mod against_shapely;
mod cautions;
mod compactor;
mod growth;
mod handbook;
mod handbook_seal;
mod input;
mod laws;
mod layers;
mod moisture;
mod pattern;
mod published_values;
mod seal;
mod seal_area;
mod seal_laws;
mod site_units;
mod support;
mod total;
mod worked_repair;
mod working;
mod yardstick;
