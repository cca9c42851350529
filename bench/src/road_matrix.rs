//! A road file read, made ready, snapped to and driven on: seconds and memory of each step, and on request the graph and
//! the driving times for `road_peers.py`.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::time::Instant;

use exchange::road_cache::{KeptRoads, RoadCache, RoadCacheKey};
use exchange::road_files::read_roads;
use model::district::DrivingSide;
use model::place::{FramePoint, LonLat, RoadPosition, Side, Travel};
use model::quantity::{InLength, fraction, kilometres_per_hour, metres};
use model::road::{Flow, RoadNetwork, SectionId};
use rand::{Rng, RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;
use roads::{AccessPlace, Network, TruckSpeeds, network_with_restrictions};

use crate::now;
use crate::usage::{peak_memory_mb, rounded};

pub const USAGE: &str = "matrix FILE [--places 500] [--seed 1] [--snap 0] [--json] [--graph FOLDER] [--cache FOLDER]";

struct Settings {
    file: PathBuf,
    places: usize,
    seed: u64,
    /// So many holes are snapped.
    snap: usize,
    json: bool,
    /// Where the graph and the times are written.
    graph: Option<PathBuf>,
    /// Where the roads are kept.
    cache: Option<PathBuf>,
}

/// What was measured.
struct Measured {
    ways: usize,
    sections: usize,
    restrictions: usize,
    /// Reading and cutting into sections, or reading what is kept.
    read: f64,
    from_cache: bool,
    read_memory_mb: f64,
    prepare: f64,
    matrix: f64,
    snap: f64,
    unreachable: usize,
}

pub fn run(arguments: impl Iterator<Item = String>) {
    match settings(arguments) {
        Some(settings) => print(&settings, &measure(&settings)),
        None => eprintln!("usage: bench {USAGE}"),
    }
}

fn settings(mut arguments: impl Iterator<Item = String>) -> Option<Settings> {
    let mut settings =
        Settings { file: PathBuf::new(), places: 500, seed: 1, snap: 0, json: false, graph: None, cache: None };
    while let Some(argument) = arguments.next() {
        match argument.as_str() {
            "--json" => settings.json = true,
            "--places" => settings.places = arguments.next()?.parse().ok()?,
            "--seed" => settings.seed = arguments.next()?.parse().ok()?,
            "--snap" => settings.snap = arguments.next()?.parse().ok()?,
            "--graph" => settings.graph = Some(arguments.next()?.into()),
            "--cache" => settings.cache = Some(arguments.next()?.into()),
            file if !file.starts_with("--") => settings.file = file.into(),
            _ => return None,
        }
    }
    (!settings.file.as_os_str().is_empty()).then_some(settings)
}

fn measure(settings: &Settings) -> Measured {
    let rules = toml::from_str(include_str!("../../rules/roads/open-map-defaults.toml")).expect("the shipped rules");
    let start = now();
    let kept = settings.cache.as_ref().map(|folder| {
        let key = RoadCacheKey::new(&settings.file, &rules).expect("a file that can be read");
        (RoadCache::new(folder), key)
    });
    let found = kept.as_ref().and_then(|(cache, key)| cache.load(key).expect("whole roads"));
    let from_cache = found.is_some();
    let (roads, ways) = if let Some(found) = found {
        (found.network, 0)
    } else {
        let file = read_roads(&settings.file, &rules, &mut |_| {});
        let ways = file.lines.len();
        (network_with_restrictions(file.lines, &file.restrictions).0, ways)
    };
    let (read, read_memory_mb) = (seconds(start), peak_memory_mb());
    let (sections, restrictions) = (roads.sections.len(), roads.restrictions.len());
    if let Some((cache, key)) = kept.filter(|_| !from_cache) {
        let network = RoadNetwork { contraction_order: Network::order_of(&roads), ..roads.clone() };
        cache.save(&key, &KeptRoads { network, ..KeptRoads::default() }).expect("a folder that can be written");
    }
    let start = now();
    let speeds = TruckSpeeds { factor: fraction(0.85), max: kilometres_per_hour(80.0) };
    let network = Network::prepare(roads, speeds).expect("roads as they were read");
    let prepare = seconds(start);

    let mut random = Pcg64Mcg::seed_from_u64(settings.seed);
    let largest: Vec<SectionId> =
        network.roads().sections.iter().map(|s| s.id).filter(|id| network.component_of(*id) == 0).collect();
    let places: Vec<AccessPlace> = (0..settings.places).map(|_| place(&network, &largest, &mut random)).collect();
    let start = now();
    let matrix = network.matrix(&places);
    let time = seconds(start);
    let unreachable = matrix.travel_ms.iter().flatten().filter(|ms| **ms == roads::UNREACHABLE_MS).count();

    let holes: Vec<LonLat> = (0..settings.snap).map(|_| beside(&network, &largest, &mut random)).collect();
    let start = now();
    let found = holes
        .iter()
        .filter(|hole| network.snap(**hole, None, metres(25.0), DrivingSide::Right, &|_| true).is_ok())
        .count();
    assert_eq!(found, holes.len(), "every hole lies within 15 m of a road");
    let snap = seconds(start);
    if let Some(folder) = &settings.graph {
        write_graph(folder, &network, &places, &matrix.travel_ms).expect("a folder that can be written");
    }
    Measured {
        ways,
        sections,
        restrictions,
        read,
        from_cache,
        read_memory_mb,
        prepare,
        matrix: time,
        snap,
        unreachable,
    }
}

/// A site in either direction that traffic is allowed, anywhere on a section.
fn place(network: &Network, sections: &[SectionId], random: &mut Pcg64Mcg) -> AccessPlace {
    let section = sections[random.random_range(0..sections.len())];
    let forward = random.next_u32().is_multiple_of(2);
    let travel = match network.section(section).flow {
        Flow::Forward => Travel::Forward,
        Flow::Both if forward => Travel::Forward,
        Flow::Both | Flow::Backward => Travel::Backward,
    };
    AccessPlace::site(RoadPosition {
        section,
        chainage: network.length(section) * random.random_range(0.0..1.0),
        across: metres(0.0),
        side: Side::Right,
        travel,
        distance: metres(0.0),
        azimuth_deg: 0.0,
    })
}

/// A place within 15 m of a road.
fn beside(network: &Network, sections: &[SectionId], random: &mut Pcg64Mcg) -> LonLat {
    let section = sections[random.random_range(0..sections.len())];
    let along_m = network.length(section).in_metres() * random.random_range(0.0..1.0);
    network.to_lon_lat(section, FramePoint { along_m, across_m: random.random_range(-15.0..15.0) })
}

/// `nodes.csv`, `arcs.csv`, `places.csv` (the two nodes of each place) and `times.csv` (milliseconds, a row a place).
fn write_graph(folder: &Path, network: &Network, places: &[AccessPlace], times: &[Vec<u32>]) -> std::io::Result<()> {
    std::fs::create_dir_all(folder)?;
    let graph = network.as_graph(places);
    let mut text = String::from("lon,lat\n");
    for place in &graph.nodes {
        let _ = writeln!(text, "{},{}", place.lon, place.lat);
    }
    std::fs::write(folder.join("nodes.csv"), text)?;
    let mut text = String::from("from,to,ms\n");
    for (from, to, ms) in &graph.arcs {
        let _ = writeln!(text, "{from},{to},{ms}");
    }
    std::fs::write(folder.join("arcs.csv"), text)?;
    let mut text = String::from("out,into\n");
    for (out, into) in &graph.places {
        let _ = writeln!(text, "{out},{into}");
    }
    std::fs::write(folder.join("places.csv"), text)?;
    let mut text = String::new();
    for row in times {
        let row: Vec<String> = row.iter().map(u32::to_string).collect();
        let _ = writeln!(text, "{}", row.join(","));
    }
    std::fs::write(folder.join("times.csv"), text)
}

fn print(settings: &Settings, measured: &Measured) {
    let table = serde_json::json!({
        "file": settings.file.file_name().map(|name| name.to_string_lossy()),
        "ways": measured.ways,
        "sections": measured.sections,
        "restrictions": measured.restrictions,
        "places": settings.places,
        "unreachable_pairs": measured.unreachable,
        "snapped": settings.snap,
        "from_cache": measured.from_cache,
        "seconds_read": rounded(measured.read),
        "read_memory_mb": rounded(measured.read_memory_mb),
        "seconds_prepare": rounded(measured.prepare),
        "seconds_matrix": rounded(measured.matrix),
        "seconds_snap": rounded(measured.snap),
        "peak_memory_mb": rounded(peak_memory_mb()),
    });
    if settings.json {
        println!("{table}");
    } else {
        for (name, value) in table.as_object().into_iter().flatten() {
            println!("{name:<20} {value}");
        }
    }
}

fn seconds(start: Instant) -> f64 {
    start.elapsed().as_secs_f64()
}
