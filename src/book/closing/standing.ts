import { add, addAll, groupBy } from '../../model/index.js';
import type { ChangeJson, DriverPartJson } from '../../report/shapes/closing.js';
import type { Visit } from '../../settlement/index.js';
import type { RecordedTotals } from './recorded-settlement.js';
import type { Standing } from './shapes.js';
import type { VisitSources } from './work-out-round.js';

/** How a visit stands, with the entries it rests on. */
export function standingOf(visit: Visit, sources: VisitSources): Standing {
  const { machine, visitedAt, bag, driver, state, expected, counted, overShort } = visit;
  return {
    machine,
    visitedAt,
    bag,
    driver,
    state,
    expected: { ...expected },
    counted: { ...counted },
    overShort: { ...overShort },
    capture: sources.capture,
    captures: [...sources.captures],
    counts: sources.counts.map(({ entry }) => entry),
  };
}

/** Visits before and after that are the same one; null where there is none. */
export interface StandingPair {
  readonly before: Standing | null;
  readonly after: Standing | null;
}

/** What visits are told from each other by. */
type VisitName = Pick<Standing, 'machine' | 'visitedAt' | 'bag'> & { readonly capture: number | string | null };

/**
 * Put visits to those they were: by machine, time and bag; else by the capture, as a bag that turns up brings its own time;
 * else the only one of its machine that is left.
 */
export function pairVisits<Old extends VisitName, New extends VisitName>(
  before: readonly Old[],
  after: readonly New[],
): { readonly before: Old | null; readonly after: New | null }[] {
  const left = new Set(before);
  const partner = new Map<New, Old>();
  const pairBy = (keyOf: (visit: VisitName) => string | null): void => {
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

type Field = ChangeJson['field'];
type Value = ChangeJson['from'];

const VISIT_FIELDS: readonly (readonly [Field, (visit: Standing) => Value])[] = [
  ['state', ({ state }) => state],
  ['driver', ({ driver }) => driver],
  ['bag', ({ bag }) => bag],
  ['visitedAt', ({ visitedAt }) => visitedAt],
  ['expected.coins', ({ expected }) => expected.coins],
  ['expected.bills', ({ expected }) => expected.bills],
  ['counted.coins', ({ counted }) => counted.coins],
  ['counted.bills', ({ counted }) => counted.bills],
  ['overShort.coins', ({ overShort }) => overShort.coins],
  ['overShort.bills', ({ overShort }) => overShort.bills],
  ['overShort.total', ({ overShort }) => overShort.total],
];

// Not what prices off plan cost: a closing does not keep the plan, which changes with the season.
const TOTAL_FIELDS: readonly (readonly [Field, (totals: RecordedTotals) => Value])[] = [
  ['expected.coins', ({ expected }) => expected.coins],
  ['expected.bills', ({ expected }) => expected.bills],
  ['counted.coins', ({ counted }) => counted.coins],
  ['counted.bills', ({ counted }) => counted.bills],
  ['overShort.coins', ({ overShort }) => overShort.coins],
  ['overShort.bills', ({ overShort }) => overShort.bills],
  ['overShort.total', ({ overShort }) => overShort.total],
  ['cardSales', ({ cardSales }) => cardSales],
  ['sold', ({ sold }) => sold],
  ['value', ({ value }) => value],
  ['settledVisits', ({ settledVisits }) => settledVisits],
  ['openVisits', ({ openVisits }) => openVisits],
  ['countedOpen.coins', ({ countedOpen }) => countedOpen.coins],
  ['countedOpen.bills', ({ countedOpen }) => countedOpen.bills],
];

/** What is not the same of a visit, line by line; none when it stands as it did. */
export function compareStanding({ before, after }: StandingPair): ChangeJson[] {
  const { machine, visitedAt, bag, driver } = (after ?? before)!;
  return VISIT_FIELDS.flatMap(([field, pick]) => {
    const from = before === null ? null : pick(before);
    const to = after === null ? null : pick(after);
    return from === to ? [] : [{ machine, bag, visitedAt, driver, field, from, to }];
  });
}

/** What is not the same of the round's sums, line by line; a figure that nobody recorded before is not compared. */
export function compareTotals(before: Partial<RecordedTotals>, after: RecordedTotals): ChangeJson[] {
  const whole: RecordedTotals = { ...after, ...before };
  return TOTAL_FIELDS.flatMap(([field, pick]) => {
    const [from, to] = [pick(whole), pick(after)];
    return from === to ? [] : [{ machine: null, bag: null, visitedAt: null, driver: null, field, from, to }];
  });
}

const isSettled = ({ state }: Standing): boolean => state === 'agreed' || state === 'over' || state === 'short';

/** Sums of money over the settled visits, as `sumVisits` makes them; not known where there is none. */
export function sumStandings(visits: readonly Standing[]): Pick<RecordedTotals, 'expected' | 'counted' | 'overShort'> {
  const settled = visits.filter(isSettled);
  const sum = (of: (visit: Standing) => number | null): number | null =>
    settled.length === 0 ? null : addAll(settled.map(of));
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

/** Over/short of the settled visits, by who answers for them. */
export function sumByDriver(visits: readonly Standing[]): Map<string | null, number> {
  const sums = new Map<string | null, number>();
  for (const visit of visits.filter(isSettled)) {
    sums.set(visit.driver, (sums.get(visit.driver) ?? 0) + (visit.overShort.total ?? 0));
  }
  return sums;
}

/**
 * What changed by driver: everybody whose over/short is another, or of whose visits something changed. A bag that another
 * driver answers for is taken from one and given to the other.
 */
export function comparePerDriver(pairs: readonly StandingPair[]): DriverPartJson[] {
  const [before, after] = [pairs.map((pair) => pair.before), pairs.map((pair) => pair.after)].map((visits) =>
    sumByDriver(visits.filter((visit) => visit !== null)),
  );
  const changed = pairs.filter((pair) => compareStanding(pair).length > 0);
  const drivers = new Set<string | null>();
  for (const { before: old, after: now } of changed) {
    for (const visit of [old, now]) if (visit !== null) drivers.add(visit.driver);
  }
  return [...drivers].map((driver) => ({
    driver,
    overShort: (after!.get(driver) ?? 0) - (before!.get(driver) ?? 0),
  }));
}
