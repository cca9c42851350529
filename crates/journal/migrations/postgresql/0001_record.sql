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

-- Photos, by the digest of their files; the files lie in the data folder.
CREATE TABLE photo (
    digest BYTEA PRIMARY KEY NOT NULL,
    media_type TEXT NOT NULL,
    size BIGINT NOT NULL,
    received BIGINT NOT NULL,
    finished_at BIGINT,
    lon DOUBLE PRECISION,
    lat DOUBLE PRECISION
);

-- People who may sign in.
CREATE TABLE account (
    id BYTEA PRIMARY KEY NOT NULL,
    name TEXT NOT NULL UNIQUE,
    role TEXT NOT NULL,
    password TEXT,
    crew TEXT NOT NULL DEFAULT '',
    made_at BIGINT NOT NULL,
    closed_at BIGINT
);

-- What lets somebody in: sessions, devices, links that work once. Only digests are kept.
CREATE TABLE pass (
    digest BYTEA PRIMARY KEY NOT NULL,
    kind TEXT NOT NULL,
    account BYTEA,
    name TEXT NOT NULL,
    role TEXT NOT NULL,
    made_at BIGINT NOT NULL,
    ends_at BIGINT NOT NULL,
    used_at BIGINT
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

-- Planning jobs.
CREATE TABLE job (
    id BYTEA PRIMARY KEY NOT NULL,
    kind TEXT NOT NULL,
    state TEXT NOT NULL,
    asked_by TEXT NOT NULL,
    asked_at BIGINT NOT NULL,
    begun_at BIGINT,
    ended_at BIGINT,
    progress DOUBLE PRECISION NOT NULL DEFAULT 0,
    words TEXT NOT NULL DEFAULT '',
    input TEXT NOT NULL,
    output TEXT
);
CREATE INDEX job_by_state ON job (state, asked_at);
