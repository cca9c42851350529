//! What the tests share.

use std::path::PathBuf;

use model::life::{LifeRow, LifeRows};
use model::rules::lasting::LastingRules;

/// The shipped rules.
pub fn rules() -> LastingRules {
    let path = testkit::in_repository("rules/lasting/common-practice.toml");
    toml::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

/// Third-party data beside the project, if present.
pub fn shared_data() -> Option<PathBuf> {
    if let Some(path) = std::env::var_os("LENGTHSMAN_SHARED_DATA") {
        return Some(PathBuf::from(path)).filter(|path| path.is_dir());
    }
    let start = testkit::crate_folder();
    let found = start.ancestors().map(|folder| folder.join("shared/data")).find(|path| path.is_dir());
    if found.is_none() {
        println!("skipped: no shared/data beside the project");
    }
    found
}

/// Lives by group.
pub fn lives(groups: &[(&str, &[(f64, bool)])]) -> LifeRows {
    let rows = groups.iter().zip(0..).flat_map(|((_, lives), group)| {
        lives.iter().map(move |(duration, failed)| LifeRow { duration: *duration, group, failed: *failed })
    });
    LifeRows { groups: groups.iter().map(|(name, _)| (*name).to_owned()).collect(), rows: rows.collect() }
}

#[track_caller]
pub fn assert_near(ours: f64, theirs: f64, tolerance: f64, what: &str) {
    assert!((ours - theirs).abs() <= tolerance, "{what}: {ours}, not {theirs}");
}

#[track_caller]
pub fn assert_all_near(ours: &[f64], theirs: &[f64], tolerance: f64, what: &str) {
    assert_eq!(ours.len(), theirs.len(), "{what}: {ours:?}, not {theirs:?}");
    for (ours, theirs) in ours.iter().zip(theirs) {
        assert_near(*ours, *theirs, tolerance, what);
    }
}
