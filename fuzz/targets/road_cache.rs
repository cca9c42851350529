//! Roads kept on disk.
#![no_main]

use std::cell::OnceCell;
use std::fs;
use std::path::PathBuf;

use common::{Folder, road_defaults, said_in_words};
use exchange::road_cache::{KeptRoads, RoadCache, RoadCacheKey};
use libfuzzer_sys::fuzz_target;

/// A cache, the key of roads in it, and the file in which they are kept.
struct Setting {
    // Lives as long as the files in it are used.
    _folder: Folder,
    cache: RoadCache,
    key: RoadCacheKey,
    kept: PathBuf,
}

thread_local! { static SETTING: OnceCell<Setting> = const { OnceCell::new() }; }

fn setting() -> Setting {
    let folder = Folder::new();
    let roads = folder.file("roads.osm", b"<osm/>");
    let key = RoadCacheKey::new(&roads, &road_defaults()).expect("a file that can be read");
    let place = roads.with_file_name("kept");
    let cache = RoadCache::new(&place);
    cache.save(&key, &KeptRoads::default()).expect("a folder that can be written");
    let entry = fs::read_dir(place).expect("the folder").next().expect("one file").expect("an entry");
    Setting { _folder: folder, cache, key, kept: entry.path() }
}

fuzz_target!(|bytes: &[u8]| {
    SETTING.with(|cell| {
        let setting = cell.get_or_init(setting);
        fs::write(&setting.kept, bytes).expect("a scratch file");
        match setting.cache.load(&setting.key) {
            // It was not made by chance: what is read can be kept again and comes back the same.
            Ok(Some(roads)) => {
                setting.cache.save(&setting.key, &roads).expect("a folder that can be written");
                let again = setting.cache.load(&setting.key).expect("whole roads").expect("roads");
                // Not compared as such: a place may be no number.
                assert_eq!(format!("{roads:?}"), format!("{again:?}"));
            }
            Ok(None) => panic!("the file is there"),
            Err(problem) => said_in_words(&[*problem]),
        }
    });
});
