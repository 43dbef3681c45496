import * as z from 'zod';
import { profileSchema } from '../../profile/index.js';
import { SHAPES } from '../../report/index.js';
import { type becauseShape, carriedShape, changesShape, visitStateShape } from '../../report/shapes/closing.js';
import { coinsAndBillsShape, dateOrTimeShape, overShortShape } from '../../report/shapes/figures.js';
import { machineRowSchema, sheetPlaceSchema as place } from '../machine-row-schema.js';

const entry = z.int().nonnegative();
const minor = z.int().nullable();
const text = z.string().nullable();
const yesOrNo = z.boolean().nullable();

/** What the entry of a counted bag says: the row of the sheet in minor units, with their currency and decimals. */
export const countBodySchema = z.object({
  machine: z.string(),
  visitedAt: z.object({ date: z.string(), time: text }),
  bag: text,
  coins: minor,
  bills: minor,
  route: text,
  driver: text,
  countedAt: text,
  note: text,
  paidOut: minor,
  filled: minor,
  floatIssued: minor,
  denominations: z.array(z.tuple([z.int(), z.int()])).describe('Value in minor units, and pieces'),
  capture: text.describe('Name of the capture, where the sheet gives one'),
  captureEntry: entry.nullable().describe('The entry of that capture, where the round was settled with it'),
  currency: text,
  decimals: z.int().nullable(),
  place: place.describe('Sheet and row it came from'),
  by: text.describe('Who entered it'),
});

/** What the entry of a corrected count says. */
export const correctionBodySchema = z.object({
  was: countBodySchema,
  now: countBodySchema,
  reason: z.string(),
  by: z.string(),
});

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

const captureRowSchema = z.object({
  file: z.string(),
  receivedAt: text,
  reason: z.enum(['scheduled', 'on demand', 'service']).nullable(),
  signal: z.number().nullable(),
  machine: text,
  bag: text,
  filled: yesOrNo,
  place,
});

const refusedSchema = z.object({
  code: SHAPES.finding.shape.code,
  severity: SHAPES.finding.shape.severity,
  message: z.string(),
  machine: z.string().optional(),
  file: z.string().optional(),
  row: z.int().optional(),
});

/** What the office said at a closing of the machines in it: a roster changed later changes nothing that is closed. */
export const officeSchema = z.object({
  machines: z.array(machineRowSchema),
  profiles: z.array(profileSchema),
  capturesList: z.array(captureRowSchema),
  refused: z.array(refusedSchema).describe('Rows of the count sheet that could not be used'),
});

/** How one visit stands, and the entries it rests on. */
export const standingSchema = z.object({
  machine: z.string(),
  visitedAt: dateOrTimeShape,
  bag: text,
  state: visitStateShape,
  expected: coinsAndBillsShape,
  counted: coinsAndBillsShape,
  overShort: overShortShape,
  capture: entry.nullable(),
  captures: z.array(entry),
  counts: z.array(entry),
});

/** What the entry of a closed settlement says. */
export const closingBodySchema = z.object({
  settlement: SHAPES.settlement,
  by: z.string(),
  bookSize: entry.describe('Size of the book that it was settled from'),
  how: howSchema,
  office: officeSchema,
  visits: z.array(standingSchema).describe('How each visit stood, with the entries it rests on'),
  restsOn: z.array(z.object({ entry, leaf: z.string() })).describe('Those entries with their leaf hashes'),
  carried: z.array(carriedShape).describe('Adjustments of earlier settlements taken over'),
});

/** What the entry of an adjustment says. */
export const adjustmentBodySchema = z.object({
  changes: changesShape,
  by: text,
  bookSize: entry,
  visits: z.array(standingSchema).describe('How each visit stands now'),
  office: officeSchema.describe('What the office said then, also of machines that the closing does not have'),
  restsOn: z.array(z.object({ entry, leaf: z.string() })),
});

/** See {@link countBodySchema}. */
export type CountBody = z.infer<typeof countBodySchema>;
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
/** What a change rests on: an entry, or a row that is not in the book yet. */
export type Because = z.infer<typeof becauseShape>;
