import * as z from 'zod';
import { FINDING_CODES, type FindingCode } from '../findings/index.js';

const findingCode = z.enum(Object.keys(FINDING_CODES) as [FindingCode, ...FindingCode[]]);

/**
 * How a maker, a model or a single machine departs from the standard, as JSON. Everything is optional but the name: what
 * a profile does not say is decided from the capture, or by the standard.
 */
export const profileSchema = z.strictObject({
  /** The name by which the roster's `profile` column asks for it. */
  name: z.string().min(1),
  /** Machine models (ID102) it holds for when the roster names no profile. */
  models: z.array(z.string().min(1)).optional(),
  /** Decimals of all money, in place of ID401. */
  decimals: z.int().min(0).max(6).optional(),
  /** What CA304 and CA308 give: the bills' value, or their number. */
  bills: z.enum(['value', 'count']).optional(),
  /** Whether CA403 and CA401 include what was dispensed by hand (CA404, CA402). */
  dispensedIncludesByHand: z.boolean().optional(),
  /** How the integrity value is made. */
  integrity: z
    .strictObject({
      range: z.enum(['from-st', 'from-dxs', 'without-last-ending', 'st-appended']).optional(),
      byteOrder: z.enum(['high-first', 'low-first']).optional(),
    })
    .optional(),
  /** Digits after which counters start again at 0: for all of them, or by element name. */
  rollOverDigits: z.union([z.int().min(3).max(15), z.record(z.string(), z.int().min(3).max(15))]).optional(),
  /** The coin mechanism knows only "low" and "full" (MDB level 2): tube contents are estimates. */
  tubesEstimated: z.boolean().optional(),
  /** When the machine clears its interval counters. */
  resets: z.enum(['every-read', 'service-read', 'never']).optional(),
  /** What EA301 counts. */
  ea301: z.enum(['reads-with-reset', 'all-reads', 'identifier']).optional(),
  /** Segments whose value is zero are left out. */
  zeroSegmentsLeftOut: z.boolean().optional(),
  /** What the price lists of PA7 and LA1 stand for. */
  priceLists: z.record(z.string(), z.enum(['cash', 'card', 'token', 'free', 'test', 'other'])).optional(),
  /** Other weights for findings. */
  severities: z.partialRecord(findingCode, z.enum(['fault', 'doubt', 'note'])).optional(),
  /** What elements mean on this machine, for words only: also those the dictionary does not know. */
  elements: z.record(z.string(), z.string()).optional(),
});

/** See {@link profileSchema}. */
export type Profile = z.infer<typeof profileSchema>;
