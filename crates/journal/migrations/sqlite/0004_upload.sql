-- What was sent to be worked on as a job, in parts, until that is done. The twin of the file of the same name for the other store.
CREATE TABLE upload (
    job BLOB NOT NULL,
    part INTEGER NOT NULL,
    at INTEGER NOT NULL,
    content BLOB NOT NULL,
    PRIMARY KEY (job, part)
);
