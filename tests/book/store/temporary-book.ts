import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach } from 'vitest';
import {
  type BookStore,
  type CaptureToRecord,
  type EntryToRecord,
  type OpenBookOptions,
  openSqliteBook,
  type ReadToRecord,
} from '../../../src/book/store/index.js';

/** When everything in these tests is recorded. */
export const RECORDED_AT = '2026-11-24T22:15:00.000Z';

const opened: BookStore[] = [];
const folders: string[] = [];

afterEach(async () => {
  for (const book of opened.splice(0)) await book.close();
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** A folder that is gone after the test. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'coilbook-'));
  folders.push(folder);
  return folder;
}

/** A path for a book that is gone after the test. */
export const temporaryPath = (): string => join(temporaryFolder(), 'test.db');

/** A book that is closed after the test; new where nothing is at the path. */
export async function openBook(
  path = temporaryPath(),
  options: OpenBookOptions = { create: true },
): Promise<BookStore> {
  const book = await openSqliteBook(path, options);
  opened.push(book);
  return book;
}

/** The database of a book, opened behind the book's back. */
export async function withDatabase<T>(path: string, work: (database: Database.Database) => T | Promise<T>): Promise<T> {
  const database = new Database(path);
  try {
    return await work(database);
  } finally {
    database.close();
  }
}

/** SHA-256 in lower-case hex. */
export const sha256Of = (bytes: Uint8Array | string): string => createHash('sha256').update(bytes).digest('hex');

/** A read, told by its content. */
export function makeRead(content: string, changes: Partial<ReadToRecord> = {}): ReadToRecord {
  const { clock = '2026-11-24T10:15:00', receivedAt = null } = changes;
  return {
    number: 0,
    asset: 'A-1',
    serial: 'S-1',
    board: 'B-1',
    clock: '2026-11-24T10:15:00',
    content: sha256Of(content),
    machine: 'machine M-1',
    receivedAt: null,
    reason: null,
    bag: null,
    currency: 'EUR',
    decimals: 2,
    verdict: 'sound',
    at: receivedAt ?? clock,
    rests: null,
    facts: null,
    ...changes,
  };
}

/** A file to be recorded, told by its text, with one read of the same content. */
export function makeCapture(text: string, changes: Partial<CaptureToRecord> = {}): CaptureToRecord {
  const bytes = Buffer.from(text, 'latin1');
  return {
    kind: 'capture-taken',
    recordedAt: RECORDED_AT,
    name: `${text.slice(0, 20)}.dex`,
    sha256: sha256Of(bytes),
    size: bytes.length,
    bytes,
    facts: {},
    reads: [makeRead(text)],
    file: null,
    ...changes,
  };
}

/** A bag that was counted. */
export const makeCount = (key: string, changes: Partial<EntryToRecord> = {}): EntryToRecord => ({
  kind: 'count-entered',
  recordedAt: RECORDED_AT,
  subject: 'machine M-1',
  day: '2026-11-24',
  key,
  body: { bag: key, coins: 1250, bills: 2000 },
  ...changes,
});

/** All that a stream gives. */
export async function gather<T>(stream: AsyncIterable<T>): Promise<T[]> {
  const all: T[] = [];
  for await (const each of stream) all.push(each);
  return all;
}
