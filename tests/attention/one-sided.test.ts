import { describe, expect, it } from 'vitest';
import { findOneSided, lookAtOneSided, type SettledBags } from '../../src/attention/index.js';

const bagsOf = (name: string, amounts: readonly number[], more: Partial<SettledBags> = {}): SettledBags => ({
  of: 'machine',
  name,
  currency: 'EUR',
  decimals: 2,
  bags: amounts.map((overShort, i) => ({ day: `2026-11-${String(i + 1).padStart(2, '0')}`, overShort })),
  isNew: true,
  ...more,
});
const named = (all: readonly SettledBags[]) => findOneSided(all).map(({ name, odds }) => [name, odds]);

describe('bags that always differ in one direction (sign test: Dixon and Mood 1946)', () => {
  it('has the odds of a two-sided sign test without ties: 2 of 2^n', () => {
    // Critical values of the two-sided sign test at 5 %, as tables print them: 5 of one sign do not suffice, 6 do (1/32 = 0.031).
    expect(named([bagsOf('M1', Array(5).fill(-20))])).toEqual([]);
    expect(named([bagsOf('M1', Array(6).fill(-20))])).toEqual([['M1', 32]]);
    expect(named([bagsOf('M1', Array(9).fill(150))])).toEqual([['M1', 256]]);
    // Bags that agree are ties and tell nothing.
    expect(named([bagsOf('M1', [-20, 0, -5, 0, 0, -10, -20, -30])])).toEqual([]);
    expect(named([bagsOf('M1', [-20, 0, -5, 0, 0, -10, -20, -30, -1])])).toEqual([['M1', 32]]);
  });

  it('names none with a bag the other way, and none that has no new bag', () => {
    expect(named([bagsOf('M1', [-20, -20, -20, 1, -20, -20, -20, -20, -20])])).toEqual([]);
    expect(named([bagsOf('M1', Array(9).fill(-20), { isNew: false })])).toEqual([]);
  });

  it('asks for more where many are looked at, since chance makes runs among them', () => {
    const others = Array.from({ length: 39 }, (_, i) => bagsOf(`X${i}`, [-1, 1, -1, 1, -1, 1, -1, 1]));
    expect(named([bagsOf('M1', Array(6).fill(-20)), ...others])).toEqual([]);
    expect(named([bagsOf('M1', Array(8).fill(-20)), ...others])).toEqual([['M1', 128]]);
    // Machines with too few bags are not looked at, and drivers are no machines.
    const few = Array.from({ length: 39 }, (_, i) => bagsOf(`X${i}`, [-1, 1]));
    const drivers = others.map((one) => ({ ...one, of: 'driver' as const }));
    expect(named([bagsOf('M1', Array(6).fill(-20)), ...few, ...drivers])).toEqual([['M1', 32]]);
  });

  it('names by chance alone no more than one list in two, of any length', () => {
    for (const count of [1, 10, 40, 900]) {
      // The longest run that is not named yet, in all of them at once.
      const needed = Math.max(6, Math.ceil(Math.log2(2 * count)) + 1);
      const all = Array.from({ length: count }, (_, i) => bagsOf(`X${i}`, Array(needed).fill(-1)));
      expect(findOneSided(all)).toHaveLength(count);
      expect(count * 2 * 0.5 ** needed).toBeLessThanOrEqual(0.5);
    }
  });

  it('is told with what it comes to, how often chance does it, and that it is no proof', () => {
    const [found] = findOneSided([bagsOf('Robin Sample', [-20, 0, -50, -20, -20, -20, -20], { of: 'driver' })]);
    const item = lookAtOneSided(found!);
    expect(item).toMatchObject({ cause: 'one-sided', machine: null, driver: 'Robin Sample', severity: 'doubt' });
    expect(item.what).toBe(
      'Of the last 7 bags of Robin Sample, since 2026-11-01, 1 agrees and all others (6) are short: 1.50 EUR together, ' +
        '0.50 EUR at most. Chance alone does that to one driver in 32.',
    );
    expect(item.todo).toContain('no proof against anybody');
    expect(item.stake).toMatchObject({ amount: 150, bound: 'exact' });
  });

  it('looks at the last 30 bags', () => {
    const amounts = [5, ...Array(30).fill(-1)];
    expect(named([bagsOf('M1', amounts)])).toEqual([['M1', 2 ** 29]]);
  });
});
