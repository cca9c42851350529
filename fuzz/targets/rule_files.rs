//! An agency's rule file of any kind: the first byte says which.
#![no_main]

use std::cell::OnceCell;
use std::path::Path;

use common::{Folder, said_in_words};
use exchange::rules::{RuleKind, load_rules};
use libfuzzer_sys::fuzz_target;
use model::problem::Problem;
use model::rules::gradation::GradationRules;
use model::rules::markout::MarkOutRules;
use model::rules::lasting::LastingRules;
use model::rules::matching::MatchingRules;
use model::rules::planning::PlanningRules;
use model::rules::repair::RepairRules;
use model::rules::roads::RoadDefaults;
use model::rules::severity::SeverityRules;
use model::rules::soil::SoilRules;
use model::rules::traffic::TrafficRules;

thread_local! { static FOLDER: OnceCell<Folder> = const { OnceCell::new() }; }

fuzz_target!(|bytes: &[u8]| {
    let Some((&first, text)) = bytes.split_first() else { return };
    FOLDER.with(|folder| {
        let path = folder.get_or_init(Folder::new).file("own.toml", text);
        let beside = path.parent();
        let kind = RuleKind::ALL[usize::from(first) % RuleKind::ALL.len()];
        if let Err(problems) = load(kind, beside) {
            assert!(!problems.is_empty());
            said_in_words(&problems);
        }
    });
});

fn load(kind: RuleKind, beside: Option<&Path>) -> Result<(), Vec<Problem>> {
    match kind {
        RuleKind::Repair => load_rules::<RepairRules>(kind, "own", beside).map(drop),
        RuleKind::MarkOut => load_rules::<MarkOutRules>(kind, "own", beside).map(drop),
        RuleKind::Traffic => load_rules::<TrafficRules>(kind, "own", beside).map(drop),
        RuleKind::Severity => load_rules::<SeverityRules>(kind, "own", beside).map(drop),
        RuleKind::Roads => load_rules::<RoadDefaults>(kind, "own", beside).map(drop),
        RuleKind::Planning => load_rules::<PlanningRules>(kind, "own", beside).map(drop),
        RuleKind::Soil => load_rules::<SoilRules>(kind, "own", beside).map(drop),
        RuleKind::Gradation => load_rules::<GradationRules>(kind, "own", beside).map(drop),
        RuleKind::Matching => load_rules::<MatchingRules>(kind, "own", beside).map(drop),
        RuleKind::Lasting => load_rules::<LastingRules>(kind, "own", beside).map(drop),
    }
}
