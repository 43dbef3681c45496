import { describe, expect, it } from 'vitest';
import { adjustedOnDay, closeRounds, recordAdjustments } from '../../../src/book/closing/index.js';
import { openBook } from '../store/temporary-book.js';
import { ask, BAG, DAY, KIM, OPENING, rosterOf, takeIn, VISIT } from './fill-book.js';

describe('adjustments on the list of a day', () => {
  it('are those of its own rounds, and those that what came in on it made', async () => {
    const store = await openBook();
    await takeIn(store, 'monday.dex', OPENING);
    await closeRounds(store, ask([BAG]), KIM, { anyway: 'the capture is on its way' });
    expect(await adjustedOnDay(store, DAY)).toEqual([]);
    const late = await takeIn(store, 'tuesday.dex', VISIT);
    const [recorded] = await recordAdjustments(store, { recordedAt: () => KIM.recordedAt, roster: rosterOf() });
    // 4.80 and 10.00 counted, 5.00 and 10.00 expected: 0.20 short.
    const told = await adjustedOnDay(store, DAY);
    expect(told).toMatchObject([
      { entry: recorded!.entry, day: DAY, overShort: -20, machines: ['M1'], because: ['capture tuesday.dex'] },
    ]);
    expect(told[0]!.settlement).toBeLessThan(late);
    expect(await adjustedOnDay(store, '2026-11-25')).toEqual([]);
    expect(await adjustedOnDay(store, '2026-11-01')).toEqual([]);
  });
});
