import { chmodSync, constants, copyFileSync, mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Connection, SqliteLibrary } from './connection.js';

/** What belongs to a book: the file itself, its log, and the journal of a change that was cut off. */
const PIECES = ['', '-wal', '-journal'];
const ATTEMPTS = 5;

/** A copy of a book that only this process sees. */
export interface PrivateCopy {
  readonly connection: Connection;
  /** Take away what is left of the copy, once it is closed. */
  readonly discard: () => void;
}

/**
 * Open a copy of a book that lies where nothing may be written: on archived media, in an auditor's folder. A book with a
 * write-ahead log can be read in its own place only where SQLite may put a file beside it, or finds one.
 *
 * @param prepare - what is to be done with the copy while it can still be written
 * @throws the system's error when it can not be copied
 */
export function openPrivateCopy(
  library: SqliteLibrary,
  path: string,
  prepare: (connection: Connection) => void,
): PrivateCopy {
  const folder = mkdtempSync(join(tmpdir(), 'coilbook-'));
  const discard = (): void => rmSync(folder, { recursive: true, force: true });
  try {
    const copy = join(folder, 'copy.db');
    copyAtOneMoment(path, copy);
    const writable = new library(copy);
    try {
      // Takes what is in the log into the file.
      writable.pragma('journal_mode = DELETE');
      prepare(writable);
    } finally {
      writable.close();
    }
    const connection = new library(copy, { readonly: true });
    connection.pragma('schema_version');
    // An open file goes on without its name: nothing is left over, even when this process is killed.
    if (process.platform !== 'win32') discard();
    return { connection, discard };
  } catch (error) {
    discard();
    throw error;
  }
}

/** Copy a book and what belongs to it, all as it was at one moment: another process may be writing. */
function copyAtOneMoment(path: string, copy: string): void {
  for (let attempt = 1; ; attempt++) {
    const before = describe(path);
    for (const end of PIECES) {
      rmSync(copy + end, { force: true });
      if (statSync(path + end, { throwIfNoEntry: false }) !== undefined) {
        copyFileSync(path + end, copy + end, constants.COPYFILE_FICLONE);
        // A copy has the rights of what was copied, which may be for reading only.
        chmodSync(copy + end, 0o600);
      }
    }
    if (describe(path) === before || attempt === ATTEMPTS) return;
  }
}

function describe(path: string): string {
  const facts = PIECES.map((end) => statSync(path + end, { throwIfNoEntry: false, bigint: true }));
  return facts.map((one) => (one === undefined ? '-' : `${one.size} ${one.mtimeNs} ${one.ino}`)).join('\n');
}
