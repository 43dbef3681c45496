import { z } from 'zod';
import { TIME_KINDS } from '../../model/index.js';
import { countShape, currencyShape, decimalsShape, machineShape, moneyShape, textShape, timeShape } from './figures.js';
import { findingShape, generalShape } from './finding.js';

const basisShape = z.enum(['lifetime', 'interval', 'restart']);

const endShape = z.object({
  file: z.string(),
  read: z.int().min(0),
  /** When the read was taken, by the strongest that says it. */
  time: timeShape,
  /** What that is known from: received (captures list, option), appended to ST by a reader, or the machine's clock. */
  timeKind: z.enum(TIME_KINDS).nullable(),
  clock: timeShape,
  receivedAt: timeShape,
  reason: z.enum(['scheduled', 'on demand', 'service']).nullable(),
});

const shareShape = z.object({ count: z.int(), price: z.int(), list: z.string().optional() });

/** What one column sold. */
export const columnSalesShape = z.object({
  column: z.string(),
  product: textShape,
  sold: countShape,
  value: moneyShape,
  priceFrom: moneyShape,
  priceTo: moneyShape,
  pricePlan: moneyShape,
  split: z.array(shareShape),
  test: countShape,
  free: countShape,
  discounts: moneyShape,
  unexplained: moneyShape,
  /** sold × (plan − charged); below 0 customers paid more than planned. */
  loss: moneyShape,
  basis: basisShape,
  floor: z.boolean(),
});

export const cashMovementShape = z.object({
  cashIn: moneyShape,
  toCashBox: moneyShape,
  toTubes: moneyShape,
  bills: moneyShape,
  dispensed: moneyShape,
  byHand: moneyShape,
  filled: moneyShape,
  overpaid: moneyShape,
  cashSales: moneyShape,
  cardSales: moneyShape,
  tokenSales: moneyShape,
  credited: moneyShape,
  tubesFrom: moneyShape,
  tubesTo: moneyShape,
  tubeDifference: moneyShape,
  customerDifference: moneyShape,
});

/** What `interval --json` prints: one object a pair of consecutive reads of one machine. */
export const intervalShape = z.object({
  machine: machineShape,
  from: endShape,
  to: endShape,
  currency: currencyShape,
  decimals: decimalsShape,
  basis: basisShape,
  floor: z.boolean(),
  columns: z.array(columnSalesShape),
  totals: z.object({
    sold: countShape,
    value: moneyShape,
    test: countShape,
    free: countShape,
    loss: moneyShape,
    unexplained: moneyShape,
  }),
  cash: cashMovementShape,
  findings: z.array(findingShape),
  general: generalShape,
});

/** See {@link intervalShape}. */
export type IntervalJson = z.infer<typeof intervalShape>;
