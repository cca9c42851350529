-- What devices sent and the record did not take, with the reason: nothing that was told is lost. The twin of the file of the same
-- name for the other store.
CREATE TABLE refused (
    digest BLOB PRIMARY KEY NOT NULL,
    at INTEGER NOT NULL,
    actor TEXT NOT NULL,
    device TEXT NOT NULL,
    why TEXT NOT NULL,
    bytes INTEGER NOT NULL,
    body TEXT NOT NULL
) WITHOUT ROWID;
CREATE INDEX refused_by_time ON refused (at, digest);
CREATE INDEX refused_by_actor ON refused (actor, bytes);
