//! Heights of the ground: SRTM tiles (`N49E011.hgt`, plain or zipped) of one degree each.
//!
//! A tile is a square of big-endian 16-bit whole metres above the geoid, the first row northernmost, its posts on the
//! degree lines at both edges (from memory: USGS, SRTM documentation). The crates that read such tiles give the nearest
//! post and stop the program outside a tile, so the few lines are here.

use std::collections::{BTreeMap, BTreeSet};
use std::io::{Cursor, Read};
use std::path::Path;

use model::place::LonLat;
use model::problem::{Locator, Problem, ProblemSeverity};
use model::quantity::{Length, metres};

/// Posts along a side: three arc-seconds, one arc-second.
const SIDES: [usize; 2] = [1201, 3601];
/// What stands where nothing was measured.
const VOID: i16 = -32768;

/// South-west corner of a tile, whole degrees north and east.
type Corner = (i32, i32);

/// Tiles of heights.
#[derive(Debug, Clone, Default)]
pub struct Heights {
    tiles: BTreeMap<Corner, Tile>,
    /// What could not be used, and why.
    pub problems: Vec<Problem>,
}

/// One tile.
#[derive(Debug, Clone)]
struct Tile {
    side: usize,
    /// Row by row from the north.
    posts: Vec<i16>,
}

impl Heights {
    /// Height of the ground above the geoid, between the four posts around the place; `None` where no tile is, or one of
    /// those posts is a void.
    pub fn at(&self, place: LonLat) -> Option<Length> {
        let corner = corner_of(place)?;
        self.tiles.get(&corner)?.at(place, corner).map(metres)
    }

    /// How many tiles were read.
    pub fn tiles(&self) -> usize {
        self.tiles.len()
    }
}

/// Reads the tiles of a folder that the places need. A tile that is needed and not there, or damaged, is a warning: the
/// roads there have no heights.
pub fn read_heights(folder: &Path, places: impl IntoIterator<Item = LonLat>) -> Heights {
    let needed: BTreeSet<Corner> = places.into_iter().filter_map(corner_of).collect();
    let mut heights = Heights::default();
    let mut entries: Vec<_> = match std::fs::read_dir(folder) {
        Ok(entries) => entries.filter_map(|entry| Some(entry.ok()?.path())).collect(),
        Err(error) => {
            let wrong = format!("the folder can't be read: {error}");
            let right = "name a folder of height tiles, or leave heights_folder out; no profile is looked at";
            heights.problems.push(warning("height.folder.unreadable", folder, wrong, right));
            return heights;
        }
    };
    entries.sort();
    for path in entries {
        let name = path.file_name().map(|name| name.to_string_lossy().to_uppercase()).unwrap_or_default();
        let Some(corner) = corner_named(&name).filter(|corner| needed.contains(corner)) else { continue };
        if heights.tiles.contains_key(&corner) {
            continue;
        }
        match std::fs::read(&path).map_err(|error| format!("can't be read: {error}")).and_then(|bytes| tile(&bytes)) {
            Ok(tile) => {
                heights.tiles.insert(corner, tile);
            }
            Err(wrong) => heights.problems.push(warning("height.tile.damaged", &path, wrong, RIGHT_TILE)),
        }
    }
    for &(lat, lon) in needed.iter().filter(|corner| !heights.tiles.contains_key(corner)) {
        let name = name_of((lat, lon));
        let wrong = format!("there is no usable tile {name}; the roads there have no heights");
        let right = format!("put {name}.hgt or {name}.hgt.zip there");
        heights.problems.push(warning("height.tile.missing", folder, wrong, &right));
    }
    heights
}

/// Reads one tile from memory, plain or zipped, and gives the height at the middle of each of its four quarters; for
/// checks of the reader alone.
///
/// # Errors
///
/// What is wrong with it, in words.
pub fn quarter_heights(bytes: &[u8]) -> Result<[Option<Length>; 4], String> {
    let tile = tile(bytes)?;
    let quarters = [(0.25, 0.25), (0.25, 0.75), (0.75, 0.25), (0.75, 0.75)];
    Ok(quarters.map(|(lat, lon)| tile.at(LonLat { lon, lat }, (0, 0)).map(metres)))
}

const RIGHT_TILE: &str = "an SRTM tile of 1201 x 1201 or 3601 x 3601 big-endian 16-bit heights, plain or as the one .hgt file \
                          of a zip archive; fetch it again";

impl Tile {
    /// The height between the four posts around a place in the tile, metres.
    fn at(&self, place: LonLat, (south, west): Corner) -> Option<f64> {
        let steps = self.side - 1;
        let along = |share: f64| {
            let at = (share * steps as f64).clamp(0.0, steps as f64);
            let first = (at.floor() as usize).min(steps - 1);
            (first, at - first as f64)
        };
        let (column, east) = along(place.lon - f64::from(west));
        let (row, down) = along(1.0 - (place.lat - f64::from(south)));
        let mut height = 0.0;
        for (row, share_of_row) in [(row, 1.0 - down), (row + 1, down)] {
            for (column, share) in [(column, 1.0 - east), (column + 1, east)] {
                let weight = share_of_row * share;
                if weight > 0.0 {
                    let post = self.posts[row * self.side + column];
                    if post == VOID {
                        return None;
                    }
                    height += weight * f64::from(post);
                }
            }
        }
        Some(height)
    }
}

fn tile(bytes: &[u8]) -> Result<Tile, String> {
    if bytes.starts_with(b"PK") {
        return plain_tile(&unzipped(bytes)?);
    }
    plain_tile(bytes)
}

fn plain_tile(bytes: &[u8]) -> Result<Tile, String> {
    let side = SIDES.into_iter().find(|side| side * side * 2 == bytes.len());
    let side = side.ok_or_else(|| format!("the tile has {} bytes", bytes.len()))?;
    let posts = bytes.chunks_exact(2).map(|pair| i16::from_be_bytes([pair[0], pair[1]])).collect();
    Ok(Tile { side, posts })
}

fn unzipped(bytes: &[u8]) -> Result<Vec<u8>, String> {
    let in_words = |error: zip::result::ZipError| format!("the zip archive can't be read: {error}");
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).map_err(in_words)?;
    let names: Vec<String> = archive.file_names().map(str::to_owned).collect();
    let is_tile = |name: &&String| Path::new(name).extension().is_some_and(|ending| ending.eq_ignore_ascii_case("hgt"));
    let name = names.iter().find(is_tile).ok_or("the zip archive holds no .hgt file")?;
    let member = archive.by_name(name).map_err(in_words)?;
    // One byte more than the largest tile: what is larger is told by its size, and never unpacked whole.
    let most = SIDES[1] * SIDES[1] * 2 + 1;
    let mut unpacked = Vec::new();
    member
        .take(most as u64)
        .read_to_end(&mut unpacked)
        .map_err(|error| format!("the zip archive is damaged: {error}"))?;
    Ok(unpacked)
}

fn corner_of(place: LonLat) -> Option<Corner> {
    let on_globe = place.lat.abs() <= 90.0 && place.lon.abs() <= 180.0;
    on_globe.then(|| (place.lat.floor() as i32, place.lon.floor() as i32))
}

/// `N49E011` at the beginning of a file's name, in capitals, that ends as a tile's does.
fn corner_named(name: &str) -> Option<Corner> {
    let ending = Path::new(name).extension();
    let known_ending =
        ending.is_some_and(|ending| ending.eq_ignore_ascii_case("hgt") || ending.eq_ignore_ascii_case("zip"));
    let signed = |hemisphere: &str, digits: &str, positive: &str, negative: &str| {
        let number: i32 = digits.bytes().all(|b| b.is_ascii_digit()).then(|| digits.parse().ok())??;
        if hemisphere == positive { Some(number) } else { (hemisphere == negative).then_some(-number) }
    };
    let lat = signed(name.get(0..1)?, name.get(1..3)?, "N", "S")?;
    let lon = signed(name.get(3..4)?, name.get(4..7)?, "E", "W")?;
    known_ending.then_some((lat, lon))
}

fn name_of((lat, lon): Corner) -> String {
    let (north, east) = (if lat < 0 { 'S' } else { 'N' }, if lon < 0 { 'W' } else { 'E' });
    format!("{north}{:02}{east}{:03}", lat.abs(), lon.abs())
}

fn warning(code: &'static str, path: &Path, wrong: String, right: &str) -> Problem {
    let at = Locator { file: path.display().to_string(), line: 0, column: 0 };
    let subject = "heights".to_owned();
    Problem { code, severity: ProblemSeverity::Warning, at, subject, wrong, right: right.to_owned() }
}
