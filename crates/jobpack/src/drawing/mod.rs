//! The drawings as SVG: plan of a work zone, plan and section of a cut, map of the round and of
//! the neighbourhood of each stop, plots of soil tests.
//!
//! Black on white, no meaning by colour; lengths are in millimetres on paper, so that a drawing keeps its type size
//! wherever it is embedded at its natural width. Type is Noto Sans where present.

mod compaction_plot;
mod cut_dimensions;
mod cut_plan;
mod frame;
mod grading_plot;
mod pattern;
mod place_map;
mod plane;
mod repair;
mod route_map;
mod section;
mod zone;

use model::figure::Why;
use model::place::Travel;
use model::plan::Plan;

pub use compaction_plot::compaction_plot_svg;
pub use cut_plan::{cut_plan_svg, cut_svg};
pub use grading_plot::grading_plot_svg;
pub use pattern::pattern_svg;
pub use place_map::place_map_svg;
pub use repair::repair_svg;
pub use route_map::route_map_svg;
pub use section::section_svg;
pub(crate) use zone::Closure;
pub use zone::{ZonePicture, zone_plan_svg, zone_svg};

/// The number painted on a job: stop, then the job's place in the order of work at that stop, e.g. `3.2`.
pub(crate) fn job_number(plan: &Plan, job: usize) -> String {
    let site = plan.jobs[job].site;
    let stop = stop_number(plan, site).map_or_else(|| "–".to_owned(), |n| n.to_string());
    let place = plan.sites[site].jobs.iter().position(|&j| j == job).map_or(0, |p| p + 1);
    format!("{stop}.{place}")
}

/// Traffic of the worked lane, which goes from left to right on every drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Traffic(Travel);

impl Traffic {
    /// By what the road frame is multiplied; as it is where no road is known.
    pub fn sign(traffic: Option<Traffic>) -> f64 {
        if traffic == Some(Traffic(Travel::Backward)) { -1.0 } else { 1.0 }
    }
}

/// Traffic at a job.
pub(crate) fn traffic(plan: &Plan, job: usize) -> Traffic {
    Traffic(plan.sites[plan.jobs[job].site].zone.travel)
}

/// Place of a site in the day's order, from 1; `None` if the round leaves it out.
pub(crate) fn stop_number(plan: &Plan, site: usize) -> Option<usize> {
    visited(plan).position(|s| s == site).map(|p| p + 1)
}

/// Sites in the order they are worked.
pub(crate) fn visited(plan: &Plan) -> impl Iterator<Item = usize> + '_ {
    plan.round.trips.iter().flatten().copied().filter(|&s| s < plan.sites.len())
}

/// The letter of a look at an earlier repair, by its place in the round: A to Z, then A2 and on.
pub(crate) fn look_letter(index: usize) -> String {
    let letter = char::from(b'A' + (index % 26) as u8);
    if index < 26 { letter.to_string() } else { format!("{letter}{}", index / 26 + 1) }
}

/// What the working-out of a figure says of one of its inputs, looked up by a word in the input's name.
pub(crate) fn input_of<'a>(why: &'a Why, word: &str) -> Option<&'a str> {
    why.inputs.iter().find(|(name, _)| name.contains(word)).map(|(_, value)| value.as_str())
}

/// Reads `80 mm` or `0.08 m`.
pub(crate) fn length_m(text: &str) -> Option<f64> {
    let (number, unit) = text.split_once(' ')?;
    let value: f64 = number.parse().ok().filter(|v: &f64| v.is_finite() && (0.0..10_000.0).contains(v))?;
    match unit {
        "mm" => Some(value / 1000.0),
        "cm" => Some(value / 100.0),
        "m" => Some(value),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::length_m;

    #[test]
    fn lengths_in_words_are_read() {
        assert_eq!(length_m("80 mm"), Some(0.08));
        assert_eq!(length_m("0.5 m"), Some(0.5));
        assert_eq!(length_m("80"), None);
        assert_eq!(length_m("NaN m"), None);
    }
}
