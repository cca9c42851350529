//! Roads as an extract of the open map in XML.
#![no_main]

use std::cell::OnceCell;

use common::{Folder, road_defaults};
use libfuzzer_sys::fuzz_target;
use model::rules::roads::RoadDefaults;

thread_local! { static SETTING: OnceCell<(Folder, RoadDefaults)> = const { OnceCell::new() }; }

fuzz_target!(|bytes: &[u8]| {
    SETTING.with(|setting| {
        let (folder, defaults) = setting.get_or_init(|| (Folder::new(), road_defaults()));
        folder.roads("roads.osm", bytes, defaults);
    });
});
