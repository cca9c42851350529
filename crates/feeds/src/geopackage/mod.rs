//! All that is known as one file: a GeoPackage 1.3 (OGC 12-128r17), which is an SQLite database.

mod schema;
mod spatial_index;

use std::path::{Path, PathBuf};

use geo::{LineString, Point};
use geozero::{CoordDimensions, ToWkb};
use jiff::{Timestamp, Unit};
use serde_json::Value;
use sqlx::sqlite::{SqliteConnectOptions, SqliteConnection, SqliteJournalMode};
use sqlx::{AssertSqlSafe, Connection, Executor};
use thiserror::Error;

use crate::collection::{Collection, Property, PropertyKind};
use crate::feature::{Extent, Feature, Geometry, utc};

/// The number of WGS 84 in a GeoPackage. Coordinates are longitude, latitude there all the same.
const WGS_84: i32 = 4326;

/// A collection's features for a file.
#[derive(Debug, Clone, Copy)]
pub struct Layer<'a> {
    /// Which collection; it gives the table its name.
    pub collection: Collection,
    /// Its features, each number once.
    pub features: &'a [Feature],
}

/// Why no file was written.
#[derive(Debug, Error)]
pub enum GeoPackageError {
    /// The database library could not.
    #[error("{path}: the GeoPackage could not be written: {source}")]
    Database {
        /// The file that was being written.
        path: PathBuf,
        /// What the library says.
        source: sqlx::Error,
    },
    /// The disk could not.
    #[error("{path}: the GeoPackage could not be put in its place: {source}")]
    File {
        /// The file that was being written.
        path: PathBuf,
        /// What the system says.
        source: std::io::Error,
    },
    /// A geometry could not be encoded.
    #[error("the geometry of {collection}/{id} could not be encoded: {source}")]
    Geometry {
        /// The collection.
        collection: &'static str,
        /// The feature.
        id: String,
        /// What the library says.
        source: geozero::error::GeozeroError,
    },
}

/// Writes a GeoPackage with a table for each layer. `now` is the time of change that the file tells.
///
/// It is written beside its place, as `....part`, and put there when it is whole: a file of that name is replaced, and at no moment is
/// there half a one.
///
/// # Errors
/// See [`GeoPackageError`]; what was begun is taken away. Where the call is given up in its midst, the next one takes it away.
pub async fn write_geopackage(path: &Path, layers: &[Layer<'_>], now: Timestamp) -> Result<(), GeoPackageError> {
    let mut part = path.as_os_str().to_owned();
    part.push(".part");
    let part = PathBuf::from(part);
    // A rest of a run that was stopped. Where there is none, there is nothing to take away.
    let _ = std::fs::remove_file(&part);
    let outcome = write(&part, layers, now).await;
    let outcome = outcome.and_then(|()| {
        std::fs::rename(&part, path).map_err(|source| GeoPackageError::File { path: path.into(), source })
    });
    if outcome.is_err() {
        let _ = std::fs::remove_file(&part);
    }
    outcome
}

async fn write(path: &Path, layers: &[Layer<'_>], now: Timestamp) -> Result<(), GeoPackageError> {
    let failed = |source| GeoPackageError::Database { path: path.into(), source };
    let options = SqliteConnectOptions::new()
        .filename(path)
        .create_if_missing(true)
        // The file has no other reader before it is whole, and no log beside it after.
        .journal_mode(SqliteJournalMode::Memory)
        .foreign_keys(true);
    let mut connection = SqliteConnection::connect_with(&options).await.map_err(failed)?;
    let mut transaction = connection.begin().await.map_err(failed)?;
    transaction.execute(schema::HEAD).await.map_err(failed)?;
    for layer in layers {
        write_layer(&mut transaction, layer, now, path).await?;
    }
    transaction.commit().await.map_err(failed)?;
    connection.close().await.map_err(failed)
}

async fn write_layer(
    connection: &mut SqliteConnection,
    layer: &Layer<'_>,
    now: Timestamp,
    path: &Path,
) -> Result<(), GeoPackageError> {
    let failed = |source| GeoPackageError::Database { path: path.into(), source };
    let collection = layer.collection;
    // All names are our own: none comes from the features.
    connection.execute(AssertSqlSafe(schema::table(collection))).await.map_err(failed)?;
    let insert = schema::insert(collection);
    for (row, feature) in (1_i64..).zip(layer.features) {
        let geometry = feature.geometry.as_ref().map(encoded).transpose().map_err(|source| {
            GeoPackageError::Geometry { collection: collection.id(), id: feature.id.clone(), source }
        })?;
        let mut query = sqlx::query(AssertSqlSafe(insert.clone())).bind(row).bind(geometry).bind(&feature.id);
        for property in collection.properties() {
            query = bound(query, property, feature.properties.get(property.name));
        }
        query.execute(&mut *connection).await.map_err(failed)?;
    }
    // Over the antimeridian no box of this table reaches: there it goes around the globe.
    let bounds = Extent::of(layer.features).bounds;
    let (west, east) = bounds.map_or((None, None), |b| {
        if b.west > b.east { (Some(-180.0), Some(180.0)) } else { (Some(b.west), Some(b.east)) }
    });
    sqlx::query(schema::CONTENTS)
        .bind(collection.id())
        .bind(collection.title())
        .bind(collection.about())
        .bind(date_time(&utc(now)))
        .bind(west)
        .bind(bounds.map(|b| b.south))
        .bind(east)
        .bind(bounds.map(|b| b.north))
        .bind(WGS_84)
        .execute(&mut *connection)
        .await
        .map_err(failed)?;
    sqlx::query(schema::GEOMETRY_COLUMN)
        .bind(collection.id())
        .bind(schema::geometry_type(collection))
        .bind(WGS_84)
        .execute(&mut *connection)
        .await
        .map_err(failed)?;
    spatial_index::write(connection, layer).await.map_err(failed)
}

type Query<'q> = sqlx::query::Query<'q, sqlx::Sqlite, sqlx::sqlite::SqliteArguments>;

/// Binds a property's value as its column keeps it; what is not known is NULL.
fn bound<'q>(query: Query<'q>, property: &Property, value: Option<&Value>) -> Query<'q> {
    let text = || value.and_then(Value::as_str).map(str::to_owned);
    match property.kind {
        PropertyKind::Text | PropertyKind::Date => query.bind(text()),
        PropertyKind::DateTime => query.bind(text().map(|text| date_time(&text))),
        PropertyKind::Number => query.bind(value.and_then(Value::as_f64)),
        PropertyKind::Integer => query.bind(value.and_then(Value::as_i64)),
        PropertyKind::Boolean => query.bind(value.and_then(Value::as_bool)),
        PropertyKind::TextList => query.bind(value.and_then(Value::as_array).map(|all| {
            let texts: Vec<&str> = all.iter().filter_map(Value::as_str).collect();
            texts.join(", ")
        })),
    }
}

/// A moment as the format wants it: universal time with three digits behind the point.
fn date_time(text: &str) -> String {
    let moment: Option<Timestamp> = text.parse().ok();
    let moment = moment.map(|moment| moment.round(Unit::Millisecond).unwrap_or(moment));
    moment.map_or_else(|| text.to_owned(), |moment| format!("{moment:.3}"))
}

/// A geometry with the format's header; lines with their box, so that readers need not look into them.
fn encoded(geometry: &Geometry) -> Result<Vec<u8>, geozero::error::GeozeroError> {
    match geometry {
        Geometry::Point(place) => geo::Geometry::from(Point::new(place.lon, place.lat)).to_gpkg_wkb(
            CoordDimensions::xy(),
            Some(WGS_84),
            Vec::new(),
        ),
        Geometry::Line(places) => {
            let line: LineString = places.iter().map(|place| (place.lon, place.lat)).collect();
            let [west, south, east, north] = flat_box(geometry);
            geo::Geometry::from(line).to_gpkg_wkb(CoordDimensions::xy(), Some(WGS_84), vec![west, east, south, north])
        }
    }
}

/// West, south, east, north in the plane of degrees, as the format's index keeps them.
fn flat_box(geometry: &Geometry) -> [f64; 4] {
    let empty = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
    geometry.places().iter().fold(empty, |[west, south, east, north], place| {
        [west.min(place.lon), south.min(place.lat), east.max(place.lon), north.max(place.lat)]
    })
}
