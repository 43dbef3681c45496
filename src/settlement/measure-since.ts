import { buildInterval, type Difference, type Interval } from '../interval/index.js';
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
  readonly expectedFrom: readonly Interval[];
  /** The whole in one; null when it cannot be trusted. */
  readonly interval: Interval | null;
  /** The intervals from read to read; null where nothing can be taken from one read to the next. */
  readonly pieces: readonly Interval[] | null;
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
  const chain = ordered.slice(opening + 1, known + 1).map(({ taken }) => reads.intervalTo.get(taken));
  const pieces = chain.filter((interval) => interval !== undefined);
  if (chain.length === 0) return NOTHING_SINCE;
  if (pieces.length < chain.length) {
    const assets = ordered.slice(opening, known + 1).map(({ taken }) => tellingNumber(taken.read.machine.asset));
    const isOtherMachine = new Set(assets.filter((asset) => asset !== null)).size > 1;
    return { ...NOTHING_SINCE, pieces: null, isOtherMachine };
  }
  const direct =
    pieces.length === 1 ? pieces[0]! : buildInterval(ordered[opening]!.taken, ordered[known]!.taken, roster);
  const interval = pieces.length === 1 || isTrusted(direct, pieces) ? direct : null;
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
function isTrusted(direct: Interval, pieces: readonly Interval[]): boolean {
  if (direct.pair.restart === null && pieces.some(hasRestart)) return false;
  return ![direct, ...pieces].some(restsOnIntervalCounters);
}

function restsOnIntervalCounters({ differences, columns }: Interval): boolean {
  const cash: readonly Difference[] = Object.values({ ...differences });
  const sales = columns.flatMap(({ soldDifference, valueDifference }) => [soldDifference, valueDifference]);
  return [...cash, ...sales].some(({ basis, value }) => basis === 'interval' && value !== null);
}

const hasRestart = ({ pair }: Interval): boolean => pair.restart !== null;

const isKnown = ({ cash }: ExpectedCash): boolean => cash.coins !== null && cash.bills !== null;

/** Each figure as the whole has it, unless that is a floor and adding up from read to read is not. */
function measureSales(pieces: readonly Interval[], interval: Interval | null): VisitSales {
  const pick = (of: (one: Interval) => number | null, isLeast: (one: Interval) => boolean): number | null => {
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

const isFloorOfSales = ({ columns, floor }: Interval): boolean =>
  columns.length === 0 ? floor : columns.some((column) => column.floor);
const isFloorOfCards = ({ differences: { cardSales1, cardSales2 } }: Interval): boolean =>
  cardSales1.floor || cardSales2.floor;

/** A machine without card counters sold nothing by card, unless the roster says that it has a reader. */
function cardSalesOf({ cash, differences, to }: Interval): number | null {
  const has = [differences.cardSales1, differences.cardSales2].some(({ why }) => why !== 'absent');
  return has || to.machine?.hasCard === true ? cash.cardSales : 0;
}
