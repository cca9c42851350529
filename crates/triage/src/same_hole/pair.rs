//! Whether two reports can be of one hole.

use jiff::civil::Date;
use model::district::UnitSystem;
use model::quantity::{InLength, Length, metres};
use model::rules::matching::{MatchingRules, SourceRules, ToldApart};

use super::Report;
use crate::words;

/// Two reports that can be of one hole.
#[derive(Debug, Clone, PartialEq)]
pub struct Closeness {
    /// How close in place, nearer is less: 0 at the same spot, 2 at the limit along and across; 1 at the limit where only the
    /// distance is known.
    pub score: f64,
    /// In words, e.g. `3.2 m along, same side, 2 days apart`.
    pub words: String,
}

/// Whether two reports can be of one hole, and how close they are.
///
/// # Errors
/// What tells them apart, in words.
pub fn pair(a: &Report, b: &Report, rules: &MatchingRules, units: UnitSystem) -> Result<Closeness, String> {
    let (of_a, of_b) = (rules.of(&a.source), rules.of(&b.source));
    at_places(a, b, place(a, b, of_a, of_b, units)?, rules, units)
}

/// Whether two reports can be of one hole where it is not known along which road they lie: all that is known of the places is
/// that they are `apart` from each other. `section`, `chainage` and `across` are not looked at.
///
/// Since the distance may lie across the road as well as along it, it must be within what the places may be off both ways.
///
/// # Errors
/// What tells them apart, in words.
pub fn pair_apart(
    a: &Report,
    b: &Report,
    apart: Length,
    rules: &MatchingRules,
    units: UnitSystem,
) -> Result<Closeness, String> {
    let limit = reach_apart(rules.of(&a.source), rules.of(&b.source));
    let words = words::distance(apart, units);
    if apart.in_metres() > limit {
        let limit = words::distance(metres(limit), units);
        return Err(format!("{words} apart, more than the {limit} that both places may be off in any direction"));
    }
    at_places(a, b, ((apart.in_metres() / limit).powi(2), format!("{words} apart")), rules, units)
}

/// How far apart in whatever direction two reports of these sources may be, metres.
fn reach_apart(of_a: &SourceRules, of_b: &SourceRules) -> f64 {
    of_a.along_m.hypot(of_b.along_m).min(of_a.across_m.hypot(of_b.across_m))
}

/// The most that [`pair_apart`] lets any two reports be apart under these rules.
pub fn farthest_apart(rules: &MatchingRules) -> Length {
    let all = rules.source.values().chain([&rules.unknown_source]);
    let farthest = all.map(|source| reach_apart(&source.value, &source.value)).fold(0.0, f64::max);
    metres(farthest)
}

/// All that is looked at beside the places, which are close enough, with how close they are and in words.
fn at_places(
    a: &Report,
    b: &Report,
    (score, words): (f64, String),
    rules: &MatchingRules,
    units: UnitSystem,
) -> Result<Closeness, String> {
    let (of_a, of_b) = (rules.of(&a.source), rules.of(&b.source));
    same_eyes(a, b, of_a, of_b)?;
    lane(a, b, rules)?;
    let time = time(a.seen, b.seen, rules)?;
    size(a, b, of_a, of_b, rules, units)?;
    Ok(Closeness { score, words: format!("{words}, {time}") })
}

/// What tells two reports apart that are close enough in place.
pub(super) fn close_but_apart(a: &Report, b: &Report, rules: &MatchingRules, units: UnitSystem) -> Option<String> {
    let (_, words) = place(a, b, rules.of(&a.source), rules.of(&b.source), units).ok()?;
    let apart =
        pair(a, b, rules, units).err().unwrap_or_else(|| "another report of that hole was seen beside it".into());
    Some(format!("{words}; {apart}"))
}

/// Errors of two places add like independent ones.
fn place(
    a: &Report,
    b: &Report,
    of_a: &SourceRules,
    of_b: &SourceRules,
    units: UnitSystem,
) -> Result<(f64, String), String> {
    if a.section != b.section {
        return Err("on another stretch of road".into());
    }
    let words = |metres_apart: f64| words::distance(metres(metres_apart), units);
    let along = (a.chainage - b.chainage).in_metres().abs();
    let across = (a.across - b.across).in_metres().abs();
    let (along_limit, across_limit) = (of_a.along_m.hypot(of_b.along_m), of_a.across_m.hypot(of_b.across_m));
    let (along_words, across_words) = (words(along), words(across));
    if along > along_limit {
        return Err(format!("{along_words} along, more than the {} that both places may be off", words(along_limit)));
    }
    if across > across_limit {
        return Err(format!(
            "{across_words} across, more than the {} that both places may be off",
            words(across_limit)
        ));
    }
    let same_side = a.across.in_metres() * b.across.in_metres() >= 0.0;
    let side = if same_side {
        "same side".to_owned()
    } else {
        format!("{across_words} across, within the {} that the places may be off", words(across_limit))
    };
    let score = (along / along_limit).powi(2) + (across / across_limit).powi(2);
    Ok((score, format!("{along_words} along, {side}")))
}

/// One pair of eyes that lists two holes has seen two.
fn same_eyes(a: &Report, b: &Report, of_a: &SourceRules, of_b: &SourceRules) -> Result<(), String> {
    // Words that are not listed share the rules of the unknown source, and count as one source.
    let same_source = a.source == b.source || std::ptr::eq(of_a, of_b);
    let name = if a.source.is_empty() { "one list without sources" } else { a.source.as_str() };
    match of_a.told_apart {
        ToldApart::Always if same_source => Err(format!("both from {name}, which lists each hole once")),
        ToldApart::SameDay if same_source && a.seen.is_some() && a.seen == b.seen => {
            Err(format!("both seen by {name} on one day"))
        }
        _ => Ok(()),
    }
}

fn lane(a: &Report, b: &Report, rules: &MatchingRules) -> Result<(), String> {
    let (Some(one), Some(other)) = (a.lane_position, b.lane_position) else { return Ok(()) };
    let apart = rules.positions_apart.value.iter().any(|pair| *pair == [one, other] || *pair == [other, one]);
    if apart { Err(format!("one {}, one {}", one.words(), other.words())) } else { Ok(()) }
}

fn time(a: Option<Date>, b: Option<Date>, rules: &MatchingRules) -> Result<String, String> {
    let (Some(a), Some(b)) = (a, b) else { return Ok("day not told".into()) };
    let days = (a.duration_since(b).as_hours() / 24).abs();
    let window = rules.window_days.value;
    match days {
        days if days > i64::from(window) => Err(format!("{days} days apart, more than {window}")),
        0 => Ok("same day".into()),
        1 => Ok("1 day apart".into()),
        days => Ok(format!("{days} days apart")),
    }
}

/// Sizes that are further apart than guessing and growing explain. A size that is not told (no number) tells nothing apart.
fn size(
    a: &Report,
    b: &Report,
    of_a: &SourceRules,
    of_b: &SourceRules,
    rules: &MatchingRules,
    units: UnitSystem,
) -> Result<(), String> {
    let limit = of_a.size_factor * of_b.size_factor * rules.growth_ratio.value;
    let across = |report: &Report| (report.length.in_metres() * report.width.in_metres()).sqrt();
    let ratio = |one: f64, other: f64| if one > other { one / other } else { other / one };
    let (size_ratio, depth_ratio) = (ratio(across(a), across(b)), ratio(a.depth.in_metres(), b.depth.in_metres()));
    // To the millionth, so that the computer's rounding does not decide at the limit.
    if size_ratio.max(depth_ratio) > limit * (1.0 + 1e-6) {
        let (one, other) = (size_words(a, units), size_words(b, units));
        return Err(format!("sizes differ more than {limit:.1} times: {one}, and {other}"));
    }
    Ok(())
}

/// `0.80 × 0.60 m, 120 mm deep`.
pub(super) fn size_words(report: &Report, units: UnitSystem) -> String {
    let plan = words::length_by_width(report.length, report.width, units);
    format!("{plan}, {} deep", words::size(report.depth, units))
}
