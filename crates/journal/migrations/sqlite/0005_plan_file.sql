-- Files of a crew's day, made with a plan, and the plan that was taken last for each round. The twin of the file of the same name
-- for the other store.
CREATE TABLE plan_file (
    job BLOB NOT NULL,
    round BLOB NOT NULL,
    name TEXT NOT NULL,
    media_type TEXT NOT NULL,
    at INTEGER NOT NULL,
    size INTEGER NOT NULL,
    digest BLOB NOT NULL,
    content BLOB NOT NULL,
    PRIMARY KEY (job, round, name)
);
CREATE TABLE taken_plan (
    round BLOB NOT NULL PRIMARY KEY,
    job BLOB NOT NULL,
    at INTEGER NOT NULL
);
CREATE INDEX taken_plan_by_job ON taken_plan (job);
