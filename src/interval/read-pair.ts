import { ELEMENT, type ElementDef, type ElementName } from '../dictionary/index.js';
import { describeMoney, type Minor } from '../model/index.js';
import { rollOverModulus } from '../profile/index.js';
import type { Column, Read } from '../read/index.js';
import type { Difference } from './difference.js';
import { isRise, measureFall } from './lifetime-fall.js';
import { judgeReset, type ResetJudgement, type ResetState } from './resets.js';
import { judgeRestart, type Restart } from './restart.js';
import { type Counters, type End, type PairKnowledge, subtractCounters } from './subtract-counters.js';
import { isSameMoney, type TakenRead } from './taken-read.js';
import { ZeroSegments } from './zero-segments.js';

/** Two reads of one machine, earlier first, and what every counter moved by between them. */
export class ReadPair {
  readonly from: TakenRead;
  readonly to: TakenRead;
  /** What speaks for the counters having started again, if anything does. */
  readonly restart: Restart | null;
  /** What happened to the interval counters, and how sure that is. */
  readonly resets: ResetJudgement;
  /** Whether the machine keeps lifetime counters at all. */
  readonly keepsLifetime: boolean;
  readonly #mayRollOver: boolean;
  readonly #zeros: { readonly from: ZeroSegments; readonly to: ZeroSegments };

  /** @throws RangeError when both are the same read */
  constructor(from: TakenRead, to: TakenRead) {
    if (from.read === to.read) throw new RangeError('a pair needs two reads');
    this.from = from;
    this.to = to;
    this.restart = judgeRestart(from, to);
    this.resets =
      this.restart === null || this.restart.counters === 'go-on'
        ? judgeReset(from, to)
        : { state: 'not-known', isCertain: false, readsBetween: 'not-known' };
    const fall = measureFall(from, to);
    this.#mayRollOver = isRise(fall);
    this.keepsLifetime = fall.compared > 0 || measureFall(to, from).compared > 0;
    this.#zeros = {
      from: new ZeroSegments(from.read, from.profile),
      to: new ZeroSegments(to.read, to.profile),
    };
  }

  /** What happened to the interval counters between the two. */
  get reset(): ResetState {
    return this.resets.state;
  }

  /** Whether lifetime counters started again, so that only what they show since then is known. */
  get isRestarted(): boolean {
    return this.restart?.counters === 'from-zero';
  }

  /**
   * Whether the two are in the wrong order: counters are lower in the later one, none would be the other way round, and it
   * has the earlier clock or counted fewer reads.
   */
  get isReversed(): boolean {
    if (this.#mayRollOver || this.restart !== null) return false;
    const [earlier, later] = [this.from.read, this.to.read];
    const isFewer = (element: ElementName): boolean =>
      (earlier.integer(element) ?? 0) > (later.integer(element) ?? Infinity);
    const isEarlier = earlier.clock !== null && later.clock !== null && later.clock < earlier.clock;
    return (isEarlier || isFewer('EA309') || isFewer('EA301')) && isRise(measureFall(this.to, this.from));
  }

  /** Whether amounts of the two reads can be taken from each other. */
  get isSameMoney(): boolean {
    return isSameMoney(this.from, this.to);
  }

  /** The currency of the amounts; null when neither read says it. */
  get currency(): string | null {
    return this.to.currency ?? (this.isSameMoney ? this.from.currency : null);
  }

  /** The decimals of the amounts; null when neither read says them. */
  get decimals(): number | null {
    return this.to.decimals ?? (this.isSameMoney ? this.from.decimals : null);
  }

  /** An amount in words, for findings. */
  money(amount: Minor): string {
    return describeMoney(amount, this.decimals, this.currency);
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
      isGone: false,
    };
    return this.#subtract(counters, this.from.read, this.to.read);
  }

  /** What a column's counter moved by. A column that only the later read has started at 0 (domain rule: a doubt). */
  columnDifference(id: string, lifetime: ElementName, interval: ElementName): Difference {
    const before = this.from.read.column(id);
    const after = this.to.read.column(id);
    const counters: Counters = {
      lifetime: ELEMENT[lifetime],
      interval: ELEMENT[interval],
      column: id,
      isNew: before === null,
      isGone: after === null,
    };
    return this.#subtract(counters, before, after);
  }

  #subtract(counters: Counters, before: Read | Column | null, after: Read | Column | null): Difference {
    const known: PairKnowledge = {
      reset: this.resets,
      restart: this.restart?.counters ?? null,
      modulus: rollOverModulus(this.to.profile, counters.lifetime.name),
      mayRollOver: this.#mayRollOver,
      keepsLifetime: this.keepsLifetime,
    };
    const later = endOf(after, counters, this.#zeros.to);
    return subtractCounters(counters, endOf(before, counters, this.#zeros.from), later, known);
  }
}

function endOf(source: Read | Column | null, { lifetime, interval }: Counters, zeros: ZeroSegments): End {
  const numberOf = (element: ElementDef): number | null =>
    source === null ? null : 'integer' in source ? source.integer(element) : source.number(element);
  const lifetimeNumber = numberOf(lifetime);
  const intervalNumber = interval === null ? null : numberOf(interval);
  return {
    lifetime: lifetimeNumber,
    interval: intervalNumber,
    // Looked at only where a counter is absent, which most are not.
    get isLeftOutAtZero(): boolean {
      return zeros.leavesOut(lifetime.segment);
    },
    get absenceStandsFor(): End['absenceStandsFor'] {
      return source === null ? null : zeros.standsFor(lifetime.segment);
    },
  };
}
