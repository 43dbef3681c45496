import { describe, expect, it } from 'vitest';
import { type AdjustedRound, lookAtAdjusted } from '../../src/attention/index.js';

const ROUND: AdjustedRound = {
  entry: 60,
  settlement: 55,
  route: 'R7',
  day: '2026-11-23',
  currency: 'EUR',
  decimals: 2,
  overShort: -500,
  because: ['capture late.dex'],
  machines: ['V106'],
  drivers: ['Robin Sample'],
};
const whatOf = (more: Partial<AdjustedRound>): string => lookAtAdjusted({ ...ROUND, ...more }).what;

describe('a closed round that was adjusted', () => {
  it('is a line with what changed, by how much, because of what, and who answers for it', () => {
    expect(lookAtAdjusted(ROUND)).toMatchObject({
      machine: 'V106',
      route: 'R7',
      driver: 'Robin Sample',
      cause: 'round-adjusted',
      severity: 'doubt',
      what: 'The round of route R7, 2026-11-23, was closed before this was known: over/short changed by -5.00 EUR (V106), because of capture late.dex; adjustment in entry 60.',
      stake: { amount: 500, bound: 'exact' },
      currency: 'EUR',
      cautions: ['overShort', 'accounts'],
      codes: ['round-adjusted'],
    });
  });

  it('says which way it went, and where only figures of it changed', () => {
    expect(whatOf({ overShort: 1250 })).toContain('changed by +12.50 EUR');
    expect(whatOf({ overShort: 0, because: [] })).toContain('over/short stays as it was, and figures of it changed');
    expect(whatOf({ route: null, currency: null, decimals: null })).toMatch(
      /of no route, .* -500 \(decimals not known\)/,
    );
  });

  it('names no machine and no driver where there are several, and few of many; hostile text as text', () => {
    const item = lookAtAdjusted({ ...ROUND, machines: ['M1', 'M2', 'M3', 'M4'], drivers: ['Ana', null] });
    expect([item.machine, item.driver]).toEqual([null, null]);
    expect(item.what).toContain('(M1, M2, M3 and 1 more)');
    expect(whatOf({ route: '\u001b[2J', because: ['a\u202e'] })).not.toMatch(/[\u001b\u202e]/);
  });
});
