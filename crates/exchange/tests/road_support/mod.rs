//! What the road tests share: the rule set, small invented files in every format, and a writer of tiny PBF files.
//!
//! The invented roads lie in the open Atlantic near 10° N, 30° W.

#![allow(dead_code)] // each test file uses its own part

use std::fmt::Write as _;
use std::io::Write as _;
use std::path::{Path, PathBuf};

use exchange::road_files::{RoadFile, read_roads};
use flate2::Compression;
use flate2::write::{GzEncoder, ZlibEncoder};
use model::problem::{Problem, ProblemSeverity};
use model::rules::roads::RoadDefaults;
use shapefile::dbase::{FieldName, FieldValue, Record, TableWriterBuilder};
use shapefile::{Point, Polyline};
use testkit::protobuf::{bytes_field, deltas, varint};

/// The rule set as it lies in the repository.
pub fn rules() -> RoadDefaults {
    let path = testkit::in_repository("rules/roads/open-map-defaults.toml");
    toml::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

/// Reads a file, not caring for progress.
pub fn read(path: &Path) -> RoadFile {
    read_roads(path, &rules(), &mut |_| {})
}

/// Writes bytes to a file of that name in a fresh folder and reads it.
pub fn read_bytes(name: &str, bytes: &[u8]) -> RoadFile {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join(name);
    std::fs::write(&path, bytes).unwrap();
    read(&path)
}

/// Codes of the problems, in order.
pub fn codes(problems: &[Problem]) -> Vec<&'static str> {
    problems.iter().map(|problem| problem.code).collect()
}

/// The one problem of that code.
pub fn the_problem<'f>(file: &'f RoadFile, code: &str) -> &'f Problem {
    let found: Vec<&Problem> = file.problems.iter().filter(|problem| problem.code == code).collect();
    assert_eq!(found.len(), 1, "{code} in {:?}", file.problems);
    found[0]
}

/// True where a record or the file was refused.
pub fn refused(file: &RoadFile) -> bool {
    file.problems.iter().any(|problem| problem.severity >= ProblemSeverity::Refused)
}

/// Third-party data beside the project, if present.
pub fn shared_data() -> Option<PathBuf> {
    if let Some(path) = std::env::var_os("LENGTHSMAN_SHARED_DATA") {
        return Some(PathBuf::from(path)).filter(|path| path.is_dir());
    }
    let start = testkit::crate_folder();
    let found = start.ancestors().map(|folder| folder.join("shared/data")).find(|path| path.is_dir());
    if found.is_none() {
        println!("skipped: no shared/data beside the project");
    }
    found
}

/// Nodes of the invented roads: number, longitude, latitude.
pub const NODES: [(i64, f64, f64); 5] =
    [(11, -30.01, 10.0), (12, -30.0, 10.001), (13, -29.99, 10.0025), (14, -29.98, 10.0), (5_000_000_001, -29.97, 10.0)];

/// Ways of the invented roads: number, nodes, tags.
pub type WayOf = (i64, Vec<i64>, Vec<(&'static str, &'static str)>);

/// Ways as bytes: number, nodes, tags that need not be UTF-8.
pub type RawWay = (i64, Vec<i64>, Vec<(Vec<u8>, Vec<u8>)>);

/// The invented roads.
pub fn ways() -> Vec<WayOf> {
    vec![
        (
            101,
            vec![11, 12, 13],
            vec![
                ("highway", "primary"),
                ("name", "Harbour Road"),
                ("ref", "7"),
                ("maxspeed", "80"),
                ("lanes", "2"),
                ("width", "6.5 m"),
                ("surface", "chipseal"),
            ],
        ),
        (102, vec![13, 14], vec![("highway", "residential"), ("oneway", "-1"), ("name", "Möwenweg")]),
        (103, vec![14, 5_000_000_001], vec![("highway", "footway")]),
    ]
}

/// Relations: number, members as kind, number and role, tags.
pub type RelationOf = (i64, Vec<(&'static str, i64, &'static str)>, Vec<(&'static str, &'static str)>);

/// The open map as XML, with relations.
pub fn xml_with(ways: &[WayOf], relations: &[RelationOf]) -> String {
    let mut text = xml_of(ways).replace("</osm>\n", "");
    for (id, members, tags) in relations {
        writeln!(text, "  <relation id=\"{id}\">").unwrap();
        for (kind, member, role) in members {
            writeln!(text, "    <member type=\"{kind}\" ref=\"{member}\" role=\"{role}\"/>").unwrap();
        }
        for (key, value) in tags {
            writeln!(text, "    <tag k=\"{key}\" v=\"{value}\"/>").unwrap();
        }
        text += "  </relation>\n";
    }
    text + "</osm>\n"
}

/// The open map as PBF, with relations in a block of their own.
pub fn pbf_with(ways: &[WayOf], relations: &[RelationOf]) -> Vec<u8> {
    let mut file = pbf_of(ways, true);
    file.extend(blob("OSMData", &relation_block(relations), true));
    file
}

/// Relations as one primitive block.
pub fn relation_block(relations: &[RelationOf]) -> Vec<u8> {
    let mut table: Vec<&str> = vec![""];
    let mut group = Vec::new();
    for (id, members, tags) in relations {
        let mut index = |text: &'static str| {
            table.iter().position(|known| *known == text).unwrap_or_else(|| {
                table.push(text);
                table.len() - 1
            }) as u64
        };
        let (mut keys, mut values, mut roles, mut kinds) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        for (key, value) in tags {
            varint(&mut keys, index(key));
            varint(&mut values, index(value));
        }
        for (kind, _, role) in members {
            varint(&mut roles, index(role));
            varint(&mut kinds, ["node", "way", "relation"].iter().position(|known| known == kind).unwrap() as u64);
        }
        let mut relation = Vec::new();
        varint(&mut relation, 1 << 3);
        varint(&mut relation, id.cast_unsigned());
        bytes_field(&mut relation, 2, &keys);
        bytes_field(&mut relation, 3, &values);
        bytes_field(&mut relation, 8, &roles);
        bytes_field(&mut relation, 9, &deltas(members.iter().map(|member| member.1)));
        bytes_field(&mut relation, 10, &kinds);
        bytes_field(&mut group, 4, &relation);
    }
    let mut strings = Vec::new();
    for text in &table {
        bytes_field(&mut strings, 1, text.as_bytes());
    }
    let mut block = Vec::new();
    bytes_field(&mut block, 1, &strings);
    bytes_field(&mut block, 2, &group);
    block
}

/// The open map as XML.
pub fn xml_of(ways: &[WayOf]) -> String {
    let mut text = String::from("<?xml version='1.0' encoding='UTF-8'?>\n<osm version=\"0.6\">\n");
    for (id, lon, lat) in NODES {
        writeln!(text, "  <node id=\"{id}\" lon=\"{lon}\" lat=\"{lat}\"/>").unwrap();
    }
    for (id, nodes, tags) in ways {
        writeln!(text, "  <way id=\"{id}\">").unwrap();
        for node in nodes {
            writeln!(text, "    <nd ref=\"{node}\"/>").unwrap();
        }
        for (key, value) in tags {
            let value = value.replace('&', "&amp;").replace('"', "&quot;").replace('<', "&lt;");
            writeln!(text, "    <tag k=\"{key}\" v=\"{value}\"/>").unwrap();
        }
        text += "  </way>\n";
    }
    text + "</osm>\n"
}

/// Packs bytes as gzip.
pub fn gzip(bytes: &[u8]) -> Vec<u8> {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::default());
    encoder.write_all(bytes).unwrap();
    encoder.finish().unwrap()
}

/// The open map as PBF: a header block, a block of nodes, a block of ways. `pack` says whether blocks are compressed.
pub fn pbf_of(ways: &[WayOf], pack: bool) -> Vec<u8> {
    let mut file = header_block(&["OsmSchema-V0.6", "DenseNodes"], pack);
    file.extend(blob("OSMData", &node_block(), pack));
    file.extend(blob("OSMData", &way_block(ways), pack));
    file
}

/// A header block that asks for those features.
pub fn header_block(features: &[&str], pack: bool) -> Vec<u8> {
    let mut header = Vec::new();
    for feature in features {
        bytes_field(&mut header, 4, feature.as_bytes());
    }
    blob("OSMHeader", &header, pack)
}

/// The invented nodes as one primitive block (field numbers: OpenStreetMap osmformat.proto).
pub fn node_block() -> Vec<u8> {
    let units = |degrees: f64| (degrees * 1e7).round() as i64;
    let mut dense = Vec::new();
    bytes_field(&mut dense, 1, &deltas(NODES.iter().map(|node| node.0)));
    bytes_field(&mut dense, 8, &deltas(NODES.iter().map(|node| units(node.2))));
    bytes_field(&mut dense, 9, &deltas(NODES.iter().map(|node| units(node.1))));
    let mut group = Vec::new();
    bytes_field(&mut group, 2, &dense);
    let mut block = Vec::new();
    bytes_field(&mut block, 1, &[0x0A, 0]);
    bytes_field(&mut block, 2, &group);
    block
}

/// Ways as one primitive block.
pub fn way_block(ways: &[WayOf]) -> Vec<u8> {
    let strings = |bytes: &str| bytes.as_bytes().to_vec();
    let tagged: Vec<RawWay> = ways
        .iter()
        .map(|(id, nodes, tags)| {
            (*id, nodes.clone(), tags.iter().map(|(key, value)| (strings(key), strings(value))).collect())
        })
        .collect();
    raw_way_block(&tagged)
}

/// Ways with texts that need not be UTF-8, as one primitive block.
pub fn raw_way_block(ways: &[RawWay]) -> Vec<u8> {
    let mut table: Vec<Vec<u8>> = vec![Vec::new()];
    let mut group = Vec::new();
    for (id, nodes, tags) in ways {
        let mut index = |text: &Vec<u8>| {
            table.iter().position(|known| known == text).unwrap_or_else(|| {
                table.push(text.clone());
                table.len() - 1
            }) as u64
        };
        let (mut keys, mut values) = (Vec::new(), Vec::new());
        for (key, value) in tags {
            varint(&mut keys, index(key));
            varint(&mut values, index(value));
        }
        let mut way = Vec::new();
        varint(&mut way, 1 << 3);
        varint(&mut way, id.cast_unsigned());
        bytes_field(&mut way, 2, &keys);
        bytes_field(&mut way, 3, &values);
        bytes_field(&mut way, 8, &deltas(nodes.iter().copied()));
        bytes_field(&mut group, 3, &way);
    }
    let mut strings = Vec::new();
    for text in &table {
        bytes_field(&mut strings, 1, text);
    }
    let mut block = Vec::new();
    bytes_field(&mut block, 1, &strings);
    bytes_field(&mut block, 2, &group);
    block
}

/// One blob with its header and length (OpenStreetMap fileformat.proto).
pub fn blob(kind: &str, content: &[u8], pack: bool) -> Vec<u8> {
    let mut body = Vec::new();
    if pack {
        let mut encoder = ZlibEncoder::new(Vec::new(), Compression::default());
        encoder.write_all(content).unwrap();
        varint(&mut body, 2 << 3);
        varint(&mut body, content.len() as u64);
        bytes_field(&mut body, 3, &encoder.finish().unwrap());
    } else {
        bytes_field(&mut body, 1, content);
    }
    let mut header = Vec::new();
    bytes_field(&mut header, 1, kind.as_bytes());
    varint(&mut header, 3 << 3);
    varint(&mut header, body.len() as u64);
    let mut out = (header.len() as u32).to_be_bytes().to_vec();
    out.extend(header);
    out.extend(body);
    out
}

/// Three invented roads as `GeoJSON`; the second is of two parts.
pub const GEOJSON: &str = r#"{
  "type": "FeatureCollection",
  "attribution": "Invented district",
  "features": [
    {"type": "Feature", "properties": {"road_id": "R1", "class": "tertiary", "Name": "Mole Road", "speed_mph": 50,
      "lanes": 2, "width_ft": 20, "surface": "chip seal", "aadt": 420},
      "geometry": {"type": "LineString", "coordinates": [[-30, 10], [-29.99, 10.001, 3]]}},
    {"type": "Feature", "id": 17, "properties": {"oneway": true},
      "geometry": {"type": "MultiLineString", "coordinates": [[[-30, 10], [-30, 10.01]], [[-30, 10.01], [-30, 10.02]]]}},
    {"type": "Feature", "properties": {"class": "footway"},
      "geometry": {"type": "LineString", "coordinates": [[-30, 10], [-29.99, 10.001]]}}
  ]
}
"#;

/// Coordinate system of longitude and latitude as a `.prj` has it.
pub const DEGREES_PRJ: &str = r#"GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137.0,298.257223563]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]]"#;

/// Writes a shapefile with the columns `ROAD_ID`, `NAME`, `CLASS`, `SPEED`, `LANES`; one row per line.
pub fn write_shapefile(shp: &Path, lines: &[Vec<(f64, f64)>], prj: Option<&str>) {
    let name = |text: &str| FieldName::try_from(text).unwrap();
    let table = TableWriterBuilder::new()
        .add_character_field(name("ROAD_ID"), 12)
        .add_character_field(name("NAME"), 30)
        .add_character_field(name("CLASS"), 12)
        .add_numeric_field(name("SPEED"), 8, 1)
        .add_numeric_field(name("LANES"), 4, 0);
    let mut writer = shapefile::Writer::from_path(shp, table).unwrap();
    for (index, line) in lines.iter().enumerate() {
        let mut record = Record::default();
        let text = |text: String| FieldValue::Character(Some(text));
        record.insert("ROAD_ID".into(), text(format!("S{}", index + 1)));
        record.insert("NAME".into(), text(format!("Quay {}", index + 1)));
        record.insert("CLASS".into(), text("secondary".into()));
        record.insert("SPEED".into(), FieldValue::Numeric(Some(if index == 0 { 60.0 } else { 0.0 })));
        record.insert("LANES".into(), FieldValue::Numeric(None));
        let points = line.iter().map(|&(x, y)| Point::new(x, y)).collect();
        writer.write_shape_and_record(&Polyline::new(points), &record).unwrap();
    }
    drop(writer);
    if let Some(prj) = prj {
        std::fs::write(shp.with_extension("prj"), prj).unwrap();
    }
}
