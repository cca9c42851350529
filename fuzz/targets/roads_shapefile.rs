//! Roads as a shapefile: the first two bytes say how many of the others are the `.dbf` beside the `.shp`.
#![no_main]

use std::cell::OnceCell;

use common::{Folder, road_defaults};
use libfuzzer_sys::fuzz_target;
use model::rules::roads::RoadDefaults;

thread_local! { static SETTING: OnceCell<(Folder, RoadDefaults)> = const { OnceCell::new() }; }

fuzz_target!(|bytes: &[u8]| {
    let [low, high, rest @ ..] = bytes else { return };
    let (table, shapes) = rest.split_at(usize::from(u16::from_le_bytes([*low, *high])).min(rest.len()));
    SETTING.with(|setting| {
        let (folder, defaults) = setting.get_or_init(|| (Folder::new(), road_defaults()));
        folder.file("roads.dbf", table);
        folder.roads("roads.shp", shapes, defaults);
    });
});
