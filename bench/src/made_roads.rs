//! A large extract of an invented map as PBF, to measure reading on: `write-roads FILE WAYS`.
//!
//! Streets in a grid, a bend between each two junctions, houses beside them that no road reader needs. Field numbers are
//! those of OpenStreetMap's fileformat.proto and osmformat.proto.

use std::fs::File;
use std::io::{BufWriter, Write};

use flate2::Compression;
use flate2::write::ZlibEncoder;
use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;
use testkit::protobuf::{bytes_field, deltas, varint};

pub const USAGE: &str = "write-roads FILE WAYS";

/// Points of a street between its ends, about what real extracts have.
const BEND_POINTS: i64 = 8;
const HOUSES_TO_A_STREET: i64 = 2;
const HOUSE_POINTS: i64 = 4;
const TO_A_BLOCK: usize = 8000;

/// A way: its number, nodes, and tags as places in [`TEXTS`].
type MadeWay = (i64, Vec<i64>, Vec<(u64, u64)>);

const TEXTS: [&str; 12] = [
    "",
    "highway",
    "residential",
    "tertiary",
    "track",
    "building",
    "yes",
    "surface",
    "asphalt",
    "maxspeed",
    "50",
    "name",
];

pub fn run(mut arguments: impl Iterator<Item = String>) {
    match (arguments.next(), arguments.next().and_then(|count| count.parse().ok())) {
        (Some(file), Some(ways)) => write(&file, ways).expect("a file that can be written"),
        _ => eprintln!("usage: bench {USAGE}"),
    }
}

fn write(file: &str, ways: i64) -> std::io::Result<()> {
    let side = ((ways as f64 / 2.0).sqrt().ceil() as i64 + 1).max(2);
    let mut out = BufWriter::new(File::create(file)?);
    let mut header = Vec::new();
    for feature in ["OsmSchema-V0.6", "DenseNodes"] {
        bytes_field(&mut header, 4, feature.as_bytes());
    }
    blob(&mut out, "OSMHeader", &header)?;
    let streets = streets(side, ways);
    let mut random = Pcg64Mcg::seed_from_u64(1);
    let mut nodes = NodeWriter { number: 0, block: Vec::with_capacity(TO_A_BLOCK) };
    let junction = |index: i64| (-40.0 + 0.002 * (index % side) as f64, 20.0 + 0.002 * (index / side) as f64);
    for index in 0..side * side {
        nodes.add(junction(index), &mut out)?;
    }
    let points = BEND_POINTS + HOUSES_TO_A_STREET * HOUSE_POINTS;
    for (from, to) in &streets {
        let (a, b) = (junction(*from), junction(*to));
        for step in 1..=points {
            let part = step as f64 / (points + 1) as f64;
            let mut off = || random.random_range(-0.00003..0.00003);
            nodes.add((a.0 + (b.0 - a.0) * part + off(), a.1 + (b.1 - a.1) * part + off()), &mut out)?;
        }
    }
    node_block(&mut out, &nodes.block)?;
    way_blocks(&mut out, side, &streets)?;
    out.flush()
}

/// Nodes in blocks, numbered from 1.
struct NodeWriter {
    number: i64,
    block: Vec<(i64, f64, f64)>,
}

impl NodeWriter {
    fn add(&mut self, (lon, lat): (f64, f64), out: &mut BufWriter<File>) -> std::io::Result<()> {
        self.number += 1;
        self.block.push((self.number, lon, lat));
        if self.block.len() == TO_A_BLOCK {
            node_block(out, &self.block)?;
            self.block.clear();
        }
        Ok(())
    }
}

/// Neighbouring junctions, so many pairs at most.
fn streets(side: i64, most: i64) -> Vec<(i64, i64)> {
    let index = |x: i64, y: i64| y * side + x;
    (0..side * side)
        .flat_map(|place| {
            let (x, y) = (place % side, place / side);
            [(x + 1, y), (x, y + 1)]
                .map(|(to_x, to_y)| (to_x < side && to_y < side).then(|| (place, index(to_x, to_y))))
        })
        .flatten()
        .take(most as usize)
        .collect()
}

fn way_blocks(out: &mut BufWriter<File>, side: i64, streets: &[(i64, i64)]) -> std::io::Result<()> {
    let per_street = BEND_POINTS + HOUSES_TO_A_STREET * HOUSE_POINTS;
    let mut ways: Vec<MadeWay> = Vec::with_capacity(TO_A_BLOCK);
    for (street, (from, to)) in (0_i64..).zip(streets) {
        // Every third of the points of a street, and the points between for houses.
        let first = side * side + 1 + street * per_street;
        let bend = (0..BEND_POINTS).map(|point| first + point * per_street / BEND_POINTS);
        let nodes = std::iter::once(from + 1).chain(bend).chain([to + 1]).collect();
        let kind = 2 + (street % 3) as u64;
        ways.push((2 * street + 1, nodes, vec![(1, kind), (7, 8), (9, 10)]));
        ways.push((2 * street + 2, (first..first + HOUSE_POINTS).collect(), vec![(5, 6)]));
        if ways.len() >= TO_A_BLOCK || street as usize + 1 == streets.len() {
            way_block(out, &ways)?;
            ways.clear();
        }
    }
    Ok(())
}

fn node_block(out: &mut BufWriter<File>, nodes: &[(i64, f64, f64)]) -> std::io::Result<()> {
    let units = |degrees: f64| (degrees * 1e7).round() as i64;
    let mut dense = Vec::new();
    bytes_field(&mut dense, 1, &deltas(nodes.iter().map(|node| node.0)));
    bytes_field(&mut dense, 8, &deltas(nodes.iter().map(|node| units(node.2))));
    bytes_field(&mut dense, 9, &deltas(nodes.iter().map(|node| units(node.1))));
    let mut group = Vec::new();
    bytes_field(&mut group, 2, &dense);
    block(out, &group)
}

fn way_block(out: &mut BufWriter<File>, ways: &[MadeWay]) -> std::io::Result<()> {
    let mut group = Vec::new();
    for (number, nodes, tags) in ways {
        let (mut keys, mut values) = (Vec::new(), Vec::new());
        for (key, value) in tags {
            varint(&mut keys, *key);
            varint(&mut values, *value);
        }
        let mut way = Vec::new();
        varint(&mut way, 1 << 3);
        varint(&mut way, number.cast_unsigned());
        bytes_field(&mut way, 2, &keys);
        bytes_field(&mut way, 3, &values);
        bytes_field(&mut way, 8, &deltas(nodes.iter().copied()));
        bytes_field(&mut group, 3, &way);
    }
    block(out, &group)
}

fn block(out: &mut BufWriter<File>, group: &[u8]) -> std::io::Result<()> {
    let mut strings = Vec::new();
    for text in TEXTS {
        bytes_field(&mut strings, 1, text.as_bytes());
    }
    let mut block = Vec::new();
    bytes_field(&mut block, 1, &strings);
    bytes_field(&mut block, 2, group);
    blob(out, "OSMData", &block)
}

fn blob(out: &mut BufWriter<File>, kind: &str, content: &[u8]) -> std::io::Result<()> {
    let mut encoder = ZlibEncoder::new(Vec::new(), Compression::fast());
    encoder.write_all(content)?;
    let mut body = Vec::new();
    varint(&mut body, 2 << 3);
    varint(&mut body, content.len() as u64);
    bytes_field(&mut body, 3, &encoder.finish()?);
    let mut header = Vec::new();
    bytes_field(&mut header, 1, kind.as_bytes());
    varint(&mut header, 3 << 3);
    varint(&mut header, body.len() as u64);
    out.write_all(&(header.len() as u32).to_be_bytes())?;
    out.write_all(&header)?;
    out.write_all(&body)
}
