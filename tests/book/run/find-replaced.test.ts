import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeDayParts, workOutStale } from '../../../src/book/run/index.js';
import type { BookStore } from '../../../src/book/store/index.js';
import { gather, openBook } from '../store/temporary-book.js';
import { captureAt, dailyCaptures, type NightFile, rosterOf, takeNight } from './take-night.js';

const TAKE = { roster: rosterOf('machine,asset,currency\nM1,A1,EUR\n') };

async function run(store: BookStore, day: string, files: readonly NightFile[]): Promise<void> {
  await takeNight(store, files, TAKE, day);
  await workOutStale(store, { take: TAKE });
}

/** Days of November from which and to which a day's rows are, what was sold, and what they replace. */
async function rowsOf(store: BookStore, day: string) {
  const parts = await gather(makeDayParts(store, { day, take: TAKE }));
  const rows = parts.flatMap((part) => part.day.cash);
  expect(parts.flatMap((part) => part.day.sales.map(({ replaces }) => replaces))).toEqual(
    rows.map(({ replaces }) => replaces),
  );
  return rows.map(({ from, to, sold, replaces }) => [
    Number(from!.slice(8, 10)),
    Number(to!.slice(8, 10)),
    sold,
    replaces,
  ]);
}

describe('what a row replaces', () => {
  it('is nothing where captures come in order, several of a day among them', async () => {
    const store = await openBook();
    await run(store, '2026-11-02', dailyCaptures([2, 1]));
    await run(store, '2026-11-04', dailyCaptures([4, 3]));
    expect(await rowsOf(store, '2026-11-02')).toEqual([[1, 2, 10, []]]);
    expect(await rowsOf(store, '2026-11-04')).toEqual([
      [2, 3, 10, []],
      [3, 4, 10, []],
    ]);
  });

  it('is the day that told it, and the own one where the rest of that is told again', async () => {
    const store = await openBook();
    await run(store, '2026-11-01', dailyCaptures([1]));
    await run(store, '2026-11-05', dailyCaptures([5]));
    await run(store, '2026-11-06', dailyCaptures([2, 3]));
    expect(await rowsOf(store, '2026-11-06')).toEqual([
      [1, 2, 10, ['2026-11-05']],
      [2, 3, 10, ['2026-11-05']],
    ]);
    expect(await rowsOf(store, '2026-11-05')).toEqual([[3, 5, 20, ['2026-11-05']]]);
    // Another one, between one that came late and the rest: it takes part of the row of the fifth again.
    await run(store, '2026-11-07', dailyCaptures([4]));
    expect(await rowsOf(store, '2026-11-07')).toEqual([[3, 4, 10, ['2026-11-05']]]);
    // What was said of days before it stays as it was.
    expect((await rowsOf(store, '2026-11-06')).map(([, , , replaces]) => replaces)).toEqual([
      ['2026-11-05'],
      ['2026-11-05'],
    ]);
  });

  it('is nothing where nothing was told: the first reads of a machine came last', async () => {
    const store = await openBook();
    await run(store, '2026-11-05', dailyCaptures([5]));
    await run(store, '2026-11-06', dailyCaptures([2, 3]));
    expect(await rowsOf(store, '2026-11-06')).toEqual([[2, 3, 10, []]]);
    expect(await rowsOf(store, '2026-11-05')).toEqual([[3, 5, 20, []]]);
  });

  it('is told where a memory was cleared too', async () => {
    const store = await openBook();
    const cleared = (day: number, vends: number): NightFile => ({
      name: `${day}.dex`,
      bytes: captureAt(`2026-11-0${day} 10:00`, vends, { EA4: 'EA4*261103*0900' }),
    });
    await run(store, '2026-11-01', dailyCaptures([1]));
    await run(store, '2026-11-04', [cleared(4, 5)]);
    await run(store, '2026-11-06', [cleared(6, 25)]);
    await run(store, '2026-11-07', [cleared(5, 15)]);
    expect(await rowsOf(store, '2026-11-07')).toEqual([[4, 5, 10, ['2026-11-06']]]);
    expect(await rowsOf(store, '2026-11-06')).toEqual([[5, 6, 10, ['2026-11-06']]]);
  });

  it('is the days whose rows, as they were before, overlap it, in any order of arrival', async () => {
    const arrivals = fc.array(fc.nat(5), { minLength: 4, maxLength: 9 });
    await fc.assert(
      fc.asyncProperty(arrivals, async (nights) => {
        const store = await openBook();
        const dates = [1, 2, 3, 4, 5, 6].map((night) => `2026-12-0${night}`);
        let before: { readonly date: string; readonly from: number; readonly to: number }[] = [];
        for (const [night, date] of dates.entries()) {
          const days = nights.flatMap((came, i) => (came === night ? [i + 1] : []));
          await run(store, date, dailyCaptures(days));
          for (const [from, to, , replaces] of (await rowsOf(store, date)) as [number, number, number, string[]][]) {
            const overlapped = before.filter((row) => row.from < to && from < row.to).map((row) => row.date);
            expect([from, to, replaces]).toEqual([from, to, [...new Set(overlapped)].sort()]);
          }
          before = [];
          for (const told of dates) {
            const rows = (await rowsOf(store, told)) as [number, number][];
            before.push(...rows.map(([from, to]) => ({ date: told, from, to })));
          }
        }
        await store.close().catch(() => undefined);
      }),
      { numRuns: 15 },
    );
  });
});
