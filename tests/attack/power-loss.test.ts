import { copyFileSync, existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { BookError, type BookHead, type BookStore, openSqliteBook } from '../../src/book/store/index.js';
import { verifyBook } from '../../src/book/verify-book.js';
import { numberedCapture } from '../book/store/numbered-captures.js';
import { openBook, temporaryFolder, temporaryPath } from '../book/store/temporary-book.js';

// What a disk may hold after a loss of power: the log up to any byte, its last part torn, pages of the file old or new while
// they are copied from the log. SQLite, "Write-Ahead Logging" and "File Format": a header of 32 bytes, then frames of 24 bytes
// and a page each; a frame counts when its checksum fits and a commit frame follows.
const WAL_HEADER = 32;
const PAGE = 4096;
const FRAME = 24 + PAGE;
const CAPTURES = 24;

interface Written {
  readonly path: string;
  /** The head after each transaction, and how long the log was then. */
  readonly steps: readonly { readonly head: BookHead; readonly logged: number }[];
}

/** A book of some transactions, all of them in the log and none in the file yet, held open so that it stays so. */
async function writeInLog(): Promise<Written & { readonly book: BookStore }> {
  const path = temporaryPath();
  const book = await openBook(path);
  const steps = [{ head: await book.head(), logged: 0 }];
  for (let i = 0; i < CAPTURES; i += 2) {
    await book.recordCaptures([numberedCapture(i), numberedCapture(i + 1)]);
    steps.push({ head: await book.head(), logged: statSync(`${path}-wal`).size });
  }
  return { book, path, steps };
}

/** Lay a file and a log as a disk may have them, open the book, verify it, and give its head; or what it is said to be. */
async function openAfter(file: Uint8Array, log: Uint8Array | null): Promise<BookHead | string> {
  const path = join(temporaryFolder(), 'after.db');
  writeFileSync(path, file);
  if (log !== null) writeFileSync(`${path}-wal`, log);
  try {
    const book = await openSqliteBook(path);
    try {
      const { fault, head } = await verifyBook(book);
      return fault === null ? head : fault.kind;
    } finally {
      await book.close();
    }
  } catch (error) {
    if (error instanceof BookError) return error.kind;
    throw error;
  }
}

describe('a loss of power', () => {
  it('at any byte of the log leaves the book at its last whole entry', { timeout: 300_000 }, async () => {
    const { path, steps } = await writeInLog();
    const [file, log] = [readFileSync(path), readFileSync(`${path}-wal`)];
    const frames = Math.floor((log.length - WAL_HEADER) / FRAME);
    expect(frames).toBeGreaterThan(CAPTURES);
    const cuts = new Set<number>([0, 1, WAL_HEADER - 1]);
    for (let frame = 0; frame <= frames; frame += 1) {
      const at = WAL_HEADER + frame * FRAME;
      for (const cut of [at, at + 11, at + FRAME - 1]) if (cut <= log.length) cuts.add(cut);
    }
    const reached = new Set<number>();
    for (const cut of cuts) {
      const head = await openAfter(file, log.subarray(0, cut));
      const expected = steps.findLast(({ logged }) => logged <= cut)!.head;
      expect([cut, head]).toEqual([cut, expected]);
      reached.add(expected.size);
    }
    expect([...reached].sort((a, b) => a - b)).toEqual(steps.map(({ head }) => head.size));
  });

  it('that tears the last frames, or leaves old bytes in them, does the same', { timeout: 300_000 }, async () => {
    const { path, steps } = await writeInLog();
    const [file, log] = [readFileSync(path), readFileSync(`${path}-wal`)];
    const last = steps.at(-2)!;
    for (const fill of [0x00, 0xff, 0x5a]) {
      // A sector that was not written in any frame of the last transaction.
      for (let at = last.logged; at < log.length; at += 512) {
        const torn = Buffer.from(log);
        torn.fill(fill, at, Math.min(log.length, at + 512));
        if (torn.equals(log)) continue;
        expect([fill, at, await openAfter(file, torn)]).toEqual([fill, at, last.head]);
      }
    }
  });

  it('while the log is copied into the file is made good from the log', { timeout: 300_000 }, async () => {
    const { book, path, steps } = await writeInLog();
    const [before, log] = [readFileSync(path), readFileSync(`${path}-wal`)];
    const copy = join(temporaryFolder(), 'whole.db');
    copyFileSync(path, copy);
    copyFileSync(`${path}-wal`, `${copy}-wal`);
    await (await openSqliteBook(copy)).close();
    expect(existsSync(`${copy}-wal`)).toBe(false);
    const after = readFileSync(copy);
    for (let pages = 0; pages <= after.length / PAGE; pages += 3) {
      const mixed = Buffer.from(after);
      before.copy(mixed, 0, 0, Math.min(before.length, pages * PAGE));
      // The page that was being written: half of it is new.
      mixed.fill(0xa5, pages * PAGE + PAGE / 2, (pages + 1) * PAGE);
      expect([pages, await openAfter(mixed, log)]).toEqual([pages, steps.at(-1)!.head]);
    }
    await book.close();
  });

  it('on a disk that lied about what it had written is told, and nothing is gone unseen by whoever noted the head', async () => {
    const { book, path, steps } = await writeInLog();
    await book.close();
    const whole = readFileSync(path);
    const { head } = steps.at(-1)!;
    for (let page = 1; page < whole.length / PAGE; page++) {
      const torn = Buffer.from(whole);
      torn.fill(0, page * PAGE, (page + 1) * PAGE);
      const outcome = await openAfter(torn, null);
      // Of indexes and of what is worked out alone a page may go: no entry is of them.
      if (typeof outcome === 'object') expect([page, outcome]).toEqual([page, head]);
      else
        expect([page, ['corrupted', 'unreadable', 'missing', 'altered', 'bytes', 'reads', 'tree', 'surplus']]).toEqual([
          page,
          expect.arrayContaining([outcome]),
        ]);
    }
    // The log gone before it was in the file: what is left is whole in itself, and only the head noted tells.
    const lost = temporaryPath();
    const early = await writeInLog();
    copyFileSync(early.path, lost);
    const left = await openSqliteBook(lost);
    const { fault } = await verifyBook(left, { noted: early.steps.at(-1)!.head });
    expect(fault?.kind).toBe('missing');
    await left.close();
  });
});
