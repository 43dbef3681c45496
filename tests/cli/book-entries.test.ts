import { describe, expect, it } from 'vitest';
import type { BookEntryJson } from '../../src/book/index.js';
import { makeCapture, openBook } from '../book/store/temporary-book.js';
import { bookJsonOf, makeBookFolder, runBook } from './book-folder.js';
import { expectReadable } from './run-program.js';

describe('book entries', () => {
  it('lists number, time, kind and what each entry is of', async () => {
    const { folder } = await makeBookFolder();
    const outcome = await runBook(folder, ['entries']);
    expect(outcome).toMatchObject({ status: 0, err: '' });
    expectReadable(outcome);
    expect(outcome.lines[0]).toBe('8 entries in the book. Times are UTC.');
    const rest = outcome.lines.slice(2);
    expect(rest[0]).toBe('entry  recorded          kind               of');
    expect(rest[1]).toBe('    0  2026-11-24 22:15  capture-taken      v101.dex, 1 read');
    expect(outcome.out).toContain('    3  2026-11-24 22:15  capture-taken      a\\x1B[2J\\x0Ab\\u{202E}.dex, 1 read');
    expect(outcome.out).toContain('    4  2026-11-24 22:15  count-entered      machine M-1, 2026-11-24');
    expect(outcome.out).toMatch(/ 5 .* count-corrected +machine M-1, 2026-11-24; corrects\s+entry 4/);
    expect(outcome.out).toMatch(/ 7 .* adjustment +route R7; adjusts entry 6/);
  });

  it('lists only the kind and the day asked for', async () => {
    const { folder } = await makeBookFolder();
    const numbersOf = async (...argv: string[]) =>
      bookJsonOf<BookEntryJson>(await runBook(folder, ['entries', '--json', ...argv]), 'book-entry').map(
        ({ entry }) => entry,
      );
    expect(await numbersOf()).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    expect(await numbersOf('--kind', 'set-aside')).toEqual([2]);
    expect(await numbersOf('--kind', 'set-aside', '--kind', 'adjustment')).toEqual([2, 7]);
    expect(await numbersOf('--day', '2026-11-25')).toEqual([2, 3]);
    expect(await numbersOf('--day', '2026-11-25', '--kind', 'capture-taken')).toEqual([3]);
    const chosen = await runBook(folder, ['entries', '--day', '2026-11-25']);
    expect(chosen.lines.at(-1)).toBe('2 of them as asked for.');
    expect((await runBook(folder, ['entries', '--day', '2020-01-01'])).lines.at(-1)).toBe('None of them as asked for.');
  });

  it('gives programs all that an entry records', async () => {
    const { folder } = await makeBookFolder();
    const outcome = await runBook(folder, ['entries', '--json', '--kind', 'settlement-closed']);
    expect(bookJsonOf<BookEntryJson>(outcome, 'book-entry')).toEqual([
      {
        entry: 6,
        recordedAt: '2026-11-24T22:15:00.000Z',
        kind: 'settlement-closed',
        of: 'route R7, 2026-11-24',
        subject: 'route R7',
        day: '2026-11-24',
        key: null,
        refersTo: null,
        body: { totals: { coins: 1250 } },
      },
    ]);
  });

  it('refuses a kind there is none of, and a day that is none', async () => {
    const { folder } = await makeBookFolder();
    const kind = await runBook(folder, ['entries', '--kind', 'captures']);
    expect(kind.status).toBe(64);
    expect(kind.err).toMatch(/^coilbook: --kind: .*capture-taken/);
    expect((await runBook(folder, ['entries', '--day', '24.11.'])).err).toMatch(/^coilbook: --day: expected a date/);
  });

  it('holds no more than a page of entries at a time', async () => {
    const { folder, path } = await makeBookFolder();
    const book = await openBook(path);
    for (let i = 0; i < 20; i++) {
      await book.recordCaptures(
        Array.from({ length: 100 }, (_, j) => makeCapture(`${i} ${j}`, { facts: { long: 'x'.repeat(2000) } })),
      );
    }
    const outcome = await runBook(folder, ['entries']);
    expect(outcome.lines[0]).toBe('2008 entries in the book. Times are UTC.');
    expect(outcome.lines.length).toBe(2008 + 3 + outcome.lines.filter((line) => /^ {30}/.test(line)).length);
  });
});
