//! Roads as an extract of the open map in PBF.
#![no_main]

use std::cell::OnceCell;
use std::panic::{set_hook, take_hook};

use common::{Folder, road_defaults};
use libfuzzer_sys::fuzz_target;
use model::rules::roads::RoadDefaults;

thread_local! { static SETTING: OnceCell<(Folder, RoadDefaults)> = const { OnceCell::new() }; }

/// The fuzzer's hook ends the process at every panic. The reader catches those of the map library (a place whose sum runs
/// over, for one): such a panic is none of ours and goes on to where it is caught.
fn let_the_reader_catch_the_librarys() {
    let fuzzers = take_hook();
    set_hook(Box::new(move |panic| {
        let is_the_librarys = panic.location().is_some_and(|place| place.file().contains("osmpbf"));
        if !is_the_librarys {
            fuzzers(panic);
        }
    }));
}

fuzz_target!(init: let_the_reader_catch_the_librarys(), |bytes: &[u8]| {
    SETTING.with(|setting| {
        let (folder, defaults) = setting.get_or_init(|| (Folder::new(), road_defaults()));
        folder.roads("roads.osm.pbf", bytes, defaults);
    });
});
