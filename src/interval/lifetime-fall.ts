import { ELEMENT, type ElementDef } from '../dictionary/index.js';
import { rollOverModulus } from '../profile/index.js';
import { findRollOver } from './difference.js';
import { LIFETIME_TOTALS } from './lifetime-vector.js';
import { isSameMoney, type TakenRead } from './taken-read.js';

const COUNTS = LIFETIME_TOTALS.filter(({ kind }) => kind === 'count');
const COLUMN_COUNTERS = [ELEMENT.PA201, ELEMENT.PA202];
const COLUMN_COUNTS = [ELEMENT.PA201];

/** A counter is near zero when it is below this part of what it was. */
const NEAR_ZERO = 0.1;

/** How the lifetime counters of the later read stand to those of the earlier. */
export interface Fall {
  /** Counters that both reads have and that stood above zero. */
  readonly compared: number;
  readonly down: number;
  /** Of those that are down: how many look like a counter that ran past its last digit. */
  readonly rolledOver: number;
  readonly nearZero: number;
  /** Counters that stood above zero and are no longer there. */
  readonly gone: number;
}

/**
 * Compare the lifetime counters of two reads of one machine: totals, and number and value of the paid vends of the
 * columns both have. Amounts in different money are left out.
 */
export function measureFall(from: TakenRead, to: TakenRead): Fall {
  const fall = { compared: 0, down: 0, rolledOver: 0, nearZero: 0, gone: 0 };
  const earlier = from.read;
  const later = to.read;
  const compare = (element: ElementDef, before: number | null, after: number | null): void => {
    if (before === null || before <= 0) return;
    if (after === null) {
      fall.gone++;
      return;
    }
    fall.compared++;
    if (after >= before) return;
    fall.down++;
    if (after < before * NEAR_ZERO) fall.nearZero++;
    if (findRollOver(before, after, rollOverModulus(to.profile, element.name)) !== null) fall.rolledOver++;
  };
  const hasSameMoney = isSameMoney(from, to);
  for (const element of hasSameMoney ? LIFETIME_TOTALS : COUNTS) {
    compare(element, earlier.integer(element), later.integer(element));
  }
  for (const column of earlier.columns) {
    const same = later.column(column.id);
    for (const element of hasSameMoney ? COLUMN_COUNTERS : COLUMN_COUNTS) {
      compare(element, column.number(element), same?.number(element) ?? null);
    }
  }
  return fall;
}

/**
 * Whether counters went back to near zero together, as they do when a memory is cleared. Where each of them looks like one
 * that ran past its last digit (those of a machine with one column stand alike), that is what they did.
 */
export function fellTogether({ compared, down, rolledOver, nearZero }: Fall): boolean {
  return down > 1 && down > rolledOver && nearZero * 2 > compared;
}

/** Whether no counter went down, but for such as ran past their last digit. */
export function isRise({ down, rolledOver }: Fall): boolean {
  return down === rolledOver;
}
