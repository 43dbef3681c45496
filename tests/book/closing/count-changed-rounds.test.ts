import { describe, expect, it } from 'vitest';
import { countChangedRounds } from '../../../src/book/closing/index.js';
import { changesOf, countChanges, listChangedDays, rememberTables } from '../../../src/book/run/index.js';
import type { BookStore, EntryToRecord } from '../../../src/book/store/index.js';
import { makeCapture, makeCount, makeRead, openBook } from '../store/temporary-book.js';

const SIGNED = { reason: 'mended', by: 'Kim' };

const bodyOf = (machine: string, date: string) => ({
  machine,
  visitedAt: { date, time: '10:15:00' },
  ...{ bag: null, coins: 1250, bills: 2000, route: null, driver: null, countedAt: null, note: null },
  ...{ paidOut: null, filled: null, floatIssued: null, denominations: [], capture: null, captureEntry: null },
  ...{ currency: 'EUR', decimals: 2, place: { file: 'counts.csv', row: 2 }, by: null },
});

const count = (machine: string, day: string): EntryToRecord =>
  makeCount(`${machine} ${day}`, { subject: `machine ${machine}`, day, body: bodyOf(machine, day) });

/** A correction of a count of a machine, recorded as an entry about the day that it has now. */
const correct = (machine: string, day: string, refersTo: number, from = day): EntryToRecord =>
  makeCount(`corrected ${refersTo}`, {
    kind: 'count-corrected',
    refersTo,
    subject: `machine ${machine}`,
    day,
    body: { was: bodyOf(machine, from), now: bodyOf(machine, day), ...SIGNED },
  });

describe('days whose rounds have changed', () => {
  it('are counted once for what was recorded of them since they were gone through, where they have tables', async () => {
    const book = await openBook();
    await rememberTables(book, '2026-11-24', 'a');
    await rememberTables(book, '2026-11-24', 'b');
    await rememberTables(book, '2026-11-25', 'c');
    await countChangedRounds(book);
    expect(await listChangedDays(book)).toEqual([]);
    await book.recordEntries([count('M-1', '2026-11-24'), makeCount('B2'), makeCount('B3', { day: '2026-11-26' })]);
    await countChangedRounds(book);
    await countChangedRounds(book);
    expect(await listChangedDays(book)).toEqual([{ day: '2026-11-24', folders: ['a', 'b'], changes: 1 }]);
    await book.recordEntries([correct('M-1', '2026-11-24', 0)]);
    await countChangedRounds(book);
    expect(await changesOf(book, '2026-11-24')).toBe(2);
  });

  const DAYS = ['2026-11-20', '2026-11-21', '2026-11-24', '2026-11-27', '2026-11-30'];

  /** A book with tables of all days and a bag of each machine on most of them, gone through. */
  async function bookOfDays(machines: readonly string[], bags: readonly string[]): Promise<BookStore> {
    const book = await openBook();
    for (const day of DAYS) await rememberTables(book, day, day);
    const counts = bags.flatMap((day) => machines.map((machine) => count(machine, day)));
    await book.recordEntries(counts);
    await countChangedRounds(book);
    return book;
  }

  /** The days that have changed once more than when the book was made. */
  async function changedDays(book: BookStore): Promise<string[]> {
    const before = new Map((await listChangedDays(book)).map(({ day, changes }) => [day, changes]));
    await countChangedRounds(book);
    return (await listChangedDays(book)).flatMap(({ day, changes }) => (changes > (before.get(day) ?? 0) ? [day] : []));
  }

  it('are the day that a bag was moved from, the one it was moved to, and those of the next bags', async () => {
    const book = await bookOfDays(['M-1', 'M-2'], ['2026-11-21', '2026-11-24', '2026-11-27', '2026-11-30']);
    await book.recordEntries([correct('M-1', '2026-11-20', 0, '2026-11-21')]);
    expect(await changedDays(book)).toEqual(['2026-11-20', '2026-11-21', '2026-11-24', '2026-11-27']);
  });

  it('are the day of a bag that was taken out, and those of the next bags of its machine', async () => {
    const book = await bookOfDays(['M-1'], ['2026-11-24', '2026-11-27']);
    await book.recordEntries([
      makeCount('W', { kind: 'count-withdrawn', refersTo: 0, body: { was: bodyOf('M-1', '2026-11-24'), ...SIGNED } }),
    ]);
    expect(await changedDays(book)).toEqual(['2026-11-24', '2026-11-27']);
  });

  it.each([
    ['a service read', { reason: 'service', at: '2026-11-21T10:00:00' }, ['2026-11-24', '2026-11-27']],
    ['a read near a bag', { at: '2026-11-24T10:40:00' }, ['2026-11-24', '2026-11-27', '2026-11-30']],
    ['a read away from any', { at: '2026-11-24T23:30:00' }, []],
    ['a scheduled read', { reason: 'scheduled', at: '2026-11-24T10:00:00' }, []],
    ['a read without a time', { reason: 'service', at: null }, []],
  ] as const)('are those of the bags after %s that came late', async (_what, read, days) => {
    const book = await bookOfDays(['M-1'], ['2026-11-24', '2026-11-27', '2026-11-30']);
    await book.recordCaptures([makeCapture('late', { reads: [makeRead('late', read)] })]);
    expect(await changedDays(book)).toEqual(days);
  });

  it('are of all days that are named and have tables', async () => {
    const book = await openBook();
    await rememberTables(book, '2026-11-24', 'a');
    await countChanges(book, ['2026-11-24', '2026-11-25']);
    await countChanges(book, []);
    expect(await listChangedDays(book)).toEqual([{ day: '2026-11-24', folders: ['a'], changes: 1 }]);
  });
});
