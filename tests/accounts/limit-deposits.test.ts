import { describe, expect, it } from 'vitest';
import type { DepositMatch } from '../../src/accounts/deposit-match.js';
import { limitDeposits } from '../../src/accounts/limit-deposits.js';
import type { StatementPeriod } from '../../src/accounts/location-statement.js';
import { matchExample } from './example-accounts.js';

const EXAMPLE = matchExample();
const statesIn = (period: StatementPeriod, matches: readonly DepositMatch[] = EXAMPLE.matches) =>
  limitDeposits({ matches, totals: [] }, period).matches.map(({ machine, state }) => `${machine} ${state}`);

describe('limitDeposits', () => {
  it('goes by the later read of the sales, to which a deposit may come later', () => {
    expect(statesIn({ to: '2026-11-17' })).toEqual(['M1 matched']);
    expect(statesIn({ from: '2026-11-18', to: '2026-11-18' })).toEqual([
      'M1 differing',
      'M2 matched',
      'M4 missing',
      'M9 extra',
    ]);
    expect(statesIn({ from: '2026-11-19' })).toEqual([]);
    expect(statesIn({})).toHaveLength(EXAMPLE.matches.length);
  });

  it('goes by the last date of deposits without sales', () => {
    const [extra] = EXAMPLE.matches.filter(({ state }) => state === 'extra') as [DepositMatch];
    const later = { ...extra, deposits: [{ ...extra.deposits[0]!, date: '2026-11-25' }, extra.deposits[0]!] };
    expect(statesIn({ from: '2026-11-25' }, [later])).toEqual(['M9 extra']);
    expect(statesIn({ to: '2026-11-24' }, [later])).toEqual([]);
  });

  it('keeps what has no day, for it may be of any', () => {
    const [matched] = EXAMPLE.matches as [DepositMatch];
    expect(statesIn({ from: '2030-01-01' }, [{ ...matched, to: null }])).toEqual(['M1 matched']);
    expect(statesIn({ from: '2030-01-01' }, [{ ...matched, to: null, intervals: [], deposits: [] }])).toHaveLength(1);
  });

  it('adds up only what is left', () => {
    const { totals } = limitDeposits(EXAMPLE, { to: '2026-11-17' });
    // The one deposit of 12.56, of which 0.31 was kept back: 2.468 %.
    expect(totals).toMatchObject([{ currency: 'EUR', deposits: 1, gross: 1256, fees: 31, net: 1225 }]);
    expect(totals[0]!.fee!.percent).toBe('2.47');
    expect(totals[0]!.sales).toMatchObject({ matched: 1256, missing: 0 });
  });
});
