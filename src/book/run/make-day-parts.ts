import type { PastStretch } from '../../attention/index.js';
import type { TakeOptions } from '../../captures/index.js';
import { type Day, type DayInputs, makeDay } from '../../day/index.js';
import type { Finding } from '../../findings/index.js';
import { bestTime, buildIntervals, machineKey, type TakenRead } from '../../interval/index.js';
import type { CountRow, LocalDate, LocalDateTime } from '../../model/index.js';
import { type Settlements, type SettleOptions, settleRound } from '../../settlement/index.js';
import type { MoneyRules } from '../../sheets/index.js';
import { Recall } from '../recall/index.js';
import type { BookRead, BookStore } from '../store/index.js';
import { type DayPlan, type PlannedMachine, type PlannedPart, planDay } from './plan-day.js';
import { chooseReadsOfDay } from './reads-of-day.js';
import { recallPast } from './recall-past.js';
import { countOwned, narrowCheck, type SharedCheck } from './share-check.js';

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
 * The book must be worked out; see `workOutStale`.
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
  const { day, take, findings = [] } = options;
  const recall = new Recall(store, options);
  await nameFiles(recall, part);
  const { taken, past } = await takeMachines(store, recall, plan, part, options);
  const checks = await checkFiles(store, recall, part);
  const intervals = buildIntervals(taken, take.roster);
  const inputs: DayInputs = {
    day,
    roster: take.roster,
    expected: part.machines.map(({ row }) => row).filter((row) => row !== null),
    checks: checks.map(({ check }) => check),
    reads: taken,
    intervals,
    settlements: settle(taken, part.counts, options),
    past,
    findings,
  };
  const made = makeDay(inputs);
  return { inputs, day: { ...made, files: countOwned(checks, made) } };
}

/** The day's own files keep their plain names: what a list says now is said of them; of two of one name, of the later. */
async function nameFiles(recall: Recall, { files }: PlannedPart): Promise<void> {
  for (const { entry } of files.toSorted((a, b) => b.entry - a.entry)) recall.labels.labelOf(await recall.file(entry));
}

interface TakenMachines {
  readonly taken: readonly TakenRead[];
  readonly past: ReadonlyMap<string, readonly PastStretch[]>;
}

async function takeMachines(
  store: BookStore,
  recall: Recall,
  plan: DayPlan,
  part: PlannedPart,
  { onMachine }: DayPartsOptions,
): Promise<TakenMachines> {
  const rows: BookRead[] = [];
  const past = new Map<string, readonly PastStretch[]>();
  const firsts: { readonly machine: PlannedMachine; readonly from: number }[] = [];
  for (const machine of part.machines) {
    onMachine?.(machine.key);
    firsts.push({ machine, from: rows.length });
    for (const row of await chooseReadsOfDay(store, machine, plan)) {
      const cameOn = (await recall.file(row.entry)).day;
      if (cameOn === null || cameOn <= plan.day) rows.push(row);
    }
  }
  const ends = rows.length;
  for (const { entry, isOwner } of part.files) if (isOwner) rows.push(...(await readsOfNobody(store, entry)));
  const taken = await recall.takeReads(rows);
  for (const [place, { machine, from }] of firsts.entries()) {
    const own = taken.slice(from, firsts[place + 1]?.from ?? ends);
    const key = own.map(machineKey).find((each) => each !== null) ?? machine.key;
    past.set(key, await recallPast(store, machine.key, plan.day, firstTime(own)));
  }
  return { taken: taken.toSorted(compareReads), past };
}

async function readsOfNobody(store: BookStore, entry: number): Promise<BookRead[]> {
  const reads: BookRead[] = [];
  for await (const read of store.reads({ entryFrom: entry, entryTo: entry + 1, machine: null })) reads.push(read);
  return reads;
}

function firstTime(reads: readonly TakenRead[]): LocalDateTime | null {
  const times = reads.map(bestTime).filter((time) => time !== null);
  return times.sort()[0] ?? null;
}

/** As settlements sort them, so that of two that tell the same both keep the same one. */
const compareReads = (a: TakenRead, b: TakenRead): number =>
  a.file < b.file ? -1 : a.file > b.file ? 1 : a.read.number - b.read.number;

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
