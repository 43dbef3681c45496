import { ELEMENT, type ElementDef } from '../dictionary/index.js';
import type { Read } from '../read/index.js';

/** Totals since initialisation, by which reads of one machine are held against each other. */
export const LIFETIME_TOTALS: readonly ElementDef[] = (
  [
    'VA101',
    'VA102',
    'VA202',
    'VA302',
    'CA201',
    'CA202',
    'CA305',
    'CA306',
    'CA307',
    'CA403',
    'CA404',
    'CA802',
    'CA1002',
    'DA201',
    'DA202',
    'DB201',
    'TA201',
  ] as const
).map((name) => ELEMENT[name]);

/**
 * The lifetime counters of one read: the totals, then paid vends by column, in places that all reads of a group share. One
 * that is absent stands at 0, which is where a machine that leaves zero segments out has it.
 */
export type LifetimeVector = readonly (number | undefined)[];

/** Reads the lifetime counters of a group of reads once, so that they can be held against each other many times. */
export class LifetimeVectors {
  readonly #places = new Map<string, number>();

  of(read: Read): LifetimeVector {
    const vector: (number | undefined)[] = LIFETIME_TOTALS.map((element) => read.integer(element) ?? 0);
    for (const column of read.columns) {
      const { id } = column;
      let place = this.#places.get(id);
      if (place === undefined) {
        place = LIFETIME_TOTALS.length + this.#places.size;
        this.#places.set(id, place);
      }
      vector[place] = column.number(ELEMENT.PA201) ?? 0;
    }
    return vector;
  }
}

/**
 * Which of two reads of one era counted further: above 0 when `b` did, by the counters that are higher less those that are
 * lower. One that ran past its last digit is outvoted by those that did not.
 */
export function compareProgress(a: LifetimeVector, b: LifetimeVector): number {
  let balance = 0;
  for (let i = 0; i < a.length; i++) {
    const [before, after] = [a[i], b[i]];
    if (before !== undefined && after !== undefined) balance += Math.sign(after - before);
  }
  return balance;
}
