import type Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { hashLeaf } from '../../src/book/merkle/index.js';
import { type BookStore, writeLeafText } from '../../src/book/store/index.js';
import { type VerifyOptions, verifyBook } from '../../src/book/verify-book.js';
import {
  makeCapture,
  makeCount,
  makeRead,
  openBook,
  RECORDED_AT,
  sha256Of,
  temporaryPath,
  withDatabase,
} from './store/temporary-book.js';

const LARGE = Buffer.from('PA2*12*1800*3*450\r\n'.repeat(5000), 'latin1');

/** A file of its own kind at each entry; number 4 is a file of three parts. */
async function fill(book: BookStore): Promise<void> {
  await book.recordCaptures([
    makeCapture('zero'),
    makeCapture('one', { kind: 'set-aside', reads: [] }),
    makeCapture('two', { reads: [makeRead('two'), makeRead('two b', { number: 1 })] }),
  ]);
  await book.recordEntries([makeCount('bag 1')]);
  const parts = [LARGE.subarray(0, 70_000), LARGE.subarray(70_000, 80_000), LARGE.subarray(80_000)];
  await book.recordCaptures([
    { ...makeCapture('four'), sha256: sha256Of(LARGE), size: LARGE.length, bytes: parts },
    makeCapture('huge', { kind: 'set-aside', bytes: null, reads: [] }),
    makeCapture('one'),
  ]);
  await book.recordEntries([
    { kind: 'count-corrected', recordedAt: RECORDED_AT, refersTo: 3, body: { coins: 1300 } },
    makeCount('bag 2'),
  ]);
}

async function makeFilledBook(): Promise<string> {
  const path = temporaryPath();
  await fill(await openBook(path));
  return path;
}

/** What verifying shows after someone was at the database, the guards out of the way. */
async function verifyAfter(change: (database: Database.Database) => void, options: VerifyOptions = {}) {
  const path = await makeFilledBook();
  await withDatabase(path, (database) => {
    const guards = database.prepare(`SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'`).all() as {
      name: string;
      sql: string;
    }[];
    database.pragma('foreign_keys = OFF');
    for (const { name } of guards) database.exec(`DROP TRIGGER ${name}`);
    change(database);
    // Put back, so that only what was changed tells.
    for (const { sql } of guards) database.exec(sql);
  });
  return verifyBook(await openBook(path), options);
}

describe('verifyBook', () => {
  it('finds nothing wrong with a book that was left alone, and works out the same head', async () => {
    const book = await openBook(await makeFilledBook());
    const head = await book.head();
    expect(await verifyBook(book)).toEqual({
      head,
      fault: null,
      missingGuards: [],
      alteredGuards: [],
      unknownGuards: [],
    });
    expect(await verifyBook(book, { noted: head })).toMatchObject({ fault: null });
    expect(head.size).toBe(9);
    expect((await verifyBook(await openBook())).fault).toBeNull();
  });

  it('tells how far it is', async () => {
    const steps: number[][] = [];
    await verifyBook(await openBook(await makeFilledBook()), { onProgress: (done, all) => steps.push([done, all]) });
    expect(steps).toEqual(Array.from({ length: 9 }, (_, i) => [i + 1, 9]));
  });

  it('leaves what comes in meanwhile for the next time', async () => {
    const book = await openBook(await makeFilledBook());
    const adding: Promise<unknown>[] = [];
    const onProgress = (done: number): void => {
      adding.push(book.recordCaptures([makeCapture(`late ${done}`)]));
    };
    expect(await verifyBook(book, { onProgress })).toMatchObject({ head: { size: 9 }, fault: null });
    await Promise.all(adding);
    expect(await verifyBook(book)).toMatchObject({ head: { size: 18 }, fault: null });
  });

  it.each<[string, string, number, string]>([
    ['a letter in a body', `UPDATE entry SET body = replace(body, '1250', '1260') WHERE seq = 3`, 3, 'altered'],
    ['a name in a body', `UPDATE entry SET body = replace(body, 'two.dex', 'two.dax') WHERE seq = 2`, 2, 'altered'],
    ['a kind', `UPDATE entry SET kind = 'adjustment' WHERE seq = 7`, 7, 'altered'],
    ['the time of recording', `UPDATE entry SET recorded_at = '2026-11-25T22:15:00.000Z' WHERE seq = 0`, 0, 'altered'],
    ['a subject', `UPDATE entry SET subject = 'machine M-2' WHERE seq = 3`, 3, 'altered'],
    ['a day', `UPDATE entry SET day = NULL WHERE seq = 3`, 3, 'altered'],
    ['a key', `UPDATE entry SET key = 'bag 3' WHERE seq = 8`, 8, 'altered'],
    ['what an entry refers to', `UPDATE entry SET refers_to = 2 WHERE seq = 7`, 7, 'altered'],
    ['a leaf', `UPDATE node SET hash = zeroblob(32) WHERE level = 0 AND idx = 5`, 5, 'altered'],
    ['a node', `UPDATE node SET hash = zeroblob(32) WHERE level = 2 AND idx = 0`, 3, 'tree'],
    ['a node that was taken out', `DELETE FROM node WHERE level = 1 AND idx = 1`, 3, 'tree'],
    ['a byte of a file', `UPDATE blob SET bytes = x'7a65726e' WHERE entry = 0`, 0, 'bytes'],
    ['a byte of a file set aside', `UPDATE blob SET bytes = x'6f6e66' WHERE entry = 1`, 1, 'bytes'],
    ['a part that was taken out', `DELETE FROM blob_part WHERE part = 2`, 4, 'bytes'],
    ['a part that was added', `INSERT INTO blob_part VALUES (2, 1, 0, x'00')`, 2, 'bytes'],
    ['the size of a file', `UPDATE blob SET size = 5 WHERE entry = 0`, 0, 'bytes'],
    ['the hash of a file', `UPDATE blob SET sha256 = zeroblob(32) WHERE entry = 0`, 0, 'bytes'],
    ['a file that was taken out', `DELETE FROM blob WHERE entry = 2`, 2, 'bytes'],
    ['a file where there was none', `INSERT INTO blob VALUES (5, zeroblob(32), 1, 0, x'00')`, 5, 'bytes'],
    ['a clock', `UPDATE read SET clock = '2026-11-24T10:16:00' WHERE entry = 2 AND number = 1`, 2, 'reads'],
    ['an asset number', `UPDATE read SET asset = 'A-2' WHERE entry = 6`, 6, 'reads'],
    ['a read that was taken out', `DELETE FROM read WHERE entry = 2 AND number = 1`, 2, 'reads'],
    [
      'a read that was added',
      `INSERT INTO read (entry, number, content, verdict) VALUES (3, 0, x'00', 'sound')`,
      3,
      'reads',
    ],
    ['an entry that was taken out', `DELETE FROM entry WHERE seq = 3`, 3, 'missing'],
    ['the last entry taken out', `DELETE FROM entry WHERE seq = 8`, 8, 'missing'],
    ['the first entry taken out', `DELETE FROM entry WHERE seq = 0`, 0, 'missing'],
  ])('names the first entry that does not fit: %s', async (_, sql, entry, kind) => {
    const { fault, head } = await verifyAfter((database) => database.exec(sql));
    expect(fault).toMatchObject({ entry, kind, message: expect.stringContaining(`ntry ${entry}`) });
    expect(head.size).toBe(entry);
  });

  it('names the first of several', async () => {
    const { fault } = await verifyAfter((database) => {
      database.exec(`UPDATE entry SET key = 'x' WHERE seq = 8; UPDATE read SET clock = NULL WHERE entry = 2`);
    });
    expect(fault).toMatchObject({ entry: 2, kind: 'reads' });
  });

  it('finds files and reads that no entry speaks of', async () => {
    for (const sql of [
      `INSERT INTO blob VALUES (3, zeroblob(32), 1, 0, x'00')`,
      `INSERT INTO read (entry, number, content, verdict) VALUES (77, 0, x'00', 'sound')`,
    ]) {
      const { fault } = await verifyAfter((database) => database.exec(sql));
      expect(fault).toMatchObject({ entry: null, kind: 'surplus' });
    }
  });

  it('finds an entry of a file that does not say what such an entry says, however well it is hashed', async () => {
    const path = await makeFilledBook();
    const book = await openBook(path);
    for (const body of ['{"file":"x"}', 'not JSON']) {
      await withDatabase(path, (database) => {
        database.exec(`DROP TRIGGER IF EXISTS entry_is_not_changed; DROP TRIGGER IF EXISTS node_is_not_changed`);
        database.prepare('UPDATE entry SET body = ? WHERE seq = 0').run(body);
      });
      // Whoever can write the leaf anew can have the changed entry fit it.
      const hash = hashLeaf(writeLeafText((await book.entry(0))!));
      await withDatabase(path, (database) =>
        database.prepare('UPDATE node SET hash = ? WHERE level = 0 AND idx = 0').run(Buffer.from(hash)),
      );
      expect((await verifyBook(book)).fault).toMatchObject({ entry: 0, kind: 'altered' });
    }
  });

  it('says which guards are gone', async () => {
    const path = await makeFilledBook();
    await withDatabase(path, (database) => database.exec('DROP TRIGGER blob_is_not_changed'));
    expect(await verifyBook(await openBook(path))).toMatchObject({
      fault: null,
      missingGuards: ['blob_is_not_changed'],
    });
  });

  it('tells a book made anew from the one whose head was noted', async () => {
    const noted = await (await openBook(await makeFilledBook())).head();
    const other = await openBook();
    await other.recordEntries([makeCount('bag 7')]);
    expect((await verifyBook(other, { noted })).fault).toMatchObject({ kind: 'missing', entry: 1 });
    await fill(other);
    expect((await verifyBook(other)).fault).toBeNull();
    expect((await verifyBook(other, { noted })).fault).toMatchObject({
      kind: 'other-head',
      entry: null,
      message: expect.stringContaining('first 9 entries'),
    });
    expect((await verifyBook(other, { noted: { size: 0, root: noted.root } })).fault).toMatchObject({
      kind: 'other-head',
    });
  });

  it('finds a book cut back to an earlier state by the head that was noted, and only by that', async () => {
    const path = await makeFilledBook();
    const noted = await (await openBook(path)).head();
    const cut = `DELETE FROM entry WHERE seq >= 7; DELETE FROM node WHERE level = 0 AND idx >= 7;
      DELETE FROM node WHERE level = 1 AND idx = 3; DELETE FROM node WHERE level = 2 AND idx = 1;
      DELETE FROM node WHERE level = 3`;
    expect((await verifyAfter((database) => database.exec(cut))).fault).toBeNull();
    const { fault } = await verifyAfter((database) => database.exec(cut), { noted });
    expect(fault).toMatchObject({ kind: 'missing', entry: 7 });
  });

  it('names the entry at which the database can not be read', async () => {
    const { fault } = await verifyAfter((database) => {
      database.exec(`UPDATE blob SET bytes = x'ffffff', packing = 1 WHERE entry = 2`);
    });
    expect(fault).toMatchObject({ kind: 'unreadable', entry: 2, message: expect.stringContaining('Entry 2') });
  });

  it('does not take another trouble for damage', async () => {
    const path = await makeFilledBook();
    const book = await openBook(path);
    await withDatabase(path, (database) => database.exec('DROP TABLE blob_part'));
    await expect(verifyBook(book)).rejects.toThrow('no such table');
  });
});
