import { describe, expect, it } from 'vitest';
import type { Recorded } from '../../src/book/closing/index.js';
import { sayNotDone, tellRecorded } from '../../src/cli/recorded-words.js';
import { makeFinding } from '../../src/findings/index.js';

const NOTHING: Recorded = {
  counts: 0,
  unusable: 0,
  corrections: 0,
  withdrawals: 0,
  closed: 0,
  adjustments: 0,
  carried: 0,
  leftOpen: 0,
  first: 0,
  notClosed: [],
  refusals: [],
  findings: [],
  adjusted: [],
};

describe('tellRecorded', () => {
  it.each<[Partial<Recorded>, string]>([
    [{}, 'nothing new to record'],
    [{ counts: 2, unusable: 1, closed: 1 }, 'recorded 2 counts, 1 row that could not be used, 1 settlement closed'],
    [{ corrections: 1, withdrawals: 2, adjustments: 1 }, 'recorded 1 correction, 2 counts taken out, 1 adjustment'],
    [
      { leftOpen: 2 },
      'nothing new to record; 2 rounds without any bag stay open: close each with --route once its counts are in',
    ],
    [
      { counts: 1, first: 1 },
      'recorded 1 count; 1 round needs no closing: no collection is known before, and counting begins here',
    ],
  ])('says of %j what the book has now', (more, words) => {
    expect(tellRecorded({ ...NOTHING, ...more })).toBe(words);
  });
});

describe('sayNotDone', () => {
  it('says what was refused with what to do, and nothing where all was done', () => {
    expect(sayNotDone(NOTHING)).toEqual([]);
    const refusal = makeFinding('correction-refused', 'Row 2 fits nothing.', {
      file: 'c.csv',
      row: 2,
      advice: 'Look.',
    });
    expect(sayNotDone({ refusals: [refusal], notClosed: [] })).toEqual(['Row 2 fits nothing. Look.']);
  });

  it('names the round that stays open, what is in the way, and how to close it all the same', () => {
    const round = { route: 'R\u001b7', day: '2026-11-23', currency: 'EUR' };
    const [row, other] = sayNotDone({
      refusals: [],
      notClosed: [
        { ...round, inTheWay: ['Row 4 could not be used.'] },
        { ...round, route: null, inTheWay: ['No visit of it is settled.'] },
      ],
    });
    expect(row).toMatch(
      /^Route R\\x1B7, 2026-11-23 was not closed\. Row 4 could not be used\. Correct the row in the sheet/,
    );
    expect(other).toMatch(
      /^No route, 2026-11-23 was not closed\. .* Clear that up .* --close-anyway and the reason\.$/,
    );
  });
});
