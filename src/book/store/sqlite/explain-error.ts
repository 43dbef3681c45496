import { BookError, type BookErrorKind } from '../book-error.js';
import { sqliteCode } from './connection.js';

interface Explanation {
  readonly kind: BookErrorKind;
  /** What is the case and what to do, after the book's name. */
  readonly text: string;
}

const CORRUPTED: Explanation = {
  kind: 'corrupted',
  text:
    'is damaged: what is stored in it can not be what was written. Keep the file as it is, verify the book, and go on ' +
    'from the last copy of it that verifies.',
};
const DISK_FAILED: Explanation = {
  kind: 'disk-failed',
  text: 'could not be read or written: the disk, its quota or the connection to it failed. Nothing was half recorded.',
};

/** By the database's result code, the most particular first. */
const EXPLANATIONS: readonly (readonly [prefix: string, Explanation])[] = [
  [
    'SQLITE_NOTADB',
    { kind: 'not-a-book', text: 'is not a book: it is some other kind of file. It was left as it is.' },
  ],
  ['SQLITE_CORRUPT', CORRUPTED],
  ['SQLITE_IOERR_CORRUPTFS', CORRUPTED],
  ['SQLITE_IOERR_SHORT_READ', CORRUPTED],
  ['SQLITE_IOERR', DISK_FAILED],
  [
    'SQLITE_FULL',
    {
      kind: 'disk-full',
      text: 'could not grow: the disk is full. Nothing was half recorded. Make room and run the same again.',
    },
  ],
  [
    'SQLITE_READONLY',
    {
      kind: 'read-only',
      text: 'can not be written: the file, its folder or the disk is read-only. Nothing was recorded.',
    },
  ],
  ['SQLITE_BUSY', { kind: 'busy', text: 'was held by another process for too long. Run the same again later.' }],
  ['SQLITE_LOCKED', { kind: 'busy', text: 'was held by another process for too long. Run the same again later.' }],
  [
    'SQLITE_CANTOPEN',
    {
      kind: 'cannot-open',
      text: 'could not be opened: it is a folder, or this user may not read it or write in the folder it lies in.',
    },
  ],
  ['SQLITE_CONSTRAINT_TRIGGER', { kind: 'refused', text: 'refused to change what is recorded. Nothing was changed.' }],
];

/**
 * An error of the database as a {@link BookError}. Any other error is a defect, and comes back as it is.
 *
 * @param name - what the book is called in messages
 */
export function explainError(error: unknown, name: string): unknown {
  const code = sqliteCode(error);
  const found = EXPLANATIONS.find(([prefix]) => code?.startsWith(prefix));
  if (found === undefined) return error;
  const [, { kind, text }] = found;
  return new BookError(kind, `${name} ${text}`, { cause: error });
}
