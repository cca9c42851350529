//! What the tests share: an invented island, and the open data where it is there.

#![allow(dead_code)] // each test file uses its own part

use std::path::PathBuf;

use exchange::rules::{RuleKind, load_rules};
use intake::open311::Office;
use intake::open311::service::HoleService;
use intake::place::{Bounds, District};
use jiff::tz::TimeZone;
use model::rules::matching::MatchingRules;

/// The matching rules that come with the program.
pub fn rules() -> MatchingRules {
    load_rules(RuleKind::Matching, "common-practice", None).expect("the shipped rules")
}

/// An island in the open Atlantic, of its own time.
pub fn island() -> District {
    let bounds = Bounds { west: -28.7, south: 47.1, east: -28.1, north: 47.5 };
    District { bounds: Some(bounds), zone: TimeZone::get("Atlantic/Azores").expect("a known zone") }
}

/// Its road office.
pub fn office() -> Office {
    Office {
        jurisdiction: Some("roads.quillmere.example".into()),
        agency: Some("Quillmere Roads".into()),
        service: HoleService::shipped(),
        district: island(),
        shows_words: false,
    }
}

/// The open data beside the project.
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
