//! The format's extension for an index of boxes (OGC 12-128r17, annex F.3), so that clients need not read a whole table for a map.

use sqlx::sqlite::SqliteConnection;
use sqlx::{AssertSqlSafe, Executor};

use super::{Layer, flat_box};

const REGISTER: &str = "
INSERT INTO gpkg_extensions (table_name, column_name, extension_name, definition, scope)
VALUES (?, 'geom', 'gpkg_rtree_index', 'http://www.geopackage.org/spec120/#extension_rtree', 'write-only')";

/// The triggers that keep it when somebody changes the table, in the words of the standard. Their functions are the client's.
const TRIGGERS: [(&str, &str); 6] = [
    (
        "insert",
        r#"AFTER INSERT ON "{t}" WHEN (new."geom" NOT NULL AND NOT ST_IsEmpty(NEW."geom")) BEGIN INSERT OR REPLACE INTO "rtree_{t}_geom" VALUES (NEW."fid",ST_MinX(NEW."geom"), ST_MaxX(NEW."geom"),ST_MinY(NEW."geom"), ST_MaxY(NEW."geom")); END"#,
    ),
    (
        "update1",
        r#"AFTER UPDATE OF "geom" ON "{t}" WHEN OLD."fid" = NEW."fid" AND (NEW."geom" NOTNULL AND NOT ST_IsEmpty(NEW."geom")) BEGIN INSERT OR REPLACE INTO "rtree_{t}_geom" VALUES (NEW."fid",ST_MinX(NEW."geom"), ST_MaxX(NEW."geom"),ST_MinY(NEW."geom"), ST_MaxY(NEW."geom")); END"#,
    ),
    (
        "update2",
        r#"AFTER UPDATE OF "geom" ON "{t}" WHEN OLD."fid" = NEW."fid" AND (NEW."geom" ISNULL OR ST_IsEmpty(NEW."geom")) BEGIN DELETE FROM "rtree_{t}_geom" WHERE id = OLD."fid"; END"#,
    ),
    (
        "update3",
        r#"AFTER UPDATE ON "{t}" WHEN OLD."fid" != NEW."fid" AND (NEW."geom" NOTNULL AND NOT ST_IsEmpty(NEW."geom")) BEGIN DELETE FROM "rtree_{t}_geom" WHERE id = OLD."fid"; INSERT OR REPLACE INTO "rtree_{t}_geom" VALUES (NEW."fid",ST_MinX(NEW."geom"), ST_MaxX(NEW."geom"),ST_MinY(NEW."geom"), ST_MaxY(NEW."geom")); END"#,
    ),
    (
        "update4",
        r#"AFTER UPDATE ON "{t}" WHEN OLD."fid" != NEW."fid" AND (NEW."geom" ISNULL OR ST_IsEmpty(NEW."geom")) BEGIN DELETE FROM "rtree_{t}_geom" WHERE id IN (OLD."fid", NEW."fid"); END"#,
    ),
    (
        "delete",
        r#"AFTER DELETE ON "{t}" WHEN old."geom" NOT NULL BEGIN DELETE FROM "rtree_{t}_geom" WHERE id = OLD."fid"; END"#,
    ),
];

/// Makes the index of a table that is filled already. The triggers come last: filling would set them off.
pub(super) async fn write(connection: &mut SqliteConnection, layer: &Layer<'_>) -> sqlx::Result<()> {
    let table = layer.collection.id();
    let index = format!("CREATE VIRTUAL TABLE \"rtree_{table}_geom\" USING rtree(id, minx, maxx, miny, maxy)");
    connection.execute(AssertSqlSafe(index)).await?;
    let insert = format!("INSERT INTO \"rtree_{table}_geom\" VALUES (?, ?, ?, ?, ?)");
    for (row, feature) in (1_i64..).zip(layer.features) {
        let Some(geometry) = &feature.geometry else { continue };
        let [west, south, east, north] = flat_box(geometry);
        let query = sqlx::query(AssertSqlSafe(insert.clone())).bind(row);
        query.bind(west).bind(east).bind(south).bind(north).execute(&mut *connection).await?;
    }
    for (name, body) in TRIGGERS {
        let body = body.replace("{t}", table);
        connection.execute(AssertSqlSafe(format!("CREATE TRIGGER \"rtree_{table}_geom_{name}\" {body}"))).await?;
    }
    sqlx::query(REGISTER).bind(table).execute(&mut *connection).await?;
    Ok(())
}
