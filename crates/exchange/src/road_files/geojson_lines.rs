//! `GeoJSON` lines with properties, feature by feature.

use std::fmt;
use std::path::Path;

use geojson::{Feature, Geometry, GeometryValue, Position};
use model::place::LonLat;
use model::problem::Locator;
use model::road::RoadAttributes;
use serde::de::{DeserializeSeed, Error as _, MapAccess, SeqAccess, Visitor};
use serde::{Deserialize, Deserializer};
use serde_json::{Map, Value};

use super::Reading;
use super::columns::{Row, habits};
use super::findings::guarded;
use super::input::{LineCounter, Opened, TextPlace, Ticker};
use super::projection::on_globe;

/// Names of coordinate systems that are what `GeoJSON` always is: longitude and latitude on WGS 84 (RFC 7946, section 4;
/// the member itself is of the 2008 specification).
const DEGREES: [&str; 4] = ["CRS84", "EPSG:4326", "EPSG::4326", "WGS84"];

pub(super) fn read(path: &Path, reading: &mut Reading<'_>, ticker: &mut Ticker<'_>) {
    let mut opened = match Opened::new(path) {
        Ok(opened) => opened,
        Err(error) => return reading.cannot_open(&error),
    };
    skip_byte_order_mark(&mut opened);
    let read = opened.read.clone();
    let (counter, place) = LineCounter::new(opened.reader);
    let mut parser = serde_json::Deserializer::from_reader(counter);
    let mut sink = Sink { reading, place, features: 0, foreign_system: None, tick: &mut || ticker.at(read.get()) };
    let outcome = guarded(|| Whole { sink: &mut sink }.deserialize(&mut parser).and_then(|()| parser.end()));
    let foreign_system = sink.foreign_system.take();
    let why = match outcome {
        Ok(Ok(())) => None,
        Ok(Err(error)) => Some((reading.findings.at(error.line(), error.column()), error.to_string())),
        Err(panic) => Some((reading.findings.at(0, 0), panic)),
    };
    if let Some((at, why)) = why {
        let wrong = format!("the file breaks off here: {why}");
        let right = "one GeoJSON object (RFC 7946); the features before the break are used";
        reading.findings.refuse("road.geojson.broken", at, "", wrong, right);
    }
    if let Some(system) = foreign_system {
        reading.lines.clear();
        let wrong = format!("the file says its coordinates are in {system}");
        reading.findings.fatal("road.geojson.system", wrong, "longitude and latitude on WGS 84 (RFC 7946, section 4)");
    }
}

fn skip_byte_order_mark(opened: &mut Opened) {
    use std::io::BufRead;
    if opened.reader.fill_buf().is_ok_and(|head| head.starts_with(b"\xEF\xBB\xBF")) {
        opened.reader.consume(3);
    }
}

/// Takes the features as they come.
struct Sink<'s, 'r> {
    reading: &'s mut Reading<'r>,
    place: TextPlace,
    features: usize,
    foreign_system: Option<String>,
    tick: &'s mut dyn FnMut(),
}

impl Sink<'_, '_> {
    fn here(&self) -> Locator {
        let (line, column) = self.place.get();
        // The opening brace has been looked at, so the place is one beyond it.
        self.reading.findings.at(line, column.saturating_sub(1))
    }

    fn feature(&mut self, value: Value, at: &Locator) {
        self.features += 1;
        (self.tick)();
        let subject = format!("feature {}", self.features);
        let feature = match serde_json::from_value::<Feature>(value) {
            Ok(feature) => feature,
            Err(error) => {
                let wrong = format!("it is no GeoJSON feature: {error}");
                let right = "a Feature with a LineString or MultiLineString as its geometry";
                self.reading.findings.refuse("road.geojson.feature", at.clone(), &subject, wrong, right);
                return;
            }
        };
        let cells: Vec<(String, String)> = feature
            .properties
            .iter()
            .flatten()
            .filter_map(|(name, value)| Some((name.clone(), cell(value)?)))
            .collect();
        let row = Row::new(cells.iter().map(|(name, text)| (name.as_str(), text.as_str())));
        let rules = self.reading.rules;
        let said = row.said(rules);
        if let Some(word) = said.class.as_deref().filter(|word| self.reading.words.not_a_road.get(word).is_some()) {
            self.reading.leave_out(format!("class {word}"));
            return;
        }
        let id = row.id(&rules.columns).or_else(|| feature.id.as_ref().map(feature_id));
        let source_id = id.unwrap_or_else(|| self.features.to_string());
        let Some(geometry) = feature.geometry else {
            let wrong = "it has no geometry".to_owned();
            self.reading.findings.refuse("road.geojson.geometry", at.clone(), &subject, wrong, "a LineString");
            return;
        };
        let attributes = self.reading.attributes(&said, habits(&rules.columns), at, &subject);
        self.geometry(&geometry, &source_id, at, &subject, &attributes);
    }

    fn geometry(&mut self, geometry: &Geometry, id: &str, at: &Locator, subject: &str, attributes: &RoadAttributes) {
        match &geometry.value {
            GeometryValue::LineString { coordinates } => self.line(coordinates, id, at, subject, attributes),
            GeometryValue::MultiLineString { coordinates } => {
                for line in coordinates {
                    self.line(line, id, at, subject, attributes);
                }
            }
            GeometryValue::GeometryCollection { geometries } => {
                for part in geometries {
                    self.geometry(part, id, at, subject, attributes);
                }
            }
            other => {
                let wrong = format!("its geometry is a {}", other.type_name());
                let right = "a LineString or MultiLineString along the road";
                self.reading.findings.refuse("road.geojson.geometry", at.clone(), subject, wrong, right);
            }
        }
    }

    fn line(&mut self, line: &[Position], id: &str, at: &Locator, subject: &str, attributes: &RoadAttributes) {
        let mut points = Vec::with_capacity(line.len());
        for position in line {
            let (lon, lat) = match *position.as_slice() {
                [lon, lat, ..] => (lon, lat),
                _ => (f64::NAN, f64::NAN),
            };
            if !on_globe(lon, lat) {
                let wrong = format!("the position {lon}, {lat} is not on the globe");
                let right = "[longitude, latitude] in degrees";
                self.reading.findings.refuse("road.line.out_of_range", at.clone(), subject, wrong, right);
                return;
            }
            points.push(LonLat { lon, lat });
        }
        self.reading.push_line(id, at, subject, points, attributes);
    }
}

/// A property as text; lists and objects say nothing of a road.
fn cell(value: &Value) -> Option<String> {
    match value {
        Value::String(text) => Some(text.clone()),
        Value::Number(number) => Some(number.to_string()),
        Value::Bool(yes) => Some(if *yes { "yes" } else { "no" }.to_owned()),
        Value::Null | Value::Array(_) | Value::Object(_) => None,
    }
}

fn feature_id(id: &geojson::feature::Id) -> String {
    match id {
        geojson::feature::Id::String(text) => text.clone(),
        geojson::feature::Id::Number(number) => number.to_string(),
    }
}

/// The outermost object: its features are taken one by one, whatever else it holds is small.
struct Whole<'w, 's, 'r> {
    sink: &'w mut Sink<'s, 'r>,
}

impl<'de> DeserializeSeed<'de> for Whole<'_, '_, '_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        deserializer.deserialize_map(self)
    }
}

impl<'de> Visitor<'de> for Whole<'_, '_, '_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a GeoJSON object")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<(), A::Error> {
        let at = self.sink.here();
        let mut rest = Map::new();
        while let Some(key) = map.next_key::<String>()? {
            if key == "features" {
                map.next_value_seed(Features { sink: &mut *self.sink })?;
            } else {
                rest.insert(key, map.next_value()?);
            }
        }
        self.sink.foreign_system = rest
            .get("crs")
            .and_then(|crs| crs.pointer("/properties/name"))
            .and_then(Value::as_str)
            .filter(|name| !DEGREES.iter().any(|known| name.replace(' ', "").to_uppercase().ends_with(known)))
            .map(str::to_owned);
        for key in ["attribution", "copyright"] {
            if let Some(text) = rest.get(key).and_then(Value::as_str) {
                self.sink.reading.attribution = Some(text.to_owned());
            }
        }
        match rest.get("type").and_then(Value::as_str) {
            Some("FeatureCollection") => Ok(()),
            Some("Feature") => {
                self.sink.feature(Value::Object(rest), &at);
                Ok(())
            }
            Some(_) => {
                let mut feature = Map::new();
                feature.insert("type".into(), "Feature".into());
                feature.insert("properties".into(), Value::Null);
                feature.insert("geometry".into(), Value::Object(rest));
                self.sink.feature(Value::Object(feature), &at);
                Ok(())
            }
            None => Err(A::Error::custom("the object has no \"type\", so it is no GeoJSON")),
        }
    }
}

/// The list of features.
struct Features<'w, 's, 'r> {
    sink: &'w mut Sink<'s, 'r>,
}

impl<'de> DeserializeSeed<'de> for Features<'_, '_, '_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        deserializer.deserialize_seq(self)
    }
}

impl<'de> Visitor<'de> for Features<'_, '_, '_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a list of features")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<(), A::Error> {
        while let Some((value, at)) = list.next_element_seed(Placed(self.sink.place.clone()))? {
            let at = self.sink.reading.findings.at(at.0, at.1);
            self.sink.feature(value, &at);
        }
        Ok(())
    }
}

/// A value with the place where it begins.
struct Placed(TextPlace);

impl<'de> DeserializeSeed<'de> for Placed {
    type Value = (Value, (usize, usize));

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Self::Value, D::Error> {
        let (line, column) = self.0.get();
        Ok((Value::deserialize(deserializer)?, (line, column.saturating_sub(1).max(1))))
    }
}
