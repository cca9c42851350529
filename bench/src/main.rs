//! Measures single stages on made-up input that `peers.py` makes the same way. Prints seconds.
//!
//! `bench outlines`: 1,000 outlines of 100 vertices to cuts. `bench matrix`: a grid of 3,600 junctions made ready, then
//! driving times between 80 places. With a road file `bench matrix` measures that: see `road_matrix`.
//! `bench cvrp FILE.vrp --seconds 30 --seed 1 --json`: a routing problem of a VRPLIB file.
//! `bench intake --rows 1000000`: an export of an invented city read and its repeats found.
//! `bench lasting`: curves of ten million lives; patching on against renewing in many futures.
//! `bench record --seconds 20`: batches a second into a record, and how long each waits.
//! `bench serve-record`: a server on a record, for a load tool (`server_load.sh`).
//! `bench import --rows 1000000`: the same read, matched and put into a record.
//! `bench agency` and `bench district`: invented agencies of any size. `bench syracuse`: our rounds beside those driven.

mod agency;
mod curve;
mod cvrp;
mod district;
mod driven_days;
mod import;
mod intake;
mod lasting;
mod made_agency;
mod made_roads;
mod record;
mod road_matrix;
mod serve_record;
mod usage;
mod vrplib;

use std::f64::consts::TAU;
use std::time::Instant;

use markout::{Pavement, mark_out};
use model::cut_out::FrameOutline;
use model::district::DrivingSide;
use model::hole::HoleId;
use model::place::{FramePoint, LonLat};
use model::problem::Locator;
use model::quantity::{kilometres_per_hour, metres, percent};
use model::road::{Flow, RawLine, RoadAttributes, RoadClass, Setting, Surface, TruckAccess};
use roads::{AccessPlace, Network, TruckSpeeds, network_from_lines};

/// As the program has it.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() {
    match std::env::args().nth(1).as_deref() {
        Some("outlines") => outlines(),
        Some("matrix") if std::env::args().len() == 2 => matrix(),
        Some("matrix") => road_matrix::run(std::env::args().skip(2)),
        Some("write-roads") => made_roads::run(std::env::args().skip(2)),
        Some("cvrp") => or_say_why(cvrp::run(std::env::args().skip(2))),
        Some("agency") => or_say_why(agency::run(std::env::args().skip(2))),
        Some("syracuse") => or_say_why(driven_days::run(std::env::args().skip(2))),
        Some("intake") => or_say_why(intake::run(std::env::args().skip(2))),
        Some("lasting") => or_say_why(lasting::run(std::env::args().skip(2))),
        Some("record") => or_say_why(record::run(std::env::args().skip(2))),
        Some("serve-record") => or_say_why(serve_record::run(std::env::args().skip(2))),
        Some("import") => or_say_why(import::run(std::env::args().skip(2))),
        Some("district") => or_say_why(district::run(std::env::args().skip(2))),
        _ => {
            eprintln!(
                "usage: bench outlines | matrix | {} | {} | cvrp FILE.vrp | {} | {} | {} | {} | {} | {} | {} | {}",
                road_matrix::USAGE,
                made_roads::USAGE,
                agency::USAGE,
                district::USAGE,
                driven_days::USAGE,
                intake::USAGE,
                import::USAGE,
                lasting::USAGE,
                record::USAGE,
                serve_record::USAGE
            );
        }
    }
}

fn or_say_why(outcome: Result<(), String>) {
    if let Err(what) = outcome {
        eprintln!("{what}");
        std::process::exit(1);
    }
}

#[expect(clippy::disallowed_methods, reason = "a measurement reads the clock")]
fn now() -> Instant {
    Instant::now()
}

fn outlines() {
    let rules = toml::from_str(include_str!("../../rules/markout/common-practice.toml")).expect("the shipped rules");
    let holes: Vec<FrameOutline> = (0..1000)
        .map(|hole| {
            let phase = f64::from(hole);
            let ring = (0..100).map(|index| {
                let angle = TAU * f64::from(index) / 100.0;
                let radius = 0.3 + 0.15 * (3.0 * angle + phase).sin() + 0.02 * (17.0 * angle).cos();
                FramePoint { along_m: 5.0 * phase + radius * angle.cos(), across_m: radius * angle.sin() }
            });
            FrameOutline { hole: HoleId(hole.to_string()), ring: ring.collect() }
        })
        .collect();
    let start = now();
    let cuts = mark_out(&holes, &Pavement::without_edges(), &rules).expect("sound outlines");
    assert_eq!(cuts.len(), 1000);
    println!("{:.4}", start.elapsed().as_secs_f64());
}

const SIDE: u32 = 60;

fn matrix() {
    let start = now();
    let (network, _) = network_from_lines(grid());
    let speeds = TruckSpeeds { factor: percent(100.0), max: kilometres_per_hour(90.0) };
    let network = Network::prepare(network, speeds).expect("a sound grid");
    let ready = start.elapsed().as_secs_f64();
    let places: Vec<AccessPlace> = (0..80)
        .map(|index| {
            let place = junction((index * 37) % SIDE, (index * 23) % SIDE);
            let position = network.snap(place, None, metres(50.0), DrivingSide::Right, &|_| true);
            AccessPlace::depot(position.expect("a junction lies on the grid"))
        })
        .collect();
    let start = now();
    let matrix = network.matrix(&places);
    assert_eq!(matrix.travel_ms.len(), 80);
    println!("{ready:.4} {:.4}", start.elapsed().as_secs_f64());
}

/// Streets along both directions, a line between each two neighbouring junctions, the speed by formula.
fn grid() -> Vec<RawLine> {
    let mut lines = Vec::new();
    for x in 0..SIDE {
        for y in 0..SIDE {
            for (to_x, to_y) in [(x + 1, y), (x, y + 1)] {
                if to_x < SIDE && to_y < SIDE {
                    lines.push(street((x, y), (to_x, to_y)));
                }
            }
        }
    }
    lines
}

fn street(from: (u32, u32), to: (u32, u32)) -> RawLine {
    let key = |(x, y): (u32, u32)| u64::from(x * SIDE + y);
    RawLine {
        source_id: format!("{}-{}", key(from), key(to)),
        at: Locator::default(),
        points: vec![junction(from.0, from.1), junction(to.0, to.1)],
        node_keys: Some(vec![key(from), key(to)]),
        attributes: RoadAttributes {
            class: RoadClass::Tertiary,
            name: String::new(),
            number: String::new(),
            speed: kilometres_per_hour(f64::from(30 + (key(from) * 7 + key(to) * 13) as u32 % 60)),
            lanes: 2,
            width: metres(6.0),
            shoulder: metres(0.5),
            flow: Flow::Both,
            surface: Surface::SurfaceTreated,
            vehicles_per_day: None,
            setting: Setting::Rural,
            structure: None,
            roundabout: false,
            truck: TruckAccess::default(),
            defaulted: Vec::new(),
        },
    }
}

fn junction(x: u32, y: u32) -> LonLat {
    LonLat { lon: -28.5 + 0.003 * f64::from(x), lat: 47.2 + 0.002 * f64::from(y) }
}
