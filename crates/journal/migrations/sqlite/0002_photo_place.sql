-- Where a photo was taken, as its camera wrote into the file: a place as JSON, or nothing. Only photos that have come whole have a row.
ALTER TABLE photo ADD COLUMN place TEXT NOT NULL DEFAULT '';
