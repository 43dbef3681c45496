import { z } from 'zod';
import { ATTENTION_CAUSES } from '../../attention/index.js';
import { FINDING_CODES, type FindingCode } from '../../findings/index.js';
import { countShape, currencyShape, dateShape, decimalsShape, moneyShape, textShape } from './figures.js';
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

/** What `day.json` holds. The rows of columns and machines stand in the tables beside it: there may be millions. */
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
  settlements: z.array(settlementShape),
  /** Closed rounds that were adjusted by what came in or was said on the day, and those of the day that were; each is on the list. */
  adjustments: z.array(
    z.object({
      /** The adjustment, and the closing that it adjusts, in the book. */
      entry: tallyShape,
      settlement: tallyShape,
      route: textShape,
      day: dateShape,
      currency: currencyShape,
      decimals: decimalsShape,
      /** By how much over/short of the round changed. */
      overShort: z.int(),
      because: z.array(z.string()),
      machines: z.array(z.string()),
      drivers: z.array(textShape),
    }),
  ),
  /**
   * Other days whose tables were written and would come out otherwise now, for what came late or was corrected. Where they
   * lie; null where they do not lie there any more.
   */
  staleDays: z.array(z.object({ day: dateShape, folder: textShape })),
});

/** One of {@link DayJson.staleDays}. */
export type StaleDay = DayJson['staleDays'][number];

/** See {@link dayShape}. */
export type DayJson = z.infer<typeof dayShape>;

/** See {@link attentionShape}. */
export type AttentionJson = z.infer<typeof attentionShape>;
