import { ELEMENT } from '../dictionary/index.js';
import { minutesBetween, tellingNumber } from '../model/index.js';
import type { Read } from '../read/index.js';
import { initialisation } from './initialisation.js';
import { type Fall, fellTogether, isRise, measureFall } from './lifetime-fall.js';
import { countReads } from './reads-between.js';
import { isSerialSetAnew } from './relabelling.js';
import { hasIntervalFallen, judgeResetByCounters } from './resets.js';
import type { TakenRead } from './taken-read.js';

/** Why lifetime counters started again between two reads. */
export type RestartCause = 'board-changed' | 'memory-cleared';

/**
 * What the counters of the later read are worth after a restart: they started at 0 (`from-zero`), they go on where they
 * stood (`go-on`: a serial number or a date was changed and nothing else), or neither can be shown.
 */
export type RestartCounters = 'from-zero' | 'go-on' | 'not-known';

/** What two reads say about a restart between them. */
export interface Restart {
  readonly cause: RestartCause;
  /** What shows it, in plain words. */
  readonly evidence: string;
  /** Whether any lifetime counter is lower than before. */
  readonly wentDown: boolean;
  readonly counters: RestartCounters;
}

/**
 * Whether the counters started again between two reads of one machine, and why: the board was changed (CB101 or ID101
 * differ, and not only as a number that was set anew) or the memory was cleared (EA4 differs, or most counters are back near zero). An unchanged EA4 proves nothing,
 * since some makers keep the first date.
 *
 * @param fall - how the counters of the two stand to each other, where that was measured already
 * @returns null when nothing speaks for a restart
 */
export function judgeRestart(from: TakenRead, to: TakenRead, fall: Fall = measureFall(from, to)): Restart | null {
  const [earlier, later] = [from.read, to.read];
  const wentDown = !isRise(fall);
  const changed = findChange(earlier, later, isSerialSetAnew(from, to, fall));
  if (changed !== null) return { ...changed, wentDown, counters: judgeCounters(from, to, changed.cause, wentDown) };
  const evidence = findFall(from, to, fall);
  return evidence === null ? null : { cause: 'memory-cleared', evidence, wentDown: true, counters: 'from-zero' };
}

/**
 * What shows that the counters fell together, as in a memory that was cleared: most are back near zero, or, where the times
 * of both reads are certain, most are lower and the machine counted fewer reads.
 *
 * @returns the evidence in words; null when they did not
 */
export function findFall(from: TakenRead, to: TakenRead, fall: Fall): string | null {
  const { compared, down, nearZero } = fall;
  if (fellTogether(fall)) return `${nearZero} of ${compared} lifetime counters are back near zero`;
  const hasFewerReads = (countReads(from, to) ?? 0) < 0;
  if (!hasFewerReads || down < 2 || down * 2 <= compared || !isTimeCertain(from, to)) return null;
  return `${down} of ${compared} lifetime counters and the number of reads are lower, and the times of both reads are certain`;
}

/** How far a clock may be from the time received and still be right, in minutes (domain rule: the default tolerance). */
const CLOCK_TOLERANCE_MINUTES = 10;

/** Whether one read is known to be later than another: both clocks agree with the time received. */
function isTimeCertain(from: TakenRead, to: TakenRead): boolean {
  const isRight = ({ receivedAt, read: { clock } }: TakenRead): boolean =>
    receivedAt !== null && clock !== null && Math.abs(minutesBetween(clock, receivedAt)) <= CLOCK_TOLERANCE_MINUTES;
  return isRight(from) && isRight(to) && from.receivedAt! < to.receivedAt! && from.read.clock! < to.read.clock!;
}

function findChange(earlier: Read, later: Read, isSerialSetAnew: boolean): Pick<Restart, 'cause' | 'evidence'> | null {
  for (const [element, what] of [
    [ELEMENT.CB101, 'control board serial number'],
    [ELEMENT.ID101, 'machine serial number'],
  ] as const) {
    const before = tellingNumber(earlier.text(element));
    const after = tellingNumber(later.text(element));
    if (element === ELEMENT.ID101 && isSerialSetAnew) continue;
    if (before !== null && after !== null && before !== after) {
      return { cause: 'board-changed', evidence: `the ${what} changed` };
    }
  }
  const before = initialisation(earlier);
  const after = initialisation(later);
  if (before === null || after === null || before === after) return null;
  return { cause: 'memory-cleared', evidence: 'the date of initialisation changed' };
}

function judgeCounters(from: TakenRead, to: TakenRead, cause: RestartCause, wentDown: boolean): RestartCounters {
  if (cause === 'board-changed' && isUsedBoard(from.read, to.read)) return 'not-known';
  if (wentDown) return 'from-zero';
  const reset = judgeResetByCounters(from, to);
  if (reset === 'cleared' || reset === 'kept') return 'go-on';
  if (isFresh(to.read)) return 'from-zero';
  // A machine with interval counters alone: lower than before, they started again, whoever cleared them.
  return reset === null && hasIntervalFallen(from, to) ? 'from-zero' : 'not-known';
}

/**
 * A board that counted elsewhere before: it was initialised, by a date of its own, before the earlier read was taken. What
 * it shows is not what this machine sold.
 */
function isUsedBoard(earlier: Read, later: Read): boolean {
  const initialised = initialisation(later);
  const lastRead = earlier.clock;
  if (initialised === null || lastRead === null || initialised === initialisation(earlier)) return false;
  return initialised.slice(0, 10) < lastRead.slice(0, 10);
}

const FRESH = [
  [ELEMENT.VA101, ELEMENT.VA103],
  [ELEMENT.VA102, ELEMENT.VA104],
  [ELEMENT.CA305, ELEMENT.CA301],
] as const;

/** Whether nothing was counted before the last reset: lifetime and interval counters are equal, and there are some. */
function isFresh(read: Read): boolean {
  const known = FRESH.map(([lifetime, interval]) => [read.integer(lifetime), read.integer(interval)] as const).filter(
    ([lifetime, interval]) => lifetime !== null && interval !== null,
  );
  return known.length > 0 && known.every(([lifetime, interval]) => lifetime === interval);
}
