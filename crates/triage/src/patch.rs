//! Patch or not: when a repair passes the agency's limits, an engineer decides.

use jiff::civil::Date;
use model::district::UnitSystem;
use model::figure::{Figure, Why};
use model::hole::{EarlierRepairs, Wetness};
use model::patch::{AgainstPatch, PatchDecision, PatchLimit};
use model::quantity::{Area, InArea, InLength, Length, metres, square_metres};
use model::rules::repair::{LimitRules, RepairRules};

use crate::words;

/// What the decision is made from.
#[derive(Debug, Clone)]
pub struct PatchInput<'a> {
    /// Depth of the dug hole.
    pub depth: &'a Figure<Length>,
    /// Area of the cut.
    pub area: &'a Figure<Area>,
    /// Share of the lane that cuts take around this one; see [`cut_share`].
    pub cut_share: Figure<f64>,
    /// Units of the words.
    pub units: UnitSystem,
    /// What was found at each hole in the cut.
    pub holes: &'a [FoundAtHole<'a>],
}

/// What decides about one hole beside its size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FoundAtHole<'a> {
    /// How wet it and its base are, where said.
    pub wetness: Option<Wetness>,
    /// Repairs made there before, where said.
    pub repairs: Option<&'a EarlierRepairs>,
}

/// A cut as it lies along a lane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CutAlong {
    /// Where it begins.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
    /// Its area.
    pub area: Area,
}

/// Share of the lane's area that cuts take over the stretch centred on the cut `of`; `lane` holds all cuts of the lane,
/// that one too. A cut that reaches out of the stretch counts with the part of its length that lies in it; beyond the
/// section's end no cut is known.
pub fn cut_share(of: &CutAlong, lane: &[CutAlong], lane_width: Length, limits: &LimitRules) -> Figure<f64> {
    let stretch_m = limits.cut_share_stretch_m.value;
    let middle_m = f64::midpoint(of.from.in_metres(), of.to.in_metres());
    let (begins, ends) = (middle_m - stretch_m / 2.0, middle_m + stretch_m / 2.0);
    let inside = |cut: &CutAlong| {
        let (from, to) = (cut.from.in_metres(), cut.to.in_metres());
        let long = to - from;
        let overlap = (to.min(ends) - from.max(begins)).max(0.0);
        if long > 0.0 { cut.area.in_square_metres() * (overlap / long) } else { 0.0 }
    };
    let areas: Vec<f64> = lane.iter().map(inside).filter(|area| *area > 0.0).collect();
    let cut_m2: f64 = areas.iter().sum();
    let lane_m2 = lane_width.in_metres() * stretch_m;
    let why = Why::new("p = sum(A) / (w L)", limits.cut_share_stretch_m.source.clone())
        .with("cuts", areas.len())
        .with("sum(A)", format!("{cut_m2:.2} m²"))
        .with("w", format!("{:.2} m", lane_width.in_metres()))
        .with("L", format!("{stretch_m} m"));
    Figure::exact(cut_m2 / lane_m2, why)
}

/// Whether the repair is a patch. Passing a limit, not reaching it, makes it a case for the engineer.
pub fn patch_or_not(input: &PatchInput, rules: &RepairRules, today: Date) -> PatchDecision {
    let limits = &rules.limits;
    let against = [
        size(input, limits),
        share(&input.cut_share, input.units, limits),
        wetness(input.holes, limits),
        repeats(input.holes, limits, today),
    ];
    let against: Vec<AgainstPatch> = against.into_iter().flatten().collect();
    let caution = if against.is_empty() { String::new() } else { rules.caution.no_patch.value.clone() };
    PatchDecision { cut_share: input.cut_share.clone(), against, caution }
}

/// By what nine of ten cuts do not exceed.
fn size(input: &PatchInput, limits: &LimitRules) -> Option<AgainstPatch> {
    let (depth, area) = (input.depth.p90().in_metres(), input.area.p90().in_square_metres());
    let (deepest, largest) = (limits.patch_depth_m.value, limits.patch_area_m2.value);
    (depth > deepest || area > largest).then(|| AgainstPatch {
        limit: PatchLimit::Size,
        words: format!(
            "the cut may turn out {} deep and {} large, a patch is up to {} and {}",
            words::depth_of_cut(input.depth.p90(), input.units),
            words::area(input.area.p90(), input.units),
            words::depth_of_cut(metres(deepest), input.units),
            words::area(square_metres(largest), input.units),
        ),
        why: Why::new("D_90 > D_max or A_90 > A_max", limits.patch_area_m2.source.clone())
            .with("D_90", format!("{depth:.2} m"))
            .with("D_max", format!("{deepest} m"))
            .with("A_90", format!("{area:.1} m²"))
            .with("A_max", format!("{largest} m²")),
    })
}

fn share(share: &Figure<f64>, units: UnitSystem, limits: &LimitRules) -> Option<AgainstPatch> {
    let (most, stretch_m) = (limits.cut_share.value, limits.cut_share_stretch_m.value);
    (share.value > most).then(|| AgainstPatch {
        limit: PatchLimit::CutShare,
        words: format!(
            "cuts take {:.0} % of the lane over {}, patching stops at {:.0} %",
            share.value * 100.0,
            words::distance(metres(stretch_m), units),
            most * 100.0
        ),
        why: Why::new("p > p_max", limits.cut_share.source.clone())
            .with("p", format!("{:.3}", share.value))
            .with("p_max", most),
    })
}

fn wetness(holes: &[FoundAtHole], limits: &LimitRules) -> Option<AgainstPatch> {
    let engineers = &limits.not_patch_wetness;
    let worst =
        holes.iter().filter_map(|hole| hole.wetness).filter(|wetness| engineers.value.contains(wetness)).max()?;
    Some(AgainstPatch {
        limit: PatchLimit::BaseWetness,
        words: format!("the base shows {}: where the water comes from has to be mended first", worst.word()),
        why: Why::new("wetness is one of those that no patch mends", engineers.source.clone())
            .with("wetness", worst.word())
            .with("those", engineers.value.iter().map(|wetness| wetness.word()).collect::<Vec<_>>().join(", ")),
    })
}

/// Of several holes in one cut the one that was mended most often counts.
fn repeats(holes: &[FoundAtHole], limits: &LimitRules, today: Date) -> Option<AgainstPatch> {
    let (most, within) = (limits.repairs_max.value, limits.repairs_within_days.value);
    let count = holes.iter().map(|hole| recent_repairs(hole.repairs, within, today)).max().unwrap_or(0);
    (count > most).then(|| AgainstPatch {
        limit: PatchLimit::Repeats,
        words: format!("mended {count} times here within {within} days, at most {most} are a patch's business"),
        why: Why::new("n > n_max", limits.repairs_max.source.clone())
            .with("n", count)
            .with("n_max", most)
            .with("within", format!("{within} days")),
    })
}

/// Repairs within that many days; where only their number is known, all of them.
fn recent_repairs(repairs: Option<&EarlierRepairs>, within_days: u32, today: Date) -> u32 {
    match repairs {
        None => 0,
        Some(EarlierRepairs::Count(count)) => *count,
        Some(EarlierRepairs::Days(days)) => {
            let is_recent = |day: &&Date| today.duration_since(**day).as_hours() / 24 <= i64::from(within_days);
            u32::try_from(days.iter().filter(is_recent).count()).unwrap_or(u32::MAX)
        }
    }
}
