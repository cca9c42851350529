//! Patch or not: the handbook's worked examples, and laws.

mod common;

use common::TODAY;
use jiff::civil::Date;
use model::district::UnitSystem;
use model::figure::{Figure, Source, Spread, Why};
use model::hole::{EarlierRepairs, Wetness};
use model::patch::{PatchDecision, PatchLimit};
use model::quantity::{metres, square_metres};
use model::rules::repair::{LimitRules, RepairRules};
use proptest::prelude::*;
use serde::Deserialize;
use testkit::worked_examples;
use triage::{CutAlong, FoundAtHole, PatchInput, cut_share, patch_or_not};

fn rules() -> RepairRules {
    let path = testkit::in_repository("rules/repair/common-practice.toml");
    let mut table: toml::Table = std::fs::read_to_string(path).expect("the rule file").parse().expect("TOML");
    // The head is the loader's.
    table.remove("name");
    table.remove("about");
    table.try_into().expect("its shape")
}

fn limits() -> LimitRules {
    rules().limits
}

fn why() -> Why {
    Why::new("given", Source::definition())
}

fn decide(depth_m: f64, area_m2: f64, share: f64, wetness: Option<Wetness>, repairs: &EarlierRepairs) -> PatchDecision {
    let depth = metres(depth_m);
    let area = square_metres(area_m2);
    // The value itself is smaller: nine of ten cuts decide.
    let depth = Figure::spread(depth * 0.5, Spread { p10: depth * 0.3, p50: depth * 0.6, p90: depth }, why());
    let area = Figure::spread(area * 0.5, Spread { p10: area * 0.3, p50: area * 0.6, p90: area }, why());
    let holes = [
        FoundAtHole { wetness: None, repairs: None },
        FoundAtHole { wetness, repairs: Some(repairs) },
        FoundAtHole { wetness: Some(Wetness::Dry), repairs: None },
    ];
    let input = PatchInput {
        depth: &depth,
        area: &area,
        cut_share: Figure::exact(share, why()),
        units: UnitSystem::Si,
        holes: &holes,
    };
    patch_or_not(&input, &rules(), TODAY)
}

#[derive(Deserialize)]
struct LaneCase {
    lane_width_m: f64,
    cuts: Vec<[f64; 3]>,
    share: f64,
}

#[derive(Deserialize)]
struct Decision {
    depth_p90_m: f64,
    area_p90_m2: f64,
    share: f64,
    wetness: String,
    repairs: u32,
    limits_passed: Vec<String>,
    words: String,
}

#[derive(Deserialize)]
struct Repeats {
    days: Vec<String>,
    is_patch: bool,
}

#[test]
fn share_of_the_lane() {
    for case in worked_examples::<LaneCase>("patch-or-not", "cut_share") {
        let lane: Vec<CutAlong> = case
            .cuts
            .iter()
            .map(|&[from, to, area]| CutAlong { from: metres(from), to: metres(to), area: square_metres(area) })
            .collect();
        let share = cut_share(&lane[0], &lane, metres(case.lane_width_m), &limits());
        assert!((share.value - case.share).abs() < 1e-8, "{} by {}", share.value, share.why);
        assert!(share.why.to_string().contains("cuts = 2"), "{}", share.why);
    }
}

#[test]
fn decisions() {
    for case in worked_examples::<Decision>("patch-or-not", "decision") {
        let wetness = Wetness::ALL.into_iter().find(|wetness| wetness.word() == case.wetness);
        let repairs = EarlierRepairs::Count(case.repairs);
        let decision = decide(case.depth_p90_m, case.area_p90_m2, case.share, wetness, &repairs);
        let passed: Vec<&str> = decision
            .against
            .iter()
            .map(|against| match against.limit {
                PatchLimit::Size => "size",
                PatchLimit::CutShare => "share",
                PatchLimit::BaseWetness => "wetness",
                PatchLimit::Repeats => "repeats",
            })
            .collect();
        assert_eq!(passed, case.limits_passed);
        assert_eq!(decision.words(), case.words);
        assert_eq!(decision.is_patch(), passed.is_empty());
        assert_eq!(decision.caution.contains("an engineer decides"), !passed.is_empty());
        assert!(decision.against.iter().all(|against| against.why.to_string().contains("common practice")));
    }
}

#[test]
fn repairs_by_their_days() {
    for case in worked_examples::<Repeats>("patch-or-not", "repeats") {
        let days: Vec<Date> = case.days.iter().map(|day| day.parse().expect("a day")).collect();
        let decision = decide(0.2, 2.0, 0.02, None, &EarlierRepairs::Days(days));
        assert_eq!(decision.is_patch(), case.is_patch, "{:?}", case.days);
    }
}

#[test]
fn what_is_not_told_speaks_against_nothing() {
    let (depth, area) = (Figure::exact(metres(0.2), why()), Figure::exact(square_metres(2.0), why()));
    let holes = [FoundAtHole { wetness: None, repairs: None }];
    let input = PatchInput {
        depth: &depth,
        area: &area,
        cut_share: Figure::exact(0.01, why()),
        units: UnitSystem::Si,
        holes: &holes,
    };
    assert!(patch_or_not(&input, &rules(), TODAY).is_patch());
}

proptest! {
    /// Larger, wetter, more often mended or more crowded never turns the engineer's case back into a patch.
    #[test]
    fn worse_is_never_a_patch_again(
        size in (0.05f64..1.5, 0.1f64..30.0), share in 0.0f64..0.4, wet in 0usize..5, repairs in 0u32..6, which in 0usize..5,
    ) {
        let judged = |depth, area, share, wet: usize, repairs| {
            decide(depth, area, share, Some(Wetness::ALL[wet]), &EarlierRepairs::Count(repairs))
        };
        let (depth, area) = size;
        let now = judged(depth, area, share, wet, repairs);
        let worse = match which {
            0 => judged(depth * 1.3, area, share, wet, repairs),
            1 => judged(depth, area * 1.3, share, wet, repairs),
            2 => judged(depth, area, share * 1.3, wet, repairs),
            3 => judged(depth, area, share, (wet + 1).min(4), repairs),
            _ => judged(depth, area, share, wet, repairs + 1),
        };
        prop_assert!(now.is_patch() || !worse.is_patch());
        prop_assert!(worse.against.len() >= now.against.len());
    }

    /// The share is that of the lane: all of it at most when cuts don't overlap, and never less with one cut more.
    #[test]
    fn one_cut_more_never_lowers_the_share(
        cuts in prop::collection::vec((0.0f64..60.0, 0.1f64..5.0, 0.1f64..9.0), 1..8), width in 2.0f64..4.0,
    ) {
        let lane: Vec<CutAlong> = cuts
            .iter()
            .map(|&(from, long, area)| {
                CutAlong { from: metres(from), to: metres(from + long), area: square_metres(area) }
            })
            .collect();
        let (_, fewer) = lane.split_last().expect("at least one");
        let with = cut_share(&lane[0], &lane, metres(width), &limits()).value;
        prop_assert!(with > 0.0);
        if !fewer.is_empty() {
            prop_assert!(with >= cut_share(&lane[0], fewer, metres(width), &limits()).value - 1e-12);
        }
    }
}
