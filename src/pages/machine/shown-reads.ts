import { type CaptureCheck, CLOCK_TOLERANCE_MINUTES, judge, type Verdict } from '../../checks/index.js';
import type { FindingCode } from '../../findings/index.js';
import type { PlacedRead } from '../../interval/index.js';
import { bestTime, type LocalDateTime, minutesBetween, timeOfRead } from '../../model/index.js';

/** What became of a read. `set-aside`: it is whole but not used, such as one that came twice. */
export type ReadUse = 'used' | 'faulty' | 'set-aside';

/** A read as the time line shows it. */
export interface ShownRead {
  readonly taken: PlacedRead;
  readonly at: LocalDateTime | null;
  readonly use: ReadUse;
  /** What the day's check said of it; null for a read of an earlier day, which was not checked again. */
  readonly verdict: Verdict | null;
  /** Whether the captures list calls it a service read; null where it says nothing. */
  readonly isService: boolean | null;
  /** By how many minutes the machine's clock is ahead of a better time of the read, where there is one. */
  readonly clockAhead: number | null;
  /** Whether the clock is to be doubted. */
  readonly isClockDoubtful: boolean;
  /** Days without a read before it, where there are any. */
  readonly daysMissed: number;
}

/** What reads are shown from. */
export interface ReadsGiven {
  /** All of the machine's, faulty ones and duplicates too. */
  readonly reads: readonly PlacedRead[];
  /** The usable ones in order. */
  readonly ordered: readonly PlacedRead[];
  readonly checks: ReadonlyMap<string, CaptureCheck>;
}

/** A machine's reads by their best time; those without one come first, since they can not be said to be later. */
export function showReads({ reads, ordered, checks }: ReadsGiven): ShownRead[] {
  const places = new Map(ordered.map((taken, place) => [taken, place]));
  const sorted = reads.toSorted((a, b) => {
    const [left, right] = [places.get(a), places.get(b)];
    // The order of the accounts holds for the reads in them, whatever their clocks say.
    if (left !== undefined && right !== undefined) return left - right;
    const [one, other] = [bestTime(a) ?? '', bestTime(b) ?? ''];
    return one < other ? -1 : one > other ? 1 : 0;
  });
  let before: LocalDateTime | null = null;
  return sorted.map((taken) => {
    const at = bestTime(taken);
    const use = taken.faults.length > 0 ? 'faulty' : places.has(taken) ? 'used' : 'set-aside';
    // A read that came twice came late the second time: that says nothing of the machine's clock.
    const clockAhead = use === 'set-aside' ? null : aheadOf(taken);
    const check = checks.get(taken.file) ?? null;
    const shown: ShownRead = {
      taken,
      at,
      use,
      verdict: check === null ? null : verdictOf(taken, check),
      isService: taken.reason === null ? null : taken.reason === 'service',
      clockAhead,
      isClockDoubtful: use !== 'set-aside' && isDoubtful(clockAhead, taken, check),
      daysMissed: missedBetween(before, at),
    };
    before = at ?? before;
    return shown;
  });
}

/** A read's own verdict, where its file has others. */
function verdictOf({ read }: PlacedRead, { verdict, reads, findings }: CaptureCheck): Verdict {
  if (reads.length < 2) return verdict;
  return judge(findings.filter((finding) => finding.read === undefined || finding.read === read.number));
}

function aheadOf(placed: PlacedRead): number | null {
  const { clock } = placed.read;
  const best = timeOfRead(placed);
  return clock === null || best === null || best.kind === 'clock' ? null : minutesBetween(best.time, clock);
}

const OF_CLOCKS: ReadonlySet<FindingCode> = new Set(['clock-wrong', 'clock-jump']);

function isDoubtful(ahead: number | null, { read }: PlacedRead, check: CaptureCheck | null): boolean {
  if (check === null) return ahead !== null && Math.abs(ahead) > CLOCK_TOLERANCE_MINUTES;
  return check.findings.some(
    (finding) => OF_CLOCKS.has(finding.code) && (finding.read === undefined || finding.read === read.number),
  );
}

/** Whole calendar days between two moments on which nothing was read. */
function missedBetween(before: LocalDateTime | null, at: LocalDateTime | null): number {
  if (before === null || at === null) return 0;
  const noon = (when: LocalDateTime): LocalDateTime => `${when.slice(0, 10)}T12:00:00`;
  return Math.max(0, Math.round(minutesBetween(noon(before), noon(at)) / 1440) - 1);
}
