-- What devices sent and the record did not take, with the reason: nothing that was told is lost. The twin of the file of the same
-- name for the other store.
CREATE TABLE refused (
    digest BYTEA PRIMARY KEY NOT NULL,
    at BIGINT NOT NULL,
    actor TEXT NOT NULL,
    device TEXT NOT NULL,
    why TEXT NOT NULL,
    bytes BIGINT NOT NULL,
    body TEXT NOT NULL
);
CREATE INDEX refused_by_time ON refused (at, digest);
CREATE INDEX refused_by_actor ON refused (actor, bytes);
