import { describe, expect, it } from 'vitest';
import { laySettlement } from '../../src/report/text/settlement-text.js';
import { PLAIN_STYLE } from '../../src/report/text/style.js';
import { isInDoubt } from '../../src/settlement/index.js';
import { codesOf, makeCount, type Scenario, settle, visitsOf } from './scenario.js';

// Domain rule: a visit carries what its captures carry.
const service = { reason: 'service' } as const;
const at = (day: number, more: object = {}) => ({ at: `2026-11-${day}T10:00`, box: day * 100, sold: day, ...more });
const scenario = (changes: Readonly<Record<number, object>>): Scenario => ({
  captures: {
    'a.dex': at(20, { ...service, ...changes[20] }),
    'b.dex': at(22, changes[22]),
    'c.dex': at(24, { ...service, ...changes[24] }),
  },
  counts: [makeCount('M1', '2026-11-24T10:00', { bag: 'B1', coins: 400, bills: 0 })],
});
const visitOf = (changes: Readonly<Record<number, object>>) => visitsOf(scenario(changes))[0]!;
const unsealed = { unsealed: true };

describe('isInDoubt: a settled visit', () => {
  it('is not in doubt where its captures are not', () => {
    expect(codesOf(visitOf({}))).toEqual([]);
    expect(isInDoubt(visitOf({}))).toBe(false);
  });

  it.each([20, 24])('carries the doubts of its capture and of the one counted from: that of day %i', (day) => {
    const visit = visitOf({ [day]: unsealed });
    expect(visit).toMatchObject({ state: 'agreed', overShort: { total: 0 } });
    expect(visit.findings).toMatchObject([
      { code: 'integrity-absent', severity: 'doubt', file: day === 20 ? 'a.dex' : 'c.dex' },
    ]);
    expect(isInDoubt(visit)).toBe(true);
  });

  it('carries none of a capture in between, whose counters cancel out', () => {
    expect(codesOf(visitOf({ 22: unsealed }))).toEqual([]);
  });

  it('says so in the first line and in the table', () => {
    const lines = laySettlement(settle(scenario({ 24: unsealed })).settlements[0]!, PLAIN_STYLE);
    expect(lines[0]).toBe('Route R1, 2026-11-24: no difference on 1 settled visit; 1 visit in doubt.');
    expect(lines.join('\n')).toContain('agreed, in doubt');
    expect(laySettlement(settle(scenario({})).settlements[0]!, PLAIN_STYLE).join('\n')).not.toContain('in doubt');
  });

  it('carries them where there is nothing to count from, too, and is not said to be settled', () => {
    const { captures, counts } = scenario({ 24: unsealed });
    const visit = visitsOf({ captures: { 'c.dex': captures['c.dex']! }, counts })[0]!;
    expect(codesOf(visit)).toEqual(['no-opening', 'integrity-absent']);
    expect(isInDoubt(visit)).toBe(false);
  });
});
