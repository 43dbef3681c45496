import { describe, expect, it } from 'vitest';
import { isFeeKnown, sumDeposits } from '../../src/accounts/deposit-totals.js';
import { matchExample } from './example-accounts.js';

const { matches } = matchExample();

describe('sumDeposits', () => {
  it('has nothing to sum up of nothing', () => {
    expect(sumDeposits([])).toEqual([]);
  });

  it('sums up each kind of money by itself, and sales by how they stand', () => {
    expect(
      sumDeposits(matches).map(({ currency, deposits, gross, sales }) => [currency, deposits, gross, sales.matched]),
    ).toEqual([
      ['EUR', 3, 2006, 1556],
      [null, 1, 100, 0],
    ]);
  });

  it('does not know a sum with an unknown in it', () => {
    const unknown = matches.map((match) => (match.state === 'missing' ? { ...match, sales: null } : match));
    expect(sumDeposits(unknown)[0]!.sales).toMatchObject({ missing: null, matched: 1556 });
  });

  it('takes fees only of deposits that state them and add up', () => {
    const rows = matches.flatMap(({ deposits }) => deposits);
    expect(rows.map(isFeeKnown)).toEqual([true, true, false, true]);
    expect(isFeeKnown({ ...rows[0]!, mismatch: 1 })).toBe(false);
    expect(isFeeKnown({ ...rows[0]!, net: null })).toBe(false);
    const none = matches.slice(2, 3);
    expect(sumDeposits(none)[0]).toMatchObject({ fees: null, net: null, fee: null, withoutFees: 1 });
  });
});
