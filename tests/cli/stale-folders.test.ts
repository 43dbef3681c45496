import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CHANGED_NOTE } from '../../src/book/store/index.js';
import { MADE_FROM } from '../../src/cli/made-from.js';
import { countsOfChanges, findStaleFolders, layStaleFolders, rememberFolder } from '../../src/cli/stale-folders.js';
import { openBook } from '../book/store/temporary-book.js';
import { makeFolder } from '../io/temporary-folder.js';

const made = (day: string, changes: number, pages = true): string =>
  JSON.stringify({
    day,
    book: { size: 1, root: 'ab' },
    changes,
    pages,
    sheets: 's',
    version: '1',
    status: 0,
    answer: 'A.',
  });

/** A book beside three folders of days, of which the second has changed twice since. */
async function makeDays() {
  const cwd = makeFolder({
    [`days/1/${MADE_FROM}`]: made('2026-11-01', 0),
    'days/1/sales.csv': '',
    [`days/2/${MADE_FROM}`]: made('2026-11-02', 0, false),
    'days/2/sales.csv': '',
    [`days/other/${MADE_FROM}`]: made('2026-11-09', 0),
    'days/other/sales.csv': '',
  });
  const book = await openBook(join(cwd, 'books.db'));
  const place = { file: 'books.db', terminal: { cwd } };
  await rememberFolder(book, '2026-11-01', 'days/1', place);
  await rememberFolder(book, '2026-11-02', 'days/2', place);
  await rememberFolder(book, '2026-11-03', 'days/other', place);
  return { cwd, book, place };
}

describe('findStaleFolders', () => {
  it('names folders made from less than is known now, and days that lie nowhere where they changed just now', async () => {
    const { book, place } = await makeDays();
    expect(await findStaleFolders(book, place, new Map())).toEqual([]);
    const before = await countsOfChanges(book);
    await book.writeNotes(new Map(['02', '03'].map((day) => [`${CHANGED_NOTE}2026-11-${day}`, '2'])));
    const stale = await findStaleFolders(book, place, before);
    expect(stale).toEqual([
      { day: '2026-11-02', folder: 'days/2', hasPages: false },
      // Another day's tables are in its folder now.
      { day: '2026-11-03', folder: null, hasPages: false },
    ]);
    const later = await findStaleFolders(book, place, await countsOfChanges(book));
    expect(later.map(({ day }) => day)).toEqual(['2026-11-02']);
  });

  it('names them from where the book is named from', async () => {
    const { cwd, book } = await makeDays();
    await book.writeNotes(new Map([[`${CHANGED_NOTE}2026-11-02`, '1']]));
    const file = join('..', 'books.db');
    const [stale] = await findStaleFolders(book, { file, terminal: { cwd: join(cwd, 'days') } }, new Map());
    expect(stale!.folder).toBe(join('..', 'days', '2'));
  });
});

describe('layStaleFolders', () => {
  it('says nothing where there is nothing', () => {
    expect(layStaleFolders([])).toEqual([]);
  });

  it('says how they are made again, from the earliest on, and shows no hostile name as it is', () => {
    const lines = layStaleFolders([
      { day: '2026-11-03', folder: 'days/\u001b[2J' },
      { day: '2026-11-02', folder: null },
    ]);
    const text = lines.join('\n').replaceAll(/\n +/g, ' ');
    expect(text).toContain('changes the tables of 2 other days. Make them again: coilbook report --since 2026-11-02');
    expect(text).toContain('2026-11-03: days/\\x1B[2J');
    expect(text).toContain('coilbook day --day 2026-11-02 --out and a folder.');
    expect(layStaleFolders([{ day: '2026-11-02', folder: null }]).join(' ')).not.toContain('--since');
  });
});
