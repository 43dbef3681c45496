// Store: the one module that knows the database. Entries, files, reads and what was worked out, kept and looked up.
// In: what the layers above decided to record. Out: the same again, its hashes with it. Every method is one transaction.
// Must not know: what a capture means, how intervals and settlements are worked out, how anything is shown.
// Nothing outside `sqlite/` may depend on SQLite: a server database takes its place by implementing BookStore.
export { BookError, type BookErrorKind } from './book-error.js';
export type {
  BookStore,
  BookTally,
  EntryPieces,
  Evidence,
  GuardState,
  Reads,
  Recording,
  SeenFiles,
  WorkedOutFigures,
} from './book-store.js';
export { canonicalJson, type JsonObject, type JsonValue } from './canonical-json.js';
export type { CaptureOutcome, CaptureToRecord, DuplicateRead, FileFacts, KeptCapture } from './captures.js';
export { CHANGED_NOTE, TABLES_NOTE } from './day-notes.js';
export type {
  BookHead,
  EntriesOutcome,
  Entry,
  EntryKind,
  EntryOutcome,
  EntryQuery,
  EntryToRecord,
} from './entries.js';
export { writeLeafText, writeReadLine } from './leaf-text.js';
export type {
  BookRead,
  KnownOfRead,
  LastReadQuery,
  ReadKey,
  ReadPlace,
  ReadQuery,
  ReadToRecord,
  ReadWindow,
  RecordedRead,
  WorkedOutRead,
} from './reads.js';
export { type OpenBookOptions, openSqliteBook } from './sqlite/open-sqlite-book.js';
export type { BookMachine, BookStep, StaleMachine, StepQuery, StepToKeep, WorkedOut } from './steps.js';
