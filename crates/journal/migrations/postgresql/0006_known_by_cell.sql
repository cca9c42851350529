-- What is known is found by the cell of its place, see `cell.rs`, not by the place itself: fewer pages are written. The twin of
-- the file of the same name for the other store.
DROP INDEX known_by_place;
CREATE INDEX known_by_cell ON known (
    what,
    (CAST(FLOOR((LEAST(GREATEST(lat, -90.0), 90.0) + 90.0) * 20.0) AS BIGINT) * 10000
        + CAST(FLOOR((LEAST(GREATEST(lon, -180.0), 180.0) + 180.0) * 20.0) AS BIGINT)),
    subject,
    lat,
    lon
);
