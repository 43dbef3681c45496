import { describe, expect, it } from 'vitest';
import { laySettlements, PLAIN_STYLE } from '../../../src/report/index.js';
import type { BookFactsJson } from '../../../src/report/shapes/closing.js';
import {
  closedWords,
  instantWords,
  layAfterClosing,
  layClosingState,
  layDriversInBook,
  outcomeWords,
  tellsOverShort,
  valueWords,
} from '../../../src/report/text/closing-text.js';
import { closedRound, sumsOf } from '../../pages/support/closed-round.js';
import { M1, makeCount, settle } from '../../settlement/scenario.js';

const EUR = { currency: 'EUR', decimals: 2 };
const CLOSED = closedRound();
const OPEN: BookFactsJson = { ...CLOSED, closing: null, asClosed: null };
const CHANGED = closedRound({ by: 'Kim', machine: 'M1' });
const joined = (lines: readonly string[]): string => lines.join('\n').replaceAll(/\s+/g, ' ').trim();

describe('a closing as text', () => {
  it('says when, by whom and by which entry; nothing while it is open', () => {
    expect(closedWords(OPEN)).toBe('');
    expect(closedWords(CLOSED)).toBe(' Closed 2026-11-24 09:00 UTC by Kim Office, entry 39.');
    expect(instantWords('2026-11-25T06:00:00Z')).toBe('2026-11-25 06:00 UTC');
    expect([
      layClosingState(CLOSED, EUR),
      layDriversInBook(CLOSED, EUR, PLAIN_STYLE),
      layAfterClosing(CLOSED, EUR, PLAIN_STYLE),
    ]).toEqual([[], [], []]);
  });

  it('says how it was closed beside how it stands, what was adjusted, and what is not recorded yet', () => {
    expect(joined(layClosingState(CHANGED, EUR))).toBe(
      'As closed: 9.00 EUR short on 1 settled visit. Adjustments: +2.00 (entry 41). Not recorded yet: +2.00. To record it as an adjustment, run this again with --close.',
    );
    const text = joined(layAfterClosing(CHANGED, EUR, PLAIN_STYLE));
    expect(text).toContain('Adjusted 2026-11-25 06:00 UTC by Kim, entry 41: over/short +2.00.');
    expect(text).toContain('because of late.dex (entry 40), counts.csv row 3');
    expect(text).toContain('M1 state unread agreed M1 B1 counted coins 79.20 81.20 the round settled visits 1 2');
    expect(text).toContain('Robin Sample: +2.00, not carried yet.');
    expect(text).toContain('Changed since, not recorded yet: over/short +2.00. because of no entry since');
  });

  it('says into which round a part was carried, and that a run by itself made an adjustment', () => {
    const carriedTo = { entry: 70, route: null, day: '2026-11-26' };
    const adjustment = {
      ...CHANGED.adjustments[0]!,
      by: null,
      byDriver: [{ driver: null, overShort: -20, carriedTo }],
    };
    const text = joined(layAfterClosing({ ...CHANGED, adjustments: [adjustment] }, EUR, PLAIN_STYLE));
    expect(text).toContain('Adjusted 2026-11-25 06:00 UTC, entry 41: over/short +2.00.');
    expect(text).toContain('no driver named: -0.20, carried into no route, 2026-11-26 (entry 70).');
  });

  it('says what every driver answers for, with what is carried, and what would be', () => {
    const text = joined(layDriversInBook(CHANGED, EUR, PLAIN_STYLE));
    expect(text).toContain('Robin Sample -5.00 -9.00 -1.00 0.00 -6.00');
    expect(text).toContain('Robin Sample: -1.00 of route R7, 2026-11-22 (entry 30) carried in.');
    expect(joined(layDriversInBook({ ...CHANGED, closing: null }, EUR, PLAIN_STYLE))).toContain(
      '(entry 30) would be carried in by a closing now.',
    );
  });

  it('says why it was closed all the same, or what keeps it open', () => {
    const closing = { ...CLOSED.closing!, reason: 'the row is lost' };
    expect(joined(layClosingState({ ...CLOSED, closing }, EUR))).toBe(
      'Closed though something was in the way: the row is lost',
    );
    expect(joined(layClosingState({ ...OPEN, inTheWay: ['No visit of it is settled.'] }, EUR))).toBe(
      'It cannot be closed: No visit of it is settled.',
    );
  });

  it('says what sums come to', () => {
    expect(outcomeWords({ ...sumsOf(0), openVisits: 2 }, EUR)).toBe(
      'no difference on 1 settled visit; 2 visits still open',
    );
    expect(outcomeWords({ ...sumsOf(0), settledVisits: 0 }, EUR)).toBe('nothing could be settled');
    const unknown = { ...sumsOf(0), overShort: { coins: null, bills: null, total: null } };
    expect(outcomeWords(unknown, EUR)).toBe('difference not known on 1 settled visit');
  });

  it('shows values of changes as what they are', () => {
    expect(valueWords({ field: 'sold' }, 1500, EUR)).toBe('1500');
    expect(valueWords({ field: 'value' }, 1500, EUR)).toBe('15.00');
    expect(valueWords({ field: 'visitedAt' }, '2026-11-23T10:00:00', EUR)).toBe('2026-11-23 10:00');
    expect(valueWords({ field: 'bag' }, null, EUR)).toBe('-');
  });

  it('tells of money over or short by itself only where it does', () => {
    expect(tellsOverShort(CLOSED)).toBe(false);
    const [own] = CLOSED.drivers;
    const carried = { entry: 30, route: 'R7', day: '2026-11-22' };
    const withCarried = (overShort: number) => ({
      ...CLOSED,
      drivers: [{ ...own!, carried: [{ ...carried, overShort }] }],
    });
    expect([0, 150].map((amount) => tellsOverShort(withCarried(amount)))).toEqual([false, true]);
    expect(tellsOverShort(CHANGED)).toBe(true);
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
    const first = (...closings: [typeof one, BookFactsJson][]): string =>
      laySettlements(
        settlements,
        [],
        PLAIN_STYLE,
        new Map(closings.map(([settlement, closing]) => [settlement!, closing])),
      )[0]!;
    expect(first()).toBe('2 rounds, 2 visits: 1 agreed, 1 unread.');
    expect(first([one, CLOSED], [other, OPEN])).toBe('2 rounds, 2 visits: 1 agreed, 1 unread. 1 of them closed.');
    const care = (closing: BookFactsJson) =>
      laySettlements([one!], [], PLAIN_STYLE, new Map([[one!, closing]]))
        .join(' ')
        .includes('second person');
    expect([care(CLOSED), care(CHANGED)]).toEqual([false, true]);
    expect(first([one, CLOSED], [other, CLOSED])).toBe('2 rounds, 2 visits: 1 agreed, 1 unread. All are closed.');
  });
});
