import { addAll, type MachineRow, type Minor, type PartsPerMillion, subtract } from '../model/index.js';
import { addFractions, type Fraction, makeFraction, negateFraction, ZERO } from './fraction.js';
import { type RoundedAmount, roundAmount } from './round-half-even.js';

const MILLION = 1_000_000n;

/** What a machine sold, with its row of the roster. */
export interface RatedSales {
  readonly machine: MachineRow;
  readonly sales: Minor;
}

/** Why an amount cannot be worked out although the sales are known: what the roster leaves open. */
export interface MissingRate {
  readonly machine: string;
  readonly field: 'commission_percent' | 'commission_base' | 'tax_percent';
}

/** The amounts of a statement; null is not known, or not agreed at all. */
export interface StatementAmounts {
  readonly tax: RoundedAmount | null;
  readonly net: Minor | null;
  readonly taxOnTop: RoundedAmount | null;
  readonly base: RoundedAmount | null;
  readonly commission: RoundedAmount | null;
  readonly missing: readonly MissingRate[];
}

/**
 * Tax, base and commission over the machines of a location. Every share is an exact fraction, and only the sums over all
 * machines are rounded: tax once, and commission once, from the exact base. Tax contained in a gross at the rate r is
 * gross × r / (1 + r). Which tax is owed in the end follows local law.
 *
 * Where some machines of a location have a rate and others have none, the sum is not known; 0 says that there is none.
 */
export function workOutAmounts(machines: readonly RatedSales[], gross: Minor): StatementAmounts {
  const missingForTax = findMissingTax(machines);
  const missingForCommission = findMissingCommission(machines);
  const tax = isTaxed(machines) && missingForTax.length === 0 ? roundAmount(sumOf(machines, containedTax)) : null;
  const onTop = machines.filter(({ machine }) => machine.taxIncluded === false);
  const isPayable = isPaid(machines) && missingForCommission.length === 0;
  return {
    tax,
    net: tax === null ? null : subtract(gross, tax.amount),
    taxOnTop: tax === null || onTop.length === 0 ? null : roundAmount(sumOf(onTop, taxOnTop)),
    base: isPayable ? roundBase(machines) : null,
    commission: isPayable ? roundAmount(sumOf(machines, commissionOf)) : null,
    missing: [
      ...missingForTax,
      ...missingForCommission.filter((one) => !missingForTax.some((other) => isSame(one, other))),
    ],
  };
}

const isTaxed = (machines: readonly RatedSales[]): boolean => machines.some(({ machine }) => machine.tax !== null);
const isPaid = (machines: readonly RatedSales[]): boolean =>
  machines.some(({ machine }) => machine.commission !== null);
const isSame = (a: MissingRate, b: MissingRate): boolean => a.machine === b.machine && a.field === b.field;

function sumOf(machines: readonly RatedSales[], share: (rated: RatedSales) => Fraction): Fraction {
  return addFractions(machines.map(share));
}

function containedTax({ machine, sales }: RatedSales): Fraction {
  if (machine.tax === null || machine.taxIncluded === false) return ZERO;
  const rate = BigInt(machine.tax);
  return makeFraction(BigInt(sales) * rate, MILLION + rate);
}

function taxOnTop({ machine, sales }: RatedSales): Fraction {
  return partOf(makeFraction(BigInt(sales)), machine.tax!);
}

/** What is taken off before the commission: the tax, where it is taken of net sales. */
function deductionOf(rated: RatedSales): Fraction {
  return rated.machine.commissionBase === 'net' ? containedTax(rated) : ZERO;
}

function commissionOf(rated: RatedSales): Fraction {
  const base = addFractions([makeFraction(BigInt(rated.sales)), negateFraction(deductionOf(rated))]);
  return partOf(base, rated.machine.commission!);
}

function partOf({ numerator, denominator }: Fraction, rate: PartsPerMillion): Fraction {
  return makeFraction(numerator * BigInt(rate), denominator * MILLION);
}

/**
 * The base by its deduction, rounded as the tax is: so that base and tax add up where all of the base is net. Neither the
 * sales nor a deduction from them is more than gross, which is a safe integer.
 */
function roundBase(machines: readonly RatedSales[]): RoundedAmount {
  const paid = machines.filter(paysCommission);
  const deduction = roundAmount(sumOf(paid, deductionOf))!;
  const sales = addAll(paid.map((rated) => rated.sales))!;
  return { amount: sales - deduction.amount, remainder: negateFraction(deduction.remainder) };
}

const paysCommission = ({ machine }: RatedSales): boolean => machine.commission !== null && machine.commission > 0;

function findMissingTax(machines: readonly RatedSales[]): MissingRate[] {
  if (!isTaxed(machines)) return [];
  const untold = machines.filter(({ machine }) => machine.tax === null);
  return untold.map(({ machine: { machine } }) => ({ machine, field: 'tax_percent' }));
}

function findMissingCommission(machines: readonly RatedSales[]): MissingRate[] {
  if (!isPaid(machines)) return [];
  return machines.flatMap((rated) => {
    const field = missingFieldOf(rated);
    return field === null ? [] : [{ machine: rated.machine.machine, field }];
  });
}

function missingFieldOf(rated: RatedSales): MissingRate['field'] | null {
  const { commission, commissionBase, tax, taxIncluded } = rated.machine;
  if (commission === null) return 'commission_percent';
  if (!paysCommission(rated) || commissionBase === 'gross') return null;
  // Where the prices contain no tax, gross and net are the same.
  const hasNoTaxInside = tax === 0 || (tax !== null && taxIncluded === false);
  if (hasNoTaxInside) return null;
  return commissionBase === null ? 'commission_base' : tax === null ? 'tax_percent' : null;
}
