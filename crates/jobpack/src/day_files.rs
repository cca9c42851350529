//! A crew's day as single files, for a screen in place of paper: plan, job pack, numbers, each drawing.

use model::plan::Plan;

use crate::drawing::visited;
use crate::error::JobPackError;
use crate::{cut_plan_svg, numbers_json, pattern_svg, pdf, place_map_svg, plan_json, section_svg, zone_plan_svg};

const JSON: &str = "application/json";
const SVG: &str = "image/svg+xml";

/// A file of a crew's day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DayFile {
    /// Its name.
    pub name: String,
    /// What it is.
    pub media_type: &'static str,
    /// What is in it.
    pub content: Vec<u8>,
}

/// `plan.json`, `job-pack.pdf`, `numbers.json`; of each site that is visited `zone-{site}.svg` and `place-{site}.svg`, and of each of
/// its jobs `cut-{job}.svg`, `section-{job}.svg` and, where it is compacted in an order, `pattern-{job}.svg`.
///
/// # Errors
/// As [`pdf`].
pub fn day_files(plan: &Plan) -> Result<Vec<DayFile>, JobPackError> {
    let text = |name: &str, content: String| DayFile {
        name: name.to_owned(),
        media_type: JSON,
        content: content.into_bytes(),
    };
    let drawing = |name: String, content: String| DayFile { name, media_type: SVG, content: content.into_bytes() };
    let pack = DayFile { name: "job-pack.pdf".to_owned(), media_type: "application/pdf", content: pdf(plan)? };
    let mut files = vec![text("plan.json", plan_json(plan)), pack, text("numbers.json", numbers_json(plan))];
    for site in visited(plan) {
        files.push(drawing(format!("zone-{site}.svg"), zone_plan_svg(plan, site)));
        files.push(drawing(format!("place-{site}.svg"), place_map_svg(plan, site)));
        for &job in &plan.sites[site].jobs {
            files.push(drawing(format!("cut-{job}.svg"), cut_plan_svg(plan, job)));
            files.push(drawing(format!("section-{job}.svg"), section_svg(plan, job)));
            if !plan.jobs[job].repair.patterns.is_empty() {
                files.push(drawing(format!("pattern-{job}.svg"), pattern_svg(plan, job)));
            }
        }
    }
    Ok(files)
}
