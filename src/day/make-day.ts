import {
  type AdjustedRound,
  type AttentionInputs,
  listAttentionOf,
  lookAtOneSided,
  type MachineStock,
  measureStock,
  type OneSided,
  orderAttention,
  type Past,
  splitDay,
} from '../attention/index.js';
import type { CaptureCheck } from '../checks/index.js';
import type { Finding } from '../findings/index.js';
import { type Histories, listReads, listSteps, namesOfReads, type PlacedRead, type Step } from '../interval/index.js';
import { groupBy, type LocalDate, type MachineKey, type MachineRow } from '../model/index.js';
import type { Settlements, Visit } from '../settlement/index.js';
import type { Roster } from '../sheets/index.js';
import { makeCashRow } from './cash-row.js';
import { dropClocksOfCopies } from './clocks-of-copies.js';
import type { Day, Replacing } from './day.js';
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
   * What is known of these machines: the day's own reads and those before, back to the last visit at least. Their files are
   * named as in `checks`.
   */
  readonly histories: Histories;
  /** The settlements of the day that are put into its tables. */
  readonly settlements: Settlements;
  /** The visits of these machines. Default: those of the settlements. */
  readonly visits?: readonly Visit[];
  /** What each machine did before all of these reads, by its key (`machineKey`), oldest first. Default: nothing is known. */
  readonly past?: Past;
  /** For the reads at the end of steps: the days whose tables had told what these tell; see `Replacing`. Default: none. */
  readonly replaced?: ReadonlyMap<PlacedRead, readonly LocalDate[]>;
  /** What was found in the office's sheets. */
  readonly findings?: readonly Finding[];
  /** Closed rounds that were adjusted by what came in on the day, and its own that were. Default: none. */
  readonly adjusted?: readonly AdjustedRound[];
  /** Machines and drivers whose bags always differ in one direction. Default: none. */
  readonly oneSided?: readonly OneSided[];
}

/**
 * Make a day: the rows of its outputs, and the list of what has to be looked at.
 *
 * A step is in the tables of one day alone: that on which the capture at its end came in, so that days add up. The list also
 * looks at steps that begin with a capture of the day: one that came late has changed what follows it. Many machines can be worked off in batches, each with all of its own inputs, and put together by `joinDays`;
 * a batch then holds nothing of the others. Machines of one route belong in one batch if settlements are made with it.
 */
export function makeDay(inputs: DayInputs): Day {
  const { day, roster, histories, settlements } = inputs;
  const checks = dropClocksOfCopies(inputs.checks, histories.findings);
  const files = new Set(checks.map(({ file }) => file));
  const steps = listSteps(histories);
  const isSeen = ({ from, to }: Step): boolean => files.has(from.file) || files.has(to.file);
  const today = steps.filter(({ to }) => files.has(to.file));
  const findings = dropOtherDays([...histories.findings, ...settlements.findings], histories, files);
  const visits = inputs.visits ?? settlements.settlements.flatMap((settlement) => settlement.visits);
  const stock = measureAll(inputs, visits);
  const split = splitDay({
    day,
    roster,
    ...(inputs.expected === undefined ? {} : { expected: inputs.expected }),
    checks,
    intervals: steps.filter(isSeen),
    visits,
    latest: lastReads(histories),
    stock,
    past: inputs.past ?? new Map(),
    earlier: steps.filter((step) => !isSeen(step)),
    findings: [
      ...findings,
      ...settlements.settlements.flatMap((settlement) => settlement.findings),
      ...(inputs.findings ?? []),
    ],
    adjusted: inputs.adjusted ?? [],
  } satisfies AttentionInputs);
  const machines = [...split.machines.values()];
  const expected = machines.filter(({ isExpected }) => isExpected);
  return {
    day,
    files: countFiles(
      checks,
      histories.findings.filter(({ file }) => file !== undefined && files.has(file)),
    ),
    machines: {
      expected: expected.length,
      read: expected.filter(({ reads }) => reads.length > 0).length,
      unknown: machines.filter(({ name, reads }) => name.row === null && reads.length > 0).length,
    },
    totals: sumIntervals(today),
    attention: orderAttention([...listAttentionOf(split), ...(inputs.oneSided ?? []).map(lookAtOneSided)]),
    sales: today.flatMap((step) => sayReplaced(step, makeSalesRows(step), inputs)),
    cash: today.flatMap((step) => sayReplaced(step, [makeCashRow(step)], inputs)),
    settlements: settlements.settlements,
    adjusted: inputs.adjusted ?? [],
    refill: [...stock.values()].filter(isInUse).flatMap((one) => makeRefillRows(one, day)),
  };
}

function sayReplaced<Row extends Replacing>({ to }: Step, rows: Row[], { replaced }: DayInputs): Row[] {
  const replaces = replaced?.get(to);
  return replaces === undefined ? rows : rows.map((row) => ({ ...row, replaces }));
}

const isInUse = ({ until }: MachineStock): boolean => until.machine?.active !== false;

/** Leave out what was found on reads of other days: it was listed when they came. */
function dropOtherDays(
  findings: readonly Finding[],
  { machines, findings: ofReads }: Histories,
  ofDay: ReadonlySet<string>,
): readonly Finding[] {
  // A read that does not say whose it is has no history, only what was found on it.
  const known = new Set([...[...machines.values()].flatMap(listReads), ...ofReads].map(({ file }) => file));
  return findings.filter(({ file }) => file === undefined || ofDay.has(file) || !known.has(file));
}

function lastReads({ machines }: Histories): Map<string, PlacedRead> {
  const latest = new Map<string, PlacedRead>();
  for (const [key, { ordered }] of machines) if (ordered.length > 0) latest.set(key, ordered.at(-1)!);
  return latest;
}

function measureAll({ histories, roster }: DayInputs, visits: readonly Visit[]): Map<string, MachineStock> {
  const names = namesOfReads([...histories.machines.values()].flatMap(({ ordered }) => ordered));
  const visitsByKey = groupBy<Visit, MachineKey | null>(visits, ({ machine }) => names.find(machine));
  const stocks = new Map<string, MachineStock>();
  for (const [key, history] of histories.machines) {
    const own = visitsByKey.get(key) ?? [];
    const faulty = [...history.faulty, ...history.faulty.flatMap((placed) => history.copiesOf.get(placed) ?? [])];
    const stock = measureStock({ ...history, faulty, visits: own, roster });
    if (stock !== null) stocks.set(key, stock);
  }
  return stocks;
}
