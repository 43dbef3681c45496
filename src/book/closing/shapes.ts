import * as z from 'zod';
import { profileSchema } from '../../profile/index.js';
import { becauseShape, changeShape, visitStateShape } from '../../report/shapes/closing.js';
import { coinsAndBillsShape, dateOrTimeShape, overShortShape } from '../../report/shapes/figures.js';
import {
  recordedDriversSchema,
  recordedListRowSchema,
  recordedMachineSchema,
  recordedRefusalSchema,
  recordedSettlementSchema,
  recordedTotalsSchema,
} from './recorded-settlement.js';

const entry = z.int().nonnegative();
const text = z.string().nullable();

/** How a round was settled: what has to be the same when it is worked out anew. */
export const howSchema = z.object({
  tolerance: z.object({ amount: z.int(), basisPoints: z.int() }),
  windowMinutes: z.int().nullable(),
  ignoreHandMoves: z.boolean(),
  currency: text.describe('Where neither capture nor roster says one'),
  decimals: z.int().nullable(),
  clockToleranceMinutes: z.int().nullable(),
  isFileTimeReceived: z.boolean(),
});

/** What the office said at a closing of the machines in it: a roster changed later changes nothing that is closed. */
export const officeSchema = z.object({
  machines: z.array(recordedMachineSchema),
  profiles: z.array(profileSchema),
  capturesList: z.array(recordedListRowSchema),
  refused: z
    .array(recordedRefusalSchema)
    .describe('Rows that could not be used, in closings that had no entry for them'),
});

/** How one visit stands, and the entries it rests on. */
export const standingSchema = z.object({
  machine: z.string(),
  visitedAt: dateOrTimeShape,
  bag: text,
  driver: text.describe('Who answers for it'),
  state: visitStateShape,
  expected: coinsAndBillsShape,
  counted: coinsAndBillsShape,
  overShort: overShortShape,
  capture: entry.nullable(),
  captures: z.array(entry),
  counts: z.array(entry),
});

const restsOnSchema = z.array(z.object({ entry, leaf: z.string() }));

/** What the entry of a closed settlement says. */
export const closingBodySchema = z.object({
  settlement: recordedSettlementSchema,
  by: z.string(),
  anyway: z
    .object({ reason: z.string(), inTheWay: z.array(z.string()) })
    .nullable()
    .describe('Why it was closed though something was in the way, and what that was'),
  bookSize: entry.describe('Size of the book that it was settled from'),
  how: howSchema,
  office: officeSchema,
  visits: z.array(standingSchema).describe('How each visit stood, with the entries it rests on'),
  restsOn: restsOnSchema.describe('Those entries with their leaf hashes'),
});

/** What the entry of an adjustment says. */
export const adjustmentBodySchema = z.object({
  of: z
    .object({ settlement: entry, route: text, day: z.string(), currency: text, decimals: z.int().nullable() })
    .describe('The settlement that it adjusts'),
  because: z.array(becauseShape),
  overShort: z.int().describe('By how much over/short of the round changed'),
  changes: z.array(changeShape).describe('Every figure and fact that is not as it was, totals included'),
  byDriver: z.array(z.object({ driver: text, overShort: z.int() })).describe('By whom it is answered for'),
  by: text,
  bookSize: entry,
  totals: recordedTotalsSchema.describe('Of the round as it stands now'),
  drivers: recordedDriversSchema,
  visits: z.array(standingSchema).describe('How each visit stands now'),
  office: officeSchema.describe('What the office said then, also of machines that the closing does not have'),
  restsOn: restsOnSchema,
});

/** What carrying needs to know of an adjustment. */
export const adjustmentPartsSchema = adjustmentBodySchema.pick({ of: true, byDriver: true });

/** What the entry says by which a driver's part of an adjustment is taken over by a later closing. */
export const carriedBodySchema = z.object({
  driver: text.describe('Null: the route itself'),
  overShort: z.int(),
  from: z.object({ adjustment: entry, settlement: entry, route: text, day: z.string() }),
  to: z.object({ settlement: entry, route: text, day: z.string() }),
});

/** See {@link howSchema}. */
export type SettledHow = z.infer<typeof howSchema>;
/** See {@link officeSchema}. */
export type SettledOffice = z.infer<typeof officeSchema>;
/** See {@link standingSchema}. */
export type Standing = z.infer<typeof standingSchema>;
/** See {@link closingBodySchema}. */
export type ClosingBody = z.infer<typeof closingBodySchema>;
/** See {@link adjustmentBodySchema}. */
export type AdjustmentBody = z.infer<typeof adjustmentBodySchema>;
/** See {@link carriedBodySchema}. */
export type CarriedBody = z.infer<typeof carriedBodySchema>;
/** What a change rests on: an entry, or a row that is not in the book yet. */
export type Because = z.infer<typeof becauseShape>;
