import { ELEMENT, type ElementDef } from '../dictionary/index.js';
import type { Read } from '../read/index.js';

/** Why lifetime counters started again between two reads. */
export type RestartCause = 'board-changed' | 'memory-cleared';

/** What two reads say about a restart between them. */
export interface Restart {
  readonly cause: RestartCause;
  /** What shows it, in plain words. */
  readonly evidence: string;
  /** Whether any lifetime counter is lower than before; if none is, the counters may have been carried over. */
  readonly wentDown: boolean;
}

const TOTALS: readonly ElementDef[] = (
  [
    'VA101',
    'VA102',
    'VA202',
    'CA201',
    'CA202',
    'CA305',
    'CA306',
    'CA307',
    'CA403',
    'DA201',
    'DA202',
    'DB201',
    'TA201',
  ] as const
).map((name) => ELEMENT[name]);

/** A counter is near zero when it is below this part of what it was. */
const NEAR_ZERO = 0.1;

/** How the lifetime counters of the later read stand to those of the earlier: how many can be compared, and how. */
export interface Fall {
  readonly compared: number;
  readonly down: number;
  readonly nearZero: number;
}

/** Compare the lifetime counters of two reads of one machine: totals, and paid vends of the columns both have. */
export function measureFall(earlier: Read, later: Read): Fall {
  let compared = 0;
  let down = 0;
  let nearZero = 0;
  const compare = (before: number | null, after: number | null): void => {
    if (before === null || after === null || before <= 0) return;
    compared++;
    if (after < before) down++;
    if (after < before * NEAR_ZERO) nearZero++;
  };
  for (const element of TOTALS) compare(earlier.integer(element), later.integer(element));
  for (const column of earlier.columns) {
    compare(column.number(ELEMENT.PA201), later.column(column.id)?.number(ELEMENT.PA201) ?? null);
  }
  return { compared, down, nearZero };
}

/** Whether counters went back to near zero together, as they do when a memory is cleared and not when one rolls over. */
export function fellTogether({ compared, down, nearZero }: Fall): boolean {
  return down > 1 && nearZero * 2 > compared;
}

/**
 * Whether the counters started again between two reads of one machine, and why: the board was changed (CB101 or ID101
 * differ) or the memory was cleared (EA4 differs, or most counters are back near zero). An unchanged EA4 proves nothing,
 * since some makers keep the first date.
 *
 * @returns null when nothing speaks for a restart
 */
export function judgeRestart(earlier: Read, later: Read): Restart | null {
  const fall = measureFall(earlier, later);
  const wentDown = fall.down > 0;
  for (const [element, what] of [
    [ELEMENT.CB101, 'control board serial number'],
    [ELEMENT.ID101, 'machine serial number'],
  ] as const) {
    const before = earlier.text(element);
    const after = later.text(element);
    if (before !== null && after !== null && before !== after) {
      return { cause: 'board-changed', evidence: `the ${what} changed`, wentDown };
    }
  }
  const before = initialisation(earlier);
  const after = initialisation(later);
  if (before !== null && after !== null && before !== after) {
    return { cause: 'memory-cleared', evidence: 'the date of initialisation changed', wentDown };
  }
  if (fellTogether(fall)) {
    return {
      cause: 'memory-cleared',
      evidence: `${fall.nearZero} of ${fall.compared} lifetime counters are back near zero`,
      wentDown,
    };
  }
  return null;
}

/** Date and time of initialisation as they stand; null when there is no date. */
export function initialisation(read: Read): string | null {
  const date = read.text(ELEMENT.EA401);
  return date === null ? null : `${date} ${read.text(ELEMENT.EA402) ?? ''}`;
}
