/**
 * What was worked out is kept so that it need not be worked out again each night: what checks found of a read (in `facts`),
 * what happened from read to read (`step`), each with a digest of what it rests on. The time of a read is stored, since it
 * may be one that its reader appended. Of what is recorded nothing changes; everything is worked out once more.
 */
export const SCHEMA_2 = `
DROP INDEX read_by_machine;
ALTER TABLE read DROP COLUMN at;
ALTER TABLE read ADD COLUMN at TEXT;
ALTER TABLE read ADD COLUMN rests BLOB;
UPDATE read SET at = coalesce(received_at, clock);
CREATE INDEX read_by_machine ON read (machine, at);

DROP TABLE interval;
CREATE TABLE layout (
  id INTEGER PRIMARY KEY,
  hash BLOB NOT NULL,
  body TEXT NOT NULL
) STRICT;
CREATE INDEX layout_by_hash ON layout (hash);
CREATE TABLE step (
  entry INTEGER NOT NULL,
  number INTEGER NOT NULL,
  from_entry INTEGER NOT NULL,
  from_number INTEGER NOT NULL,
  layout INTEGER NOT NULL REFERENCES layout (id),
  figures BLOB NOT NULL,
  findings TEXT,
  seal BLOB NOT NULL,
  PRIMARY KEY (entry, number),
  FOREIGN KEY (entry, number) REFERENCES read (entry, number),
  FOREIGN KEY (from_entry, from_number) REFERENCES read (entry, number)
) STRICT, WITHOUT ROWID;
CREATE INDEX step_by_from ON step (from_entry, from_number);

CREATE TABLE note (
  key TEXT PRIMARY KEY,
  value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

UPDATE machine SET revision = revision + 1, stale_since = NULL;
`;
