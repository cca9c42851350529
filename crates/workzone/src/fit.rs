//! The parts of the closure cut to the road there is: what ends before taper, buffer and work space do.
//!
//! The rule's distances stay where there is road for them. Where there is not, what the rule set lets be shorter is made
//! shorter, in this order: vehicles stand past the cuts, the downstream taper goes, the buffer shrinks, a one-lane taper
//! shrinks to its least. No taper gets shorter than its least.

use model::figure::Figure;
use model::rules::traffic::TrafficRules;
use model::work_zone::Layout;

use crate::frame::Extent;
use crate::parts::Parts;
use crate::text::{FORGIVEN, distance_words};

/// What ends the road on one side of the work, in the rule set's unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ending {
    /// Where it ends, along the travel of the traffic in the lane worked in.
    pub at: f64,
    /// How far from it cones must keep: they may not stand in a junction.
    pub keep: f64,
    /// What it is, in words: "a junction".
    pub what: &'static str,
    /// Whether traffic comes from it: not from a dead end.
    pub traffic: bool,
}

/// Where the road ends upstream and downstream of the work; `None` where it goes on.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Ends {
    pub upstream: Option<Ending>,
    pub downstream: Option<Ending>,
}

/// The parts on a road that ends, and what was changed, in words; the reason where the closure can't be laid out.
pub fn fit(
    mut parts: Parts,
    layout: Layout,
    work: &Extent,
    ends: &Ends,
    rules: &TrafficRules,
) -> Result<(Parts, Vec<String>), String> {
    let mut said = Vec::new();
    work_space(&mut parts, work, ends, rules, &mut said);
    if let (Some(end), Some(taper)) = (&ends.downstream, &parts.downstream) {
        let past = parts.origin + parts.work_space.value + taper.value;
        if past > end.at - end.keep {
            said.push(format!("No taper out of the closure: {} ends the road before it would.", end.what));
            parts.downstream = None;
        }
    }
    if let Some(end) = &ends.upstream {
        into(&mut parts, layout, end, rules, &mut said)?;
    }
    Ok((parts, said))
}

/// The work space between the road's ends: vehicles stand on the other side of the cuts where there is no room.
fn work_space(parts: &mut Parts, work: &Extent, ends: &Ends, rules: &TrafficRules, said: &mut Vec<String>) {
    let upstream = ends.upstream.map_or(f64::NEG_INFINITY, |end| end.at);
    let downstream = ends.downstream.map_or(f64::INFINITY, |end| end.at);
    let length = parts.work_space.value;
    // Room for the taper in comes before room for vehicles.
    let taper = parts.taper.as_ref().map_or(0.0, |_| rules.taper.one_lane_min.value);
    let needed = ends.upstream.map_or(0.0, |end| if end.traffic { end.keep + taper } else { 0.0 });
    let least = parts.origin.max((upstream + needed).min(work.upstream - rules.work_space.margin.value).max(upstream));
    let from = least.min(work.upstream);
    let to = (from + length).min(downstream).max(work.downstream);
    if from > parts.origin + FORGIVEN {
        said.push(format!(
            "The road leaves {} for vehicles before the first cut: they stand past the cuts.",
            distance_words((work.upstream - from).max(0.0).floor(), rules.units)
        ));
    }
    if to - from < length - FORGIVEN {
        parts.work_space = cut(&parts.work_space, to - from, "the road ends", rules);
    }
    parts.origin = from;
}

/// Taper and buffer on what is left of the road upstream.
fn into(
    parts: &mut Parts,
    layout: Layout,
    end: &Ending,
    rules: &TrafficRules,
    said: &mut Vec<String>,
) -> Result<(), String> {
    let units = rules.units;
    let Some(taper) = parts.taper.clone() else { return Ok(()) };
    let left = parts.origin - end.at - end.keep;
    let least = if layout.takes_turns() { rules.taper.one_lane_min.value.min(taper.value) } else { taper.value };
    if left + FORGIVEN >= parts.taper_head() {
        return Ok(());
    }
    if left + FORGIVEN < least {
        if end.traffic {
            return Err(format!(
                "{} lies {} before the work space, and the taper into the closure takes {} clear of it: nothing is laid \
                 out. Close that approach, or have the junction laid out as a whole by the traffic-control authority.",
                upper(end.what),
                distance_words((parts.origin - end.at).max(0.0).floor(), units),
                distance_words(least.ceil(), units)
            ));
        }
        said.push(
            "The closure reaches the end of the road: nothing comes from beyond, so no taper leads into it there."
                .into(),
        );
        parts.taper = Some(cut(&taper, least, "the road ends", rules));
        parts.buffer = None;
        return Ok(());
    }
    let shorter = taper.value.min(left.max(least));
    let buffer = (left - shorter).max(0.0).floor();
    if shorter < taper.value {
        parts.taper = Some(cut(&taper, shorter, end.what, rules));
    }
    if let Some(old) = parts.buffer.take() {
        let words =
            if buffer > 0.0 { format!("is {}", distance_words(buffer, units)) } else { "has no room".to_owned() };
        said.push(format!(
            "The buffer {words} where the rule set has {}: {} ends the road before it.",
            distance_words(old.value, units),
            end.what
        ));
        parts.buffer = (buffer > 0.0).then(|| cut(&old, buffer, end.what, rules));
    }
    Ok(())
}

fn cut(figure: &Figure<f64>, to: f64, because: &str, rules: &TrafficRules) -> Figure<f64> {
    let words = format!("from {} ({because})", distance_words(figure.value, rules.units));
    Figure::exact(to, figure.why.clone().with("cut to the road there is", words))
}

fn upper(words: &str) -> String {
    let mut chars = words.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().collect::<String>() + chars.as_str())
}
