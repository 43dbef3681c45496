import { z } from 'zod';
import {
  coinsAndBillsShape,
  currencyShape,
  dateOrTimeShape,
  dateShape,
  decimalsShape,
  moneyShape,
  overShortShape,
  textShape,
} from './figures.js';

const entryShape = z.int().min(0);
const instantShape = z.string().regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/);

/** How a visit stands. */
export const visitStateShape = z.enum(['agreed', 'over', 'short', 'uncounted', 'unread', 'unsettled']);

/** The entry of the book by which a settlement was closed. */
export const closedShape = z.object({ entry: entryShape, recordedAt: instantShape, by: z.string() });

/** One field of one visit that is not as it was. Null is not known, or that there was no such visit. */
export const visitChangeShape = z.object({
  machine: z.string(),
  visitedAt: dateOrTimeShape,
  bag: textShape,
  field: z.enum([
    'state',
    'expected.coins',
    'expected.bills',
    'counted.coins',
    'counted.bills',
    'overShort.coins',
    'overShort.bills',
    'overShort.total',
  ]),
  from: z.union([z.int(), visitStateShape]).nullable(),
  to: z.union([z.int(), visitStateShape]).nullable(),
  /**
   * By how much, minor units: null where one side is not known, and for a state. Of over/short also where the visit became
   * settled, or is settled no more.
   */
  by: moneyShape,
});

/** What a change rests on: an entry of the book, or a row of a sheet that is not in it. */
export const becauseShape = z.object({ entry: entryShape.nullable(), what: z.string() });

/** By how much sums over settled visits changed. */
export const sumsByKindShape = z.object({
  expected: coinsAndBillsShape,
  counted: coinsAndBillsShape,
  overShort: overShortShape,
});

/** What is not as it was: visit by visit, in the sums, and why. */
export const changesShape = sumsByKindShape.extend({
  visits: z.array(visitChangeShape),
  because: z.array(becauseShape),
});

/** What came after a closing, as an entry of its own. */
export const adjustmentShape = changesShape.extend({
  entry: entryShape,
  recordedAt: instantShape,
  by: textShape,
  /** The entry of the settlement that took it over; null while none has. */
  carriedBy: entryShape.nullable(),
});

/** An adjustment of an earlier settlement, taken over into this one. */
export const carriedShape = sumsByKindShape.extend({
  entry: entryShape,
  /** The settlement that it adjusts. */
  settlement: entryShape,
  day: dateShape,
  currency: currencyShape,
  decimals: decimalsShape,
});

/** What the book says of a settlement. */
export const closingShape = z.object({
  /** Null while it is open. */
  closed: closedShape.nullable(),
  /** What is not as it was closed and adjusted, and is not recorded yet; null where nothing is. */
  changes: changesShape.nullable(),
  adjustments: z.array(adjustmentShape),
  /** Taken over at the closing; for an open one what would be taken over if it was closed now. */
  carried: z.array(carriedShape),
  /** Over/short with what was carried; not known where one of them is not. */
  withCarried: overShortShape,
});

/** See {@link closingShape}. */
export type ClosingJson = z.infer<typeof closingShape>;
/** See {@link changesShape}. */
export type ChangesJson = z.infer<typeof changesShape>;
/** See {@link adjustmentShape}. */
export type AdjustmentJson = z.infer<typeof adjustmentShape>;
/** See {@link carriedShape}. */
export type CarriedJson = z.infer<typeof carriedShape>;
/** See {@link visitChangeShape}. */
export type VisitChangeJson = z.infer<typeof visitChangeShape>;
