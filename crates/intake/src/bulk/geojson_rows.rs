//! `GeoJSON` as a stream: one feature after the other. A feature that is no report is refused and the next goes on; a file that
//! is no JSON ends where it is not.

use std::cell::{Cell as Shared, RefCell};
use std::collections::BTreeMap;
use std::fmt;
use std::io::{self, BufRead, BufReader, Read};
use std::rc::Rc;
use std::str::FromStr;

use exchange::quantity_text::LengthUnit;
use geojson::{Feature, GeometryValue};
use model::problem::{Problem, ProblemSeverity};
use model::record::happened::Position;
use serde::de::{DeserializeSeed, Deserializer, Error as _, IgnoredAny, MapAccess, SeqAccess, Visitor};
use serde_json::Value;
use serde_json::value::RawValue;

use super::columns::{self, BulkField, ColumnUse};
use super::row::{Cell, Cells};
use super::{ROW_MAX, Reading, RowRead};

/// Names of coordinate systems that are WGS 84 in degrees.
const DEGREES: [&str; 4] = ["urn:ogc:def:crs:OGC:1.3:CRS84", "urn:ogc:def:crs:OGC::CRS84", "OGC:CRS84", "EPSG:4326"];

pub fn read(from: impl Read, reading: &mut Reading) {
    let place = Rc::new(Place::default());
    let counted = Counted { from: BufReader::new(from), place: Rc::clone(&place) };
    let mut json = serde_json::Deserializer::from_reader(counted);
    let collection = Collection { reading: RefCell::new(reading), place: &place };
    let outcome = json.deserialize_map(&collection).and_then(|()| json.end());
    let reading = collection.reading.into_inner();
    reading.bytes = place.bytes.get();
    if let Err(error) = outcome
        && !reading.read.is_stopped
        && !reading.is_over
    {
        let (line, column) = (error.line(), error.column());
        let at = reading.at(line, column);
        if error.is_io() {
            reading.fatal("intake.geojson.feature.too_long", at, error.to_string(), "features of single points");
        } else {
            let message = error.to_string();
            let wrong = message.split(" at line ").next().unwrap_or_default().to_owned();
            reading.fatal("intake.geojson.syntax", at, wrong, "a GeoJSON FeatureCollection by RFC 7946");
        }
    }
}

/// How far the reader is.
#[derive(Default)]
struct Place {
    bytes: Shared<u64>,
    line_ends: Shared<usize>,
    /// Characters since the last line end.
    column: Shared<usize>,
    /// Bytes since the last feature.
    since: Shared<usize>,
}

/// Counts as it reads. The parser asks for a byte at a time, so that the count is where the parser is.
struct Counted<R> {
    from: BufReader<R>,
    place: Rc<Place>,
}

impl<R: Read> Read for Counted<R> {
    fn read(&mut self, to: &mut [u8]) -> io::Result<usize> {
        let place = &self.place;
        if place.since.get() > ROW_MAX {
            return Err(io::Error::other(format!("a part of the file is longer than {ROW_MAX} bytes")));
        }
        let buffer = self.from.fill_buf()?;
        let count = buffer.len().min(to.len());
        for &byte in &buffer[..count] {
            if byte == b'\n' {
                place.line_ends.set(place.line_ends.get() + 1);
                place.column.set(0);
            } else if byte & 0b1100_0000 != 0b1000_0000 {
                place.column.set(place.column.get() + 1);
            }
        }
        to[..count].copy_from_slice(&buffer[..count]);
        self.from.consume(count);
        place.bytes.set(place.bytes.get() + count as u64);
        place.since.set(place.since.get() + count);
        Ok(count)
    }
}

/// The whole file.
struct Collection<'c, 'r, 's> {
    reading: RefCell<&'c mut Reading<'r>>,
    place: &'s Place,
}

impl<'de> Visitor<'de> for &Collection<'_, '_, '_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a GeoJSON FeatureCollection")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<(), A::Error> {
        while let Some(key) = map.next_key::<String>()? {
            match key.as_str() {
                "features" => map.next_value_seed(self)?,
                "type" => {
                    let kind: Value = map.next_value()?;
                    if kind != "FeatureCollection" {
                        return Err(A::Error::custom("the file is no FeatureCollection"));
                    }
                }
                "crs" => {
                    let crs: Value = map.next_value()?;
                    let name = crs.pointer("/properties/name").and_then(Value::as_str).unwrap_or_default();
                    if !crs.is_null() && !DEGREES.contains(&name) {
                        let mut reading = self.reading.borrow_mut();
                        let at = reading.at(self.place.line_ends.get() + 1, 0);
                        let wrong = format!("the coordinates are in another system, {}", crate::text::quoted(name, 60));
                        reading.fatal("intake.position.other_system", at, wrong, "export as WGS 84 (RFC 7946)");
                        return Err(A::Error::custom("another system"));
                    }
                }
                _ => {
                    map.next_value::<IgnoredAny>()?;
                }
            }
            self.place.since.set(0);
        }
        Ok(())
    }
}

impl<'de> DeserializeSeed<'de> for &Collection<'_, '_, '_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, features: D) -> Result<(), D::Error> {
        features.deserialize_seq(Features { collection: self })
    }
}

/// The list of features.
struct Features<'f, 'c, 'r, 's> {
    collection: &'f Collection<'c, 'r, 's>,
}

impl<'de> Visitor<'de> for Features<'_, '_, '_, '_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a list of features")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<(), A::Error> {
        let Collection { reading, place } = self.collection;
        let mut names = Names::default();
        while let Some(raw) = list.next_element::<Box<RawValue>>()? {
            let mut reading = reading.borrow_mut();
            reading.bytes = place.bytes.get();
            place.since.set(0);
            let text = raw.get();
            // The parser stands behind the feature; of a number it has looked at one character more.
            let is_looked_past = text.ends_with(|c: char| c.is_ascii_digit());
            let is_line_behind = is_looked_past && place.column.get() == 0;
            let end_line = place.line_ends.get() + 1 - usize::from(is_line_behind);
            let line = end_line.saturating_sub(text.matches('\n').count());
            let is_column_known = line == end_line && !is_line_behind;
            let behind = place.column.get() + usize::from(!is_looked_past);
            let column = if is_column_known { behind.saturating_sub(text.chars().count()) } else { 0 };
            let row = feature(text, (line, column), &mut names, &mut reading);
            if reading.take(row).is_break() {
                return Err(A::Error::custom("stopped"));
            }
        }
        Ok(())
    }
}

/// Names of properties that have been seen, and what they are used for.
#[derive(Default)]
struct Names {
    used: BTreeMap<String, (BulkField, Option<LengthUnit>)>,
    known: Vec<String>,
}

/// Properties of one file that are looked at for what they may hold.
const NAMES_MAX: usize = 1000;

impl Names {
    /// Looks at the names of a feature that were not there before. What a name was used for, it stays used for.
    fn learn(&mut self, feature: &Feature, reading: &mut Reading) {
        let Some(properties) = &feature.properties else { return };
        let new: Vec<String> = properties.keys().filter(|name| !self.known.contains(name)).cloned().collect();
        if new.is_empty() || self.known.len() + new.len() > NAMES_MAX {
            return;
        }
        self.known.extend(new);
        let (found, _) = columns::find(&self.known, &reading.options.columns);
        for (_, used) in found {
            let is_place = matches!(used.field, BulkField::Lon | BulkField::Lat);
            if is_place || reading.read.columns.iter().any(|other| other.field == used.field) {
                continue;
            }
            let unit = columns::unit_of(used.field, &used.name);
            self.used.insert(used.name.clone(), (used.field, unit));
            reading.read.columns.push(ColumnUse { others: Vec::new(), ..used });
        }
    }
}

fn feature(text: &str, place: (usize, usize), names: &mut Names, reading: &mut Reading) -> RowRead {
    let at = reading.at(place.0, place.1);
    let refused = |subject: String, wrong: &str, right: &str| {
        let (wrong, right) = (wrong.to_owned(), right.to_owned());
        let severity = ProblemSeverity::Refused;
        Err(vec![Problem { code: "intake.geojson.feature", severity, at: at.clone(), subject, wrong, right }])
    };
    let Ok(feature) = Feature::from_str(text) else {
        return refused(String::new(), "this is no GeoJSON feature", "type, geometry and properties by RFC 7946");
    };
    names.learn(&feature, reading);
    let id = match &feature.id {
        Some(geojson::feature::Id::String(id)) => id.clone(),
        Some(geojson::feature::Id::Number(id)) => id.to_string(),
        None => String::new(),
    };
    let subject = id.chars().filter(|c| !crate::text::is_steering(*c)).take(40).collect();
    let position = match feature.geometry.as_ref().map(|geometry| &geometry.value) {
        Some(GeometryValue::Point { coordinates }) => match coordinates.as_slice() {
            [lon, lat, ..] => Position { lon: *lon, lat: *lat },
            _ => return refused(subject, "the point has no coordinates", "longitude and latitude"),
        },
        Some(_) => return refused(subject, "the geometry is no point", "a Point where the hole is"),
        None => return refused(subject, "there is no geometry", "a Point where the hole is"),
    };
    let value = |value: &Value| match value {
        Value::Null => None,
        Value::String(text) => Some(text.clone()),
        other => Some(other.to_string()),
    };
    let used =
        feature.properties.iter().flatten().filter_map(|(name, told)| Some((*names.used.get(name)?, value(told)?)));
    let cell = |((field, unit), text): ((BulkField, Option<LengthUnit>), String)| Cell {
        field,
        text: text.into(),
        byte: 0,
        unit,
    };
    let mut cells: Vec<Cell> = used.map(cell).collect();
    if !id.is_empty() && !cells.iter().any(|cell| cell.field == BulkField::Reference) {
        cells.push(Cell { field: BulkField::Reference, text: id.into(), byte: 0, unit: None });
    }
    let place_of = |_| place;
    reading.read(&Cells {
        begin: 0,
        place_of: &place_of,
        of_fields: cells,
        place: Some(position),
        has_decimal_comma: false,
    })
}
