import { type LocalDate, type LocalDateTime, rosterNameIn } from '../../model/index.js';
import { writeEarlierCopy } from '../recall/index.js';
import type { BookRead, BookStore, ReadToRecord, WorkedOutRead } from '../store/index.js';
import { isEarlier, type LateRow, makeToldEntry, recordTold, ToldHistory, toToldRow } from '../told/index.js';

/** How copies are told in entries. */
export interface TellingCopies {
  readonly day: LocalDate;
  readonly recordedAt: () => string;
}

/** A copy of a file, as it came. */
export interface Copy {
  readonly capture: { readonly name: string };
  readonly reads: Iterable<ReadToRecord>;
}

/**
 * Note of a file whose bytes the book has that this copy of it was received earlier: then what is known of this copy is what is
 * known of its reads. Else nothing changes.
 *
 * @param telling - null: no entry tells it
 */
export async function noteCopy(
  store: BookStore,
  entry: number,
  copy: Copy,
  telling: TellingCopies | null,
): Promise<void> {
  const byNumber = new Map([...copy.reads].map((read) => [read.number, read]));
  const findChanged = async (): Promise<Takeover[]> => {
    const changed: Takeover[] = [];
    for await (const known of store.reads({ entryFrom: entry, entryTo: entry + 1 })) {
      const read = byNumber.get(known.number);
      if (read !== undefined && isEarlier(read.receivedAt, known.receivedAt)) changed.push({ known, copy: read });
    }
    return changed;
  };
  if (telling === null) {
    const changed = await findChanged();
    if (changed.length > 0) await store.reassignReads(changed.map(takeOver));
    return;
  }
  await recordTold(store, async () => {
    const changed = await findChanged();
    if (changed.length === 0) return null;
    const captures = changed.map((each) => rowOf(entry, copy.capture.name, each));
    const history = await ToldHistory.load(store);
    const now = { day: telling.day, recordedAt: telling.recordedAt(), sheets: [], captures, knownBefore: [] };
    return { entry: makeToldEntry(history, now), reads: changed.map(takeOver) };
  });
}

interface Takeover {
  readonly known: BookRead;
  readonly copy: ReadToRecord;
}

/** What an entry says of it: a time received is known of the last read of a file alone, so that there is one. */
function rowOf(entry: number, file: string, { known, copy }: Takeover): LateRow {
  const { receivedAt, reason, bag } = copy;
  // Whose it is was known before, or is what the copy's list says.
  const machine = known.machine === null && copy.machine !== null ? rosterNameIn(copy.machine) : null;
  const rest = { machine, signal: null, filled: filledOf(copy) };
  const before = known.at === null ? {} : { before: known.at };
  return { entry, file, isCopy: true, ...before, ...toToldRow({ receivedAt, reason, bag, ...rest }) };
}

function takeOver({ known, copy }: Takeover): WorkedOutRead {
  const { entry, number, currency, decimals, verdict, duplicateOf, era, position } = known;
  const { reason, bag } = copy;
  const receivedAt = copy.receivedAt as LocalDateTime;
  return {
    ...{ entry, number, currency, decimals, verdict, duplicateOf, era, position },
    machine: known.machine ?? copy.machine,
    receivedAt,
    reason,
    bag,
    at: receivedAt,
    // What was kept of it rested on another time: it is worked out anew.
    rests: null,
    facts: writeEarlierCopy(known, { receivedAt, reason, bag, filled: filledOf(copy) }),
  };
}

const filledOf = ({ facts }: Pick<ReadToRecord, 'facts'>): boolean | null =>
  (facts as { readonly filled?: boolean } | null)?.filled ?? null;

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
