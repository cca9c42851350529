-- Files of a crew's day, made with a plan, and the plan that was taken last for each round. The twin of the file of the same name
-- for the other store.
CREATE TABLE plan_file (
    job BYTEA NOT NULL,
    round BYTEA NOT NULL,
    name TEXT NOT NULL,
    media_type TEXT NOT NULL,
    at BIGINT NOT NULL,
    size BIGINT NOT NULL,
    digest BYTEA NOT NULL,
    content BYTEA NOT NULL,
    PRIMARY KEY (job, round, name)
);
CREATE TABLE taken_plan (
    round BYTEA NOT NULL PRIMARY KEY,
    job BYTEA NOT NULL,
    at BIGINT NOT NULL
);
CREATE INDEX taken_plan_by_job ON taken_plan (job);
