import type { TakeOptions } from '../../captures/index.js';
import { type Day, type DayInputs, makeDay } from '../../day/index.js';
import type { Finding } from '../../findings/index.js';
import { buildIntervals, type TakenRead } from '../../interval/index.js';
import type { CountRow, LocalDate } from '../../model/index.js';
import { type Settlements, type SettleOptions, settleRound } from '../../settlement/index.js';
import type { MoneyRules } from '../../sheets/index.js';
import { Recall } from '../recall/index.js';
import type { BookStore, StaleMachine } from '../store/index.js';
import { type DayPlan, type PlannedPart, planDay } from './plan-day.js';
import { countOwned, narrowCheck, type SharedCheck } from './share-check.js';
import { shareWork } from './share-work.js';
import { takeMachines } from './take-machines.js';
import { workOutMachines } from './work-out.js';

/** Bags as they were counted, and how they are settled. */
export interface CountedBags {
  readonly rows: readonly CountRow[];
  readonly findings: readonly Finding[];
  readonly money: MoneyRules;
  readonly settle: SettleOptions;
}

/** What a day is made of, besides the book. */
export interface DayPartsOptions {
  readonly day: LocalDate;
  /** The roster of the day, and what the user says of all captures. */
  readonly take: TakeOptions;
  readonly isFileTimeReceived?: boolean;
  readonly strict?: boolean;
  /** Null makes no settlements. */
  readonly counts?: CountedBags | null;
  /** What was found in the office's sheets and while files were taken in. */
  readonly findings?: readonly Finding[];
  /** How many machines are looked at together, where no settlement asks for more. Default 8. */
  readonly machinesAtOnce?: number;
  /**
   * Machines that are not worked out, by key: they are as they are looked at, mostly from the same intervals. Those of which
   * nothing is looked at stay as they are. Default: none, the book is worked out.
   */
  readonly stale?: ReadonlyMap<string, StaleMachine>;
  /** What machines are worked out by; see `workOutStale`. Default: as the day is made. */
  readonly workOutBy?: TakeOptions;
  /** Told of every machine before it is looked at. */
  readonly onMachine?: (machine: string) => void;
}

/** A part of a day, and what it was made from. */
export interface DayPart {
  readonly inputs: DayInputs;
  readonly day: Day;
}

const MACHINES_AT_ONCE = 8;

/**
 * Make a day from the book, part by part: see `makeDay` and `joinDays`. Every machine is in one part, and every file of the
 * day is counted in one. Made again later, with the same sheets, it is the same: what came after that day's run is left out.
 *
 * The book must be worked out (`workOutStale`), or it is said what is not.
 */
export async function* makeDayParts(store: BookStore, options: DayPartsOptions): AsyncGenerator<DayPart> {
  const { day, take, counts = null, machinesAtOnce = MACHINES_AT_ONCE } = options;
  const plan = await planDay(store, { day, roster: take.roster, counts: counts?.rows ?? null, machinesAtOnce });
  let findings = options.findings ?? [];
  for (const part of plan.parts) {
    yield await makePart(store, plan, part, { ...options, findings });
    findings = [];
  }
}

async function makePart(
  store: BookStore,
  plan: DayPlan,
  part: PlannedPart,
  options: DayPartsOptions,
): Promise<DayPart> {
  const { day, take, findings = [], stale = NOTHING_STALE } = options;
  const recall = new Recall(store, options);
  await nameFiles(recall, part);
  const { machines, reads, past } = await takeMachines(store, recall, plan, part, options.onMachine);
  const intervals = buildIntervals(reads, take.roster);
  const { done, left } = shareWork(machines, intervals, stale);
  if (left.length > 0) {
    // What the reads of a machine are chosen by is worked out first, and then all is chosen again.
    const { onMachine: _, ...again } = options;
    await workOutMachines(store, left, { ...again, take: options.workOutBy ?? take });
    return makePart(store, plan, part, { ...again, stale: without(stale, left) });
  }
  if (done.length > 0) await store.workOut(done);
  const checks = await checkFiles(store, recall, part);
  const inputs: DayInputs = {
    day,
    roster: take.roster,
    expected: part.machines.map(({ row }) => row).filter((row) => row !== null),
    checks: checks.map(({ check }) => check),
    reads,
    intervals,
    settlements: settle(reads, part.counts, options),
    past,
    findings,
  };
  const made = makeDay(inputs);
  return { inputs, day: { ...made, files: countOwned(checks, made) } };
}

const NOTHING_STALE: ReadonlyMap<string, StaleMachine> = new Map();

function without(
  stale: ReadonlyMap<string, StaleMachine>,
  left: readonly StaleMachine[],
): ReadonlyMap<string, StaleMachine> {
  const names = new Set(left.map(({ machine }) => machine));
  return new Map([...stale].filter(([machine]) => !names.has(machine)));
}

/** The day's own files keep their plain names: what a list says now is said of them; of two of one name, of the later. */
async function nameFiles(recall: Recall, { files }: PlannedPart): Promise<void> {
  for (const { entry } of files.toSorted((a, b) => b.entry - a.entry)) recall.labels.labelOf(await recall.file(entry));
}

async function checkFiles(store: BookStore, recall: Recall, part: PlannedPart): Promise<SharedCheck[]> {
  const machines = new Set(part.machines.map(({ key }) => key));
  const checks: SharedCheck[] = [];
  for (const { entry, isOwner, isShared } of part.files) {
    const check = await recall.checkFile((await store.entry(entry))!);
    checks.push({ check: isShared ? await narrow(store, check, { entry, isOwner, machines }) : check, isOwner });
  }
  return checks;
}

async function narrow(
  store: BookStore,
  check: SharedCheck['check'],
  { entry, isOwner, machines }: { entry: number; isOwner: boolean; machines: ReadonlySet<string> },
): Promise<SharedCheck['check']> {
  const own = new Set<number>();
  for await (const { number, machine } of store.reads({ entryFrom: entry, entryTo: entry + 1 })) {
    if (machine === null ? isOwner : machines.has(machine)) own.add(number);
  }
  return narrowCheck(check, (number) => own.has(number), isOwner);
}

function settle(
  reads: readonly TakenRead[],
  rows: readonly CountRow[],
  { day, take, counts = null }: DayPartsOptions,
): Settlements {
  if (counts === null) return { settlements: [], findings: [] };
  const { settlements } = settleRound(
    { reads, counts: rows, roster: take.roster, countFindings: counts.findings, countMoney: counts.money },
    { ...counts.settle, day },
  );
  // What it finds on reads is what the intervals of the day find on them.
  return { settlements, findings: [] };
}
