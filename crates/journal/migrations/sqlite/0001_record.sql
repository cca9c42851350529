-- What happened, and what is known from it. The twin of the file of the same name for the other store.

-- The last link of each chain of digests.
CREATE TABLE head (
    chain TEXT PRIMARY KEY NOT NULL,
    position INTEGER NOT NULL,
    digest BLOB NOT NULL
);
INSERT INTO head (chain, position, digest) VALUES ('event', 0, zeroblob(32)), ('audit', 0, zeroblob(32));

-- Events, as they were told. Never changed, never deleted. Times are microseconds since 1970, UTC.
CREATE TABLE event (
    position INTEGER PRIMARY KEY NOT NULL,
    id BLOB NOT NULL UNIQUE,
    happened_at INTEGER NOT NULL,
    server_time INTEGER NOT NULL,
    actor TEXT NOT NULL,
    device TEXT NOT NULL,
    kind TEXT NOT NULL,
    body TEXT NOT NULL,
    digest BLOB NOT NULL
);

-- Which events are about what. A correction is about what it corrects as well.
CREATE TABLE event_subject (
    subject BLOB NOT NULL,
    position INTEGER NOT NULL,
    PRIMARY KEY (subject, position)
) WITHOUT ROWID;

-- What is known of each subject, from its events; can be made anew at any time.
CREATE TABLE known (
    subject BLOB PRIMARY KEY NOT NULL,
    what TEXT NOT NULL,
    state TEXT NOT NULL,
    lon REAL,
    lat REAL,
    last_told INTEGER NOT NULL,
    position INTEGER NOT NULL,
    body TEXT NOT NULL
) WITHOUT ROWID;
CREATE INDEX known_by_what ON known (what, subject);
CREATE INDEX known_by_place ON known (what, lat, lon);
CREATE INDEX known_by_change ON known (what, position);

-- Where reporters can be reached: kept apart from the record, forgotten when its time is over.
CREATE TABLE contact (
    id BLOB PRIMARY KEY NOT NULL,
    body TEXT NOT NULL,
    taken_at INTEGER NOT NULL,
    forget_at INTEGER NOT NULL
);
CREATE INDEX contact_by_end ON contact (forget_at);

-- Photos, by the digest of their files; the files lie in the data folder. Finished at 0: not all of it has come yet.
CREATE TABLE photo (
    digest BLOB PRIMARY KEY NOT NULL,
    media_type TEXT NOT NULL,
    size INTEGER NOT NULL,
    finished_at INTEGER NOT NULL DEFAULT 0
);

-- People who may sign in. No password: not yet. Closed at 0: open.
CREATE TABLE account (
    id BLOB PRIMARY KEY NOT NULL,
    name TEXT NOT NULL UNIQUE,
    role TEXT NOT NULL,
    password TEXT NOT NULL DEFAULT '',
    crew TEXT NOT NULL DEFAULT '',
    made_at INTEGER NOT NULL,
    closed_at INTEGER NOT NULL DEFAULT 0
);

-- What lets somebody in: sessions, devices, links that work once. Only digests are kept. Used at 0: not yet.
CREATE TABLE pass (
    digest BLOB PRIMARY KEY NOT NULL,
    kind TEXT NOT NULL,
    account BLOB NOT NULL,
    name TEXT NOT NULL,
    made_at INTEGER NOT NULL,
    ends_at INTEGER NOT NULL,
    used_at INTEGER NOT NULL DEFAULT 0
);
CREATE INDEX pass_by_end ON pass (ends_at);
CREATE INDEX pass_by_account ON pass (account);

-- Who did what with the program, chained like the events.
CREATE TABLE audit (
    position INTEGER PRIMARY KEY NOT NULL,
    at INTEGER NOT NULL,
    body TEXT NOT NULL,
    digest BLOB NOT NULL
);

-- Long work that was asked for. Times of 0: not yet.
CREATE TABLE job (
    id BLOB PRIMARY KEY NOT NULL,
    kind TEXT NOT NULL,
    state TEXT NOT NULL,
    asked_by TEXT NOT NULL,
    asked_at INTEGER NOT NULL,
    held_until INTEGER NOT NULL DEFAULT 0,
    tries INTEGER NOT NULL DEFAULT 0,
    ended_at INTEGER NOT NULL DEFAULT 0,
    progress REAL NOT NULL DEFAULT 0,
    words TEXT NOT NULL DEFAULT '',
    input TEXT NOT NULL,
    output TEXT NOT NULL DEFAULT ''
);
CREATE INDEX job_by_state ON job (state, asked_at);
