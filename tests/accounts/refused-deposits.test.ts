import { describe, expect, it } from 'vitest';
import { findRefusedDeposits, listRefusals } from '../../src/accounts/refused-deposits.js';
import { decimalsFromRoster, readDeposits } from '../../src/sheets/index.js';
import { matchExample } from './example-accounts.js';

const EXAMPLE = matchExample();
const HEAD = 'machine,date,gross,fees,net,reference';
const read = (...rows: string[]) =>
  readDeposits({ file: 'deposits.csv', content: [HEAD, ...rows].join('\n') }, decimalsFromRoster([], 2));

describe('findRefusedDeposits', () => {
  it('puts in doubt what is said to be missing while rows could not be used', () => {
    const one = findRefusedDeposits(read('M1,2026-11-17,1O.00,,,R1', 'M1,2026-11-18,10.00,,,R2'), EXAMPLE);
    expect(one).toMatchObject([{ code: 'deposit-unclear', severity: 'doubt', file: 'deposits.csv' }]);
    expect(one[0]!.message).toBe(
      '1 row of deposits.csv could not be used: what is said to be missing or too little may be in it.',
    );
    const two = findRefusedDeposits(read('M1,2026-11-17,1O.00,,,R1', 'M1,03/04/2026,10.00,,,R2'), EXAMPLE);
    expect(listRefusals(read('M1,2026-11-17,1O.00,,,R1'))).toMatchObject([{ machine: 'M1', row: 2 }]);
    expect(two[0]!.message).toMatch(/^2 rows of .* may be in them\.$/);
  });

  it('says nothing where nothing is missing', () => {
    const matched = EXAMPLE.matches.filter(({ state }) => state === 'matched');
    expect(findRefusedDeposits(read('M1,2026-11-17,1O.00,,,R1'), { ...EXAMPLE, matches: matched })).toEqual([]);
  });

  it('says nothing of rows that were used, or that repeat another', () => {
    // Gross less fees is not net: used with a doubt.
    expect(findRefusedDeposits(read('M1,2026-11-17,10.00,1.00,8.00,R1'), EXAMPLE)).toEqual([]);
    const again = 'M1,2026-11-17,10.00,1.00,9.00,R1';
    const repeated = read(again, again);
    expect(repeated.rows).toHaveLength(1);
    expect(findRefusedDeposits(repeated, EXAMPLE)).toEqual([]);
  });
});
