import { describe, expect, it } from 'vitest';
import { laySettlements, PLAIN_STYLE } from '../../../src/report/index.js';
import type { ChangesJson, ClosingJson } from '../../../src/report/shapes/closing.js';
import {
  closedWords,
  instantWords,
  layAfterClosing,
  layCarried,
  layClosingState,
  tellsOverShort,
} from '../../../src/report/text/closing-text.js';
import { M1, makeCount, settle } from '../../settlement/scenario.js';

const EUR = { currency: 'EUR', decimals: 2 };
const NOTHING = {
  expected: { coins: 0, bills: 0 },
  counted: { coins: 0, bills: 0 },
  overShort: { coins: 0, bills: 0, total: 0 },
};
const OPEN: ClosingJson = { closed: null, changes: null, adjustments: [], carried: [], withCarried: NOTHING.overShort };
const CLOSED: ClosingJson = { ...OPEN, closed: { entry: 57, recordedAt: '2026-11-25T06:00:12.345Z', by: 'Kim' } };
const CHANGES: ChangesJson = {
  ...NOTHING,
  overShort: { coins: -20, bills: null, total: -20 },
  because: [
    { entry: 60, what: 'capture late.dex' },
    { entry: null, what: 'bag B1 (counts.csv, row 2)' },
  ],
  visits: [
    { machine: 'M1', visitedAt: '2026-11-24', bag: null, field: 'state', from: null, to: 'short', by: null },
    { machine: 'M1', visitedAt: '2026-11-24', bag: 'B1', field: 'overShort.total', from: null, to: -20, by: -20 },
  ],
};
const CARRIED = {
  ...NOTHING,
  overShort: { coins: 150, bills: 0, total: 150 },
  entry: 40,
  settlement: 30,
  day: '2026-11-20',
  ...EUR,
};
const joined = (lines: readonly string[]): string => lines.join('\n').replaceAll(/\s+/g, ' ').trim();

describe('a closing as text', () => {
  it('says when, by whom and by which entry; nothing while it is open', () => {
    expect(closedWords(OPEN)).toBe('');
    expect(closedWords(CLOSED)).toBe(' Closed 2026-11-25 06:00 UTC by Kim, entry 57.');
    expect(instantWords('2026-11-25T06:00:00Z')).toBe('2026-11-25 06:00 UTC');
    expect([
      layClosingState(CLOSED, 0, EUR),
      layCarried(CLOSED, EUR, PLAIN_STYLE),
      layAfterClosing(CLOSED, EUR, PLAIN_STYLE),
    ]).toEqual([[], [], []]);
  });

  it('says what came later, and that it is not recorded yet', () => {
    const closing = { ...CLOSED, changes: CHANGES };
    expect(joined(layClosingState(closing, 100, EUR))).toContain('changes over/short by -0.20; not recorded yet');
    const text = joined(layAfterClosing(closing, EUR, PLAIN_STYLE));
    expect(text).toContain('because of capture late.dex (entry 60), bag B1 (counts.csv, row 2)');
    expect(text).toContain('M1 state - short M1 B1 over/short - -0.20 -0.20');
  });

  it('names adjustments with their entries, and why where no entry says it', () => {
    const adjustment = {
      ...CHANGES,
      because: [],
      entry: 61,
      recordedAt: '2026-11-26T06:00:00Z',
      by: null,
      carriedBy: null,
    };
    const carriedOn = { ...adjustment, entry: 62, by: 'Lee', carriedBy: 70 };
    const closing = { ...CLOSED, adjustments: [adjustment, carriedOn] };
    expect(joined(layClosingState(closing, 100, EUR))).toBe(
      'Adjusted since by -0.20, -0.20: over/short in all +0.60 EUR.',
    );
    const text = joined(layAfterClosing(closing, EUR, PLAIN_STYLE));
    expect(text).toContain(
      'Adjusted 2026-11-26 06:00 UTC, entry 61, not carried yet: over/short -0.20. because of no entry since',
    );
    expect(text).toContain('Adjusted 2026-11-26 06:00 UTC by Lee, entry 62, carried by entry 70');
  });

  it('lists what is carried with the sum of all, and what would be', () => {
    const closing = { ...CLOSED, carried: [CARRIED], withCarried: { coins: 130, bills: 0, total: 130 } };
    expect(joined(layClosingState(closing, 100, EUR))).toContain('carried into it: over/short with that +1.30 EUR.');
    expect(joined(layClosingState({ ...closing, closed: null }, 0, EUR))).toContain('would be carried into it');
    const unknown = { ...closing, withCarried: { coins: null, bills: null, total: null } };
    expect(joined(layClosingState(unknown, 0, EUR))).toContain('over/short with that is not known.');
    const short = { ...closing, withCarried: { coins: -1, bills: 0, total: -1 } };
    expect(joined(layClosingState(short, 0, EUR))).toContain('with that -0.01 EUR.');
    expect(joined(layCarried(closing, EUR, PLAIN_STYLE))).toContain('2026-11-20 40 +1.50 0.00 +1.50');
  });

  it('tells of money over or short by itself only where it does', () => {
    expect(tellsOverShort(CLOSED)).toBe(false);
    expect(tellsOverShort({ ...CLOSED, carried: [{ ...CARRIED, ...NOTHING }] })).toBe(false);
    expect(tellsOverShort({ ...CLOSED, carried: [CARRIED] })).toBe(true);
    expect(tellsOverShort({ ...CLOSED, changes: CHANGES })).toBe(true);
  });
});

describe('several rounds as text', () => {
  const { settlements } = settle({
    captures: {
      'a.dex': { at: '2026-11-23T10:00', reason: 'service' },
      'b.dex': { at: '2026-11-24T10:00', reason: 'service', box: 500 },
    },
    machines: [M1],
    counts: [
      makeCount('M1', '2026-11-24T10:00', { coins: 500, bills: 0 }),
      makeCount('M9', '2026-11-24T10:00', { coins: 500, route: 'R9', row: 3 }),
    ],
  });
  it('say in their first line how many of them are closed', () => {
    const [one, other] = settlements;
    const first = (...closings: [typeof one, ClosingJson][]): string =>
      laySettlements(
        settlements,
        [],
        PLAIN_STYLE,
        new Map(closings.map(([settlement, closing]) => [settlement!, closing])),
      )[0]!;
    expect(first()).toBe('2 rounds, 2 visits: 1 agreed, 1 unread.');
    expect(first([one, CLOSED], [other, OPEN])).toBe('2 rounds, 2 visits: 1 agreed, 1 unread. 1 of them closed.');
    const care = (closing: ClosingJson) =>
      laySettlements([one!], [], PLAIN_STYLE, new Map([[one!, closing]]))
        .join(' ')
        .includes('second person');
    expect([care(CLOSED), care({ ...CLOSED, changes: CHANGES })]).toEqual([false, true]);
    expect(first([one, CLOSED], [other, CLOSED])).toBe('2 rounds, 2 visits: 1 agreed, 1 unread. All are closed.');
  });
});
