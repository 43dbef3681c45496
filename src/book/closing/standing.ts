import { add, addAll, groupBy, subtract } from '../../model/index.js';
import type { ChangesJson, VisitChangeJson } from '../../report/shapes/closing.js';
import type { Visit } from '../../settlement/index.js';
import type { UsedCount } from './merge-counts.js';
import type { Standing } from './shapes.js';
import type { VisitSources } from './work-out-round.js';

type Sums = Pick<ChangesJson, 'expected' | 'counted' | 'overShort'>;

/**
 * How a visit stands, with the entries it rests on.
 *
 * @param entryOf - the entry of a bag, also of one that is about to be recorded; null when it is in no book
 */
export function standingOf(
  visit: Visit,
  sources: VisitSources,
  entryOf: (count: UsedCount) => number | null,
): Standing {
  const { machine, visitedAt, bag, state, expected, counted, overShort } = visit;
  const counts = sources.counts.map(entryOf).filter((entry) => entry !== null);
  return {
    machine,
    visitedAt,
    bag,
    state,
    expected: { ...expected },
    counted: { ...counted },
    overShort: { ...overShort },
    capture: sources.capture,
    captures: [...sources.captures],
    counts,
  };
}

/** Visits before and after that are the same one; null where there is none. */
export interface StandingPair {
  readonly before: Standing | null;
  readonly after: Standing | null;
}

/**
 * Put visits to those they were: by machine, time and bag; else by the capture, as a bag that turns up brings its own time;
 * else the only one of its machine that is left.
 */
export function pairStandings(before: readonly Standing[], after: readonly Standing[]): StandingPair[] {
  const left = new Set(before);
  const partner = new Map<Standing, Standing>();
  const pairBy = (keyOf: (visit: Standing) => string | null): void => {
    const open = after.filter((visit) => !partner.has(visit));
    const old = groupBy([...left], keyOf);
    for (const [key, news] of groupBy(open, keyOf)) {
      const olds = old.get(key) ?? [];
      if (key === null || news.length !== 1 || olds.length !== 1) continue;
      partner.set(news[0]!, olds[0]!);
      left.delete(olds[0]!);
    }
  };
  pairBy(({ machine, visitedAt, bag }) => JSON.stringify([machine, visitedAt, bag]));
  pairBy(({ machine, capture }) => (capture === null ? null : JSON.stringify([machine, capture])));
  pairBy(({ machine }) => machine);
  return [
    ...after.map((visit) => ({ before: partner.get(visit) ?? null, after: visit })),
    ...[...left].map((visit) => ({ before: visit, after: null })),
  ];
}

const AMOUNTS: readonly (readonly [VisitChangeJson['field'], (visit: Standing) => number | null])[] = [
  ['expected.coins', ({ expected }) => expected.coins],
  ['expected.bills', ({ expected }) => expected.bills],
  ['counted.coins', ({ counted }) => counted.coins],
  ['counted.bills', ({ counted }) => counted.bills],
  ['overShort.coins', ({ overShort }) => overShort.coins],
  ['overShort.bills', ({ overShort }) => overShort.bills],
  ['overShort.total', ({ overShort }) => overShort.total],
];

/** What is not the same of a visit, field by field; none when it stands as it did. */
export function compareStanding({ before, after }: StandingPair): VisitChangeJson[] {
  const { machine, visitedAt, bag } = (after ?? before)!;
  const place = { machine, visitedAt, bag };
  const changes: VisitChangeJson[] = [];
  const [stateBefore, stateAfter] = [before?.state ?? null, after?.state ?? null];
  if (stateBefore !== stateAfter)
    changes.push({ ...place, field: 'state', from: stateBefore, to: stateAfter, by: null });
  for (const [field, pick] of AMOUNTS) {
    const from = before === null ? null : pick(before);
    const to = after === null ? null : pick(after);
    if (from === to) continue;
    changes.push({ ...place, field, from, to, by: differenceOf(field, from, to, { before, after }) });
  }
  return changes;
}

function differenceOf(
  field: VisitChangeJson['field'],
  from: number | null,
  to: number | null,
  { before, after }: StandingPair,
): number | null {
  if (!field.startsWith('overShort') || (from !== null && to !== null)) return subtract(to, from);
  // An open visit adds nothing to the sum, so that with its settling the sum changes by all of it.
  if (from === null && !isSettled(before)) return to;
  if (to === null && !isSettled(after)) return subtract(0, from);
  return null;
}

const isSettled = (visit: Standing | null): boolean =>
  visit !== null && (visit.state === 'agreed' || visit.state === 'over' || visit.state === 'short');

/** Sums over the settled visits; 0 where there is none, and not known where an amount of one is not. */
export function sumStandings(visits: readonly Standing[]): Sums {
  const settled = visits.filter(isSettled);
  const sum = (of: (visit: Standing) => number | null): number | null => addAll(settled.map(of));
  // A kind that was not counted on a settled visit is one of which nothing was expected: it adds nothing.
  const counted = (kind: 'coins' | 'bills') => sum(({ expected, overShort }) => add(expected[kind], overShort[kind]));
  return {
    expected: { coins: sum(({ expected }) => expected.coins), bills: sum(({ expected }) => expected.bills) },
    counted: { coins: counted('coins'), bills: counted('bills') },
    overShort: {
      coins: sum(({ overShort }) => overShort.coins),
      bills: sum(({ overShort }) => overShort.bills),
      total: sum(({ overShort }) => overShort.total),
    },
  };
}

/** Sums of sums by kind. */
export function addSums(all: readonly Sums[]): Sums {
  return combine((pick) => addAll(all.map(pick)));
}

/** By how much sums changed. */
export function subtractSums(after: Sums, before: Sums): Sums {
  return combine((pick) => subtract(pick(after), pick(before)));
}

function combine(make: (pick: (sums: Sums) => number | null) => number | null): Sums {
  return {
    expected: { coins: make(({ expected }) => expected.coins), bills: make(({ expected }) => expected.bills) },
    counted: { coins: make(({ counted }) => counted.coins), bills: make(({ counted }) => counted.bills) },
    overShort: {
      coins: make(({ overShort }) => overShort.coins),
      bills: make(({ overShort }) => overShort.bills),
      total: make(({ overShort }) => overShort.total),
    },
  };
}
