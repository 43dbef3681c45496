import { ELEMENT, type ElementDef, type ElementName } from '../dictionary/index.js';
import { describeMoney, type Minor } from '../model/index.js';
import { Column, type Read } from '../read/index.js';
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
  readonly #known: PairKnowledge;
  readonly #zeros: { readonly from: ZeroSegments; readonly to: ZeroSegments };

  /** @throws RangeError when both are the same read */
  constructor(from: TakenRead, to: TakenRead) {
    if (from.read === to.read) throw new RangeError('a pair needs two reads');
    this.from = from;
    this.to = to;
    const fall = measureFall(from, to);
    this.restart = judgeRestart(from, to, fall);
    this.resets =
      this.restart === null || this.restart.counters === 'go-on'
        ? judgeReset(from, to)
        : { state: 'not-known', isCertain: false, readsBetween: 'not-known' };
    this.#mayRollOver = isRise(fall);
    this.keepsLifetime = fall.compared > 0 || measureFall(to, from).compared > 0;
    this.#known = {
      reset: this.resets,
      restart: this.restart?.counters ?? null,
      profile: to.profile,
      mayRollOver: this.#mayRollOver,
      keepsLifetime: this.keepsLifetime,
    };
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
    return this.betweenColumns(this.#columnsOf(id), ELEMENT[lifetime], ELEMENT[interval]);
  }

  /** The same for columns that were looked up already. */
  betweenColumns({ id, before, after }: ColumnEnds, lifetime: ElementDef, interval: ElementDef): Difference {
    const counters: Counters = { lifetime, interval, column: id, isNew: before === null, isGone: after === null };
    return this.#subtract(counters, before, after);
  }

  #columnsOf(id: string): ColumnEnds {
    return { id, before: this.from.read.column(id), after: this.to.read.column(id) };
  }

  #subtract(counters: Counters, before: Read | Column | null, after: Read | Column | null): Difference {
    const from = new CounterEnd(before, counters, this.#zeros.from);
    const to = new CounterEnd(after, counters, this.#zeros.to);
    return subtractCounters(counters, from, to, this.#known);
  }
}

/** A column at both ends of a pair; null where a read does not have it. */
export interface ColumnEnds {
  readonly id: string;
  readonly before: Column | null;
  readonly after: Column | null;
}

/** What one read says of a counter. What an absence means is looked into only where there is one, which is rare. */
class CounterEnd implements End {
  readonly lifetime: number | null;
  readonly interval: number | null;
  readonly #segment: string;
  readonly #isThere: boolean;
  readonly #zeros: ZeroSegments;

  constructor(source: Read | Column | null, { lifetime, interval }: Counters, zeros: ZeroSegments) {
    this.lifetime = numberOf(source, lifetime);
    this.interval = interval === null ? null : numberOf(source, interval);
    this.#segment = lifetime.segment;
    this.#isThere = source !== null;
    this.#zeros = zeros;
  }

  get isLeftOutAtZero(): boolean {
    return this.#zeros.leavesOut(this.#segment);
  }

  get absenceStandsFor(): End['absenceStandsFor'] {
    return this.#isThere ? this.#zeros.standsFor(this.#segment) : null;
  }
}

function numberOf(source: Read | Column | null, element: ElementDef): number | null {
  if (source === null) return null;
  return source instanceof Column ? source.number(element) : source.integer(element);
}
