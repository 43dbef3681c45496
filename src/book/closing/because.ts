import { printable } from '../../findings/index.js';
import { readFileEntry } from '../recall/index.js';
import type { BookStore } from '../store/index.js';
import type { UsedCount } from './merge-counts.js';
import { readBody } from './read-body.js';
import { type Because, correctionBodySchema, countBodySchema } from './shapes.js';
import type { StandingPair } from './standing.js';
import type { VisitSources, WorkedRound } from './work-out-round.js';

/** A bag in words. */
export function tellBag({ row }: Pick<UsedCount, 'row'>): string {
  const { machine, bag, visitedAt } = row;
  return bag === null ? `the bag of machine ${machine} of ${visitedAt.date}` : `bag ${bag} of machine ${machine}`;
}

/** An entry in words: the file it took in, the bag it counted or corrected. */
async function tellEntry(store: BookStore, seq: number): Promise<string> {
  const entry = await store.entry(seq);
  if (entry === null) return `entry ${seq}`;
  switch (entry.kind) {
    case 'capture-taken':
    case 'set-aside':
      return `capture ${readFileEntry(entry).name}`;
    case 'count-entered':
      return `count of ${tellBag({ row: rowOf(readBody(countBodySchema, entry)) })}`;
    case 'count-corrected': {
      const { now, reason } = readBody(correctionBodySchema, entry);
      return `correction of ${tellBag({ row: rowOf(now) })}: ${reason}`;
    }
    default:
      return `entry ${seq}`;
  }
}

const rowOf = (body: { machine: string; bag: string | null; visitedAt: { date: string; time: string | null } }) =>
  body as unknown as UsedCount['row'];

/** A bag that a visit is settled with, and its entry: also one that is about to be recorded, or in no book. */
export type EntryOfCount = (count: UsedCount) => number | null;

/**
 * Why visits changed: the entries that they rest on and did not before. Where there is none, whatever came of their machines
 * since, for a read can move others without being counted from.
 *
 * @param baseline - size of the book when the visits stood as they did
 */
export async function listBecause(
  store: BookStore,
  changed: readonly (StandingPair & { readonly sources: VisitSources | null })[],
  round: WorkedRound,
  { baseline, entryOf }: { readonly baseline: number; readonly entryOf: EntryOfCount },
): Promise<Because[]> {
  const because = new Map<string, Because>();
  const counts = new Map<number, UsedCount>();
  const add = async (entry: number): Promise<void> => {
    const count = counts.get(entry);
    const isPlanned = count !== undefined && (count.inBook === null || count.isCorrected);
    const what = isPlanned ? tellPlanned(count) : await tellEntry(store, entry);
    because.set(`entry ${entry}`, { entry, what: printable(what, 300) });
  };
  for (const { before, after, sources } of changed) {
    const known = new Set([...(before?.captures ?? []), ...(before?.counts ?? [])]);
    const fresh = new Set<number>();
    for (const count of sources?.counts ?? []) {
      const entry = entryOf(count);
      if (entry === null) because.set(count.key, { entry, what: printable(tellRow(count), 300) });
      else {
        counts.set(entry, count);
        if (!known.has(entry)) fresh.add(entry);
      }
    }
    for (const entry of sources?.captures ?? []) if (!known.has(entry)) fresh.add(entry);
    if (fresh.size === 0) for (const entry of listSince(round, (after ?? before)!.machine, baseline)) fresh.add(entry);
    for (const entry of [...fresh].sort((a, b) => a - b)) if (!known.has(entry)) await add(entry);
  }
  return [...because.values()];
}

const tellPlanned = (count: UsedCount): string => `${count.isCorrected ? 'correction' : 'count'} of ${tellBag(count)}`;

const tellRow = (count: UsedCount): string =>
  `${tellBag(count)} (${count.row.place.file}, row ${count.row.place.row}), not in the book yet`;

function listSince({ reads, counts }: WorkedRound, machine: string, baseline: number): number[] {
  const entries = (reads.get(machine) ?? []).map(({ entry }) => entry);
  const bags = counts.filter(({ row }) => row.machine === machine).map(({ inBook }) => inBook?.entry ?? -1);
  return [...new Set([...entries, ...bags])].filter((entry) => entry >= baseline);
}
