-- What was sent to be worked on as a job, in parts, until that is done. The twin of the file of the same name for the other store.
CREATE TABLE upload (
    job BYTEA NOT NULL,
    part BIGINT NOT NULL,
    at BIGINT NOT NULL,
    content BYTEA NOT NULL,
    PRIMARY KEY (job, part)
);
