//! Tiles of heights: against GDAL and numpy, damaged, missing, void.

use std::io::Write as _;
use std::path::Path;

use exchange::heights::{Heights, quarter_heights, read_heights};
use model::place::LonLat;
use model::problem::Problem;
use model::quantity::InLength;
use serde::Deserialize;

/// Made by `reference/heights.py`.
#[derive(Deserialize)]
struct Reference {
    tiles: Vec<ReferenceTile>,
}

#[derive(Deserialize)]
struct ReferenceTile {
    name: String,
    side: i64,
    places: Vec<[f64; 3]>,
}

/// The invented country of the reference, post by post.
fn post(row: i64, column: i64) -> i16 {
    let below = if (row + column) % 3 == 0 { 40 } else { 0 };
    ((row * 37 + column * 91 + (row / 7) * (column / 11)) % 1200 - below) as i16
}

fn tile_of(side: i64, post: impl Fn(i64, i64) -> i16) -> Vec<u8> {
    (0..side)
        .flat_map(|row| (0..side).map(move |column| (row, column)))
        .flat_map(|(r, c)| post(r, c).to_be_bytes())
        .collect()
}

fn zipped(name: &str, bytes: &[u8]) -> Vec<u8> {
    let mut archive = zip::ZipWriter::new(std::io::Cursor::new(Vec::new()));
    archive.start_file(name, zip::write::SimpleFileOptions::default()).unwrap();
    archive.write_all(bytes).unwrap();
    archive.finish().unwrap().into_inner()
}

fn read(folder: &Path, places: &[(f64, f64)]) -> Heights {
    read_heights(folder, places.iter().map(|&(lon, lat)| LonLat { lon, lat }))
}

fn codes(problems: &[Problem]) -> Vec<&'static str> {
    problems.iter().map(|problem| problem.code).collect()
}

#[test]
fn heights_equal_gdal_and_numpy() {
    let reference: Reference = serde_json::from_str(include_str!("reference/heights.json")).unwrap();
    let folder = tempfile::tempdir().unwrap();
    for tile in &reference.tiles {
        let bytes = tile_of(tile.side, post);
        std::fs::write(folder.path().join(format!("{}.hgt", tile.name)), bytes).unwrap();
    }
    let places = || reference.tiles.iter().flat_map(|tile| &tile.places);
    // The north-east corner belongs to the next tile.
    let inside = |place: &&[f64; 3]| place[0].fract() != 0.0 && place[1].fract() != 0.0;
    let heights = read_heights(folder.path(), places().filter(inside).map(|&[lon, lat, _]| LonLat { lon, lat }));
    assert!(heights.problems.is_empty() && heights.tiles() == 2, "{:?}", heights.problems);
    let mut compared = 0;
    for &[lon, lat, height] in places().filter(inside) {
        let found = heights.at(LonLat { lon, lat }).unwrap().in_metres();
        assert!((found - height).abs() < 1e-5, "{lon}, {lat}: {found} m, not {height} m");
        compared += 1;
    }
    assert!(compared >= 80, "{compared}");
}

#[test]
fn a_zipped_tile_reads_as_a_plain_one() {
    let bytes = tile_of(1201, post);
    let plain = quarter_heights(&bytes).unwrap();
    assert_eq!(quarter_heights(&zipped("S03W030.hgt", &bytes)).unwrap(), plain);
    assert!(plain.iter().all(Option::is_some));
}

#[test]
fn a_void_is_no_height() {
    // The post in the middle of the tile and what leans on it.
    let bytes = tile_of(1201, |row, column| if (row, column) == (600, 600) { -32768 } else { 100 });
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("n10e020.HGT"), bytes).unwrap();
    let heights = read(folder.path(), &[(20.5, 10.5)]);
    let at = |east: f64, south: f64| {
        heights.at(LonLat { lon: 20.5 + east / 1200.0, lat: 10.5 - south / 1200.0 }).map(InLength::in_metres)
    };
    for (east, south) in [(0.0, 0.0), (0.5, 0.0), (-0.9, 0.9), (0.0, -0.9)] {
        assert_eq!(at(east, south), None, "{east} {south}");
    }
    for (east, south) in [(1.01, 0.0), (0.5, 1.01), (-1.5, 0.0)] {
        assert_eq!(at(east, south), Some(100.0), "{east} {south}");
    }
    assert_eq!(heights.at(LonLat { lon: 21.5, lat: 10.5 }), None);
    assert_eq!(heights.at(LonLat { lon: f64::NAN, lat: 10.5 }), None);
}

#[test]
fn damaged_and_missing_tiles_are_said_and_the_rest_is_used() {
    let folder = tempfile::tempdir().unwrap();
    let good = tile_of(1201, |_, _| 7);
    let file = |name: &str, bytes: &[u8]| std::fs::write(folder.path().join(name), bytes).unwrap();
    file("N10E020.hgt.zip", &zipped("N10E020.hgt", &good));
    file("N11E020.hgt", &good[1..]);
    file("N12E020.hgt.zip", b"PK no archive");
    file("N13E020.hgt.zip", &zipped("readme.txt", b"nothing"));
    file("N14E020.hgt.zip", &zipped("N14E020.hgt", &good)[..2000]);
    file("N15E020.hgt.zip", &zipped("N15E020.hgt", &vec![0; 30_000_000]));
    file("readme.hgt", b"no tile at all");
    file("N99\u{e9}.hgt", b"");
    let heights = read(
        folder.path(),
        &[(20.5, 10.5), (20.5, 11.5), (20.5, 12.5), (20.5, 13.5), (20.5, 14.5), (20.5, 15.5), (-0.5, -0.5)],
    );
    assert_eq!(heights.at(LonLat { lon: 20.1, lat: 10.9 }).unwrap().in_metres(), 7.0);
    let found = codes(&heights.problems);
    assert_eq!(found.iter().filter(|code| **code == "height.tile.damaged").count(), 5, "{:?}", heights.problems);
    assert_eq!(found.iter().filter(|code| **code == "height.tile.missing").count(), 6);
    assert!(heights.problems.iter().any(|problem| problem.wrong.contains("S01W001")));
    assert!(heights.problems[0].wrong.contains("2884801 bytes"), "{:?}", heights.problems[0]);
    assert!(heights.problems.iter().any(|problem| problem.wrong.contains("25934403 bytes")));

    let none = read(&folder.path().join("nowhere"), &[(20.5, 10.5)]);
    assert_eq!(codes(&none.problems), ["height.folder.unreadable"]);
}

/// The real tiles, where they are there: the country lies between the sea and the Fichtelgebirge's summit (1051 m).
#[test]
fn the_real_tiles_read() {
    let start = Path::new(env!("CARGO_MANIFEST_DIR"));
    let Some(folder) = start.ancestors().map(|folder| folder.join("shared/data/heights")).find(|path| path.is_dir())
    else {
        println!("skipped: no shared/data beside the project");
        return;
    };
    let heights = read(&folder, &[(11.5, 49.9), (11.5, 50.1)]);
    assert!(heights.problems.is_empty() && heights.tiles() == 2, "{:?}", heights.problems);
    for step in 0..1000 {
        let share = f64::from(step) / 1000.0;
        let place = LonLat { lon: 11.0 + share, lat: 49.5 + (share * 7.0).fract() };
        if let Some(height) = heights.at(place) {
            assert!((150.0..1060.0).contains(&height.in_metres()), "{place:?}: {height:?}");
        }
    }
    // Both tiles hold the posts of the degree line between them.
    let across = |lat: f64| heights.at(LonLat { lon: 11.4321, lat }).unwrap().in_metres();
    assert!((across(50.0 - 1e-9) - across(50.0)).abs() < 0.01);
}
