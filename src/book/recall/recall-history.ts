import {
  gatherHistories,
  type Histories,
  mirrorCredits,
  type PlacedRead,
  type Step,
  sayDuplicate,
  sayUnusable,
} from '../../interval/index.js';
import { machineKey, pushAll } from '../../model/index.js';
import { fitsStep, type KeptRead, unpackGap, unpackStep } from '../kept/index.js';
import type { BookRead, BookStep, BookStore, ReadKey } from '../store/index.js';
import type { Contents } from './contents.js';
import type { Recall } from './recall.js';

/** What a machine did, taken out of the book: under one key, or several where the office of today tells its reads apart. */
export interface RecalledHistories extends Histories {
  /** The rows of the book that its reads are of. */
  readonly rowOf: ReadonlyMap<PlacedRead, BookRead>;
}

/** Whose history it is, and which part of it. */
export interface HistoryRows {
  /** The key that the book has the machine under; several where it was known by other numbers before. */
  readonly keys: readonly string[];
  readonly rows: readonly BookRead[];
  /** Whether all that came of the machine is worked out. */
  readonly isWorkedOut: boolean;
}

/**
 * A machine's history as the book keeps it, without its captures. Where what is kept does not fit what it rests on (nothing is
 * worked out since more came in, the office says something else, somebody changed it), it is worked out from the captures of
 * these rows instead, and nothing is written.
 *
 * Contents are at hand as far as {@link Contents} has loaded them.
 */
export async function recallHistory(
  store: BookStore,
  recall: Recall,
  { keys, rows, isWorkedOut }: HistoryRows,
  contents: Contents,
): Promise<RecalledHistories> {
  const [key] = keys;
  if (!isWorkedOut || keys.length !== 1 || rows.length === 0) return workOutHere(recall, rows);
  const kept = await recall.placeReads(rows);
  const steps = new Map<string, BookStep>();
  for (const step of await store.stepsOf(key!, spanOf(rows))) steps.set(nameOf(step.to), step);
  const assembled = assemble(recall, { rows, kept, steps }, contents);
  if (assembled !== null) return assembled;
  await lookForStrays(store, recall, { rows, steps });
  return workOutHere(recall, rows);
}

/**
 * Steps lead to reads that are not among these: whether somebody moved those away.
 *
 * @throws BookError (as a rejection) `altered` where somebody did; see `putRight`
 */
async function lookForStrays(
  store: BookStore,
  recall: Recall,
  { rows, steps }: Pick<Kept, 'rows' | 'steps'>,
): Promise<void> {
  const names = new Set(rows.map(nameOf));
  for (const { from } of steps.values()) {
    if (names.has(nameOf(from))) continue;
    const { entry, number } = from;
    for await (const row of store.reads({ entryFrom: entry, entryTo: entry + 1 }))
      if (row.number === number) await recall.takeReads([row]);
  }
}

/** From the time of the first read to that of the last; all where one has no time. */
function spanOf(rows: readonly BookRead[]): { atFrom?: string; atTo?: string } {
  const times = rows.map(({ at }) => at);
  if (times.includes(null)) return {};
  const sorted = (times as string[]).toSorted();
  return { atFrom: sorted[0]!, atTo: sorted.at(-1)! };
}

const nameOf = ({ entry, number }: ReadKey): string => `${entry}/${number}`;

interface Kept {
  readonly rows: readonly BookRead[];
  readonly kept: readonly KeptRead[];
  /** By the name of the later read. */
  readonly steps: ReadonlyMap<string, BookStep>;
}

/** Null where something that is kept does not fit. */
function assemble(recall: Recall, { rows, kept, steps }: Kept, contents: Contents): RecalledHistories | null {
  const rowOf = new Map<PlacedRead, BookRead>();
  const placedOf = new Map<string, PlacedRead>();
  const names = new Set(kept.map(({ placed }) => machineKey(placed)));
  const [key = null] = names;
  if (key === null || names.size > 1) return null;
  for (const [i, row] of rows.entries()) {
    const { placed, seal } = kept[i]!;
    // It was checked anew: what rests on it is not what is kept.
    if (row.rests === null || Buffer.compare(seal, row.rests) !== 0) return null;
    rowOf.set(placed, row);
    placedOf.set(nameOf(row), placed);
  }
  const single = [...rowOf].filter(([, { duplicateOf }]) => duplicateOf === null);
  const usable = single.filter(([{ faults }]) => faults.length === 0);
  if (usable.some(([, { position }]) => position === null)) return null;
  const ordered = usable.sort(([, a], [, b]) => a.era! - b.era! || a.position! - b.position!).map(([placed]) => placed);
  const faulty = single.map(([placed]) => placed).filter(({ faults }) => faults.length > 0);
  const copiesOf = gatherCopies(rowOf, placedOf);
  const findings = [...copiesOf].flatMap(([original, copies]) => copies.map((copy) => sayDuplicate(original, copy)));
  for (const placed of faulty) findings.push(sayUnusable(placed));
  const placedInOrder = new Set(ordered.map((placed) => nameOf(rowOf.get(placed)!)));
  const fileOf = (entry: number): string => recall.labels.nameOf(entry) ?? `entry ${entry}`;
  const found: Step[] = [];
  for (const [place, to] of ordered.entries()) {
    const from = ordered[place - 1];
    if (from === undefined) continue;
    const step = steps.get(nameOf(rowOf.get(to)!));
    if (step === undefined || nameOf(step.from) !== nameOf(rowOf.get(from)!) || !fitsStep(step)) return null;
    const gap = unpackGap(step, fileOf);
    if (gap === null) found.push(unpackStep(step, from, to, fileOf));
    else pushAll(findings, gap);
  }
  // A read that a step leads to is no copy and no read without a place.
  if (rows.map(nameOf).some((name) => steps.has(name) && !placedInOrder.has(name))) return null;
  const stepTo = new Map(mirrorCredits(found).map((step) => [step.to, step]));
  const history = { ordered, faulty, copiesOf, stepTo, contentsOf: contents.of(rowOf) };
  return { machines: new Map([[key, history]]), nobodys: [], findings, rowOf };
}

function gatherCopies(
  rowOf: ReadonlyMap<PlacedRead, BookRead>,
  placedOf: ReadonlyMap<string, PlacedRead>,
): Map<PlacedRead, PlacedRead[]> {
  const copies = new Map<PlacedRead, PlacedRead[]>();
  for (const [placed, { duplicateOf }] of rowOf) {
    const original = duplicateOf === null ? undefined : placedOf.get(nameOf(duplicateOf));
    if (original === undefined) continue;
    const others = copies.get(original);
    if (others === undefined) copies.set(original, [placed]);
    else others.push(placed);
  }
  return copies;
}

async function workOutHere(recall: Recall, rows: readonly BookRead[]): Promise<RecalledHistories> {
  const taken = await recall.takeReads(rows);
  const rowOf = new Map<PlacedRead, BookRead>(taken.map((one, i) => [one, rows[i]!]));
  const byEntry = taken.toSorted((a, b) => compareKeys(rowOf.get(a)!, rowOf.get(b)!));
  return { ...gatherHistories(byEntry, recall.roster), rowOf };
}

const compareKeys = (a: ReadKey, b: ReadKey): number => a.entry - b.entry || a.number - b.number;
