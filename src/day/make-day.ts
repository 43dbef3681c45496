import {
  type AttentionInputs,
  listAttentionOf,
  type MachineStock,
  measureStock,
  outlineInterval,
  type PastStretch,
  splitDay,
} from '../attention/index.js';
import type { CaptureCheck } from '../checks/index.js';
import type { Finding } from '../findings/index.js';
import { type Interval, type Intervals, namesOfReads, type TakenRead } from '../interval/index.js';
import { groupBy, type LocalDate, type MachineKey, type MachineRow, machineKey } from '../model/index.js';
import type { Settlements, Visit } from '../settlement/index.js';
import type { Roster } from '../sheets/index.js';
import { makeCashRow } from './cash-row.js';
import { dropClocksOfCopies } from './clocks-of-copies.js';
import type { Day } from './day.js';
import { makeRefillRows } from './refill-rows.js';
import { makeSalesRows } from './sales-rows.js';
import { countFiles, sumIntervals } from './sum-day.js';

/** What a day is made from. */
export interface DayInputs {
  readonly day: LocalDate;
  readonly roster: Roster;
  /** The machines of which a capture is looked for. Default: all of the roster. Inactive ones are left out. */
  readonly expected?: readonly MachineRow[];
  /** Every file that came in on the day, as it was checked, those set aside included. */
  readonly checks: readonly CaptureCheck[];
  /**
   * The reads of these machines, faulty ones included: the day's own and those before, back to the last visit at least;
   * none that came later. Their files are named as in `checks`.
   */
  readonly reads: readonly TakenRead[];
  /** What `buildIntervals` makes of them. */
  readonly intervals: Intervals;
  /** The settlements of the day. */
  readonly settlements: Settlements;
  /** What each machine did before all of `reads`, by its key (`machineKey`), oldest first. Default: nothing is known. */
  readonly past?: ReadonlyMap<string, readonly PastStretch[]>;
  /** What was found in the office's sheets. */
  readonly findings?: readonly Finding[];
}

/**
 * Make a day: the rows of its outputs, and the list of what has to be looked at.
 *
 * An interval is the day's when a capture of the day is one of its ends; so a capture that came late brings the intervals
 * around it. Many machines can be worked off in batches, each with all of its own inputs, and put together by `joinDays`;
 * a batch then holds nothing of the others. Machines of one route belong in one batch if settlements are made with it.
 */
export function makeDay(inputs: DayInputs): Day {
  const { day, roster, intervals, settlements } = inputs;
  const checks = dropClocksOfCopies(inputs.checks, intervals.findings);
  const files = new Set(checks.map(({ file }) => file));
  const isOfDay = ({ from, to }: Interval): boolean => files.has(from.file) || files.has(to.file);
  const today = intervals.intervals.filter(isOfDay);
  const findings = dropOtherDays([...intervals.findings, ...settlements.findings], inputs, files);
  const visits = settlements.settlements.flatMap((settlement) => settlement.visits);
  const stock = measureAll(inputs, visits);
  const split = splitDay({
    day,
    roster,
    ...(inputs.expected === undefined ? {} : { expected: inputs.expected }),
    checks,
    intervals: today,
    visits,
    latest: lastReads(intervals),
    stock,
    past: outlinePast(inputs, isOfDay),
    findings: [
      ...findings,
      ...settlements.settlements.flatMap((settlement) => settlement.findings),
      ...(inputs.findings ?? []),
    ],
  } satisfies AttentionInputs);
  const machines = [...split.machines.values()];
  const expected = machines.filter(({ isExpected }) => isExpected);
  return {
    day,
    files: countFiles(
      checks,
      intervals.findings.filter(({ file }) => file !== undefined && files.has(file)),
    ),
    machines: {
      expected: expected.length,
      read: expected.filter(({ reads }) => reads.length > 0).length,
      unknown: machines.filter(({ name, reads }) => name.row === null && reads.length > 0).length,
    },
    totals: sumIntervals(today),
    attention: listAttentionOf(split),
    sales: today.flatMap(makeSalesRows),
    cash: today.map(makeCashRow),
    settlements: settlements.settlements,
    refill: [...stock.values()].filter(isInUse).flatMap((one) => makeRefillRows(one, day)),
  };
}

const isInUse = ({ until }: MachineStock): boolean => until.machine?.active !== false;

/** Leave out what was found on reads of other days: it was listed when they came. */
function dropOtherDays(
  findings: readonly Finding[],
  { reads }: DayInputs,
  ofDay: ReadonlySet<string>,
): readonly Finding[] {
  const known = new Set(reads.map(({ file }) => file));
  return findings.filter(({ file }) => file === undefined || ofDay.has(file) || !known.has(file));
}

function lastReads({ machines }: Intervals): Map<string, TakenRead> {
  const latest = new Map<string, TakenRead>();
  for (const [key, ordered] of machines) latest.set(key, ordered.at(-1)!);
  return latest;
}

function measureAll({ reads, intervals, roster }: DayInputs, visits: readonly Visit[]): Map<string, MachineStock> {
  const intervalTo = new Map(intervals.intervals.map((interval) => [interval.to, interval]));
  const faulty = groupBy(
    reads.filter(({ faults }) => faults.length > 0),
    machineKey,
  );
  const names = namesOfReads([...intervals.machines.values()].flat());
  const visitsByKey = groupBy<Visit, MachineKey | null>(visits, ({ machine }) => names.find(machine));
  const stocks = new Map<string, MachineStock>();
  for (const [key, ordered] of intervals.machines) {
    const own = visitsByKey.get(key) ?? [];
    stocks.set(key, measureStock({ ordered, intervalTo, faulty: faulty.get(key) ?? [], visits: own, roster })!);
  }
  return stocks;
}

function outlinePast(
  { intervals, past }: DayInputs,
  isOfDay: (interval: Interval) => boolean,
): Map<string, readonly PastStretch[]> {
  const outlined = new Map([...(past ?? [])].map(([key, stretches]) => [key, [...stretches]]));
  for (const interval of intervals.intervals) {
    const stretch = isOfDay(interval) ? null : outlineInterval(interval);
    if (stretch === null) continue;
    const key = machineKey(interval.to)!;
    const own = outlined.get(key);
    if (own === undefined) outlined.set(key, [stretch]);
    else own.push(stretch);
  }
  return outlined;
}
