import { describe, expect, it } from 'vitest';
import { stateCommissions } from '../../src/accounts/state-commissions.js';
import { type Counters, intervalsOf, rosterOf } from './machine-days.js';

// Tax contained in takings as published; every figure is the source's own. Money is in cents.

/** Machines of one location: what each sold for cash in a week, and its tax rate in percent. */
function statementOf(machines: readonly (readonly [sold: number, percent: string])[], more: Partial<Counters> = {}) {
  const rows = machines.map(([, percent], i) => `M${i},A${i},Hall,USD,yes,no,${percent} %,yes`);
  const roster = rosterOf(
    ['machine,asset,location,currency,has_cash,has_card,tax_percent,tax_included', ...rows].join('\n'),
  );
  const counters = machines.flatMap(([sold], i): Counters[] => {
    const machine = { asset: `A${i}`, currency: 'USD', ...more };
    return [
      { ...machine, at: '2026-11-16 00:05', cash: 50_000 },
      { ...machine, at: '2026-11-23 00:05', cash: 50_000 + sold },
    ];
  });
  const [statement, ...others] = stateCommissions(intervalsOf(counters, roster), roster);
  expect(others).toEqual([]);
  return statement!;
}

describe('tax contained in takings, as published', () => {
  it.each([
    ['7.25', 932_401],
    ['10.75', 902_935],
  ])('leaves the share that the factor table gives at %s %% (California CDTFA publication 118)', (percent, net) => {
    // 93.2401 % and 90.2935 % of 10,000.00, to the table's four decimals.
    expect(statementOf([[1_000_000, percent]]).net).toBe(net);
  });

  it('is 233.66 of 10,000.00 at 7.25 % where 33 % is taxable (Cal. Code Regs. 18 §1574)', () => {
    // 33 % of 7.25 % is 2.3925 % of all that was sold.
    expect(statementOf([[1_000_000, '2.3925']]).tax!.amount).toBe(23_366);
  });

  it('is 229.34 of 2,500 at 10.1 %, 245.18 of 3,000 at 8.9 %, together 474.52 (Washington WAC 458-20-244)', () => {
    expect(statementOf([[250_000, '10.1']]).tax!.amount).toBe(22_934);
    expect(statementOf([[300_000, '8.9']]).tax!.amount).toBe(24_518);
    const both = statementOf([
      [250_000, '10.1'],
      [300_000, '8.9'],
    ]);
    expect([both.gross, both.tax!.amount]).toEqual([550_000, 47_452]);
  });

  it('is 450.00 of 10,450.00 at 4.5 %, and 400.00 of 10,400.00 at 4 % (Virginia rulings 87-199 and 82-103)', () => {
    expect(statementOf([[1_045_000, '4.5']])).toMatchObject({ tax: { amount: 45_000 }, net: 1_000_000 });
    expect(statementOf([[1_040_000, '4']])).toMatchObject({ tax: { amount: 40_000 }, net: 1_000_000 });
  });

  it('is 60.59 of 1,000.00 by a divisor of 1.0645 (Florida Stat. 212.0515(2))', () => {
    // The divisor takes out what a rate of 6.45 % does, whatever the rate by law.
    expect(statementOf([[100_000, '6.45']]).tax!.amount).toBe(6_059);
  });

  it('is due on metered sales, even where takings were stolen (HMRC manual VATTOS9050)', () => {
    // 120.00 were sold at 20 %, and no cash reached the box.
    expect(statementOf([[12_000, '20']], { cashIn: 700 }).tax!.amount).toBe(2_000);
  });
});
