import { isEarlier, writeEarlierCopy } from '../recall/index.js';
import type { BookRead, BookStore, ReadToRecord, WorkedOutRead } from '../store/index.js';

/**
 * Note of a file whose bytes the book has that this copy of it was received earlier: then what is known of this copy is what is
 * known of its reads. Else nothing changes.
 */
export async function noteCopy(store: BookStore, entry: number, copies: Iterable<ReadToRecord>): Promise<void> {
  const byNumber = new Map([...copies].map((copy) => [copy.number, copy]));
  const changed: WorkedOutRead[] = [];
  for await (const known of store.reads({ entryFrom: entry, entryTo: entry + 1 })) {
    const copy = byNumber.get(known.number);
    if (copy !== undefined && isEarlier(copy.receivedAt, known.receivedAt)) changed.push(takeOver(known, copy));
  }
  if (changed.length > 0) await store.reassignReads(changed);
}

function takeOver(known: BookRead, copy: ReadToRecord): WorkedOutRead {
  const { entry, number, currency, decimals, verdict, duplicateOf, era, position } = known;
  const { reason, bag, facts } = copy;
  const receivedAt = copy.receivedAt!;
  const filled = (facts as { readonly filled?: boolean } | null)?.filled ?? null;
  return {
    ...{ entry, number, currency, decimals, verdict, duplicateOf, era, position },
    machine: known.machine ?? copy.machine,
    receivedAt,
    reason,
    bag,
    at: receivedAt,
    // What was kept of it rested on another time: it is worked out anew.
    rests: null,
    facts: writeEarlierCopy(known, { receivedAt, reason, bag, filled }),
  };
}

/** Copies of one file that wait together: the one received first goes first, so that the book has it from there. */
export function putEarliestFirst<Made extends { capture: { sha256: string }; reads: Iterable<ReadToRecord> }>(
  waiting: readonly Made[],
): Made[] {
  const sorted = [...waiting];
  const firstPlace = new Map<string, number>();
  for (const [place, made] of waiting.entries()) {
    const { sha256 } = made.capture;
    const first = firstPlace.get(sha256);
    if (first === undefined) firstPlace.set(sha256, place);
    else if (isEarlier(receivedAtOf(made), receivedAtOf(sorted[first]!))) {
      [sorted[first], sorted[place]] = [made, sorted[first]!];
    }
  }
  return sorted;
}

function receivedAtOf({ reads }: { readonly reads: Iterable<ReadToRecord> }): string | null {
  // Said of a file with several reads it is the time of the last.
  for (const { receivedAt } of reads) if (receivedAt !== null) return receivedAt;
  return null;
}
