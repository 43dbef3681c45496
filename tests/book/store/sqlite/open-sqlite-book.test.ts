import {
  chmodSync,
  copyFileSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import Database from 'better-sqlite3';
import { beforeAll, describe, expect, it } from 'vitest';
import { openSqliteBook } from '../../../../src/book/store/index.js';
import { buildScript, Child } from '../child-process.js';
import { numberedCapture } from '../numbered-captures.js';
import {
  gather,
  makeCapture,
  makeCount,
  openBook,
  temporaryFolder,
  temporaryPath,
  withDatabase,
} from '../temporary-book.js';

/** A closed book of some captures. */
async function makeFilledBook(count = 3): Promise<string> {
  const path = temporaryPath();
  const book = await openSqliteBook(path, { create: true });
  await book.recordCaptures(Array.from({ length: count }, (_, i) => numberedCapture(i)));
  await book.close();
  return path;
}

/** What another program leaves that opened the file and made it an empty database. */
function emptyDatabase(): Buffer {
  const database = new Database(':memory:');
  database.exec('CREATE TABLE t (a); DROP TABLE t');
  return database.serialize();
}

describe('openSqliteBook', () => {
  it('makes a new book only when told to', async () => {
    const path = temporaryPath();
    await expect(openSqliteBook(path)).rejects.toMatchObject({ kind: 'not-found' });
    await expect(openSqliteBook(path, { isReadOnly: true, create: true })).rejects.toMatchObject({ kind: 'not-found' });
    expect((await openBook(path)).isReadOnly).toBe(false);
    expect(await (await openBook(path, {})).head()).toMatchObject({ size: 0 });
  });

  it('works with a write-ahead log, foreign keys and full synchronisation', async () => {
    const path = await makeFilledBook();
    const mode = await withDatabase(path, (database) => database.pragma('journal_mode', { simple: true }));
    expect(mode).toBe('wal');
    const book = await openBook(path);
    const known = (await gather(book.reads()))[0]!;
    const kept = { layout: '', figures: Buffer.of(1), findings: null, seal: Buffer.of(1) };
    const orphan = { ...kept, from: { entry: 77, number: 0 }, to: known };
    const work = { machine: 'm', asOf: 0, window: [], changed: [], steps: [orphan] };
    await expect(book.workOut([work])).rejects.toThrow('FOREIGN KEY');
  });

  it('makes one book when many open it at the same time', async () => {
    const path = temporaryPath();
    const books = await Promise.all(Array.from({ length: 8 }, () => openBook(path)));
    await Promise.all(books.map((book, i) => book.recordEntries([makeCount(`bag ${i}`)])));
    expect(await books[0]!.head()).toMatchObject({ size: 8 });
  });

  it('waits for a file that another process holds, and gives up in the end with a clear word', async () => {
    const path = await makeFilledBook();
    await withDatabase(path, async (database) => {
      // As it is where another process is about to switch to the log.
      database.pragma('journal_mode = DELETE');
      database.exec('BEGIN IMMEDIATE');
      await expect(openSqliteBook(path, { create: true, waitMs: 50 })).rejects.toMatchObject({ kind: 'busy' });
      const waiting = openBook(path, { create: true, waitMs: 3000 });
      await delay(100);
      database.exec('ROLLBACK');
      expect(await (await waiting).head()).toMatchObject({ size: 3 });
    });
  });

  it.each<[string, (path: string) => void, string]>([
    [
      'a text file',
      (path) => writeFileSync(path, 'DXS*TST0000001*VA*V1/1*1\r\n'.repeat(100)),
      'some other kind of file',
    ],
    ['an empty file', (path) => writeFileSync(path, ''), 'is empty'],
    ['a folder', (path) => mkdirSync(path), 'is a folder'],
  ])('refuses %s and leaves it as it is', async (_, make, message) => {
    const path = temporaryPath();
    make(path);
    const before = statSync(path);
    await expect(openSqliteBook(path)).rejects.toThrow(message);
    expect(statSync(path)).toMatchObject({ size: before.size, mtimeMs: before.mtimeMs });
  });

  it.each([{}, { create: true }, { isReadOnly: true }])(
    'never begins a book anew in a file that lost it: %o',
    async (how) => {
      const path = await makeFilledBook();
      const log = Buffer.from('what was not in the file yet');
      for (const lost of [Buffer.alloc(0), emptyDatabase()]) {
        writeFileSync(path, lost);
        writeFileSync(`${path}-wal`, log);
        const emptied = { kind: 'not-a-book', message: expect.stringContaining('whatever was in it is gone') };
        await expect(openSqliteBook(path, how)).rejects.toMatchObject(emptied);
        expect(readFileSync(path).length).toBe(lost.length);
        if (lost.length === 0) expect(readFileSync(`${path}-wal`)).toEqual(log);
      }
    },
  );

  it('begins none beside the log of one that is gone', async () => {
    const path = temporaryPath();
    writeFileSync(`${path}-wal`, 'what was recorded last');
    const gone = { kind: 'not-a-book', message: expect.stringContaining('its log (-wal) is still there') };
    for (const how of [{}, { create: true }]) await expect(openSqliteBook(path, how)).rejects.toMatchObject(gone);
    expect(readdirSync(join(path, '..'))).toEqual(['test.db-wal']);
  });

  it("makes a new book whole or not at all, its owner's alone, and leaves nothing beside it", async () => {
    const path = temporaryPath();
    await (await openSqliteBook(path, { create: true })).close();
    expect(readdirSync(join(path, '..'))).toEqual(['test.db']);
    expect(statSync(path).mode & 0o777).toBe(0o600);
    // What a process leaves that was killed while it made one.
    const other = temporaryPath();
    writeFileSync(`${other}-new`, 'half a bo');
    utimesSync(`${other}-new`, 1, 1);
    expect(await (await openBook(other)).head()).toMatchObject({ size: 0 });
    expect(readdirSync(join(other, '..')).filter((name) => name.endsWith('-new'))).toEqual([]);
  });

  it('refuses the database of another program and does not touch it', async () => {
    const path = temporaryPath();
    await withDatabase(path, (database) => database.exec('CREATE TABLE recipes (name TEXT)'));
    const before = readFileSync(path);
    await expect(openSqliteBook(path, { create: true })).rejects.toMatchObject({ kind: 'not-a-book' });
    expect(readFileSync(path).equals(before)).toBe(true);
  });

  it('refuses a book of a newer version and does not touch it', async () => {
    const path = await makeFilledBook();
    await withDatabase(path, (database) => database.pragma('user_version = 99'));
    const before = readFileSync(path);
    for (const options of [{}, { create: true }, { isReadOnly: true }]) {
      await expect(openSqliteBook(path, options)).rejects.toMatchObject({
        kind: 'newer-version',
        message: expect.stringContaining('use the later program'),
      });
    }
    expect(readFileSync(path).equals(before)).toBe(true);
  });

  it('does not bring a book up to date that it may only look at', async () => {
    const path = await makeFilledBook();
    await withDatabase(path, (database) => database.pragma('user_version = 0'));
    await expect(openSqliteBook(path, { isReadOnly: true })).rejects.toMatchObject({
      kind: 'older-version',
      message: expect.stringContaining('Open it once for writing'),
    });
  });

  it('says so when the folder is not there', async () => {
    const path = join(temporaryFolder(), 'nowhere', 'test.db');
    await expect(openSqliteBook(path, { create: true })).rejects.toMatchObject({ kind: 'cannot-open' });
  });

  it('shows a name that could steer a terminal harmlessly', async () => {
    await expect(openSqliteBook('\u001b[2J.db')).rejects.toThrow('The book \\x1B[2J.db is not there.');
  });
});

describe('a book that may only be looked at', () => {
  it('shows everything and takes nothing', async () => {
    const path = await makeFilledBook();
    const book = await openBook(path, { isReadOnly: true });
    expect(book.isReadOnly).toBe(true);
    expect(await book.head()).toMatchObject({ size: 3 });
    expect(await gather(book.reads())).toHaveLength(6);
    const refused = { kind: 'read-only', message: expect.stringContaining('Nothing was recorded') };
    await expect(book.recordCaptures([makeCapture('x')])).rejects.toMatchObject(refused);
    await expect(book.recordEntries([makeCount('bag 1')])).rejects.toMatchObject(refused);
    await expect(book.markSeen([{ file: numberedCapture(9).file!, entry: 0 }])).rejects.toMatchObject(refused);
    await expect(book.forgetSteps()).rejects.toMatchObject(refused);
  });
});

// Only the system's own rights can show this, in a process that is not above them.
describe('a book whose file or folder is read-only', () => {
  let script: string;
  beforeAll(async () => {
    script = await buildScript('open-and-record.ts');
  });
  /** What a process of no special rights gets to see. */
  async function tryRecording(path: string): Promise<string | null> {
    const child = new Child(script, [path]);
    return child.nextLine();
  }

  it.skipIf(process.platform === 'win32')('says so, by what it is that refuses', async () => {
    const path = await makeFilledBook();
    const folder = join(path, '..');
    chmodSync(folder, 0o777);
    chmodSync(path, 0o666);
    expect(await tryRecording(path)).toBe('recorded');
    chmodSync(path, 0o444);
    expect(await tryRecording(path)).toMatch(/^read-only: The book .+ can not be written/);
    chmodSync(path, 0o000);
    expect(await tryRecording(path)).toMatch(/^cannot-open: The book .+ could not be opened/);
    chmodSync(path, 0o666);
    chmodSync(folder, 0o555);
    expect(await tryRecording(path)).toMatch(/^(read-only|cannot-open): The book /);
    chmodSync(folder, 0o755);
  });
});

describe('a disk that is full', () => {
  it('stops recording with a clear word, keeps what was there, and goes on when there is room', async () => {
    const path = temporaryPath();
    const small = await openBook(path, { create: true, largestBytes: 300_000 });
    let recorded = 0;
    const fill = async (): Promise<void> => {
      for (; recorded < 500; recorded++) await small.recordCaptures([numberedCapture(recorded)]);
    };
    await expect(fill()).rejects.toMatchObject({
      kind: 'disk-full',
      message: expect.stringContaining('Nothing was half recorded. Make room and run the same again.'),
    });
    expect(recorded).toBeGreaterThan(10);
    expect(await small.head()).toMatchObject({ size: recorded });
    expect(statSync(path).size).toBeLessThanOrEqual(300_000);
    await small.close();
    const roomy = await openBook(path);
    expect(await roomy.recordCaptures([numberedCapture(0), numberedCapture(recorded)])).toEqual([
      { state: 'already', entry: 0 },
      { state: 'recorded', entry: recorded, duplicates: expect.anything() },
    ]);
  });

  it('is told also where not even a new book fits', async () => {
    const path = temporaryPath();
    await expect(openSqliteBook(path, { create: true, largestBytes: 10_000 })).rejects.toMatchObject({
      kind: 'disk-full',
    });
    expect(await (await openBook(path)).head()).toMatchObject({ size: 0 });
  });
});

describe('a damaged file', () => {
  const PAGE = 4096;

  it('is told as damage, on whichever page it is, or shown as it was', async () => {
    const path = await makeFilledBook(60);
    const good = readFileSync(path);
    const pages = good.length / PAGE;
    expect(pages).toBeGreaterThan(20);
    let damages = 0;
    for (let page = 0; page < pages; page++) {
      const bad = join(temporaryFolder(), 'bad.db');
      copyFileSync(path, bad);
      const bytes = Buffer.from(good);
      // The header of a page, in the first one after that of the file.
      bytes.fill(0xa5, page * PAGE + (page === 0 ? 100 : 0), page * PAGE + (page === 0 ? 112 : 12));
      writeFileSync(bad, bytes);
      const kind = await lookThrough(bad);
      expect(['corrupted', 'whole']).toContain(kind);
      if (kind === 'corrupted') damages++;
    }
    expect(damages).toBeGreaterThan(10);
  });

  /** Look at all that a book holds; gives how that went. */
  async function lookThrough(path: string): Promise<string> {
    try {
      const book = await openBook(path, {});
      for await (const { seq } of book.entries()) await book.piecesOf(seq);
      await gather(book.reads());
      for (let i = 0; i < 60; i++) await book.bytesOf(numberedCapture(i).sha256);
      return 'whole';
    } catch (error) {
      return (error as { kind?: string }).kind ?? String(error);
    }
  }

  it('is told as damage when it was cut short', async () => {
    const path = await makeFilledBook(60);
    writeFileSync(path, readFileSync(path).subarray(0, 10 * PAGE + 17));
    expect(await lookThrough(path)).toBe('corrupted');
  });

  it('is told as no book when its first bytes are gone', async () => {
    const path = await makeFilledBook();
    const bytes = readFileSync(path);
    bytes.fill(0, 0, 100);
    writeFileSync(path, bytes);
    expect(await lookThrough(path)).toBe('not-a-book');
  });
});
