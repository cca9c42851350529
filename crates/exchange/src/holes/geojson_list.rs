//! Hole lists as GeoJSON (RFC 7946): points with sizes, or polygons, as features.

use std::collections::{BTreeMap, BTreeSet};
use std::str::FromStr;

use geojson::{Geometry, GeometryValue, Position};
use model::place::LonLat;
use model::problem::{Locator, Problem, ProblemSeverity};
use serde_json::Value;
use serde_json::value::RawValue;

use super::columns::{self, HoleField};
use super::row::{Cell, Findings, Placed, Row, read_row};
use super::{HoleOptions, List};
use crate::quantity_text::DecimalMark;
use crate::text_file::{Lines, not_utf8};

type Members<'t> = BTreeMap<String, &'t RawValue>;

/// Reads the list in `bytes` from `begins` on.
pub fn read(bytes: &[u8], begins: usize, lines: &Lines, list: &mut List) {
    let text = match std::str::from_utf8(&bytes[begins..]) {
        Ok(json) => Text { json, begins, lines },
        Err(error) => return list.problems.push(not_utf8(lines, begins + error.valid_up_to())),
    };
    let features = match features(&text) {
        Ok(features) => features,
        Err(problem) => return list.problems.push(*problem),
    };
    let mut unused = BTreeSet::new();
    for feature in features {
        let row = row(feature, &text, list.options, &mut unused);
        let read = row.and_then(|(row, warnings)| {
            let (hole, more) = read_row(&row, list.options.depot, list.today)?;
            Ok((hole, [warnings, more].concat()))
        });
        list.take(read);
    }
    let unused: Vec<String> = unused.into_iter().collect();
    list.problems.extend(columns::unused(&unused, lines.whole()));
    if list.rows == 0 {
        let right = "write one feature for each hole";
        list.problems.push(fatal("hole.file.empty", lines.whole(), "there are no features".into(), right));
    }
}

/// The text with its place in the file.
struct Text<'t> {
    json: &'t str,
    begins: usize,
    lines: &'t Lines<'t>,
}

impl Text<'_> {
    /// Where a value of this text stands.
    fn locate(&self, value: &RawValue) -> Locator {
        let offset = (value.get().as_ptr() as usize).saturating_sub(self.json.as_ptr() as usize);
        self.lines.locate(self.begins + offset)
    }
}

/// The features of a collection, or the only feature.
fn features<'t>(text: &Text<'t>) -> Result<Vec<&'t RawValue>, Box<Problem>> {
    let right = "a GeoJSON FeatureCollection of points or polygons (RFC 7946)";
    let malformed = |error: serde_json::Error| {
        let at = Locator { line: error.line(), column: error.column(), ..text.lines.whole() };
        let message = error.to_string();
        let message = message.split(" at line ").next().unwrap_or_default();
        Box::new(fatal("hole.geojson.malformed", at, format!("not GeoJSON: {message}"), right))
    };
    let whole: &RawValue = serde_json::from_str(text.json).map_err(malformed)?;
    let members: Members = serde_json::from_str(whole.get()).map_err(malformed)?;
    let wrong = |wrong: &str| Box::new(fatal("hole.geojson.malformed", text.locate(whole), wrong.into(), right));
    if let Some(system) = members.get("crs").filter(|system| !is_degrees(system.get())) {
        let wrong = "the coordinates are not WGS 84 degrees, as RFC 7946 wants".into();
        let right = "export the file in longitude and latitude (WGS 84), without `crs`";
        return Err(Box::new(fatal("hole.geojson.coordinate_system", text.locate(system), wrong, right)));
    }
    match members.get("type").map(|kind| kind.get()) {
        Some("\"FeatureCollection\"") => {
            let features = members.get("features").ok_or_else(|| wrong("the collection has no `features`"))?;
            serde_json::from_str(features.get()).map_err(|_| wrong("`features` is not a list"))
        }
        Some("\"Feature\"") => Ok(vec![whole]),
        _ => Err(wrong("neither a FeatureCollection nor a Feature")),
    }
}

/// Whether an old-style `crs` member means the degrees that are meant anyway.
fn is_degrees(system: &str) -> bool {
    system.trim() == "null" || system.contains("CRS84") || system.contains("4326")
}

/// One feature as a row, with warnings.
fn row(
    feature: &RawValue,
    text: &Text,
    options: &HoleOptions,
    unused: &mut BTreeSet<String>,
) -> Result<(Row, Vec<Problem>), Vec<Problem>> {
    let at = text.locate(feature);
    let mut findings = Findings { subject: String::new(), problems: Vec::new() };
    let Ok(members) = serde_json::from_str::<Members>(feature.get()) else {
        let right = "an object with `geometry` and `properties`";
        findings.refuse("hole.geojson.not_a_feature", &at, "this is not a feature", right);
        return Err(findings.problems);
    };
    let properties = members.get("properties").and_then(|raw| serde_json::from_str::<Members>(raw.get()).ok());
    let mut cells = cells(&properties.unwrap_or_default(), text, options, unused, &mut findings);
    if let Some(id) = members.get("id").filter(|_| !cells.contains_key(&HoleField::Id)) {
        cells.insert(HoleField::Id, cell(id, text.locate(id)));
    }
    findings.subject = cells.get(&HoleField::Id).map(|cell| cell.text.clone()).unwrap_or_default();
    for problem in &mut findings.problems {
        problem.subject.clone_from(&findings.subject);
    }
    let shape = match members.get("geometry").filter(|raw| raw.get() != "null") {
        Some(geometry) => placed(geometry, &text.locate(geometry), &mut findings),
        None => None,
    };
    if findings.problems.iter().any(|problem| problem.severity >= ProblemSeverity::Refused) {
        return Err(findings.problems);
    }
    Ok((Row { at, cells, shape, mark: DecimalMark::Point }, findings.problems))
}

/// The properties that say something of a hole.
fn cells(
    properties: &Members,
    text: &Text,
    options: &HoleOptions,
    unused: &mut BTreeSet<String>,
    findings: &mut Findings,
) -> BTreeMap<HoleField, Cell> {
    let mut cells = BTreeMap::new();
    for (name, raw) in properties {
        let at = text.locate(raw);
        let column = match columns::column(name, &options.columns) {
            Ok(Some(column)) => column,
            Ok(None) => {
                unused.insert(name.clone());
                continue;
            }
            Err(unit) => {
                findings.problems.push(columns::unknown_unit(name, &unit, ProblemSeverity::Refused, at));
                continue;
            }
        };
        let value = Cell { header_unit: column.unit, ..cell(raw, at.clone()) };
        if value.text.is_empty() {
            continue;
        }
        if cells.insert(column.field, value).is_some() {
            findings.problems.push(columns::twice(name, column.field, ProblemSeverity::Refused, at));
        }
    }
    cells
}

/// A JSON value as the text of a cell; numbers as they are written.
fn cell(raw: &RawValue, at: Locator) -> Cell {
    let text = match serde_json::from_str(raw.get()) {
        Ok(Value::String(text)) => text.trim().to_owned(),
        Ok(Value::Null) => String::new(),
        _ => raw.get().to_owned(),
    };
    Cell { text, at, header_unit: None }
}

/// The geometry as a place or a ring.
fn placed(raw: &RawValue, at: &Locator, findings: &mut Findings) -> Option<Placed> {
    let right = "a Point, or a Polygon around the hole";
    let placed = match Geometry::from_str(raw.get()).map(|geometry| geometry.value) {
        Ok(GeometryValue::Point { coordinates }) => lon_lat(&coordinates).map(Placed::Point),
        Ok(GeometryValue::Polygon { coordinates }) => ring(&coordinates, at, findings),
        Ok(GeometryValue::MultiPolygon { coordinates }) if coordinates.len() == 1 => {
            coordinates.first().and_then(|polygon| ring(polygon, at, findings))
        }
        Ok(other) => {
            let wrong = format!("a {} is no hole", other.type_name());
            findings.refuse("hole.geojson.geometry", at, wrong, right);
            return None;
        }
        Err(_) => None,
    };
    if placed.is_none() {
        findings.refuse("hole.geojson.geometry", at, "the geometry can't be read", right);
    }
    placed
}

fn ring(polygon: &[Vec<Position>], at: &Locator, findings: &mut Findings) -> Option<Placed> {
    if polygon.len() > 1 {
        let right = "leave the inner rings out; the whole outline is cut";
        findings.warn("hole.outline.inner_rings", at, "inner rings of the outline are not used", right);
    }
    polygon.first()?.iter().map(lon_lat).collect::<Option<_>>().map(Placed::Ring)
}

fn lon_lat(position: &Position) -> Option<LonLat> {
    match position.as_slice() {
        [lon, lat, ..] => Some(LonLat { lon: *lon, lat: *lat }),
        _ => None,
    }
}

fn fatal(code: &'static str, at: Locator, wrong: String, right: &str) -> Problem {
    Problem { code, severity: ProblemSeverity::Fatal, at, subject: String::new(), wrong, right: right.into() }
}
