import { z } from 'zod';
import { dateOrTimeShape, dateShape, textShape } from './figures.js';
import { settlementTotalsShape } from './totals.js';

const entryShape = z.int().min(0);
const instantShape = z.string().regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/);

/** How a visit stands. */
export const visitStateShape = z.enum(['agreed', 'over', 'short', 'uncounted', 'unread', 'unsettled']);

/** Figures and facts that a change can be of. With a machine they are a visit's, without one the round's. */
export const CHANGE_FIELDS = [
  'state',
  'driver',
  'bag',
  'visitedAt',
  'expected.coins',
  'expected.bills',
  'counted.coins',
  'counted.bills',
  'overShort.coins',
  'overShort.bills',
  'overShort.total',
  'cardSales',
  'sold',
  'value',
  'loss',
  'settledVisits',
  'openVisits',
  'countedOpen.coins',
  'countedOpen.bills',
] as const;

/** One figure or fact that is not as it was. Null is not known, or that there was no such visit. */
export const changeShape = z.object({
  /** Null: a figure of the round's totals. */
  machine: textShape,
  bag: textShape,
  visitedAt: dateOrTimeShape,
  driver: textShape,
  field: z.enum(CHANGE_FIELDS),
  from: z.union([z.int(), z.string()]).nullable(),
  to: z.union([z.int(), z.string()]).nullable(),
});

/** What a change rests on: an entry of the book, or a row of a sheet that is not in it. */
export const becauseShape = z.object({ entry: entryShape.nullable(), what: z.string() });

/** A driver's part of an adjustment; the driver is null for what is the route's own. */
export const driverPartShape = z.object({ driver: textShape, overShort: z.int() });

/** The closing that took something over. */
export const carriedToShape = z.object({ entry: entryShape, route: textShape, day: dateShape });

/** What came after a closing, as an entry of its own. */
export const adjustmentShape = z.object({
  entry: entryShape,
  at: instantShape,
  /** Null: a run by itself. */
  by: textShape,
  because: z.array(becauseShape),
  /** By how much over/short of the round changed. */
  overShort: z.int(),
  changes: z.array(changeShape),
  /** Its parts, which add up to `overShort`; `carriedTo` is null while no closing has taken the part over. */
  byDriver: z.array(driverPartShape.extend({ carriedTo: carriedToShape.nullable() })),
});

/** A driver's part of an adjustment of an earlier round, taken over into this one. */
export const carriedShape = z.object({
  /** The adjustment. */
  entry: entryShape,
  /** The round that it adjusts. */
  route: textShape,
  day: dateShape,
  overShort: z.int(),
});

/** The entry of the book by which a round was closed. */
export const closingEntryShape = z.object({
  entry: entryShape,
  at: instantShape,
  by: z.string(),
  /** Why it was closed though something was in the way. */
  reason: textShape,
});

/** What the book says of one driver of a round; see `bookFactsShape`. */
export const bookDriverShape = z.object({
  asClosed: settlementTotalsShape.nullable(),
  asItStands: settlementTotalsShape,
  /** Taken over at the closing; for an open round what would be taken over if it was closed now. */
  carried: z.array(carriedShape),
  /**
   * What the driver answers for with this round: as it stands, with what is carried into it and without what a later round
   * has taken over, so that nothing is in two rounds.
   */
  overShortWithCarried: z.int(),
});

/** What the book says of a round. */
export const bookFactsShape = z.object({
  /** Null while it is open. */
  closing: closingEntryShape.nullable(),
  /** The sums as they were closed. */
  asClosed: settlementTotalsShape.nullable(),
  /** The sums as they stand, with every change that is known, recorded or not. */
  asItStands: settlementTotalsShape,
  adjustments: z.array(adjustmentShape),
  /** Known and not recorded yet. */
  pending: z.array(changeShape),
  /** The same as the adjustment that it would be; null where nothing is pending. */
  pendingAdjustment: z
    .object({
      because: z.array(becauseShape),
      overShort: z.int(),
      byDriver: z.array(driverPartShape),
    })
    .nullable(),
  /** What keeps an open round from being closed, in words; empty where nothing does. */
  inTheWay: z.array(z.string()),
});

/** See {@link bookFactsShape}. */
export type BookFactsJson = z.infer<typeof bookFactsShape> & { readonly drivers: readonly BookDriverJson[] };
/** See {@link adjustmentShape}. */
export type AdjustmentJson = z.infer<typeof adjustmentShape>;
/** See {@link carriedShape}. */
export type CarriedJson = z.infer<typeof carriedShape>;
/** See {@link changeShape}. */
export type ChangeJson = z.infer<typeof changeShape>;
/** See {@link driverPartShape}. */
export type DriverPartJson = z.infer<typeof driverPartShape>;
/** See {@link bookDriverShape}. */
export type BookDriverJson = z.infer<typeof bookDriverShape> & {
  readonly driver: string | null;
  readonly totals: BookFactsJson['asItStands'];
};
