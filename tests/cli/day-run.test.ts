import { describe, expect, it } from 'vitest';
import { workOutStale } from '../../src/book/run/index.js';
import { hasWork, today } from '../../src/cli/day-run.js';
import { captureAt, rosterOf, takeNight } from '../book/run/take-night.js';
import { openBook } from '../book/store/temporary-book.js';

describe('a run of a day', () => {
  it('has work where something came in that is not worked out', async () => {
    const book = await openBook();
    expect(await hasWork(book)).toBe(false);
    const take = { roster: rosterOf('machine,asset,currency\nM1,A1,EUR\n') };
    await takeNight(book, [{ name: 'a.dex', bytes: captureAt('2026-11-01 10:00', 10) }], take);
    expect(await hasWork(book)).toBe(true);
    await workOutStale(book, { take });
    expect(await hasWork(book)).toBe(false);
  });

  it('is of the day it is on this machine', () => {
    expect(today({ now: () => new Date(2026, 10, 4, 23, 59) } as never)).toBe('2026-11-04');
  });
});
