import { z } from 'zod';
import { ATTENTION_CAUSES } from '../../attention/index.js';
import { FINDING_CODES, type FindingCode } from '../../findings/index.js';
import { countShape, currencyShape, dateShape, decimalsShape, moneyShape, textShape, timeShape } from './figures.js';
import { findingShape } from './finding.js';
import { settlementShape } from './settlement.js';

const tallyShape = z.int().min(0);

/** What something may cost, in minor units of the item's currency. */
export const stakeShape = z.object({
  amount: moneyShape,
  /** How `amount` is meant; what is about is rounded to two significant digits. */
  bound: z.enum(['exact', 'about', 'at-least', 'at-most']).nullable(),
  /** About, for every further day. */
  perDay: moneyShape,
  /** How it was estimated, or why it is not known. */
  how: z.string(),
});

/** One line of what a person has to look at. */
export const attentionShape = z.object({
  /** On no roster, what the machine calls itself; null for no machine at all. */
  machine: textShape,
  location: textShape,
  route: textShape,
  driver: textShape,
  cause: z.enum(ATTENTION_CAUSES),
  severity: z.enum(['fault', 'doubt', 'note']),
  what: z.string(),
  stake: stakeShape,
  currency: currencyShape,
  decimals: decimalsShape,
  todo: z.string(),
  cautions: z.array(z.string()),
  codes: z.array(z.enum(Object.keys(FINDING_CODES) as [FindingCode, ...FindingCode[]])),
  findings: z.array(findingShape),
});

const machineKeys = { machine: z.string(), location: textShape, route: textShape };
const periodKeys = { from: timeShape, to: timeShape, currency: currencyShape, decimals: decimalsShape };

/** What one column sold from one read to the next. */
export const daySalesShape = z.object({
  ...machineKeys,
  ...periodKeys,
  column: z.string(),
  product: textShape,
  sold: countShape,
  value: moneyShape,
  test: countShape,
  free: countShape,
  priceFrom: moneyShape,
  priceTo: moneyShape,
  pricePlan: moneyShape,
  loss: moneyShape,
  unexplained: moneyShape,
  flags: z.array(
    z.enum([
      'floor',
      'restart',
      'interval-counters',
      'not-known',
      'new-column',
      'column-gone',
      'off-plan',
      'price-changed',
      'unexplained',
    ]),
  ),
});

/** What the cash of one machine did from one read to the next. */
export const dayCashShape = z.object({
  ...machineKeys,
  ...periodKeys,
  sold: countShape,
  value: moneyShape,
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
  flags: z.array(z.enum(['floor', 'restart', 'interval-counters', 'cash-as-card'])),
});

/** What one column needs to be at par again. */
export const refillShape = z.object({
  ...machineKeys,
  column: z.string(),
  product: textShape,
  par: countShape,
  capacity: countShape,
  since: timeShape,
  until: timeShape,
  basis: z.enum(['list', 'service-read', 'bag']).nullable(),
  sold: countShape,
  test: countShape,
  free: countShape,
  left: countShape,
  toFill: countShape,
  soldOut: z.enum(['machine', 'counters']).nullable(),
  flags: z.array(
    z.enum([
      'no-fill-known',
      'visit-unread',
      'floor',
      'restart',
      'absent',
      'new-column',
      'more-than-par',
      'no-par',
      'old',
    ]),
  ),
});

/** What `day.json` holds. */
export const dayShape = z.object({
  day: dateShape,
  files: z.object({
    files: tallyShape,
    sound: tallyShape,
    doubtful: tallyShape,
    readAgain: tallyShape,
    setAside: tallyShape,
    reads: tallyShape,
    duplicates: tallyShape,
  }),
  machines: z.object({ expected: tallyShape, read: tallyShape, unknown: tallyShape }),
  totals: z.array(
    z.object({
      currency: currencyShape,
      decimals: decimalsShape,
      sold: countShape,
      value: moneyShape,
      intervals: tallyShape,
      /** Intervals whose sales are not known: they are in no sum. */
      openIntervals: tallyShape,
    }),
  ),
  attention: z.array(attentionShape),
  sales: z.array(daySalesShape),
  cash: z.array(dayCashShape),
  settlements: z.array(settlementShape),
  refill: z.array(refillShape),
});

/** See {@link dayShape}. */
export type DayJson = z.infer<typeof dayShape>;

/** See {@link attentionShape}. */
export type AttentionJson = z.infer<typeof attentionShape>;
