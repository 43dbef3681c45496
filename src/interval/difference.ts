import type { ElementDef } from '../dictionary/index.js';

/** Which counters a difference rests on. */
export type Basis = 'lifetime' | 'interval' | 'restart';

/**
 * Why a difference is not known. `renumbered` is that of a column whose counter may have been another column's before. A counter of a board that nothing shows to have started at 0 when it came is `absent-before`
 * as well: the earlier read has no stand of it.
 */
export type UnknownWhy = 'absent' | 'absent-now' | 'absent-before' | 'backward' | 'renumbered' | 'reset-not-known';

/** What one counter moved by between two reads, with all it rests on. */
export interface Difference {
  /** The element it was taken from: the lifetime counter, or the interval counter where that is the fallback. */
  readonly element: ElementDef;
  /** The column, for an element of a product group. */
  readonly column: string | null;
  /** Null when it is not known. */
  readonly value: number | null;
  readonly basis: Basis;
  /** The true figure may be higher. */
  readonly floor: boolean;
  readonly why: UnknownWhy | null;
  /** 10^k when the counter ran past its last digit. */
  readonly modulus: number | null;
  /** What the element read at either end; null where it is absent, or plays no part. */
  readonly from: number | null;
  readonly to: number | null;
}

/**
 * What a counter adds to a sum of several: what it moved by, and nothing where neither read has it. A device that is in
 * neither read is no unknown (a machine that books no fills has none to add), and it cannot make a floor unknown either.
 * A counter that is not known for any other reason stays not known.
 */
export function valueOrNothing({ value, why }: Pick<Difference, 'value' | 'why'>): number | null {
  return value ?? (why === 'absent' ? 0 : null);
}

/**
 * The same for what is taken away from a sum: a machine that keeps interval counters alone and leaves out those at 0 may
 * have counted, been cleared by somebody, and left out what was cleared. So little cannot be taken for all there was.
 */
export function valueToSubtract(difference: Pick<Difference, 'value' | 'why' | 'floor' | 'basis'>): number | null {
  const mayBeMore = difference.floor && difference.basis !== 'restart';
  return mayBeMore ? difference.value : valueOrNothing(difference);
}

/**
 * Whether what two counters moved by covers the same time, so that one may be held against the other: both all of it, or,
 * where only the time since somebody cleared them is known, both that.
 */
export function coversSameTime(a: Difference, b: Difference): boolean {
  if (a.floor !== b.floor) return false;
  const isSinceReset = ({ basis, from }: Difference): boolean => basis === 'interval' && from === null;
  return !a.floor || isSinceReset(a) === isSinceReset(b);
}

/** The smallest and largest power of ten at which counters are known to start again (domain rule: k = 4…9). */
const SMALLEST_K = 4;
const LARGEST_K = 9;
/** Near the end, and small again: within this part of 10^k. */
const MARGIN = 0.1;

/**
 * The modulus at which a counter that went from `before` down to `after` started again: `before` within 10 % of 10^k,
 * `after` below 10 % of it.
 *
 * @param known - the modulus that the machine's profile gives, which then decides
 * @returns 10^k, or null when it was no roll-over
 */
export function findRollOver(before: number, after: number, known: number | null): number | null {
  if (after < 0 || after >= before) return null;
  if (known !== null) return before < known && after + known - before < known / 2 ? known : null;
  for (let k = SMALLEST_K; k <= LARGEST_K; k++) {
    const modulus = 10 ** k;
    if (before < modulus) return before >= modulus * (1 - MARGIN) && after < modulus * MARGIN ? modulus : null;
  }
  return null;
}
