import type { TakeOptions } from '../../captures/index.js';
import type { TakenRead } from '../../interval/index.js';
import { type MachineRow, machineKey, rosterNameIn } from '../../model/index.js';
import type { Roster } from '../../sheets/index.js';
import { Recall } from '../recall/index.js';
import type { BookRead, BookStore, StaleMachine, WorkedOut } from '../store/index.js';
import { type ChosenReads, chooseWindow } from './choose-window.js';
import { markChanged } from './known-roster.js';
import { type RecalledRead, workOutMachine } from './work-out-machine.js';

/** What working out goes by. */
export interface WorkOutOptions {
  /** All machines that the office knows or knew, and what the user says of all captures. */
  readonly take: TakeOptions;
  /** The user says that a file's own time is when it was received; without that it is no evidence. */
  readonly isFileTimeReceived?: boolean;
  /** Machines that this run has worked out before: when they are stale again, something came meanwhile. */
  readonly doneBefore?: Iterable<string>;
  /** Told of every machine before it is worked out. */
  readonly onMachine?: (machine: string) => void;
}

/** What was done. */
export interface WorkOutTally {
  readonly machines: number;
  readonly steps: number;
}

/** How often machines are worked out again to which something came meanwhile; what comes later is the next run's. */
const ROUNDS = 4;
/** Machines are written down together, since the disk has to confirm each time, but not more than so many reads. */
const READS_AT_ONCE = 100;

/**
 * Work out what the book's machines did from read to read, for all to which reads came since it was last done, and those of
 * which the office says something else now. The result is
 * the same as if everything were worked out anew, in whatever order the reads came, and whoever is at work beside.
 */
export async function workOutStale(store: BookStore, options: WorkOutOptions): Promise<WorkOutTally> {
  await markChanged(store, options.take.roster, {
    ...options.take,
    isFileTimeReceived: options.isFileTimeReceived ?? false,
  });
  const tally = { machines: 0, steps: 0 };
  const done = new Set<string>(options.doneBefore ?? []);
  for (let round = 0; round < ROUNDS; round++) {
    const stale = await store.staleMachines();
    if (stale.length === 0) break;
    // Where something came meanwhile, what was written down before it is no ground to build on.
    const again = stale.map((each) => (done.has(each.machine) ? { ...each, since: null } : each));
    for (const { machine } of stale) done.add(machine);
    const { machines, steps } = await workOutMachines(store, again, options);
    tally.machines += machines;
    tally.steps += steps;
  }
  return tally;
}

/** Work out some machines, once. */
export async function workOutMachines(
  store: BookStore,
  stale: readonly StaleMachine[],
  options: WorkOutOptions,
): Promise<WorkOutTally> {
  const tally = { machines: 0, steps: 0 };
  let waiting: WorkedOut[] = [];
  let recall = new Recall(store, options);
  const flush = async (): Promise<void> => {
    if (waiting.length > 0) await store.workOut(waiting);
    waiting = [];
    recall = new Recall(store, options);
  };
  for (const machine of stale) {
    options.onMachine?.(machine.machine);
    const work = await workOutOne(store, machine, recall, options.take.roster);
    waiting.push(work);
    tally.machines++;
    tally.steps += work.steps.length;
    if (waiting.reduce((sum, { window }) => sum + window.length, 0) >= READS_AT_ONCE) await flush();
  }
  await flush();
  return tally;
}

async function workOutOne(store: BookStore, stale: StaleMachine, recall: Recall, roster: Roster): Promise<WorkedOut> {
  const { machine, revision: asOf } = stale;
  const recalled = ({ reads }: ChosenReads): Promise<RecalledRead[]> => recallEach(recall, machine, reads, roster);
  const chosen = await chooseWindow(store, stale);
  const work = workOutMachine(await recalled(chosen), roster, chosen.isWhole);
  if (work !== null) return { machine, asOf, ...work };
  const whole = await chooseWindow(store, { ...stale, since: null });
  return { machine, asOf, ...workOutMachine(await recalled(whole), roster, true)! };
}

/** Reads that the book keeps under a machine, with what is to be kept of each now. */
export async function recallEach(
  recall: Recall,
  machine: string,
  rows: readonly BookRead[],
  roster: Roster,
): Promise<RecalledRead[]> {
  const found = await recall.knowReads(rows);
  return rows.map((kept, i) => {
    const { taken, known } = found[i]!;
    return { kept, taken: belongTo(machine, taken, roster), known };
  });
}

/** A read as one of the machine that the book keeps it under. */
function belongTo(machine: string, taken: TakenRead, roster: Roster): TakenRead {
  const name = rosterNameIn(machine);
  if (name === null || machineKey(taken) === machine) return taken;
  return { ...taken, machine: roster.machine(name) ?? unknownRow(name), matchedBy: 'list' };
}

/** A machine of which nothing is known but its name. */
function unknownRow(machine: string): MachineRow {
  return {
    machine,
    asset: null,
    serial: null,
    location: null,
    route: null,
    driver: null,
    currency: null,
    decimals: null,
    hasCash: null,
    hasBills: null,
    hasCard: null,
    profile: null,
    active: null,
    commission: null,
    commissionBase: null,
    tax: null,
    taxIncluded: null,
    place: { file: '', row: 0 },
  };
}
