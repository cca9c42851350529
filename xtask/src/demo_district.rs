//! Writes the invented district: an island in the open Atlantic, its roads and its holes. Same seed, same files.
//!
//! Everything here is made up. Kilometres east and north of the island's middle are used for drawing; the files carry
//! degrees.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::fs;

use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;
use serde_json::{Value, json};

use crate::tools::{Outcome, root};

const SEED: u64 = 20_260_609;
const MIDDLE_LON: f64 = -28.4;
const MIDDLE_LAT: f64 = 47.3;
const KM_PER_DEGREE_LAT: f64 = 111.2;

/// Kilometres east and north of the island's middle.
pub(crate) type Km = (f64, f64);

pub(crate) struct Road {
    pub id: String,
    pub name: String,
    pub number: &'static str,
    pub class: &'static str,
    pub speed_kmh: u32,
    pub lanes: u32,
    pub width_m: f64,
    pub shoulder_m: f64,
    pub surface: &'static str,
    pub oneway: bool,
    pub vehicles_per_day: u32,
    pub points: Vec<Km>,
}

const VILLAGES: [(&str, f64, f64); 14] = [
    ("Quillmere", 0.0, 0.0),
    ("Harrowfen", -6.0, 3.5),
    ("Brindlecot", 5.5, 4.2),
    ("Osk", 10.6, 0.9),
    ("Tolver", 7.4, -4.9),
    ("Pellowick", -1.5, -6.4),
    ("Dunnard", -8.3, -3.8),
    ("Lathe Cross", -2.6, 7.2),
    ("Fennow", 3.4, 8.4),
    ("Corrigate", -11.6, 0.6),
    ("Merriden Stack", 12.4, -3.2),
    ("Wending", 2.9, -3.1),
    ("Ombrey", -4.4, -2.4),
    ("Saltrigg", 8.8, 7.0),
];

/// Village to village: class, number.
const ROADS: [(usize, usize, &str, &str); 27] = [
    (9, 1, "primary", "Q1"),
    (1, 0, "primary", "Q1"),
    (0, 2, "primary", "Q1"),
    (2, 3, "primary", "Q1"),
    (5, 0, "secondary", "Q2"),
    (0, 7, "secondary", "Q2"),
    (7, 8, "secondary", "Q2"),
    (0, 11, "secondary", "Q3"),
    (11, 4, "secondary", "Q3"),
    (4, 10, "secondary", "Q3"),
    (9, 6, "tertiary", ""),
    (6, 5, "tertiary", ""),
    (5, 4, "tertiary", ""),
    (10, 3, "tertiary", ""),
    (3, 13, "tertiary", ""),
    (13, 8, "tertiary", ""),
    (13, 2, "tertiary", ""),
    (7, 1, "tertiary", ""),
    (12, 0, "tertiary", ""),
    (12, 6, "tertiary", ""),
    (12, 5, "tertiary", ""),
    (11, 3, "tertiary", ""),
    (11, 5, "tertiary", ""),
    (8, 2, "tertiary", ""),
    (1, 6, "tertiary", ""),
    (12, 1, "unclassified", ""),
    (2, 4, "unclassified", ""),
];

const LANE_WORDS: [&str; 24] = [
    "Gorse", "Kiln", "Peat", "Heron", "Sedge", "Mill", "Thrift", "Quarry", "Plover", "Bramble", "Fold", "Chapel",
    "Rook", "Weir", "Limpet", "Cairn", "Alder", "Shingle", "Tern", "Bracken", "Ford", "Rowan", "Beacon", "Curlew",
];

/// Writes `demo/roads.geojson`, `demo/holes.csv` and `demo/records.csv`.
pub fn write() -> Outcome {
    let mut random = Pcg64Mcg::seed_from_u64(SEED);
    let mut roads = main_roads(&mut random);
    lanes(&mut roads, &mut random);
    village_streets(&mut roads, &mut random);
    junctions(&mut roads);
    let total_km: f64 = roads.iter().map(|road| length_km(&road.points)).sum();
    let folder = root().join("demo");
    let save = |name: &str, text: String| fs::write(folder.join(name), text).map_err(|e| format!("{name}: {e}"));
    save("roads.geojson", geojson(&roads))?;
    let (holes, rows) = crate::demo_holes::holes(&roads, &mut random);
    save("holes.csv", holes)?;
    save("records.csv", crate::demo_holes::records(&roads, &mut random))?;
    println!(
        "demo/roads.geojson: {} roads, {total_km:.0} km; demo/holes.csv: {rows} rows; demo/records.csv",
        roads.len()
    );
    Ok(())
}

fn main_roads(random: &mut Pcg64Mcg) -> Vec<Road> {
    ROADS
        .iter()
        .enumerate()
        .map(|(index, &(from, to, class, number))| {
            let (a, b) = (VILLAGES[from], VILLAGES[to]);
            let (speed_kmh, width_m, shoulder_m, vehicles_per_day) = match class {
                "primary" => (90, 7.0, 1.0, 1800),
                "secondary" => (80, 6.5, 0.8, 900),
                "tertiary" => (80, 6.0, 0.5, 350),
                _ => (60, 5.5, 0.5, 120),
            };
            Road {
                id: format!("M{:02}", index + 1),
                name: format!("{}–{} Road", a.0, b.0),
                number,
                class,
                speed_kmh,
                lanes: 2,
                width_m,
                shoulder_m,
                surface: "chipseal",
                oneway: false,
                vehicles_per_day,
                points: wander((a.1, a.2), (b.1, b.2), 0.05, random),
            }
        })
        .collect()
}

/// Farm and coast lanes off the main roads: some join another road, some end at a farm.
fn lanes(roads: &mut Vec<Road>, random: &mut Pcg64Mcg) {
    let main_count = roads.len();
    let mut used = BTreeSet::new();
    let mut index = 0;
    while index < 58 {
        let from_road = random.random_range(0..main_count);
        let points = &roads[from_road].points;
        let at = random.random_range(2..points.len() - 2);
        if !used.insert((from_road, at / 6)) {
            continue;
        }
        let start = points[at];
        let ahead = points[at + 1];
        let side = if random.random::<bool>() { 1.0 } else { -1.0 };
        let heading = (ahead.1 - start.1).atan2(ahead.0 - start.0) + side * random.random_range(1.1..1.9);
        let reach = random.random_range(0.8..2.9);
        let mut end = (start.0 + reach * heading.cos(), start.1 + reach * heading.sin());
        if !on_island(end) {
            continue;
        }
        // A lane that ends close to another road joins it there.
        let joins =
            roads[..main_count].iter().enumerate().filter(|(other, _)| *other != from_road).find_map(|(_, road)| {
                road.points[2..road.points.len() - 2].iter().copied().find(|&p| distance_km(p, end) < 0.6)
            });
        if let Some(joined) = joins {
            end = joined;
        }
        let word = LANE_WORDS[index % LANE_WORDS.len()];
        let kind = ["Lane", "Road", "Track Road"][index / LANE_WORDS.len()];
        roads.push(Road {
            id: format!("L{:02}", index + 1),
            name: format!("{word} {kind}"),
            number: "",
            class: "unclassified",
            speed_kmh: if index % 3 == 0 { 50 } else { 60 },
            lanes: if index % 2 == 0 { 2 } else { 1 },
            width_m: if index % 2 == 0 { 5.5 } else { 4.2 },
            shoulder_m: 0.5,
            surface: if index % 9 == 8 { "gravel" } else { "chipseal" },
            oneway: false,
            vehicles_per_day: 40 + 10 * (index as u32 % 9),
            points: wander(start, end, 0.09, random),
        });
        index += 1;
    }
}

/// A few streets in each village, the main town with a one-way pair.
fn village_streets(roads: &mut Vec<Road>, random: &mut Pcg64Mcg) {
    for (village, &(name, x, y)) in VILLAGES.iter().enumerate() {
        let count = if village == 0 { 9 } else { 4 };
        let turn = random.random_range(0.0..1.0);
        for street in 0..count {
            let heading = turn + std::f64::consts::TAU * f64::from(street) / f64::from(count);
            let reach = random.random_range(0.35..0.75);
            let end = (x + reach * heading.cos(), y + reach * heading.sin());
            let oneway = village == 0 && street < 2;
            let words = ["Harbour", "Church", "Market", "Well", "Ropewalk", "School", "Green", "Tollgate", "Smithy"];
            roads.push(Road {
                id: format!("S{:02}{}", village + 1, street + 1),
                name: format!("{} Street, {name}", words[street as usize]),
                number: "",
                class: "residential",
                speed_kmh: 50,
                lanes: if oneway { 1 } else { 2 },
                width_m: if oneway { 4.0 } else { 6.0 },
                shoulder_m: 0.0,
                surface: if village == 0 { "asphalt" } else { "chipseal" },
                oneway: false,
                vehicles_per_day: 300,
                points: wander((x, y), end, 0.04, random),
            });
        }
    }
    // The quay: a dual carriageway of two lanes each way, outside the main town.
    let quay = wander((0.0, 0.0), (2.6, 1.7), 0.03, random);
    let shifted: Vec<Km> = quay
        .iter()
        .enumerate()
        .map(|(i, p)| if i == 0 || i + 1 == quay.len() { *p } else { (p.0 + 0.008, p.1 - 0.012) })
        .collect();
    for (id, points) in [("D1", quay), ("D2", shifted.into_iter().rev().collect())] {
        roads.push(Road {
            id: id.to_owned(),
            name: "Quay Parade".to_owned(),
            number: "Q4",
            class: "primary",
            speed_kmh: 80,
            lanes: 2,
            width_m: 7.3,
            shoulder_m: 1.5,
            surface: "chipseal",
            oneway: true,
            vehicles_per_day: 2600,
            points,
        });
    }
}

/// Makes a junction wherever two roads cross: the later one ends there and goes on as a road of its own.
fn junctions(roads: &mut Vec<Road>) {
    let mut at = 1;
    while at < roads.len() {
        let crossing = (0..at).find_map(|other| Some((other, crossing(&roads[other].points, &roads[at].points)?)));
        let Some((other, (place, other_segment, own_segment))) = crossing else {
            at += 1;
            continue;
        };
        roads[other].points.insert(other_segment + 1, place);
        let road = &mut roads[at];
        let rest: Vec<Km> = std::iter::once(place).chain(road.points.drain(own_segment + 1..)).collect();
        road.points.push(place);
        let on = Road { id: format!("{}+", road.id), name: road.name.clone(), points: rest, ..*road };
        roads.push(on);
    }
}

/// Where two lines cross, away from their vertices: the place and the segment of each.
#[expect(clippy::many_single_char_names, reason = "the usual letters of two segments that cross")]
fn crossing(one: &[Km], other: &[Km]) -> Option<(Km, usize, usize)> {
    for (i, a) in one.windows(2).enumerate() {
        for (j, b) in other.windows(2).enumerate() {
            let (r, s) = ((a[1].0 - a[0].0, a[1].1 - a[0].1), (b[1].0 - b[0].0, b[1].1 - b[0].1));
            let cross = r.0 * s.1 - r.1 * s.0;
            if cross.abs() < 1e-12 {
                continue;
            }
            let d = (b[0].0 - a[0].0, b[0].1 - a[0].1);
            let (t, u) = ((d.0 * s.1 - d.1 * s.0) / cross, (d.0 * r.1 - d.1 * r.0) / cross);
            let inside = |x: f64, length: f64| x * length > 0.002 && (1.0 - x) * length > 0.002;
            if inside(t, distance_km(a[0], a[1])) && inside(u, distance_km(b[0], b[1])) {
                return Some(((a[0].0 + t * r.0, a[0].1 + t * r.1), i, j));
            }
        }
    }
    None
}

/// A winding line: a straight one bent by a few sines that vanish at both ends; a point every 90 m or so.
fn wander(from: Km, to: Km, bend: f64, random: &mut Pcg64Mcg) -> Vec<Km> {
    let straight = distance_km(from, to);
    let steps = (straight / 0.09).ceil().max(4.0) as usize;
    let waves: Vec<f64> = (1..=4).map(|n| random.random_range(-1.0..1.0) * bend * straight / f64::from(n)).collect();
    let (dx, dy) = ((to.0 - from.0) / straight, (to.1 - from.1) / straight);
    (0..=steps)
        .map(|step| {
            let t = step as f64 / steps as f64;
            let off: f64 =
                waves.iter().zip(1..).map(|(a, n)| a * (std::f64::consts::PI * f64::from(n) * t).sin()).sum();
            (from.0 + t * straight * dx - off * dy, from.1 + t * straight * dy + off * dx)
        })
        .collect()
}

fn on_island((x, y): Km) -> bool {
    (x / 14.5).powi(2) + ((y - 0.7) / 10.0).powi(2) < 1.0
}

pub(crate) fn distance_km(a: Km, b: Km) -> f64 {
    (a.0 - b.0).hypot(a.1 - b.1)
}

pub(crate) fn length_km(points: &[Km]) -> f64 {
    points.windows(2).map(|w| distance_km(w[0], w[1])).sum()
}

fn degrees((x, y): Km) -> (f64, f64) {
    let lat = MIDDLE_LAT + y / KM_PER_DEGREE_LAT;
    let lon = MIDDLE_LON + x / (KM_PER_DEGREE_LAT * MIDDLE_LAT.to_radians().cos());
    // Six decimals, a tenth of a metre: shared points stay shared.
    ((lon * 1e6).round() / 1e6, (lat * 1e6).round() / 1e6)
}

fn geojson(roads: &[Road]) -> String {
    let features: Vec<Value> = roads
        .iter()
        .map(|road| {
            let points: Vec<Value> =
                road.points.iter().map(|&p| degrees(p)).map(|(lon, lat)| json!([lon, lat])).collect();
            json!({
                "type": "Feature",
                "properties": {
                    "id": road.id, "name": road.name, "ref": road.number, "class": road.class,
                    "speed_kmh": road.speed_kmh, "lanes": road.lanes, "width_m": road.width_m,
                    "shoulder_m": road.shoulder_m, "surface": road.surface,
                    "oneway": if road.oneway { "yes" } else { "no" }, "vehicles_per_day": road.vehicles_per_day,
                },
                "geometry": { "type": "LineString", "coordinates": points },
            })
        })
        .collect();
    // One feature a line, so that a change can be read.
    let mut text = String::from("{\"type\":\"FeatureCollection\",\"features\":[\n");
    for (index, feature) in features.iter().enumerate() {
        let comma = if index + 1 < features.len() { "," } else { "" };
        let _ = writeln!(text, "{feature}{comma}");
    }
    text.push_str("]}\n");
    text
}

/// Degrees of a place in kilometres, unrounded.
pub(crate) fn exact_degrees((x, y): Km) -> (f64, f64) {
    (MIDDLE_LON + x / (KM_PER_DEGREE_LAT * MIDDLE_LAT.to_radians().cos()), MIDDLE_LAT + y / KM_PER_DEGREE_LAT)
}
