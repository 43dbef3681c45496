import type { Finding } from '../findings/index.js';
import { compareReads, gatherHistories, type Histories, type TakenRead } from '../interval/index.js';
import { type CountRow, type LocalDate, pushAll, type UnusableCount } from '../model/index.js';
import { decimalsFromRoster, type MoneyRules, type Roster } from '../sheets/index.js';
import { arrangeVisits } from './arrange-visits.js';
import { buildVisit } from './build-visit.js';
import { type Collection, momentOfCount } from './collection.js';
import { groupVisits } from './group-visits.js';
import { type MachineReads, NO_READS, ReadsByMachine } from './machine-reads.js';
import { indexUnlisted } from './near-captures.js';
import { RefusedRows } from './refused-rows.js';
import { resolveOptions, type SettleRules } from './settle-options.js';
import type { Settlements, SettleOptions, Visit } from './settlement.js';
import { listUnusableVisits } from './unusable-visit.js';
import { routeOf, type VisitContext } from './visit-context.js';

/** What a round is settled from: reads at hand, or histories of machines. */
export interface RoundInputs extends Omit<HistoryInputs, 'histories'> {
  readonly reads: readonly TakenRead[];
}

/** What a round is settled from. */
export interface HistoryInputs {
  readonly histories: Histories;
  readonly counts: readonly CountRow[];
  readonly roster: Roster;
  /** Findings about the count sheet: a machine whose row was refused is not claimed to be uncounted. */
  readonly countFindings?: readonly Finding[];
  /** Its rows that could not be used: each stays an unsettled visit of its machine, as far as that is known. */
  readonly unusable?: readonly UnusableCount[];
  /** In which money the count sheet's amounts were read. Default: as the roster says. */
  readonly countMoney?: MoneyRules;
}

/**
 * Settle rounds: bags matched to captures, what was expected, counted, over and short, per machine, driver and route.
 *
 * One settlement a route, day and currency; two currencies are never added together. Every match says how it was made,
 * nothing is guessed: what is in the way of settling a visit is said in its findings. The order of reads and rows makes no
 * difference.
 *
 * @throws RangeError when an option is out of range; never for what reads or rows hold
 */
export function settleRound({ reads, ...rest }: RoundInputs, options: SettleOptions = {}): Settlements {
  // Of two reads that tell the same the first is kept: sorted, it is the same one whatever order they come in.
  return settleHistories({ histories: gatherHistories([...reads].sort(compareReads), rest.roster), ...rest }, options);
}

/**
 * The same from histories: of reads at hand, or as a book keeps them.
 *
 * @throws RangeError when an option is out of range
 */
export function settleHistories(inputs: HistoryInputs, options: SettleOptions = {}): Settlements {
  const { roster, counts, histories } = inputs;
  const rules = resolveOptions(options);
  const byMachine = new ReadsByMachine(histories);
  const isMachine = (name: string): boolean => roster.machine(name) !== null || byMachine.find(name) !== null;
  const shared = {
    roster,
    rules,
    sheetMoney: inputs.countMoney ?? decimalsFromRoster(roster.books.machines, null),
    refused: new RefusedRows(inputs.countFindings ?? [], inputs.unusable ?? [], counts, isMachine),
    unlisted: indexUnlisted(histories, roster.books.machines.length > 0),
  };
  const isInScope = makeScope(counts, rules);
  const visits: Visit[] = [];
  for (const { name, own, machineReads } of listMachines(counts, byMachine)) {
    const context: VisitContext = { ...shared, name, machine: roster.machine(name), reads: machineReads };
    for (const collection of arrangeVisits(own, machineReads, rules.windowMinutes)) {
      if (isShown(collection, context, isInScope)) visits.push(buildVisit(collection, context));
    }
  }
  pushAll(visits, listUnusableVisits(inputs.unusable ?? [], visits, { ...shared, isInScope }));
  return { settlements: groupVisits(visits), findings: histories.findings };
}

interface MachineOfRound {
  readonly name: string;
  /** Its rows of the count sheet, in the order of the visits. */
  readonly own: readonly CountRow[];
  readonly machineReads: MachineReads;
}

/** Every machine that was counted or read, once, by the name that the sheets use. */
function listMachines(counts: readonly CountRow[], byMachine: ReadsByMachine): MachineOfRound[] {
  const found = new Map<MachineReads | string, { name: string; own: CountRow[]; machineReads: MachineReads }>();
  for (const count of counts) {
    const machineReads = byMachine.find(count.machine);
    const key = machineReads ?? count.machine;
    const same = found.get(key);
    if (same === undefined) {
      found.set(key, { name: count.machine, own: [count], machineReads: machineReads ?? NO_READS });
      continue;
    }
    same.own.push(count);
    // A machine on no roster may be called by its asset number in one row and by its serial number in another.
    if (count.machine < same.name) same.name = count.machine;
  }
  for (const { own } of found.values()) own.sort(compareCounts);
  for (const [name, machineReads] of byMachine.entries()) {
    if (!found.has(machineReads)) found.set(machineReads, { name, own: [], machineReads });
  }
  return [...found.values()];
}

/** By the moment of the visit; rows of one moment as they stand in their sheet. */
function compareCounts(a: CountRow, b: CountRow): number {
  const [left, right] = [momentOfCount(a), momentOfCount(b)];
  if (left !== right) return left < right ? -1 : 1;
  if (a.place.file !== b.place.file) return a.place.file < b.place.file ? -1 : 1;
  return a.place.row - b.place.row;
}

/** The days that are settled: the one asked for, else those from the first count to the last. */
function makeScope(counts: readonly CountRow[], { day }: SettleRules): (date: LocalDate) => boolean {
  if (day !== null) return (date) => date === day;
  let first: LocalDate | null = null;
  let last: LocalDate | null = null;
  for (const { visitedAt } of counts) {
    if (first === null || visitedAt.date < first) first = visitedAt.date;
    if (last === null || visitedAt.date > last) last = visitedAt.date;
  }
  return (date) => first !== null && last !== null && date >= first && date <= last;
}

function isShown(
  { counts, match, opening }: Collection,
  { machine, rules }: VisitContext,
  isInScope: (date: LocalDate) => boolean,
): boolean {
  const count = counts.at(-1);
  const date = count?.visitedAt.date ?? match.read?.time?.slice(0, 10);
  if (date === undefined || !isInScope(date)) return false;
  if (rules.route !== null && routeOf(count, machine) !== rules.route) return false;
  // The first service read of all is where counting starts, not a visit that somebody forgot to count; and a machine that
  // takes no cash has no bag.
  return counts.length > 0 || (opening >= 0 && machine?.hasCash !== false);
}
