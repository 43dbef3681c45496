import { unpackFacts } from './kept/index.js';
import { readFileEntry } from './recall/index.js';
import type { BookRead, BookStore } from './store/index.js';
import {
  compareMatching,
  deriveMatching,
  type MatchedRead,
  type MatchingDifference,
  ToldHistory,
} from './told/index.js';

/** What came of deriving anew what reads are matched by. */
export interface MatchingVerification {
  /** Reads of which it was derived. */
  readonly reads: number;
  /** It cannot be derived for files in entries before this one, which an earlier version recorded; null where it can for all. */
  readonly before: number | null;
  readonly differences: readonly MatchingDifference[];
}

/** So many are named: who changed more than that changed the book. */
const MOST = 100;

/**
 * Derive anew whose each read is, when it was received, why it was taken, its bag, and the time by which it is looked up, from
 * the entries that say what was told, and hold it against what is kept. The entries are taken to be whole.
 *
 * @throws BookError (as a rejection) when the book cannot be read
 */
export async function verifyMatching(store: BookStore): Promise<MatchingVerification> {
  const differences: MatchingDifference[] = [];
  let [reads, before]: [number, number | null] = [0, null];
  for await (const { row, told } of deriveAll(store)) {
    if (told === null) {
      before = row.entry + 1;
      continue;
    }
    reads++;
    for (const difference of compareMatching(row, told)) {
      if (differences.length < MOST) differences.push(difference);
    }
  }
  return { reads, before, differences };
}

/**
 * Put reads back that are kept as matched by something else than entries say.
 *
 * @returns how many there were
 */
export async function putMatchingBack(store: BookStore): Promise<number> {
  let count = 0;
  const wrong: { readonly row: BookRead; readonly told: MatchedRead }[] = [];
  for await (const { row, told } of deriveAll(store)) {
    if (told !== null && compareMatching(row, told).length > 0) wrong.push({ row, told });
  }
  for (let from = 0; from < wrong.length; from += AT_ONCE) {
    const some = wrong.slice(from, from + AT_ONCE);
    await store.reassignReads(
      some.map(({ row, told }) => ({ ...row, ...told, era: null, position: null, rests: null })),
    );
    count += some.length;
  }
  return count;
}

const AT_ONCE = 1000;

/** Every read with what it is matched by as it follows from entries; null where they do not say. */
async function* deriveAll(
  store: BookStore,
): AsyncGenerator<{ readonly row: BookRead; readonly told: MatchedRead | null }> {
  const history = await ToldHistory.load(store);
  for await (const entry of store.entries({ kinds: ['capture-taken'], to: history.size })) {
    const file = readFileEntry(entry);
    for await (const row of store.reads({ entryFrom: entry.seq, entryTo: entry.seq + 1 })) {
      yield { row, told: deriveMatching(history, file, row, unpackFacts(row)?.appendedAt ?? null) };
    }
  }
}
