import { ELEMENT, type ElementDef, type ElementName } from '../dictionary/index.js';
import { subtract } from '../model/index.js';
import { rollOverModulus } from '../profile/index.js';
import type { Column, Read } from '../read/index.js';
import { type Basis, type Difference, findRollOver, type UnknownWhy } from './difference.js';
import { judgeReset, type ResetState } from './resets.js';
import { judgeRestart, type Restart } from './restart.js';
import type { TakenRead } from './taken-read.js';
import { leavesZeroSegmentsOut } from './zero-segments.js';

/** A lifetime counter and the interval counter of the same thing, at one end of a pair. */
interface End {
  readonly lifetime: number | null;
  readonly interval: number | null;
}

/** Which counters are asked for. */
interface Counters {
  readonly lifetime: ElementDef;
  readonly interval: ElementDef | null;
  readonly column: string | null;
  /** Whether the thing counted did not exist at the earlier read. */
  readonly isNew: boolean;
}

/** Two reads of one machine, earlier first, and what every counter moved by between them. */
export class ReadPair {
  readonly from: TakenRead;
  readonly to: TakenRead;
  /** What speaks for the counters having started again, if anything does. */
  readonly restart: Restart | null;
  /** What happened to the interval counters. */
  readonly reset: ResetState;
  readonly #leavesZerosOut: { readonly from: boolean; readonly to: boolean };

  /** @throws RangeError when both are the same read */
  constructor(from: TakenRead, to: TakenRead) {
    if (from.read === to.read) throw new RangeError('a pair needs two reads');
    this.from = from;
    this.to = to;
    this.restart = judgeRestart(from.read, to.read);
    this.reset = this.isRestarted ? 'not-known' : judgeReset(from.read, to.read, to.profile);
    this.#leavesZerosOut = {
      from: leavesZeroSegmentsOut(from.read, from.profile),
      to: leavesZeroSegmentsOut(to.read, to.profile),
    };
  }

  /** Whether lifetime counters started again, so that only what they show since then is known. */
  get isRestarted(): boolean {
    return this.restart?.wentDown ?? false;
  }

  /**
   * What a counter that comes once a set moved by.
   *
   * @param lifetime - the counter since initialisation
   * @param interval - the counter of the same thing since the last reset, which is the fallback; null when there is none
   */
  difference(lifetime: ElementName, interval: ElementName | null): Difference {
    const counters: Counters = {
      lifetime: ELEMENT[lifetime],
      interval: interval === null ? null : ELEMENT[interval],
      column: null,
      isNew: false,
    };
    return this.#subtract(counters, endOf(this.from.read, counters), endOf(this.to.read, counters));
  }

  /** What a column's counter moved by. A column that only the later read has started at 0 (domain rule: a doubt). */
  columnDifference(id: string, lifetime: ElementName, interval: ElementName): Difference {
    const before = this.from.read.column(id);
    const counters: Counters = {
      lifetime: ELEMENT[lifetime],
      interval: ELEMENT[interval],
      column: id,
      isNew: before === null,
    };
    return this.#subtract(counters, endOf(before, counters), endOf(this.to.read.column(id), counters));
  }

  #subtract(counters: Counters, from: End, to: End): Difference {
    if (this.isRestarted) return sinceRestart(counters, to);
    const hasLifetime = from.lifetime !== null || to.lifetime !== null;
    const staysZero = (from.lifetime ?? 0) === 0 && (to.lifetime ?? 0) === 0;
    const movesOtherwise = (from.interval ?? 0) !== 0 || (to.interval ?? 0) !== 0;
    if (!hasLifetime || (staysZero && movesOtherwise)) return this.#byInterval(counters, from, to);
    return this.#byLifetime(counters, from, to);
  }

  #byLifetime(counters: Counters, from: End, to: End): Difference {
    const before = from.lifetime;
    const after = to.lifetime;
    // A restart with no counter down: carried over, or new and already past the old ones. Either way a floor.
    const floor = this.restart !== null;
    const ends = { from: before, to: after };
    if (after === null) {
      const isStillZero = before === 0 && this.#leavesZerosOut.to;
      return known(counters, 'lifetime', isStillZero ? 0 : null, { floor, why: 'absent-now', ...ends });
    }
    if (before === null) {
      const wasZero = counters.isNew || this.#leavesZerosOut.from || to.interval === after;
      return known(counters, 'lifetime', wasZero ? after : null, { floor, why: 'absent-before', ...ends });
    }
    const difference = subtract(after, before);
    if (difference !== null && difference >= 0) return known(counters, 'lifetime', difference, { floor, ...ends });
    const modulus = findRollOver(before, after, rollOverModulus(this.to.profile, counters.lifetime.name));
    const rolled = modulus === null ? null : after + modulus - before;
    return known(counters, 'lifetime', rolled, { floor, modulus, why: 'backward', ...ends });
  }

  /** The fallback: interval counters, as far as it is known who cleared them when. */
  #byInterval(counters: Counters, from: End, to: End): Difference {
    const before = from.interval;
    const after = to.interval;
    const ends = { from: before, to: after };
    if (after === null) {
      const isLeftOut = before === null && this.#isLeftOutAsZero(counters);
      const why = before === null ? 'absent' : 'absent-now';
      return known(counters, 'interval', isLeftOut ? 0 : null, { why, ...ends });
    }
    const earlier = before ?? (counters.isNew || this.#leavesZerosOut.from ? 0 : null);
    if (this.reset === 'cleared' || earlier === 0) return known(counters, 'interval', after, { from: null, to: after });
    if (this.reset === 'unseen') return known(counters, 'interval', after, { floor: true, from: null, to: after });
    if (this.reset === 'not-known') {
      // Lower than before: somebody cleared it, and what had come before that is not counted.
      if (earlier !== null && after < earlier) {
        return known(counters, 'interval', after, { floor: true, from: null, to: after });
      }
      return known(counters, 'interval', null, { why: 'reset-not-known', ...ends });
    }
    const difference = subtract(after, earlier);
    if (difference !== null && difference >= 0) return known(counters, 'interval', difference, ends);
    return known(counters, 'interval', null, { why: difference === null ? 'absent-before' : 'backward', ...ends });
  }

  /** Whether a counter that neither read has stands for zero: paid vends on a machine that leaves zero segments out. */
  #isLeftOutAsZero({ lifetime }: Counters): boolean {
    return lifetime.segment === 'PA2' && this.#leavesZerosOut.from && this.#leavesZerosOut.to;
  }
}

/** After a restart the later value itself is what is known; the part between the last read and the restart is lost. */
function sinceRestart(counters: Counters, to: End): Difference {
  const usesInterval = (to.lifetime ?? 0) === 0 && to.interval !== null && counters.interval !== null;
  const value = usesInterval ? to.interval : to.lifetime;
  return {
    element: usesInterval ? counters.interval! : counters.lifetime,
    column: counters.column,
    value,
    basis: 'restart',
    floor: true,
    why: value === null ? 'absent' : null,
    modulus: null,
    from: null,
    to: value,
  };
}

function known(
  counters: Counters,
  basis: Basis,
  value: number | null,
  more: {
    from: number | null;
    to: number | null;
    floor?: boolean;
    /** Why it is not known, if it is not. */
    why?: UnknownWhy;
    modulus?: number | null;
  },
): Difference {
  return {
    element: basis === 'interval' ? (counters.interval ?? counters.lifetime) : counters.lifetime,
    column: counters.column,
    value,
    basis,
    floor: more.floor ?? false,
    why: value === null ? (more.why ?? null) : null,
    modulus: more.modulus ?? null,
    from: more.from,
    to: more.to,
  };
}

function endOf(source: Read | Column | null, { lifetime, interval }: Counters): End {
  if (source === null) return { lifetime: null, interval: null };
  const numberOf = (element: ElementDef): number | null =>
    'integer' in source ? source.integer(element) : source.number(element);
  return { lifetime: numberOf(lifetime), interval: interval === null ? null : numberOf(interval) };
}
