import { type Interval, measureBetween, type Step } from '../interval/index.js';
import { addAll, tellingNumber } from '../model/index.js';
import type { Roster } from '../sheets/index.js';
import { type ExpectedCash, expectCash, type HandMoves } from './expected-cash.js';
import type { MachineReads } from './machine-reads.js';
import type { VisitSales } from './settlement.js';

/** What a machine did from its last collection to a later read. */
export interface MoneySince {
  /** Null when nothing can be said. */
  readonly expected: ExpectedCash | null;
  /** The intervals whose sum is expected. */
  readonly expectedFrom: readonly Step[];
  /** The whole in one; null when it cannot be trusted, or its reads are not at hand. */
  readonly interval: Interval | null;
  /** The intervals from read to read; null where nothing can be taken from one read to the next. */
  readonly pieces: readonly Step[] | null;
  /** Whether that is because another machine stood there. */
  readonly isOtherMachine: boolean;
  readonly sales: VisitSales;
}

const NO_SALES: VisitSales = { sold: null, value: null, cardSales: null, loss: null, hasPlan: false };

/** Nothing known. */
export const NOTHING_SINCE: MoneySince = {
  expected: null,
  expectedFrom: [],
  interval: null,
  pieces: [],
  isOtherMachine: false,
  sales: NO_SALES,
};

/**
 * What a machine did since its last collection, by two ways that come to the same: from read to read, added up, and the
 * first and last read held against each other. From read to read sees each reset, roll-over and restart; the direct way
 * does without what a read in between lacks.
 *
 * @param opening - the collection counted from, as its place in the machine's order
 * @param known - the later read, likewise
 */
export function measureSince(
  reads: MachineReads,
  opening: number,
  known: number,
  roster: Roster,
  hand: HandMoves,
): MoneySince {
  const ordered = reads.usable.all;
  const chain = ordered.slice(opening + 1, known + 1).map(({ taken }) => reads.stepTo.get(taken));
  const pieces = chain.filter((step) => step !== undefined);
  if (chain.length === 0) return NOTHING_SINCE;
  if (pieces.length < chain.length) {
    const assets = ordered.slice(opening, known + 1).map(({ taken }) => tellingNumber(taken.read.machine.asset));
    const isOtherMachine = new Set(assets.filter((asset) => asset !== null)).size > 1;
    return { ...NOTHING_SINCE, pieces: null, isOtherMachine };
  }
  const direct = measureBetween(reads, ordered[opening]!.taken, ordered[known]!.taken, roster);
  const interval = direct !== null && (pieces.length === 1 || isTrusted(direct, pieces)) ? direct : null;
  const ways = interval === null || pieces.length === 1 ? [pieces] : [pieces, [interval]];
  const results = ways.map((way) => ({ way, expected: expectCash(way, hand) }));
  const best =
    results.find(({ expected }) => isKnown(expected) && !expected.isFloor) ??
    results.find(({ expected }) => isKnown(expected)) ??
    results[0]!;
  return {
    expected: best.expected,
    expectedFrom: best.way,
    interval,
    pieces,
    isOtherMachine: false,
    sales: measureSales(pieces, interval),
  };
}

/**
 * Whether first and last read may be held against each other, with others in between: counters that started again and have
 * since passed their old values do not show it from end to end, nor do interval counters show which read cleared them.
 */
function isTrusted(direct: Step, pieces: readonly Step[]): boolean {
  if (direct.restart === null && pieces.some(hasRestart)) return false;
  return ![direct, ...pieces].some(({ usesIntervalCounters }) => usesIntervalCounters);
}

const hasRestart = ({ restart }: Step): boolean => restart !== null;

const isKnown = ({ cash }: ExpectedCash): boolean => cash.coins !== null && cash.bills !== null;

/** Each figure as the whole has it, unless that is a floor and adding up from read to read is not. */
function measureSales(pieces: readonly Step[], interval: Step | null): VisitSales {
  const pick = (of: (one: Step) => number | null, isLeast: (one: Step) => boolean): number | null => {
    const direct = interval === null ? null : of(interval);
    if (interval !== null && direct !== null && !isLeast(interval)) return direct;
    return (pieces.some(isLeast) ? null : addAll(pieces.map(of))) ?? direct;
  };
  const hasPlan = pieces.some(({ columns }) => columns.some(({ pricePlan }) => pricePlan !== null));
  return {
    sold: pick(({ totals }) => totals.sold, isFloorOfSales),
    value: pick(({ totals }) => totals.value, isFloorOfSales),
    cardSales: pick(cardSalesOf, isFloorOfCards),
    loss: hasPlan ? pick(({ totals }) => totals.loss, isFloorOfSales) : null,
    hasPlan,
  };
}

const isFloorOfSales = ({ columns, floor }: Step): boolean =>
  columns.length === 0 ? floor : columns.some((column) => column.floor);
const isFloorOfCards = ({ differences: { cardSales1, cardSales2 } }: Step): boolean =>
  cardSales1.floor || cardSales2.floor;

/** A machine without card counters sold nothing by card, unless the roster says that it has a reader. */
function cardSalesOf({ cash, differences, to }: Step): number | null {
  const has = [differences.cardSales1, differences.cardSales2].some(({ why }) => why !== 'absent');
  return has || to.machine?.hasCard === true ? cash.cardSales : 0;
}
