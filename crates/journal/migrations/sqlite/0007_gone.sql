-- Of what something was known once and nothing is any more, and since when: whoever keeps a copy throws it away. A row counts
-- while `known` has none of the same subject. The twin of the file of the same name for the other store.
CREATE TABLE gone (
    subject BLOB NOT NULL PRIMARY KEY,
    what TEXT NOT NULL,
    position INTEGER NOT NULL
);
CREATE INDEX gone_by_change ON gone (what, position);
