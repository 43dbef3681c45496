import { describe, expect, it } from 'vitest';
import { judgeBook, judgeUnopened } from '../../src/book/judge-book.js';
import { EMPTY_ROOT } from '../../src/book/merkle/index.js';
import { makeCapture, openBook, temporaryPath, withDatabase } from './store/temporary-book.js';

/** What is said of a book of three captures after something was done behind its back. */
async function judgeAfter(sql: string, noted?: { size: number; root: string }) {
  const path = temporaryPath();
  const book = await openBook(path);
  await book.recordCaptures(['a', 'b', 'c'].map((text) => makeCapture(text)));
  await withDatabase(path, (database) => {
    for (const name of database.prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger'").pluck().all()) {
      if (sql !== '') database.exec(`DROP TRIGGER ${name as string}`);
    }
    database.exec(sql);
  });
  return judgeBook(book, noted === undefined ? {} : { noted });
}

describe('judgeBook', () => {
  it('has nothing to advise on a book that is whole', async () => {
    expect(await judgeAfter('')).toMatchObject({ verdict: 'whole', fault: null, advice: null, noted: null });
  });

  it('says what the first entry that does not fit is of, and to compare it with a copy', async () => {
    const judged = await judgeAfter("UPDATE entry SET recorded_at = 'x' WHERE seq = 1");
    expect(judged).toMatchObject({
      verdict: 'broken',
      head: { size: 1 },
      fault: { kind: 'altered', entry: 1, entryKind: 'capture-taken', of: 'b.dex, 1 read' },
    });
    expect(judged.advice).toMatch(/^Keep the book .* Hold entry 1 of both against each other/);
  });

  it('says of an entry that is gone only its number', async () => {
    const judged = await judgeAfter('PRAGMA foreign_keys = OFF; DELETE FROM entry WHERE seq = 1');
    expect(judged.fault).toMatchObject({ kind: 'missing', entry: 1, entryKind: null, of: null });
  });

  it('has to look at the noted figures first where another head was noted', async () => {
    const noted = { size: 2, root: '0'.repeat(64) };
    const judged = await judgeAfter('', noted);
    expect(judged).toMatchObject({ verdict: 'broken', noted, fault: { kind: 'other-head', entry: null } });
    expect(judged.advice).toMatch(/^Look first whether size and root are those noted of this very book/);
  });

  it('trusts no figures where there is more than the entries speak of', async () => {
    const judged = await judgeAfter(
      'PRAGMA foreign_keys = OFF; INSERT INTO blob SELECT 99, zeroblob(32), size, packing, bytes FROM blob WHERE entry = 0',
    );
    expect(judged.fault).toMatchObject({ kind: 'surplus', entry: null });
    expect(judged.advice).toContain('Trust no figure');
  });

  it('doubts a book whose guards were taken out though everything fits', async () => {
    const judged = await judgeAfter('SELECT 1');
    expect(judged).toMatchObject({ verdict: 'doubtful', fault: null });
    expect(judged.missingGuards.length).toBeGreaterThan(10);
    expect(judged.advice).toMatch(/^Only another program takes guards out/);
  });
});

describe('judgeUnopened', () => {
  it('says the same of a book that can not be opened', () => {
    expect(judgeUnopened('The book is damaged.', null)).toEqual({
      verdict: 'broken',
      head: { size: 0, root: Buffer.from(EMPTY_ROOT).toString('hex') },
      noted: null,
      fault: { kind: 'unreadable', entry: null, entryKind: null, of: null, message: 'The book is damaged.' },
      missingGuards: [],
      alteredGuards: [],
      unknownGuards: [],
      matching: null,
      workedOut: null,
      advice: expect.stringContaining('Copy them to another disk first'),
    });
  });
});
