import { printable } from '../../findings/index.js';
import type { CountRow } from '../../model/index.js';
import { plural } from '../../report/index.js';
import { readFileEntry } from '../recall/index.js';
import type { BookStore } from '../store/index.js';
import { toldBodySchema } from '../told/index.js';
import { COUNT_KINDS, subjectOfCount } from './book-counts.js';
import { correctionBodySchema, countBodySchema, unusableBodySchema, withdrawalBodySchema } from './count-shapes.js';
import { readBody } from './read-body.js';
import type { Because } from './shapes.js';
import type { StandingPair } from './standing.js';
import type { WorkedRound } from './work-out-round.js';

/** A bag in words. */
export function tellBag({ machine, bag, visitedAt }: Pick<CountRow, 'machine' | 'bag' | 'visitedAt'>): string {
  return bag === null ? `the bag of machine ${machine} of ${visitedAt.date}` : `bag ${bag} of machine ${machine}`;
}

/** An entry in words: the file it took in, the bag it counted, corrected or took out. */
async function tellEntry(store: BookStore, seq: number): Promise<string> {
  const entry = await store.entry(seq);
  switch (entry?.kind) {
    case 'capture-taken':
    case 'set-aside':
      return `capture ${readFileEntry(entry).name}`;
    case 'count-entered':
      return `count of ${tellBag(readBody(countBodySchema, entry))}`;
    case 'count-corrected': {
      const { now, reason } = readBody(correctionBodySchema, entry);
      return `correction of ${tellBag(now)}: ${reason}`;
    }
    case 'count-withdrawn': {
      const { was, reason } = readBody(withdrawalBodySchema, entry);
      return `${was === null ? 'a row' : tellBag(was)} taken out: ${reason}`;
    }
    case 'count-unusable': {
      const { place } = readBody(unusableBodySchema, entry);
      return `row ${place.row} of ${place.file}, which could not be used`;
    }
    case 'told': {
      const [first, ...more] = readBody(toldBodySchema, entry).captures.map(({ file }) => file);
      const rest = more.length === 0 ? '' : ` and ${plural(more.length, 'other capture')}`;
      return first === undefined ? 'what the office told' : `what a list told of capture ${first}${rest}`;
    }
    default:
      return `entry ${seq}`;
  }
}

/** A row that is only planned, in words. */
async function tellPlanned(store: BookStore, seq: number): Promise<string> {
  const entry = (await store.entry(seq))!;
  if (entry.kind !== 'count-entered') return `${await tellEntry(store, seq)}, not in the book yet`;
  const { place, ...row } = readBody(countBodySchema, entry);
  return `${tellBag(row)} (${place.file}, row ${place.row}), not in the book yet`;
}

/** How entries are told. */
export interface TellingEntries {
  /** Size of the book when the visits stood as they did. */
  readonly baseline: number;
  /** The first entry that is only planned, and will not be recorded now: it is told by its row. */
  readonly plannedFrom: number;
}

/**
 * Why visits changed: the entries that they rest on and did not before, and those that corrected or took out what they
 * rested on. Where there is none, whatever came of their machines since, for a read can move others without being counted from.
 *
 * @param changed - visits that changed
 */
export async function listBecause(
  store: BookStore,
  changed: readonly StandingPair[],
  round: WorkedRound,
  { baseline, plannedFrom }: TellingEntries,
): Promise<Because[]> {
  const because = new Map<number, Because>();
  for (const { before, after } of changed) {
    const known = new Set([...(before?.captures ?? []), ...(before?.counts ?? [])]);
    const news = [...(after?.captures ?? []), ...(after?.counts ?? [])].filter((entry) => !known.has(entry));
    const files = [...(before?.captures ?? []), ...(after?.captures ?? [])];
    const told = await listTold(store, files, baseline);
    const fresh = new Set([...news, ...told, ...(await listReplacing(store, before?.counts ?? []))]);
    if (fresh.size === 0) {
      for (const entry of await listSince(store, round, (after ?? before)!.machine, baseline)) fresh.add(entry);
    }
    for (const entry of fresh) {
      if (known.has(entry) || because.has(entry)) continue;
      const isPlanned = entry >= plannedFrom;
      const what = isPlanned ? await tellPlanned(store, entry) : await tellEntry(store, entry);
      because.set(entry, { entry: isPlanned ? null : entry, what: printable(what, 300) });
    }
  }
  return [...because].sort(([a], [b]) => a - b).map(([, each]) => each);
}

/** The entries by which counts were corrected or taken out. */
async function listReplacing(store: BookStore, counts: readonly number[]): Promise<number[]> {
  const found: number[] = [];
  for (const refersTo of counts) {
    for await (const { seq } of store.entries({ refersTo, kinds: ['count-corrected', 'count-withdrawn'] }))
      found.push(seq);
  }
  return found;
}

/** The entries by which something else was told of files since. */
async function listTold(store: BookStore, files: readonly number[], baseline: number): Promise<number[]> {
  const found: number[] = [];
  for await (const entry of store.entries({ kinds: ['told'], from: baseline })) {
    const { captures } = readBody(toldBodySchema, entry);
    if (captures.some((row) => files.includes(row.entry))) found.push(entry.seq);
  }
  return found;
}

async function listSince(
  store: BookStore,
  { reads }: WorkedRound,
  machine: string,
  baseline: number,
): Promise<ReadonlySet<number>> {
  const found = new Set((reads.get(machine) ?? []).map(({ entry }) => entry).filter((entry) => entry >= baseline));
  const own = [...(reads.get(machine) ?? [])].map(({ entry }) => entry);
  for (const entry of await listTold(store, own, baseline)) found.add(entry);
  const counts = { subject: subjectOfCount(machine)!, kinds: COUNT_KINDS, from: baseline };
  for await (const { seq } of store.entries(counts)) found.add(seq);
  return found;
}
