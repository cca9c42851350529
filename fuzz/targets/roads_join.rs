//! The table beside a road file that corrects surface and width.
#![no_main]

use std::cell::OnceCell;

use common::{Folder, said_in_words};
use exchange::road_files::read_road_join;
use exchange::rules::{RuleKind, load_rules};
use libfuzzer_sys::fuzz_target;
use model::rules::roads::RoadDefaults;

/// A rule set with a join.
const RULES: &str = r#"extends = "open-map-defaults"
name = "own"
about = "A join table."

[join]
file = { value = "join.csv", source = "test" }
key = { value = "id", source = "test" }
surface = { value = "surface", source = "test" }
surface_words = { value = { seal = "surface_treated", asphalt = "paved" }, source = "test" }
width = { value = "width", source = "test" }
width_unit = { value = "ft", source = "test" }
width_unsaid = { value = ["n/a"], source = "test" }
"#;

thread_local! { static SETTING: OnceCell<(Folder, RoadDefaults)> = const { OnceCell::new() }; }

fuzz_target!(|bytes: &[u8]| {
    SETTING.with(|setting| {
        let (folder, defaults) = setting.get_or_init(|| {
            let folder = Folder::new();
            let path = folder.file("own.toml", RULES.as_bytes());
            let defaults = load_rules(RuleKind::Roads, "own", path.parent()).expect("rules with a join");
            (folder, defaults)
        });
        let path = folder.file("join.csv", bytes);
        let rule = defaults.join.as_ref().expect("a join");
        said_in_words(&read_road_join(&path, rule, &defaults.plausible).problems);
    });
});
