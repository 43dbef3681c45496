import { z } from 'zod';
import {
  countShape,
  currencyShape,
  dateOrTimeShape,
  dateShape,
  decimalsShape,
  moneyShape,
  textShape,
  timeShape,
} from './figures.js';
import { findingShape, generalShape } from './finding.js';

/** A percentage as decimal text, such as `2.50`: exact digits, never a binary fraction. */
const percentShape = z
  .string()
  .regex(/^-?\d+(\.\d+)?$/)
  .nullable();
/** Exact parts of a minor unit: `0`, `1/2`, `-5/119`. */
const partsShape = z.string().regex(/^-?\d+(\/\d+)?$/);
const dayShape = dateShape.nullable();

const STATES = ['matched', 'differing', 'missing', 'extra', 'open', 'unclear'] as const;
const REASONS = [
  'in-total',
  'equally-good',
  'sales-not-known',
  'sales-floor',
  'cash-as-card',
  'edges',
  'no-time',
  'unknown-machine',
  'unknown-device',
  'two-machines',
  'other-currency',
  'taken-back',
  'not-due',
  'before-sheet',
  'outside-reads',
] as const;

/** One deposit of the processor's sheet. */
export const depositShape = z.object({
  row: z.int().min(1),
  date: dateShape,
  device: textShape,
  reference: textShape,
  periodFrom: dayShape,
  periodTo: dayShape,
  gross: z.int(),
  fees: moneyShape,
  net: moneyShape,
  /** Fees of gross; null where they are not known or the row does not add up. */
  feePercent: percentShape,
});

/** Card sales that stand against deposits, or one without the other. */
export const depositMatchShape = z.object({
  machine: textShape,
  location: textShape,
  device: textShape,
  currency: currencyShape,
  decimals: decimalsShape,
  state: z.enum(STATES),
  reason: z.enum(REASONS).nullable(),
  from: timeShape,
  to: timeShape,
  sales: moneyShape,
  salesIsFloor: z.boolean(),
  gross: moneyShape,
  fees: moneyShape,
  net: moneyShape,
  feePercent: percentShape,
  /** Gross less sales. */
  difference: moneyShape,
  differenceIsAtLeast: z.boolean(),
  deposits: z.array(depositShape),
  captures: z.array(z.string()),
  findings: z.array(findingShape),
});

/** Sums over the deposits of one currency. */
export const depositTotalsShape = z.object({
  currency: currencyShape,
  decimals: decimalsShape,
  deposits: countShape.unwrap(),
  gross: moneyShape,
  fees: moneyShape,
  net: moneyShape,
  feePercent: percentShape,
  /** Gross of the deposits whose fees are in the sums: the rate is fees of this. */
  feesOfGross: moneyShape,
  withoutFees: countShape.unwrap(),
  /** Card sales by state. */
  sales: z.object(
    Object.fromEntries(STATES.map((state) => [state, moneyShape])) as Record<
      (typeof STATES)[number],
      typeof moneyShape
    >,
  ),
});

/** What a comparison of card sales with deposits gives. */
export const depositsShape = z.object({
  matches: z.array(depositMatchShape),
  totals: z.array(depositTotalsShape),
  general: generalShape,
});

/** See {@link depositsShape}. */
export type DepositsJson = z.infer<typeof depositsShape>;

/** An amount that was rounded half to even, once: exact = amount + remainder. */
const roundedShape = z.object({ amount: z.int(), remainder: partsShape }).nullable();

/** Which figures are the least they can have been. */
function floorsShape<Name extends string>(names: readonly Name[]) {
  return z.object(Object.fromEntries(names.map((name) => [name, z.boolean()])) as Record<Name, z.ZodBoolean>);
}

/** One machine on a statement. */
export const statementLineShape = z.object({
  machine: z.string(),
  from: timeShape,
  to: timeShape,
  cashSales: moneyShape,
  cardSales: moneyShape,
  sales: moneyShape,
  /** Whether any of the figures is the least it can have been; `floors` says which. */
  isFloor: z.boolean(),
  floors: floorsShape(['cashSales', 'cardSales', 'sales']),
  cashIsBookedAsCard: z.boolean(),
  /** Cash sales that the card counters hold: they are in `cashSales`, not in `cardSales`. */
  cashInCardSales: moneyShape,
  commissionPercent: percentShape,
  commissionBase: z.enum(['gross', 'net']).nullable(),
  taxPercent: percentShape,
  taxIncluded: z.boolean().nullable(),
  captures: z.array(z.string()),
});

/** What one location sold, the tax contained, and its commission: one object a location and currency. */
export const statementShape = z.object({
  location: textShape,
  currency: currencyShape,
  decimals: decimalsShape,
  from: dateOrTimeShape,
  to: dateOrTimeShape,
  cashSales: moneyShape,
  cardSales: moneyShape,
  gross: moneyShape,
  tax: roundedShape,
  net: moneyShape,
  taxOnTop: roundedShape,
  base: roundedShape,
  commission: roundedShape,
  isFloor: z.boolean(),
  floors: floorsShape(['cashSales', 'cardSales', 'gross', 'tax', 'net', 'taxOnTop', 'base', 'commission']),
  lines: z.array(statementLineShape),
  caution: z.string(),
  findings: z.array(findingShape),
  general: generalShape,
});

/** See {@link statementShape}. */
export type StatementJson = z.infer<typeof statementShape>;
