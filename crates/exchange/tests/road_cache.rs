//! Kept roads come back as they were, or not at all.

mod road_support;

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use exchange::road_cache::{KeptRoads, RoadCache, RoadCacheKey};
use model::place::{LonLat, Travel};
use model::problem::{Locator, Problem, ProblemSeverity};
use model::quantity::{kilograms, kilometres_per_hour, metres};
use model::road::{
    Flow, HoldsFor, NodeId, RoadClass, RoadNetwork, RoadSection, SectionId, Setting, Surface, TruckAccess,
    TurnRestriction, TurnRule,
};
use model::road_around::StructureKind;
use road_support::{rules, ways, xml_of};

fn place(lon: f64, lat: f64) -> LonLat {
    LonLat { lon, lat }
}

/// Roads with every kind of value that can be kept.
fn roads() -> KeptRoads {
    let section = |id: u32, class| RoadSection {
        id: SectionId(id),
        source_id: format!("way {id}"),
        from: NodeId(id),
        to: NodeId(id + 1),
        line: vec![place(-30.0, 10.0 + f64::from(id) / 3.0), place(-29.999_999_9, 10.000_000_1), place(-29.0, 10.0)],
        length: metres(1234.567890123 + f64::from(id)),
        class,
        name: "Möwenweg".into(),
        number: String::new(),
        speed: kilometres_per_hour(48.28032 + f64::from(id)),
        lanes: id,
        width: metres(6.096),
        shoulder: metres(0.1 + 0.2),
        flow: [Flow::Both, Flow::Forward, Flow::Backward][id as usize % 3],
        surface: [Surface::SurfaceTreated, Surface::Paved, Surface::Rigid, Surface::Unpaved, Surface::Unknown]
            [id as usize % 5],
        vehicles_per_day: id.is_multiple_of(2).then_some(420.5),
        setting: if id.is_multiple_of(2) { Setting::Rural } else { Setting::Urban },
        structure: [None, Some(StructureKind::Bridge), Some(StructureKind::Tunnel)][id as usize % 3],
        roundabout: id == 4,
        truck: TruckAccess {
            mass: (id == 1).then_some(kilograms(7500.0)),
            height: (id == 2).then_some(metres(3.81)),
            width: (id == 3).then_some(metres(2.2)),
            length: (id == 4).then_some(metres(10.0)),
            no_heavier_than: (id == 5).then_some(kilograms(3500.0)),
            driving_speed: (id == 6).then_some(kilometres_per_hour(15.0)),
        },
        defaulted: vec!["class", "setting", "speed", "flow", "lanes", "width", "shoulder", "surface"],
    };
    let sections: Vec<RoadSection> =
        RoadClass::ALL.iter().enumerate().map(|(id, class)| section(id as u32, *class)).collect();
    let turn = |rule, holds_for| TurnRestriction {
        source_id: "77".into(),
        rule,
        holds_for,
        path: vec![(SectionId(0), Travel::Forward), (SectionId(1), Travel::Backward), (SectionId(2), Travel::Forward)],
    };
    let problem = |severity, code| Problem {
        code,
        severity,
        at: Locator { file: "roads.osm".into(), line: 3, column: 14 },
        subject: "way 7".into(),
        wrong: "w".into(),
        right: "r".into(),
    };
    KeptRoads {
        network: RoadNetwork {
            nodes: (0..=sections.len()).map(|node| place(-30.0 + node as f64 / 7.0, 10.0)).collect(),
            restrictions: vec![
                turn(TurnRule::No, HoldsFor::All),
                turn(TurnRule::Only, HoldsFor::HeavierThan(kilograms(3500.0))),
                turn(TurnRule::No, HoldsFor::UpTo(kilograms(3500.0))),
            ],
            contraction_order: (0..=sections.len() as u32).rev().collect(),
            sections,
        },
        problems: vec![
            problem(ProblemSeverity::Warning, "road.node.missing"),
            problem(ProblemSeverity::Refused, "road.way.twice"),
            problem(ProblemSeverity::Fatal, "road.way.twice"),
        ],
        attribution: Some("© invented".into()),
        left_out: BTreeMap::from([("highway=footway".to_owned(), 3)]),
    }
}

/// A road file in a folder, with the cache beside it.
fn folder() -> (tempfile::TempDir, PathBuf, RoadCache) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("roads.osm");
    std::fs::write(&path, xml_of(&ways())).unwrap();
    let cache = RoadCache::new(folder.path().join("kept/here"));
    (folder, path, cache)
}

fn kept_file(folder: &Path) -> PathBuf {
    let files: Vec<PathBuf> =
        std::fs::read_dir(folder.join("kept/here")).unwrap().map(|entry| entry.unwrap().path()).collect();
    assert_eq!(files.len(), 1, "{files:?}");
    files[0].clone()
}

#[test]
fn roads_come_back_as_they_were() {
    let (folder, path, cache) = folder();
    let key = RoadCacheKey::new(&path, &rules()).unwrap();
    assert_eq!(cache.load(&key), Ok(None));
    for roads in [roads(), KeptRoads::default()] {
        cache.save(&key, &roads).unwrap();
        assert_eq!(cache.load(&key), Ok(Some(roads)));
        kept_file(folder.path());
    }
}

#[test]
fn more_than_one_frame_of_everything() {
    let (_folder, path, cache) = folder();
    let key = RoadCacheKey::new(&path, &rules()).unwrap();
    let mut roads = roads();
    let (section, turn) = (roads.network.sections[0].clone(), roads.network.restrictions[0].clone());
    roads.network.sections = (0..10_000).map(|id| RoadSection { id: SectionId(id), ..section.clone() }).collect();
    roads.network.restrictions = vec![turn; 5000];
    roads.network.nodes = (0..9000).map(|node| place(f64::from(node) / 100.0, 1.0)).collect();
    roads.network.contraction_order = (0..9000).collect();
    cache.save(&key, &roads).unwrap();
    assert_eq!(cache.load(&key), Ok(Some(roads)));
}

#[test]
fn other_content_or_other_rules_are_other_roads() {
    let (folder, path, cache) = folder();
    let key = RoadCacheKey::new(&path, &rules()).unwrap();
    assert_eq!(key, RoadCacheKey::new(&path, &rules()).unwrap());
    cache.save(&key, &roads()).unwrap();

    let mut other_rules = rules();
    other_rules.classes.track.speed_rural_km_h.value = 31.0;
    assert_eq!(cache.load(&RoadCacheKey::new(&path, &other_rules).unwrap()), Ok(None));

    // The files of a shapefile, and a joined table, are part of the content.
    std::fs::write(path.with_extension("prj"), "PRJ").unwrap();
    let with_prj = RoadCacheKey::new(&path, &rules()).unwrap();
    assert_ne!(with_prj, key);
    std::fs::write(path.with_extension("prj"), "PRK").unwrap();
    assert_ne!(RoadCacheKey::new(&path, &rules()).unwrap(), with_prj);
    std::fs::remove_file(path.with_extension("prj")).unwrap();

    std::fs::write(&path, xml_of(&ways()).replace("80", "90")).unwrap();
    assert_eq!(cache.load(&RoadCacheKey::new(&path, &rules()).unwrap()), Ok(None));
    std::fs::write(&path, xml_of(&ways())).unwrap();
    assert!(cache.load(&RoadCacheKey::new(&path, &rules()).unwrap()).unwrap().is_some());
    assert!(RoadCacheKey::new(&folder.path().join("none.osm"), &rules()).is_err());
}

#[test]
fn damaged_roads_are_never_trusted() {
    let (folder, path, cache) = folder();
    let key = RoadCacheKey::new(&path, &rules()).unwrap();
    cache.save(&key, &roads()).unwrap();
    let kept = kept_file(folder.path());
    let whole = std::fs::read(&kept).unwrap();
    for index in 0..whole.len() {
        for flip in [0x01, 0x80] {
            let mut damaged = whole.clone();
            damaged[index] ^= flip;
            std::fs::write(&kept, &damaged).unwrap();
            let code = cache.load(&key).unwrap_err().code;
            let version = (8..12).contains(&index);
            assert_eq!(code, if version { "road.cache.old" } else { "road.cache.damaged" }, "byte {index}");
        }
    }
    for length in (0..whole.len()).step_by(7) {
        std::fs::write(&kept, &whole[..length]).unwrap();
        let problem = cache.load(&key).unwrap_err();
        assert_eq!(
            (problem.code, problem.severity),
            ("road.cache.damaged", ProblemSeverity::Warning),
            "{length} bytes"
        );
    }
    // Made anew, they are good again.
    cache.save(&key, &roads()).unwrap();
    assert_eq!(cache.load(&key), Ok(Some(roads())));
}

#[test]
fn a_folder_that_cannot_be_written_is_said() {
    let (folder, path, _) = folder();
    let key = RoadCacheKey::new(&path, &rules()).unwrap();
    // A file stands where the folder should be.
    let cache = RoadCache::new(&path);
    let problem = cache.save(&key, &roads()).unwrap_err();
    assert_eq!((problem.code, problem.severity), ("road.cache.unwritable", ProblemSeverity::Warning));
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1, "nothing is left behind");
}
