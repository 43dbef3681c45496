import { z } from 'zod';
import { bookDriverShape, bookFactsShape, visitStateShape } from './closing.js';
import {
  coinsAndBillsShape,
  countShape,
  currencyShape,
  dateOrTimeShape,
  dateShape,
  decimalsShape,
  moneyShape,
  overShortShape,
  textShape,
  timeShape,
} from './figures.js';
import { findingShape, generalShape } from './finding.js';
import { settlementTotalsShape } from './totals.js';

const expectedLineShape = z.object({
  what: z.enum(['to-cash-box', 'paid-out', 'filled', 'float-issued', 'bills']),
  kind: z.enum(['coins', 'bills']),
  amount: moneyShape,
  source: z.enum(['counters', 'sheet']),
});

/** One machine, one moment, one bag. */
export const visitShape = z.object({
  machine: z.string(),
  location: textShape,
  driver: textShape,
  visitedAt: dateOrTimeShape,
  bag: textShape,
  matchedBy: z.enum(['bag', 'time', 'date']).nullable(),
  capture: textShape,
  since: textShape,
  sinceTime: timeShape,
  currency: currencyShape,
  decimals: decimalsShape,
  expected: coinsAndBillsShape,
  /** The true figure may be higher. */
  expectedIsFloor: z.boolean(),
  expectedLines: z.array(expectedLineShape),
  counted: coinsAndBillsShape,
  overShort: overShortShape,
  state: visitStateShape,
  jointBags: z.array(z.string()),
  cardSales: moneyShape,
  sold: countShape,
  value: moneyShape,
  /** What prices off plan cost. */
  loss: moneyShape,
  findings: z.array(findingShape),
});

/** What `settle --json` prints: one object a route, day and currency. */
export const settlementShape = z.object({
  route: textShape,
  day: dateShape,
  from: dateOrTimeShape,
  to: dateOrTimeShape,
  currency: currencyShape,
  decimals: decimalsShape,
  visits: z.array(visitShape),
  totals: settlementTotalsShape,
  drivers: z.array(
    // Beside the totals: only where the settlement was looked up in a book.
    z.object({ driver: textShape, totals: settlementTotalsShape, ...bookDriverShape.partial().shape }),
  ),
  findings: z.array(findingShape),
  general: generalShape,
  // Only where the settlement was looked up in a book.
  ...bookFactsShape.partial().shape,
});

/** See {@link settlementShape}. */
export type SettlementJson = z.infer<typeof settlementShape>;
