import type { Settlement } from '../../settlement/index.js';
import type { EntryToRecord } from '../store/index.js';
import type { EntryOfCount } from './because.js';
import { makeCorrectionEntry, makeCountEntry } from './book-counts.js';
import { standingsOf } from './closings.js';
import type { DayDraft } from './draft-day.js';
import type { UsedCount } from './merge-counts.js';
import type { CountBody } from './shapes.js';
import type { WorkedRound } from './work-out-round.js';

/** Who closes or corrects, and when. */
export interface Signature {
  readonly by: string;
  /** An instant in UTC, such as `2026-11-24T22:15:00.000Z`. */
  readonly recordedAt: string;
  /** Why counts are corrected; null when they are not. */
  readonly reason: string | null;
}

/** Entries of bags about to be recorded, and the numbers they will have. */
export interface PlannedCounts {
  readonly entries: readonly EntryToRecord[];
  readonly entryOf: EntryOfCount;
}

/** The entry of a bag that is in the book as it is used. */
export const entryInBook: EntryOfCount = ({ inBook, isCorrected }) =>
  inBook === null || isCorrected ? null : inBook.entry;

/**
 * The bags that the book lacks or has otherwise, of the machines that are in a round, so that the book tells of a closing all
 * that it was settled from.
 *
 * @param isClosing - whether bags are entered; corrections are in any case
 */
export function planCounts(draft: DayDraft, { by, recordedAt, reason }: Signature, isClosing: boolean): PlannedCounts {
  const entries: EntryToRecord[] = [];
  const numbers = new Map<string, number>();
  const rounds = [
    // A correction can take a visit out of its settlement.
    ...draft.closed.map(({ closing, round, worked }) => ({ round, settlement: worked, more: standingsOf(closing) })),
    ...draft.open.map(({ round, settlement }) => ({ round, settlement, more: [] })),
  ];
  for (const { round, settlement, more } of rounds) {
    const machines = new Set([...namesIn(settlement, round), ...more.map(({ machine }) => machine)]);
    for (const count of round.counts) {
      if (!machines.has(count.row.machine) || numbers.has(count.key)) continue;
      const entry = planCount(
        count,
        { ...count.body, ...captureOf(count, round), by },
        { by, recordedAt, reason },
        isClosing,
      );
      if (entry === null) continue;
      numbers.set(count.key, draft.size + entries.length);
      entries.push(entry);
    }
  }
  return { entries, entryOf: (count) => numbers.get(count.key) ?? entryInBook(count) };
}

function planCount(
  { key, inBook, isCorrected }: UsedCount,
  body: CountBody,
  { by, recordedAt, reason }: Signature,
  isClosing: boolean,
): EntryToRecord | null {
  if (inBook === null) return isClosing ? makeCountEntry(key, body, recordedAt) : null;
  return isCorrected && reason !== null ? makeCorrectionEntry(inBook, body, { reason, by, recordedAt }) : null;
}

/** Everything that the machines of a settlement are called. */
function namesIn(settlement: Settlement | null, { sources }: WorkedRound): ReadonlySet<string> {
  const visits = settlement?.visits ?? [];
  const named = visits.flatMap((visit) => [visit.machine, ...sources.get(visit)!.counts.map(({ row }) => row.machine)]);
  return new Set(named);
}

/** The entry of the capture that a row names, where it was settled with that: names of files come again. */
function captureOf({ key, body }: UsedCount, { sources }: WorkedRound): Partial<CountBody> {
  if (body.capture === null || body.captureEntry !== null) return {};
  for (const [{ matchedBy }, { capture, counts }] of sources) {
    if (matchedBy === 'bag' && counts.at(-1)?.key === key) return { captureEntry: capture };
  }
  return {};
}
