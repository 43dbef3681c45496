/**
 * The book as it begins. What is recorded stands in `entry`, `node`, `blob`, `blob_part` and the recorded part of `read`:
 * rows are added, and triggers refuse everything else. `interval` and the rest of `read` are worked out, `machine` and
 * `seen_file` remembered.
 *
 * Rows refer to their entry before it is there, since the entry's hash covers them: hence the deferred foreign keys. While
 * one is open, a new entry is looked for in every table that refers to entries: only those that are indexed for it do.
 *
 * Hashes are indexed by their first six bytes. Their order is random, so that each new one changes a page of its own: the
 * shorter the keys, the fewer pages there are to be written, and the less a large book is slower than a small one.
 */
const TABLES = `
CREATE TABLE entry (
  seq INTEGER PRIMARY KEY,
  kind TEXT NOT NULL,
  recorded_at TEXT NOT NULL,
  subject TEXT,
  day TEXT,
  key TEXT,
  refers_to INTEGER CHECK (refers_to < seq),
  body TEXT NOT NULL
) STRICT;
CREATE UNIQUE INDEX entry_by_key ON entry (key) WHERE key IS NOT NULL;
CREATE INDEX entry_by_kind ON entry (kind) WHERE kind <> 'capture-taken';
CREATE INDEX entry_by_subject ON entry (subject) WHERE subject IS NOT NULL;
CREATE INDEX entry_by_day ON entry (day) WHERE day IS NOT NULL;
CREATE INDEX entry_by_reference ON entry (refers_to) WHERE refers_to IS NOT NULL;

CREATE TABLE node (
  level INTEGER NOT NULL,
  idx INTEGER NOT NULL,
  hash BLOB NOT NULL,
  PRIMARY KEY (level, idx)
) STRICT, WITHOUT ROWID;

CREATE TABLE blob (
  entry INTEGER PRIMARY KEY REFERENCES entry (seq) DEFERRABLE INITIALLY DEFERRED,
  sha256 BLOB NOT NULL,
  size INTEGER NOT NULL,
  packing INTEGER NOT NULL,
  bytes BLOB NOT NULL
) STRICT;
CREATE INDEX blob_by_sha256 ON blob (substr(sha256, 1, 6));
CREATE TABLE blob_part (
  entry INTEGER NOT NULL REFERENCES blob (entry) DEFERRABLE INITIALLY DEFERRED,
  part INTEGER NOT NULL,
  packing INTEGER NOT NULL,
  bytes BLOB NOT NULL,
  PRIMARY KEY (entry, part)
) STRICT;

CREATE TABLE read (
  entry INTEGER NOT NULL REFERENCES entry (seq) DEFERRABLE INITIALLY DEFERRED,
  number INTEGER NOT NULL,
  asset TEXT,
  serial TEXT,
  board TEXT,
  clock TEXT,
  content BLOB NOT NULL,
  machine TEXT,
  received_at TEXT,
  reason TEXT,
  bag TEXT,
  currency TEXT,
  decimals INTEGER,
  verdict TEXT NOT NULL,
  facts TEXT,
  duplicate_entry INTEGER,
  duplicate_number INTEGER,
  era INTEGER,
  position REAL,
  at TEXT GENERATED ALWAYS AS (coalesce(received_at, clock)) VIRTUAL,
  PRIMARY KEY (entry, number)
) STRICT, WITHOUT ROWID;
CREATE INDEX read_by_content ON read (substr(content, 1, 6));
CREATE INDEX read_by_machine ON read (machine, at);

CREATE TABLE interval (
  entry INTEGER NOT NULL,
  number INTEGER NOT NULL,
  from_entry INTEGER NOT NULL,
  from_number INTEGER NOT NULL,
  currency TEXT,
  decimals INTEGER,
  sold INTEGER,
  value INTEGER,
  severity TEXT,
  body TEXT NOT NULL,
  UNIQUE (entry, number),
  FOREIGN KEY (entry, number) REFERENCES read (entry, number),
  FOREIGN KEY (from_entry, from_number) REFERENCES read (entry, number)
) STRICT;

CREATE TABLE machine (
  key TEXT PRIMARY KEY,
  facts TEXT,
  revision INTEGER NOT NULL DEFAULT 0,
  worked_out INTEGER NOT NULL DEFAULT 0,
  stale_since TEXT
) STRICT, WITHOUT ROWID;

CREATE TABLE seen_file (
  path TEXT PRIMARY KEY,
  size INTEGER NOT NULL,
  modified_ms REAL NOT NULL,
  changed_ms REAL NOT NULL,
  entry INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
`;

const SAME_SHA256 = 'substr(sha256, 1, 6) = substr(NEW.sha256, 1, 6) AND sha256 = NEW.sha256';

/** Each recorded table, with what tells that a row to be added would take the place of one that is there. */
const RECORDED = [
  { table: 'entry', taken: 'NEW.seq <> (SELECT coalesce(max(seq), -1) + 1 FROM entry)', columns: null },
  { table: 'node', taken: isThere('node', 'level = NEW.level AND idx = NEW.idx'), columns: null },
  { table: 'blob', taken: isThere('blob', `entry = NEW.entry OR ${SAME_SHA256}`), columns: null },
  { table: 'blob_part', taken: isThere('blob_part', 'entry = NEW.entry AND part = NEW.part'), columns: null },
  {
    table: 'read',
    taken: isThere('read', 'entry = NEW.entry AND number = NEW.number'),
    columns: 'entry, number, asset, serial, board, clock, content',
  },
] as const;

function isThere(table: string, condition: string): string {
  return `EXISTS (SELECT 1 FROM ${table} WHERE ${condition})`;
}

// INSERT OR REPLACE removes rows without firing DELETE triggers, unless recursive triggers are on: so inserts are guarded too.
const GUARDS = RECORDED.flatMap(({ table, taken, columns }) => [
  { name: `${table}_is_not_removed`, event: `BEFORE DELETE ON ${table}` },
  { name: `${table}_is_not_changed`, event: `BEFORE UPDATE${columns === null ? '' : ` OF ${columns}`} ON ${table}` },
  { name: `${table}_is_only_added`, event: `BEFORE INSERT ON ${table} WHEN ${taken}` },
]);

/** Names of the triggers that keep what is recorded from being changed. */
export const GUARD_NAMES: readonly string[] = GUARDS.map(({ name }) => name);

/** The statements that make an empty database a book of version 1. */
export const SCHEMA_1: string =
  TABLES +
  GUARDS.map(
    ({ name, event }) =>
      `CREATE TRIGGER ${name} ${event} BEGIN SELECT raise(ABORT, 'what is recorded is never changed'); END;`,
  ).join('\n');
