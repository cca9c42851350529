//! The job pack: what the crew holds in their hands, and the open files beside it.
//!
//! [`pdf`] prints the plan of a day (cover sheet, one sheet for each work zone, one for each cut); [`plan_json`],
//! [`holes_geojson`], [`zones_geojson`], [`work_zone_feed`] and [`load_csv`] write it for machines; the [`drawing`] module
//! draws the parts as SVG for any other surface. Everything here is layout and wording: no figure of the trade is computed, all come from [`model::plan::Plan`].
//! Same plan, same bytes.

pub mod drawing;

mod centre_line;
mod day_files;
mod display;
mod error;
mod feed;
mod flat;
mod fonts;
mod geo_json;
mod learnt;
mod load_csv;
mod map_json;
mod month_report;
mod numbers;
mod printable;
mod sheet;
mod svg;
mod typesetting;
mod wire;
mod zones_json;

pub use day_files::{DayFile, day_files};
pub use display::words_of;
pub use drawing::{
    ZonePicture, compaction_plot_svg, cut_plan_svg, cut_svg, grading_plot_svg, pattern_svg, place_map_svg, repair_svg,
    route_map_svg, section_svg, zone_plan_svg, zone_svg,
};
pub use error::JobPackError;
pub use feed::{work_zone_feed, zone_stretches};
pub use learnt::learnt_words;
pub use load_csv::load_csv;
pub use map_json::holes_geojson;
pub use month_report::month_report_pdf;
pub use numbers::{hole_numbers, numbers_json, repair_number, round_number, zone_number};
pub use wire::{patch_json, plan_json, plan_json_schema, repair_json, work_plan_json};
pub use zones_json::zones_geojson;

use model::plan::Plan;

/// Prints the job pack as PDF, on the district's paper and in the district's units.
///
/// A plan without any site gives a cover sheet that says so, with what was left out and why.
///
/// # Errors
/// [`JobPackError::Typesetting`] when the page templates can't be set, with the typesetter's own words. No text in the
/// plan can cause it: names are handed over as data and never read as markup.
pub fn pdf(plan: &Plan) -> Result<Vec<u8>, JobPackError> {
    typesetting::typeset_pack(plan, &sheet::pack(plan))
}
