import { ELEMENT, type ElementDef, type ElementName } from '../dictionary/index.js';
import { subtract } from '../model/index.js';
import type { Read } from '../read/index.js';
import { judgeReadsBetween, type ReadsBetween } from './reads-between.js';
import { isSameMoney, type TakenRead } from './taken-read.js';

/**
 * What happened to the interval counters between two reads: the earlier one cleared them and nobody since; it kept them
 * and nobody cleared them since; someone else cleared them (`unseen`); or it cannot be told.
 */
export type ResetState = 'cleared' | 'kept' | 'unseen' | 'not-known';

/** What is known of resets between two reads. */
export interface ResetJudgement {
  readonly state: ResetState;
  /** Whether nobody else can have cleared the counters in between; if not, what they show is the least it can have been. */
  readonly isCertain: boolean;
  readonly readsBetween: ReadsBetween;
}

type CounterPair = readonly [lifetime: ElementDef, interval: ElementDef];

const pair = (lifetime: ElementName, interval: ElementName): CounterPair => [ELEMENT[lifetime], ELEMENT[interval]];

const WITNESSES: readonly CounterPair[] = [
  pair('VA101', 'VA103'),
  pair('VA102', 'VA104'),
  pair('CA201', 'CA203'),
  pair('CA305', 'CA301'),
  pair('CA306', 'CA302'),
  pair('CA307', 'CA303'),
  pair('CA403', 'CA401'),
  pair('DA201', 'DA203'),
];
const COLUMN_WITNESS = pair('PA201', 'PA203');

/** One thing that both reads count, by its lifetime and its interval counter. Null is absent. */
interface Witness {
  readonly lifetimeBefore: number | null;
  readonly lifetimeNow: number | null;
  readonly before: number | null;
  readonly now: number | null;
}

/**
 * Tell what happened to the interval counters: by arithmetic where there are lifetime counters, else by the resets that the
 * machine counted, else by what the profile and the captures list say of this machine's resets, else by counters that are
 * lower than before with no other read in between.
 */
export function judgeReset(from: TakenRead, to: TakenRead): ResetJudgement {
  const readsBetween = judgeReadsBetween(from, to);
  const byArithmetic = judgeByArithmetic(from, to, readsBetween);
  const { state, isAgreed } = byArithmetic ?? { state: judgeByHabit(from, to, readsBetween), isAgreed: true };
  // What one counter shows need not hold for another that moved before somebody else's reset.
  const isAlone = readsBetween === 'none' || countResets(from, to) === 0 || to.profile?.resets === 'never';
  return { state, isCertain: state !== 'unseen' && isAgreed && isAlone, readsBetween };
}

/** The arithmetic of {@link judgeReset} alone; null when no counter says anything. */
export function judgeResetByCounters(from: TakenRead, to: TakenRead): ResetState | null {
  return judgeByArithmetic(from, to, 'not-known')?.state ?? null;
}

/** Whether any interval counter is lower in the later read: then it was cleared at the earlier one or since. */
export function hasIntervalFallen(from: TakenRead, to: TakenRead): boolean {
  const isLower = ({ before, now }: Witness): boolean => before !== null && now !== null && now < before;
  return listTotals(from, to).some(isLower) || listColumns(from.read, to.read).some(isLower);
}

/**
 * Resets that the machine counted from one read to the next (EA310, else EA301 where a profile says that it counts reads
 * with reset, which is what manual L0190D, p. 42, has it be); null when it does not say.
 */
function countResets(from: TakenRead, to: TakenRead): number | null {
  const counted = subtract(to.read.integer(ELEMENT.EA310), from.read.integer(ELEMENT.EA310));
  if (counted !== null || to.profile?.ea301 !== 'reads-with-reset') return counted;
  return subtract(to.read.integer(ELEMENT.EA301), from.read.integer(ELEMENT.EA301));
}

/**
 * Whether the machine counted more resets than one of these two reads can have made itself: the earlier one's own, where a
 * read does not count itself, or the later one's, where it does (makers differ). Then another read cleared the counters.
 */
function hasOtherReset(from: TakenRead, to: TakenRead, readsBetween: ReadsBetween): boolean {
  return readsBetween === 'some' && (countResets(from, to) ?? 0) > 1;
}

/** What the counters say, and whether all of them say it. */
interface Reckoning {
  readonly state: ResetState;
  readonly isAgreed: boolean;
}

/** By the totals; where they say nothing, by the columns. */
function judgeByArithmetic(from: TakenRead, to: TakenRead, readsBetween: ReadsBetween): Reckoning | null {
  const hasReset = (countResets(from, to) ?? 0) > 0;
  const decide = (witnesses: readonly Witness[]) => weigh(countWitnesses(witnesses), readsBetween, hasReset);
  return decide(listTotals(from, to)) ?? decide(listColumns(from.read, to.read));
}

/** How many counters speak for what. */
interface Votes {
  readonly cleared: number;
  readonly kept: number;
  readonly less: number;
  /** Less as well, but 0 at both ends: it may be an interval counter that the machine does not keep. */
  readonly silent: number;
}

/**
 * With the lifetime difference D: the interval counter now equal to D means that the earlier read cleared it; equal to its
 * earlier value plus D, that it was kept; less than both, that somebody else cleared it. A counter that fits both (it
 * stood at 0) says nothing.
 */
function countWitnesses(witnesses: readonly Witness[]): Votes {
  const votes = { cleared: 0, kept: 0, less: 0, silent: 0 };
  for (const { lifetimeBefore, lifetimeNow, before, now } of witnesses) {
    const difference = subtract(lifetimeNow, lifetimeBefore);
    if (difference === null || difference < 0 || now === null || before === null) continue;
    // More since the last reset than ever: a lifetime counter that the machine does not keep.
    if (now > lifetimeNow! || before > lifetimeBefore!) continue;
    const fitsCleared = now === difference;
    const fitsKept = now === before + difference;
    if (fitsCleared && !fitsKept) votes.cleared++;
    else if (fitsKept && !fitsCleared) votes.kept++;
    else if (now < difference && before === 0 && now === 0) votes.silent++;
    else if (now < difference) votes.less++;
  }
  return votes;
}

function weigh(
  { cleared, kept, less, silent }: Votes,
  readsBetween: ReadsBetween,
  hasReset: boolean,
): Reckoning | null {
  // What came before somebody else's reset may show in one counter only, so one that is less is enough to tell it, unless
  // the machine says that there was no other read.
  const needed = readsBetween === 'none' ? cleared + kept : 0;
  const speaking = less > 0 || (hasReset && readsBetween === 'some') ? less + silent : 0;
  if (speaking > needed) return { state: 'unseen', isAgreed: false };
  if (cleared === kept) return null;
  return { state: cleared > kept ? 'cleared' : 'kept', isAgreed: less === 0 && (cleared === 0 || kept === 0) };
}

function judgeByHabit(from: TakenRead, to: TakenRead, readsBetween: ReadsBetween): ResetState {
  const resets = to.profile?.resets;
  if (resets === 'never') return 'kept';
  if (hasOtherReset(from, to, readsBetween)) return 'unseen';
  // Every read clears, and others came between the two.
  if (resets === 'every-read') return readsBetween === 'some' ? 'unseen' : 'cleared';
  if (resets === 'service-read' && from.reason !== null) return from.reason === 'service' ? 'cleared' : 'kept';
  return readsBetween === 'none' && hasIntervalFallen(from, to) ? 'cleared' : 'not-known';
}

/** The totals; amounts in different money are left out. */
function listTotals(from: TakenRead, to: TakenRead): Witness[] {
  const isSame = isSameMoney(from, to);
  return WITNESSES.filter(([{ kind }]) => isSame || kind === 'count').map(([lifetime, interval]) => ({
    lifetimeBefore: from.read.integer(lifetime),
    lifetimeNow: to.read.integer(lifetime),
    before: from.read.integer(interval),
    now: to.read.integer(interval),
  }));
}

/** Paid vends of the columns that both reads have. */
function listColumns(earlier: Read, later: Read): Witness[] {
  const [lifetime, interval] = COLUMN_WITNESS;
  return later.columns.flatMap((column) => {
    const same = earlier.column(column.id);
    return same === null
      ? []
      : {
          lifetimeBefore: same.number(lifetime),
          lifetimeNow: column.number(lifetime),
          before: same.number(interval),
          now: column.number(interval),
        };
  });
}
