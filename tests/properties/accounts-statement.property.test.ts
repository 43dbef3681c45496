import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { RoundedAmount } from '../../src/accounts/round-half-even.js';
import { type RatedSales, workOutAmounts } from '../../src/accounts/statement-amounts.js';
import { readMachines } from '../../src/sheets/index.js';

/** What a statement comes to, by the integers of the language: each amount as a numerator over one common denominator. */
function referenceOf(machines: readonly RatedSales[]) {
  const MILLION = 1_000_000n;
  const rateOf = (machine: RatedSales['machine']): bigint =>
    machine.taxIncluded === false ? 0n : BigInt(machine.tax ?? 0);
  const common = machines.reduce((product, { machine }) => product * (MILLION + rateOf(machine)), 1n) * MILLION;
  const sum = (of: (sales: bigint, machine: RatedSales['machine']) => bigint): bigint =>
    machines.reduce((total, { machine, sales }) => total + of(BigInt(sales), machine), 0n);
  const taxOf = (sales: bigint, machine: RatedSales['machine']): bigint =>
    (common / (MILLION + rateOf(machine))) * sales * rateOf(machine);
  const baseOf = (sales: bigint, machine: RatedSales['machine']): bigint =>
    sales * common - (machine.commissionBase === 'net' ? taxOf(sales, machine) : 0n);
  return {
    common,
    tax: sum(taxOf),
    base: sum((sales, machine) => (machine.commission === 0 ? 0n : baseOf(sales, machine))),
    // One more factor of a million, which the common denominator has not.
    commissionMillion: sum((sales, machine) => baseOf(sales, machine) * BigInt(machine.commission!)),
  };
}

/** amount + remainder = exact, to the last part; and the amount is the nearest, of two equally near the even one. */
function expectExact(rounded: RoundedAmount | null, numerator: bigint, denominator: bigint, isEven = true): void {
  const { amount, remainder } = rounded!;
  const whole = BigInt(amount) * remainder.denominator + remainder.numerator;
  expect(whole * denominator).toBe(numerator * remainder.denominator);
  const twice = 2n * (remainder.numerator < 0n ? -remainder.numerator : remainder.numerator);
  expect(twice <= remainder.denominator).toBe(true);
  if (isEven && twice === remainder.denominator) expect(amount % 2).toBe(0);
}

const percent = fc.integer({ min: 0, max: 1_000_000 });
const rated: fc.Arbitrary<RatedSales> = fc
  .record({
    sales: fc.integer({ min: 0, max: 10 ** 12 }),
    commission: percent,
    commissionBase: fc.constantFrom('gross', 'net'),
    tax: percent,
    taxIncluded: fc.constantFrom('yes', 'no', ''),
  })
  .map(({ sales, commission, commissionBase, tax, taxIncluded }) => {
    const write = (parts: number): string => `${(parts / 10_000).toFixed(4)} %`;
    const header = 'machine,commission_percent,commission_base,tax_percent,tax_included';
    const content = `${header}\nM1,${write(commission)},${commissionBase},${write(tax)},${taxIncluded}`;
    return { sales, machine: readMachines({ file: 'm.csv', content }).rows[0]! };
  });
const machinesOf = (each: fc.Arbitrary<RatedSales>) => fc.array(each, { minLength: 1, maxLength: 6 });
const grossOf = (machines: readonly RatedSales[]): number => machines.reduce((sum, { sales }) => sum + sales, 0);

describe('the amounts of a location statement', () => {
  it('are exact but for one rounding each, whose remainder is stated', () => {
    fc.assert(
      fc.property(machinesOf(rated), (machines) => {
        const { tax, base, commission, missing } = workOutAmounts(machines, grossOf(machines));
        const reference = referenceOf(machines);
        expect(missing).toEqual([]);
        expectExact(tax, reference.tax, reference.common);
        // Gross less a rounded deduction: then it is the deduction that is even.
        expectExact(base, reference.base, reference.common, false);
        expectExact(commission, reference.commissionMillion, reference.common * 1_000_000n);
      }),
    );
  });

  it('add up to the cent: tax and net are gross, and the base is net where all of it is', () => {
    const net = rated.map(({ sales, machine }): RatedSales => {
      return { sales, machine: { ...machine, commissionBase: 'net', commission: 50_000, taxIncluded: true } };
    });
    fc.assert(
      fc.property(machinesOf(net), (machines) => {
        const gross = grossOf(machines);
        const amounts = workOutAmounts(machines, gross);
        expect(amounts.tax!.amount + amounts.net!).toBe(gross);
        expect(amounts.base!.amount).toBe(amounts.net);
      }),
    );
  });

  it('are the same in whatever order the machines come, and however sales of one rate are split over machines', () => {
    fc.assert(
      fc.property(machinesOf(rated), fc.nat(), (machines, part) => {
        const [first, ...rest] = machines;
        const some = part % (first!.sales + 1);
        const split = [...rest, { ...first!, sales: some }, { ...first!, sales: first!.sales - some }];
        const gross = grossOf(machines);
        expect(workOutAmounts(split, gross)).toEqual(workOutAmounts(machines, gross));
        expect(workOutAmounts([...machines].reverse(), gross)).toEqual(workOutAmounts(machines, gross));
      }),
    );
  });
});
