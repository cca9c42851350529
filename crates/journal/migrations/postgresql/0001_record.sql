-- What happened, and what is known from it. The twin of the file of the same name for the other store.

-- The last link of each chain of digests.
CREATE TABLE head (
    chain TEXT PRIMARY KEY NOT NULL,
    position BIGINT NOT NULL,
    digest BYTEA NOT NULL
);
INSERT INTO head (chain, position, digest) VALUES ('event', 0, decode(repeat('00', 32), 'hex')), ('audit', 0, decode(repeat('00', 32), 'hex'));

-- Events, as they were told. Never changed, never deleted. Times are microseconds since 1970, UTC.
CREATE TABLE event (
    position BIGINT PRIMARY KEY NOT NULL,
    id BYTEA NOT NULL UNIQUE,
    happened_at BIGINT NOT NULL,
    server_time BIGINT NOT NULL,
    actor TEXT NOT NULL,
    device TEXT NOT NULL,
    kind TEXT NOT NULL,
    body TEXT NOT NULL,
    digest BYTEA NOT NULL
);

-- Which events are about what. A correction is about what it corrects as well.
CREATE TABLE event_subject (
    subject BYTEA NOT NULL,
    position BIGINT NOT NULL,
    PRIMARY KEY (subject, position)
);

-- What is known of each subject, from its events; can be made anew at any time.
CREATE TABLE known (
    subject BYTEA PRIMARY KEY NOT NULL,
    what TEXT NOT NULL,
    state TEXT NOT NULL,
    lon DOUBLE PRECISION,
    lat DOUBLE PRECISION,
    last_told BIGINT NOT NULL,
    position BIGINT NOT NULL,
    body TEXT NOT NULL
);
CREATE INDEX known_by_what ON known (what, subject);
CREATE INDEX known_by_place ON known (what, lat, lon);
CREATE INDEX known_by_change ON known (what, position);

-- Where reporters can be reached: kept apart from the record, forgotten when its time is over.
CREATE TABLE contact (
    id BYTEA PRIMARY KEY NOT NULL,
    body TEXT NOT NULL,
    taken_at BIGINT NOT NULL,
    forget_at BIGINT NOT NULL
);
CREATE INDEX contact_by_end ON contact (forget_at);

-- Photos, by the digest of their files; the files lie in the data folder. Finished at 0: not all of it has come yet.
CREATE TABLE photo (
    digest BYTEA PRIMARY KEY NOT NULL,
    media_type TEXT NOT NULL,
    size BIGINT NOT NULL,
    finished_at BIGINT NOT NULL DEFAULT 0
);

-- People who may sign in. No password: not yet. Closed at 0: open.
CREATE TABLE account (
    id BYTEA PRIMARY KEY NOT NULL,
    name TEXT NOT NULL UNIQUE,
    role TEXT NOT NULL,
    password TEXT NOT NULL DEFAULT '',
    crew TEXT NOT NULL DEFAULT '',
    made_at BIGINT NOT NULL,
    closed_at BIGINT NOT NULL DEFAULT 0
);

-- What lets somebody in: sessions, devices, links that work once. Only digests are kept. Used at 0: not yet.
CREATE TABLE pass (
    digest BYTEA PRIMARY KEY NOT NULL,
    kind TEXT NOT NULL,
    account BYTEA NOT NULL,
    name TEXT NOT NULL,
    made_at BIGINT NOT NULL,
    ends_at BIGINT NOT NULL,
    used_at BIGINT NOT NULL DEFAULT 0
);
CREATE INDEX pass_by_end ON pass (ends_at);
CREATE INDEX pass_by_account ON pass (account);

-- Who did what with the program, chained like the events.
CREATE TABLE audit (
    position BIGINT PRIMARY KEY NOT NULL,
    at BIGINT NOT NULL,
    body TEXT NOT NULL,
    digest BYTEA NOT NULL
);

-- Long work that was asked for. Times of 0: not yet.
CREATE TABLE job (
    id BYTEA PRIMARY KEY NOT NULL,
    kind TEXT NOT NULL,
    state TEXT NOT NULL,
    asked_by TEXT NOT NULL,
    asked_at BIGINT NOT NULL,
    held_until BIGINT NOT NULL DEFAULT 0,
    tries BIGINT NOT NULL DEFAULT 0,
    ended_at BIGINT NOT NULL DEFAULT 0,
    progress DOUBLE PRECISION NOT NULL DEFAULT 0,
    words TEXT NOT NULL DEFAULT '',
    input TEXT NOT NULL,
    output TEXT NOT NULL DEFAULT ''
);
CREATE INDEX job_by_state ON job (state, asked_at);
