//! A GeoPackage holds all that was written, by GDAL, which knows nothing of this program, and by GDAL's own checker of the format.

mod common;

use std::path::Path;
use std::process::Command;

use common::gdal::{gdal, same_features};
use common::{COUNTS, People, features, now};
use feeds::{Collection, Feature, GeoPackageError, Layer, write_geopackage};
use serde_json::Value;
use sqlx::sqlite::SqliteConnectOptions;
use sqlx::{AssertSqlSafe, Connection, SqliteConnection};

async fn write(path: &Path) -> Vec<(Collection, Vec<Feature>)> {
    let all: Vec<(Collection, Vec<Feature>)> =
        Collection::ALL.map(|each| (each, features(each, &People::default()))).to_vec();
    let layers: Vec<Layer<'_>> =
        all.iter().map(|(collection, features)| Layer { collection: *collection, features }).collect();
    write_geopackage(path, &layers, now()).await.expect("a file");
    all
}

#[tokio::test]
async fn gdal_reads_every_feature_back() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("district.gpkg");
    let all = write(&path).await;
    let name = path.to_str().unwrap();
    for (collection, written) in &all {
        let arguments = ["-f", "GeoJSON", "/vsistdout/", name, collection.id(), "-lco", "COORDINATE_PRECISION=12"];
        let Some(text) = gdal("ogr2ogr", &arguments) else { return };
        let read: Value = serde_json::from_str(&text).unwrap();
        same_features(read["features"].as_array().unwrap(), written);
    }
    let Some(text) = gdal("ogrinfo", &["-ro", "-so", "-al", name]) else { return };
    for (collection, count) in COUNTS {
        assert!(text.contains(&format!("Layer name: {}", collection.id())), "{text}");
        assert!(text.contains(&format!("Feature Count: {count}")), "{text}");
    }
    assert!(text.contains("Geometry: Line String") && text.contains("WGS 84"), "{text}");
    // By the index, from the same file.
    let spatial = ["-ro", "-so", "-spat", "81.52", "-18.195", "81.56", "-18.17", name, "holes"];
    let Some(text) = gdal("ogrinfo", &spatial) else { return };
    assert!(text.contains("Feature Count: 41"), "{text}");
}

/// `validate_gpkg` of GDAL checks the requirements of the standard one by one.
#[tokio::test]
async fn the_checker_of_the_format_finds_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("district.gpkg");
    write(&path).await;
    let check = |path: &Path| {
        let mut command = Command::new("/usr/bin/python3");
        command.args(["-m", "osgeo_utils.samples.validate_gpkg"]).arg(path).output()
    };
    let outcome = check(&path);
    let Ok(output) = outcome.as_ref() else { return println!("skipped: no Python here") };
    let said = String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr);
    if said.contains("No module named") {
        return println!("skipped: no checker here (Debian: python3-gdal)");
    }
    assert!(output.status.success() && said.trim().is_empty(), "{said}");
    // It does find what is wrong.
    let mut connection = open(&path).await;
    sqlx::query("UPDATE gpkg_geometry_columns SET geometry_type_name = 'SPOT'").execute(&mut connection).await.unwrap();
    connection.close().await.unwrap();
    assert!(!check(&path).unwrap().status.success());
}

/// GDAL writes the same index with the same triggers.
#[tokio::test]
async fn the_spatial_index_is_gdals() {
    let folder = tempfile::tempdir().unwrap();
    let (own, theirs) = (folder.path().join("district.gpkg"), folder.path().join("theirs.gpkg"));
    write(&own).await;
    let arguments = [
        "-f",
        "GPKG",
        theirs.to_str().unwrap(),
        own.to_str().unwrap(),
        "-dsco",
        "VERSION=1.3",
        "-lco",
        "GEOMETRY_NAME=geom",
    ];
    if gdal("ogr2ogr", &arguments).is_none() {
        return;
    }
    let mut read = Vec::new();
    for path in [&own, &theirs] {
        let mut connection = open(path).await;
        let triggers: Vec<(String, String)> = sqlx::query_as(
            "SELECT name, sql FROM sqlite_master WHERE type = 'trigger' AND name LIKE 'rtree_%' ORDER BY name",
        )
        .fetch_all(&mut connection)
        .await
        .unwrap();
        let mut boxes: Vec<(i64, f64, f64, f64, f64)> = Vec::new();
        for collection in Collection::ALL {
            let query = format!("SELECT id, minx, maxx, miny, maxy FROM rtree_{}_geom ORDER BY id", collection.id());
            boxes.extend(
                sqlx::query_as::<_, (i64, f64, f64, f64, f64)>(AssertSqlSafe(query))
                    .fetch_all(&mut connection)
                    .await
                    .unwrap(),
            );
        }
        let marks: (i64, i64) = (
            sqlx::query_scalar("PRAGMA application_id").fetch_one(&mut connection).await.unwrap(),
            sqlx::query_scalar("PRAGMA user_version").fetch_one(&mut connection).await.unwrap(),
        );
        let registered: Vec<(String, String, String, String)> = sqlx::query_as(
            "SELECT table_name, column_name, definition, scope FROM gpkg_extensions WHERE extension_name = 'gpkg_rtree_index' ORDER BY table_name",
        )
        .fetch_all(&mut connection)
        .await
        .unwrap();
        let sound: String = sqlx::query_scalar("PRAGMA integrity_check").fetch_one(&mut connection).await.unwrap();
        assert_eq!(sound, "ok");
        read.push((triggers, boxes, marks, registered));
    }
    assert_eq!(read[0].0.len(), 24);
    // One zone has no place.
    assert_eq!(read[0].1.len(), COUNTS.iter().map(|(_, count)| count).sum::<usize>() - 1);
    assert_eq!(read[0], read[1]);
}

#[tokio::test]
async fn it_takes_the_place_of_an_older_one_and_leaves_nothing_beside_it() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("district.gpkg");
    std::fs::write(&path, "an older file").unwrap();
    std::fs::write(folder.path().join("district.gpkg.part"), "of a run that was stopped").unwrap();
    write(&path).await;
    assert!(std::fs::read(&path).unwrap().starts_with(b"SQLite format 3\0"));
    let names: Vec<_> = std::fs::read_dir(folder.path()).unwrap().flatten().map(|entry| entry.file_name()).collect();
    assert_eq!(names, ["district.gpkg"]);
}

#[tokio::test]
async fn a_number_that_is_there_twice_writes_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("district.gpkg");
    std::fs::write(&path, "an older file").unwrap();
    let one = features(Collection::Holes, &People::default())[0].clone();
    let twice = [one.clone(), one];
    let layers = [Layer { collection: Collection::Holes, features: &twice }];
    let error = write_geopackage(&path, &layers, now()).await.unwrap_err();
    assert!(matches!(error, GeoPackageError::Database { .. }), "{error}");
    assert!(error.to_string().contains("holes.id"), "{error}");
    assert_eq!(std::fs::read(&path).unwrap(), b"an older file");
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1);
}

#[tokio::test]
async fn a_folder_that_is_not_there_is_said() {
    let path = Path::new("/nowhere/at/all/district.gpkg");
    let error = write_geopackage(path, &[], now()).await.unwrap_err();
    assert!(
        error.to_string().starts_with("/nowhere/at/all/district.gpkg.part: the GeoPackage could not be written"),
        "{error}"
    );
}

async fn open(path: &Path) -> SqliteConnection {
    SqliteConnection::connect_with(&SqliteConnectOptions::new().filename(path)).await.expect("a database")
}
