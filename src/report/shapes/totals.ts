import { z } from 'zod';
import { coinsAndBillsShape, countShape, moneyShape, overShortShape } from './figures.js';

/** Sums over the settled visits (agreed, over, short) alone. */
export const settlementTotalsShape = z.object({
  expected: coinsAndBillsShape,
  counted: coinsAndBillsShape,
  overShort: overShortShape,
  cardSales: moneyShape,
  sold: countShape,
  value: moneyShape,
  loss: moneyShape,
  settledVisits: z.int().min(0),
  openVisits: z.int().min(0),
  /** Counted on visits that are not settled: in no other sum. */
  countedOpen: coinsAndBillsShape,
});
