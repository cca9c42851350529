//! Coordinates against worked examples and against PROJ, by GDAL's `gdaltransform`.

mod common;

use std::fmt::Write as _;
use std::io::Write as _;
use std::process::{Command, Stdio};

use feeds::Crs;
use model::place::LonLat;
use proptest::prelude::*;

/// IOGP guidance note 7-2, operation method 1024: the example (from memory).
#[test]
fn the_webs_square_map_by_its_worked_example() {
    let place = LonLat { lon: -(100.0 + 20.0 / 60.0), lat: 24.0 + 22.0 / 60.0 + 54.433 / 3600.0 };
    let [east, north] = Crs::WebMercator.coordinates(place).unwrap();
    assert!((east - -11_169_055.58).abs() < 0.005 && (north - 2_800_000.00).abs() < 0.005, "{east} {north}");
}

#[test]
fn names_and_axes() {
    let place = LonLat { lon: 81.5, lat: -18.25 };
    let table = [
        (Crs::Crs84, "http://www.opengis.net/def/crs/OGC/1.3/CRS84", [81.5, -18.25]),
        (Crs::Epsg4326, "http://www.opengis.net/def/crs/EPSG/0/4326", [-18.25, 81.5]),
    ];
    for (crs, uri, coordinates) in table {
        assert_eq!((crs.uri().as_str(), crs.coordinates(place)), (uri, Some(coordinates)));
    }
    assert_eq!(Crs::WebMercator.uri(), "http://www.opengis.net/def/crs/EPSG/0/3857");
}

#[test]
fn the_grids_zone_of_a_place() {
    for (lon, lat, code) in [
        (81.5, -18.2, Some(32744)),
        (-180.0, 0.0, Some(32601)),
        (180.0, 1.0, Some(32660)),
        (-174.0, 10.0, Some(32602)),
        (3.0, 84.0, Some(32631)),
        (3.0, 84.1, None),
        (3.0, -80.1, None),
    ] {
        assert_eq!(Crs::local_grid(LonLat { lon, lat }).and_then(Crs::epsg), code, "{lon} {lat}");
    }
}

#[test]
fn what_has_no_image_has_no_coordinates() {
    let pole = LonLat { lon: 0.0, lat: 90.0 };
    let grid = Crs::Utm { zone: 44, north: false };
    assert_eq!(Crs::WebMercator.coordinates(pole), None);
    assert_eq!(grid.coordinates(LonLat { lon: -160.0, lat: 0.0 }), None);
    assert_eq!(grid.place([1e9, 0.0]), None);
    assert_eq!(grid.place([f64::NAN, 0.0]), None);
    assert_eq!(Crs::Crs84.coordinates(LonLat { lon: 181.0, lat: 0.0 }), None);
    assert_eq!(Crs::Crs84.coordinates(LonLat { lon: f64::NAN, lat: 0.0 }), None);
}

#[test]
fn as_proj_has_them() {
    let places: Vec<LonLat> = (0..400)
        .map(|index| LonLat { lon: -180.0 + 0.9 * f64::from(index), lat: -79.0 + (f64::from(index) * 37.7) % 158.0 })
        .collect();
    let near = |zone: u8| {
        let middle = f64::from(zone) * 6.0 - 183.0;
        places.iter().map(move |place| LonLat { lon: middle + place.lon / 60.0, lat: place.lat }).collect::<Vec<_>>()
    };
    let south = |places: Vec<LonLat>| places.into_iter().map(|p| LonLat { lon: p.lon, lat: -p.lat.abs() }).collect();
    let north = |places: Vec<LonLat>| places.into_iter().map(|p| LonLat { lon: p.lon, lat: p.lat.abs() }).collect();
    let table: [(Crs, Vec<LonLat>); 4] = [
        (Crs::WebMercator, places.clone()),
        (Crs::Utm { zone: 44, north: false }, south(near(44))),
        (Crs::Utm { zone: 31, north: true }, north(near(31))),
        (Crs::Utm { zone: 60, north: true }, north(near(60))),
    ];
    for (crs, places) in table {
        let Some(theirs) = by_proj(crs, &places) else { return };
        assert_eq!(theirs.len(), places.len());
        for (place, theirs) in places.iter().zip(&theirs) {
            let own = crs.coordinates(*place).unwrap();
            // Ours are written in millimetres.
            let apart = (own[0] - theirs[0]).abs().max((own[1] - theirs[1]).abs());
            assert!(apart < 0.0015, "{crs:?} {place:?}: {own:?} {theirs:?}");
        }
    }
}

proptest! {
    /// There and back is the same place, to the millimetre that is written.
    #[test]
    fn back_from_where_it_went(lon in -180.0..=180.0_f64, lat in -84.0..=84.0_f64) {
        let place = LonLat { lon, lat };
        let mut systems = Crs::offered(Some(place));
        if lat < -80.0 {
            systems.truncate(3);
        }
        for crs in systems {
            let back = crs.place(crs.coordinates(place).unwrap()).unwrap();
            let wide = (back.lon - lon).abs().min(360.0 - (back.lon - lon).abs());
            prop_assert!(wide < 1e-6 && (back.lat - lat).abs() < 1e-7, "{crs:?} {place:?} {back:?}");
        }
    }

    /// Whatever comes over the wire gives a place on the globe, or none.
    #[test]
    fn any_numbers_give_a_place_or_none(first: f64, second: f64, zone in 1..=60_u8, north: bool) {
        for crs in [Crs::Crs84, Crs::Epsg4326, Crs::WebMercator, Crs::Utm { zone, north }] {
            if let Some(place) = crs.place([first, second]) {
                prop_assert!(place.lon.abs() <= 180.0 && place.lat.abs() <= 90.0);
            }
        }
    }

    /// Also those that a grid may have.
    #[test]
    fn numbers_of_a_grid_give_a_place_or_none(first in -2e6..2e6_f64, second in -2e7..2e7_f64, zone in 1..=60_u8, north: bool) {
        if let Some(place) = (Crs::Utm { zone, north }).place([first, second]) {
            prop_assert!(place.lon.abs() <= 180.0 && place.lat.abs() <= 90.0);
        }
    }
}

/// Coordinates by GDAL's program around PROJ; `None`, with a word, where it is not installed.
fn by_proj(crs: Crs, places: &[LonLat]) -> Option<Vec<[f64; 2]>> {
    let target = format!("EPSG:{}", crs.epsg().unwrap());
    let started = Command::new("gdaltransform")
        .args(["-s_srs", "OGC:CRS84", "-t_srs", &target, "-output_xy"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn();
    let Ok(mut child) = started else {
        println!("skipped: no gdaltransform here (Debian: gdal-bin)");
        return None;
    };
    let mut lines = String::new();
    for place in places {
        writeln!(lines, "{} {}", place.lon, place.lat).unwrap();
    }
    child.stdin.take().unwrap().write_all(lines.as_bytes()).unwrap();
    let output = child.wait_with_output().unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    let numbers = |line: &str| {
        let mut numbers = line.split_whitespace().map(|number| number.parse::<f64>().unwrap());
        [numbers.next().unwrap(), numbers.next().unwrap()]
    };
    Some(text.lines().map(numbers).collect())
}
