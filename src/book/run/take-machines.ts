import {
  gatherHistories,
  type Histories,
  listSteps,
  type MachineHistory,
  type PlacedRead,
} from '../../interval/index.js';
import { type LocalDate, type LocalDateTime, pushAll } from '../../model/index.js';
import { type Contents, type Recall, type RecalledHistories, recallHistory } from '../recall/index.js';
import type { BookRead, BookStore } from '../store/index.js';
import { findReplaced } from './find-replaced.js';
import type { DayPlan, PlannedPart } from './plan-day.js';
import { chooseReadsOfDay } from './reads-of-day.js';
import { RecalledPast } from './recall-past.js';

/** What is known of a part's machines. */
export interface TakenMachines {
  readonly histories: Histories;
  readonly past: RecalledPast;
  /** See `findReplaced`. */
  readonly replaced: ReadonlyMap<PlacedRead, readonly LocalDate[]>;
  /** Reads of the day's files as the book has them, by entry, in the order of the file. */
  readonly rowsOfFiles: ReadonlyMap<number, readonly BookRead[]>;
}

/** How a part is taken out of the book. */
export interface TakeMachinesOptions {
  /** Machines that are not worked out: what is kept of them may not be so any more. */
  readonly stale: ReadonlySet<string>;
  /** Whether the reads at the ends of the day's steps are needed with their contents. */
  readonly withContents: boolean;
  readonly onMachine: ((machine: string) => void) | undefined;
}

/** Take what a part of a day rests on out of the book, and what its machines did before that. */
export async function takeMachines(
  store: BookStore,
  recall: Recall,
  contents: Contents,
  { day, part }: { readonly day: DayPlan['day']; readonly part: PlannedPart },
  { stale, withContents, onMachine }: TakeMachinesOptions,
): Promise<TakenMachines> {
  const machines = new Map<string, MachineHistory>();
  const findings: Histories['findings'][number][] = [];
  const past = new RecalledPast(store, day);
  const replaced = new Map<PlacedRead, readonly LocalDate[]>();
  const needed: BookRead[] = [];
  const rowsOfFiles = new Map<number, BookRead[]>();
  const ofDay = new Set(part.files.map(({ entry }) => entry));
  for (const machine of part.machines) {
    const { key } = machine;
    onMachine?.(key);
    const rows = await chooseReadsOfDay(store, machine, day);
    for (const row of rows) if (ofDay.has(row.entry)) addTo(rowsOfFiles, row);
    const recalled = await recallHistory(store, recall, { keys: [key], rows, isWorkedOut: !stale.has(key) }, contents);
    for (const [name, history] of recalled.machines) machines.set(name, history);
    pushAll(findings, recalled.findings);
    const own = await findReplaced(store, recall, { key, day, entries: ofDay }, recalled);
    for (const [placed, days] of own) replaced.set(placed, days);
    pushAll(needed, listNeeded(recalled, ofDay, withContents));
    const [name = key] = recalled.machines.keys();
    past.add(name, { key, until: firstTime(rows) });
  }
  // Pages show it of every machine.
  if (withContents) await past.load(past.keys());
  await contents.load(needed);
  pushAll(findings, await findNobodys(store, recall, part));
  for (const own of rowsOfFiles.values()) own.sort((a, b) => a.number - b.number);
  return { histories: { machines, nobodys: [], findings }, past, replaced, rowsOfFiles };
}

function addTo(rowsOfFiles: Map<number, BookRead[]>, row: BookRead): void {
  const own = rowsOfFiles.get(row.entry);
  if (own === undefined) rowsOfFiles.set(row.entry, [row]);
  else own.push(row);
}

/** The last usable read of each machine, which tells what its columns hold; and the ends of the day's steps where asked for. */
function listNeeded(
  { machines, rowOf }: RecalledHistories,
  ofDay: ReadonlySet<number>,
  withContents: boolean,
): BookRead[] {
  const isOfDay = (placed: PlacedRead): boolean => ofDay.has(rowOf.get(placed)!.entry);
  const last = [...machines.values()].map(({ ordered }) => ordered.at(-1)).filter((placed) => placed !== undefined);
  const steps = withContents ? listSteps({ machines }) : [];
  const ends = steps.filter(({ from, to }) => isOfDay(from) || isOfDay(to)).flatMap(({ from, to }) => [from, to]);
  return [...new Set([...last, ...ends])].map((placed) => rowOf.get(placed)!);
}

/** What is found on reads that no machine can be told of. */
async function findNobodys(store: BookStore, recall: Recall, { files }: PlannedPart): Promise<Histories['findings']> {
  const rows: BookRead[] = [];
  for (const { entry, isOwner } of files) {
    if (!isOwner) continue;
    for await (const row of store.reads({ entryFrom: entry, entryTo: entry + 1, machine: null })) rows.push(row);
  }
  return rows.length === 0 ? [] : gatherHistories(await recall.takeReads(rows), recall.roster).findings;
}

function firstTime(rows: readonly BookRead[]): LocalDateTime | null {
  const times = rows.map(({ at }) => at).filter((time) => time !== null);
  return times.sort()[0] ?? null;
}
