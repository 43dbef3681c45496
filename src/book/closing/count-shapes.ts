import * as z from 'zod';
import { sheetPlaceSchema as place } from '../machine-row-schema.js';

const minor = z.int().nullable();
const text = z.string().nullable();
const whenSchema = z.object({ date: z.string(), time: text });

/** What the entry of a counted bag says: the row of the sheet in minor units, with their currency and decimals. */
export const countBodySchema = z.object({
  machine: z.string(),
  visitedAt: whenSchema,
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
  captureEntry: z
    .int()
    .nonnegative()
    .nullable()
    .describe('The entry of that capture, where the round was settled with it'),
  currency: text,
  decimals: z.int().nullable(),
  place: place.describe('Sheet and row it came from'),
  by: text.describe('Who entered it; null for a run by itself'),
});

/** What the entry of a row says that could not be used: as much of it as could be read, and why. */
export const unusableBodySchema = z.object({
  machine: text,
  visitedAt: whenSchema.nullable(),
  bag: text,
  route: text,
  driver: text,
  why: z.string(),
  place,
  by: text,
});

/** What the entry of a corrected count says. */
export const correctionBodySchema = z.object({
  was: countBodySchema.nullable().describe('Null where a row that could not be used is put right'),
  now: countBodySchema,
  reason: z.string(),
  by: z.string(),
});

/** What the entry says by which a count is taken out. */
export const withdrawalBodySchema = z.object({
  was: countBodySchema.nullable().describe('Null for a row that could not be used'),
  reason: z.string(),
  by: z.string(),
});

/** See {@link countBodySchema}. */
export type CountBody = z.infer<typeof countBodySchema>;
/** See {@link unusableBodySchema}. */
export type UnusableBody = z.infer<typeof unusableBodySchema>;
