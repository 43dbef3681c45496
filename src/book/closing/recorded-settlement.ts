import * as z from 'zod';
import type { SettlementJson } from '../../report/index.js';
import { machineRowSchema, sheetPlaceSchema } from '../machine-row-schema.js';

// The shape of a settlement as closings keep it. It is theirs for good: what commands print may get other keys, and a book
// that was closed before that opens all the same. Codes and states are texts here, since some may be given up one day.

const minor = z.int().nullable();
const text = z.string().nullable();
const byKind = z.object({ coins: minor, bills: minor });
const difference = byKind.extend({ total: minor });

const findingSchema = z.looseObject({
  code: z.string(),
  severity: z.enum(['fault', 'doubt', 'note']),
  message: z.string(),
  advice: z.string().nullish(),
  /** In words, as commands print them. */
  cautions: z.array(z.string()).nullish(),
});

const visitSchema = z.object({
  machine: z.string(),
  location: text,
  driver: text,
  visitedAt: text,
  bag: text,
  matchedBy: z.enum(['bag', 'time', 'date']).nullable(),
  capture: text,
  since: text,
  sinceTime: text,
  currency: text,
  decimals: z.int().nullable(),
  expected: byKind,
  expectedIsFloor: z.boolean(),
  expectedLines: z.array(
    z.object({
      what: z.enum(['to-cash-box', 'paid-out', 'filled', 'float-issued', 'bills']),
      kind: z.enum(['coins', 'bills']),
      amount: minor,
      source: z.enum(['counters', 'sheet']),
    }),
  ),
  counted: byKind,
  overShort: difference,
  state: z.enum(['agreed', 'over', 'short', 'uncounted', 'unread', 'unsettled']),
  jointBags: z.array(z.string()),
  cardSales: minor,
  sold: minor,
  value: minor,
  loss: minor,
  findings: z.array(findingSchema),
});

/** Sums over the settled visits of a round or of one driver. */
export const recordedTotalsSchema = z.object({
  expected: byKind,
  counted: byKind,
  overShort: difference,
  cardSales: minor,
  sold: minor,
  value: minor,
  loss: minor,
  settledVisits: z.int(),
  openVisits: z.int(),
  countedOpen: byKind,
});

/** The sums driver by driver. */
export const recordedDriversSchema = z.array(z.object({ driver: text, totals: recordedTotalsSchema }));

/** A settlement as a closing keeps it. */
export const recordedSettlementSchema = z.object({
  route: text,
  day: z.string(),
  from: text,
  to: text,
  currency: text,
  decimals: z.int().nullable(),
  visits: z.array(visitSchema),
  totals: recordedTotalsSchema,
  drivers: recordedDriversSchema,
  findings: z.array(findingSchema),
});

/** What a captures list said of a file, as a closing keeps it. */
export const recordedListRowSchema = z.object({
  file: z.string(),
  receivedAt: text,
  reason: z.enum(['scheduled', 'on demand', 'service']).nullable(),
  signal: z.number().nullable(),
  machine: text,
  bag: text,
  filled: z.boolean().nullable(),
  place: sheetPlaceSchema,
});

/** A row that could not be used, as closings before `count-unusable` kept it. */
export const recordedRefusalSchema = z.object({
  code: z.string(),
  severity: z.enum(['fault', 'doubt', 'note']),
  message: z.string(),
  machine: z.string().optional(),
  file: z.string().optional(),
  row: z.int().optional(),
});

/** A machine of the roster, as a closing keeps it. */
export const recordedMachineSchema = machineRowSchema;

/** See {@link recordedSettlementSchema}. */
export type RecordedSettlement = z.infer<typeof recordedSettlementSchema>;
/** See {@link recordedTotalsSchema}. */
export type RecordedTotals = z.infer<typeof recordedTotalsSchema>;

/** A settlement as it is to be recorded: what a closing does not keep is left out. */
export function toRecorded(json: SettlementJson): RecordedSettlement {
  return recordedSettlementSchema.parse(json);
}
