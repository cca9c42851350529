//! An ESRI shapefile of lines: `.shp` with its `.dbf` (attributes), `.prj` (coordinate system) and `.cpg` (encoding).
//!
//! Records are framed here and handed to the library one by one, so that one broken record does not take the rest with
//! it, and so that neither the index file nor the order of reading matters.

use std::fs::File;
use std::io::{self, BufReader, Cursor, Read};
use std::path::Path;

use model::place::LonLat;
use shapefile::{Shape, ShapeReader};

use super::Reading;
use super::columns::{Row, habits};
use super::dbf::Table;
use super::findings::guarded;
use super::input::{CountingReader, Ticker};
use super::projection::ToLonLat;

/// Bytes of the file's header (ESRI Shapefile Technical Description, July 1998, p. 3).
const HEADER_BYTES: usize = 100;
/// Where in it the file's length stands, in 16-bit words, big-endian.
const LENGTH_AT: std::ops::Range<usize> = 24..28;
/// Bytes of a record's header: number and length.
const RECORD_HEADER_BYTES: usize = 8;

pub(super) fn read(path: &Path, reading: &mut Reading<'_>, ticker: &mut Ticker<'_>) {
    let (file, size) = match File::open(path).and_then(|file| Ok((file.metadata()?.len(), file))) {
        Ok((size, file)) => (file, size),
        Err(error) => return reading.cannot_open(&error),
    };
    let (mut source, read) = CountingReader::new(BufReader::new(file));
    let mut header = [0; HEADER_BYTES];
    if let Err(error) = source.read_exact(&mut header) {
        let wrong = format!("the file has no whole header: {error}");
        return reading.findings.fatal("road.shp.broken", wrong, "a shapefile (.shp)");
    }
    let Some(to_lon_lat) = projection_beside(path, &header, reading) else { return };
    let mut table = Table::beside(path, &mut reading.findings);
    let mut number = 0;
    loop {
        let offset = read.get();
        ticker.at(offset);
        number += 1;
        let record = match next_record(&mut source, size - offset.min(size)) {
            Ok(Some(record)) => record,
            Ok(None) => break,
            Err(error) => {
                let at = reading.findings.at(0, 0);
                let wrong = format!("the file breaks off at byte {offset}, in record {number}: {error}");
                let right = "a whole, undamaged .shp; the records before the break are used";
                reading.findings.refuse("road.shp.broken", at, "", wrong, right);
                break;
            }
        };
        let shape = decode(&header, &record);
        let cells = table.as_mut().and_then(|table| table.next_row(&mut reading.findings));
        match shape {
            Ok(shape) => take_shape(shape, number, cells.as_deref(), &to_lon_lat, reading),
            Err(error) => {
                let at = reading.findings.at(0, 0);
                let wrong = format!("it can't be decoded (byte {offset}): {error}");
                let right = "an undamaged record; the others are used";
                reading.findings.refuse("road.shp.record", at, &format!("record {number}"), wrong, right);
            }
        }
    }
    if let Some(table) = table {
        table.finish(&mut reading.findings);
    }
}

/// One record with its header, or `None` at the end of the file.
fn next_record(source: &mut impl Read, left: u64) -> io::Result<Option<Vec<u8>>> {
    if left == 0 {
        return Ok(None);
    }
    let mut record = vec![0; RECORD_HEADER_BYTES];
    source.read_exact(&mut record)?;
    let words = u32::from_be_bytes([record[4], record[5], record[6], record[7]]);
    let bytes = u64::from(words) * 2;
    if bytes > left.saturating_sub(RECORD_HEADER_BYTES as u64) {
        let said = format!("the record says it has {bytes} bytes, the file has fewer");
        return Err(io::Error::new(io::ErrorKind::UnexpectedEof, said));
    }
    record.resize(RECORD_HEADER_BYTES + bytes as usize, 0);
    source.read_exact(&mut record[RECORD_HEADER_BYTES..])?;
    Ok(Some(record))
}

/// Decodes one record as a file of its own.
fn decode(header: &[u8; HEADER_BYTES], record: &[u8]) -> Result<Shape, String> {
    check_counts(&record[RECORD_HEADER_BYTES..])?;
    let mut file = header.to_vec();
    file.extend_from_slice(record);
    let words = u32::try_from(file.len() / 2).map_err(|error| error.to_string())?;
    file[LENGTH_AT].copy_from_slice(&words.to_be_bytes());
    guarded(|| {
        let mut reader = ShapeReader::new(Cursor::new(file)).map_err(|error| error.to_string())?;
        let first = reader.iter_shapes().next();
        first.ok_or_else(|| "it is empty".to_owned())?.map_err(|error| error.to_string())
    })?
}

/// Whether the parts and points that a record says it has can lie in it, part after part: the library sets aside room for
/// what is said, and a damaged number may ask for more memory than there is.
///
/// Layout: shape type, box (4 doubles), parts (not with multipoints), points, then an integer a part and two doubles a point
/// at least (ESRI Shapefile Technical Description, July 1998, pp. 5-24).
fn check_counts(content: &[u8]) -> Result<(), String> {
    const WITH_PARTS: [u32; 7] = [3, 5, 13, 15, 23, 25, 31];
    const MULTIPOINTS: [u32; 3] = [8, 18, 28];
    const BOX_END: usize = 36;
    let number = |at: usize| content.get(at..at + 4).map(|b| u32::from_le_bytes([b[0], b[1], b[2], b[3]]));
    let counts = match number(0) {
        Some(kind) if WITH_PARTS.contains(&kind) => number(BOX_END).zip(number(BOX_END + 4)),
        Some(kind) if MULTIPOINTS.contains(&kind) => number(BOX_END).map(|points| (0, points)),
        _ => return Ok(()),
    };
    let Some((parts, points)) = counts else { return Err("it ends before its counts".into()) };
    let (needed, there) = (4 * u64::from(parts) + 16 * u64::from(points), content.len() as u64);
    if needed > there {
        return Err(format!("it says it has {parts} parts and {points} points, more than {there} bytes can hold"));
    }
    let starts: Vec<u32> =
        (0..parts as usize).filter_map(|part| number(BOX_END + 8 + 4 * part)).chain([points]).collect();
    if starts.is_sorted() { Ok(()) } else { Err(format!("its parts begin at {starts:?}, not one after the other")) }
}

fn take_shape(
    shape: Shape,
    number: usize,
    cells: Option<&[(String, String)]>,
    to_lon_lat: &ToLonLat,
    reading: &mut Reading<'_>,
) {
    let at = reading.findings.at(0, 0);
    let subject = format!("record {number}");
    let rules = reading.rules;
    let row = Row::new(cells.unwrap_or_default().iter().map(|(name, text)| (name.as_str(), text.as_str())));
    let said = row.said(rules);
    if let Some(word) = said.class.as_deref().filter(|word| reading.words.not_a_road.get(word).is_some()) {
        reading.leave_out(format!("class {word}"));
        return;
    }
    let source_id = row.id(&rules.columns).unwrap_or_else(|| number.to_string());
    let parts = match parts_of(shape) {
        Ok(parts) => parts,
        Err(kind) => {
            let wrong = format!("it is a {kind}");
            reading.findings.refuse("road.shp.kind", at, &subject, wrong, "a line along the road (Polyline)");
            return;
        }
    };
    let attributes = reading.attributes(&said, habits(&rules.columns), &at, &subject);
    for part in parts {
        let places: Result<Vec<LonLat>, (f64, f64)> =
            part.into_iter().map(|(x, y)| to_lon_lat.lon_lat(x, y).ok_or((x, y))).collect();
        match places {
            Ok(points) => reading.push_line(&source_id, &at, &subject, points, &attributes),
            Err((x, y)) => {
                let wrong = format!("the point {x}, {y} has no place on the globe");
                let right = "coordinates in the system that the .prj names";
                reading.findings.refuse("road.line.out_of_range", at.clone(), &subject, wrong, right);
            }
        }
    }
}

fn parts_of(shape: Shape) -> Result<Vec<Vec<(f64, f64)>>, String> {
    fn flat<P>(parts: &[Vec<P>], xy: impl Fn(&P) -> (f64, f64)) -> Vec<Vec<(f64, f64)>> {
        parts.iter().map(|part| part.iter().map(&xy).collect()).collect()
    }
    match shape {
        Shape::Polyline(line) => Ok(flat(line.parts(), |p| (p.x, p.y))),
        Shape::PolylineM(line) => Ok(flat(line.parts(), |p| (p.x, p.y))),
        Shape::PolylineZ(line) => Ok(flat(line.parts(), |p| (p.x, p.y))),
        other => Err(other.shapetype().to_string()),
    }
}

/// The coordinate system by the `.prj`; `None` where none can be told, which has been reported.
fn projection_beside(path: &Path, header: &[u8; HEADER_BYTES], reading: &mut Reading<'_>) -> Option<ToLonLat> {
    let prj = path.with_extension("prj");
    let Ok(bytes) = std::fs::read(&prj).or_else(|_| std::fs::read(path.with_extension("PRJ"))) else {
        return degrees_by_looks(header, reading);
    };
    let text = String::from_utf8_lossy(&bytes);
    match ToLonLat::by_wkt(&text) {
        Ok(to_lon_lat) => {
            if to_lon_lat.shift_unknown {
                let at = reading.findings.at(0, 0);
                let wrong = format!("the datum in {} is not WGS 84 and no shift to it is given", prj.display());
                let right = "roads in a system on WGS 84, ETRS89 or NAD83, or a TOWGS84 in the .prj; \
                             places may be off by up to some hundred metres";
                reading.findings.warn("road.prj.no_shift", at, "", wrong, right);
            }
            Some(to_lon_lat)
        }
        Err(error) => {
            let wrong = format!("the coordinate system in {} can't be used: {error}", prj.display());
            let right = "a .prj with a usual coordinate system, e.g. UTM or longitude and latitude on WGS 84";
            reading.findings.fatal("road.prj.unreadable", wrong, right);
            None
        }
    }
}

/// Without a `.prj`, coordinates that look like degrees are taken as such, with a warning.
fn degrees_by_looks(header: &[u8; HEADER_BYTES], reading: &mut Reading<'_>) -> Option<ToLonLat> {
    // Bounding box of the file: four little-endian doubles from byte 36 (ESRI Technical Description, p. 4).
    let bound = |index: usize| {
        let at = 36 + 8 * index;
        let mut bytes = [0; 8];
        bytes.copy_from_slice(&header[at..at + 8]);
        f64::from_le_bytes(bytes)
    };
    let bounds = [bound(0), bound(1), bound(2), bound(3)];
    if super::projection::on_globe(bounds[0], bounds[1]) && super::projection::on_globe(bounds[2], bounds[3]) {
        let at = reading.findings.at(0, 0);
        let wrong = "there is no .prj; the coordinates look like degrees and are taken as WGS 84".to_owned();
        reading.findings.warn("road.prj.missing", at, "", wrong, "the .prj beside the .shp");
        return Some(ToLonLat::degrees());
    }
    let wrong = format!("there is no .prj, and coordinates such as {}, {} are no degrees", bounds[0], bounds[1]);
    reading.findings.fatal("road.prj.missing", wrong, "the .prj that belongs to the .shp, beside it");
    None
}
