import type { LocalDateTime } from '../../model/index.js';
import type { BookRead, BookStore, ReadKey, StaleMachine } from '../store/index.js';
import { PLAIN_ERA } from './work-out-machine.js';

/** Reads of one machine to be looked at together. */
export interface ChosenReads {
  readonly reads: readonly BookRead[];
  /** Whether these are all it has. */
  readonly isWhole: boolean;
}

/** How many reads before a change are looked through for one that has its place. */
const FIRST_LOOK = 4;
const FURTHER = 4;
const FURTHEST = 1024;

/**
 * The reads around what changed at a machine, from one that has its place for certain to another, or to the last of all; all
 * of them where the change may be anywhere, or the order of the reads is a matter of all together. What came later than
 * what changed is not looked at, so that a capture that comes late costs the same in a long history as in a short one.
 */
export async function chooseWindow(store: BookStore, { machine, since }: StaleMachine): Promise<ChosenReads> {
  const whole = async (): Promise<ChosenReads> => ({ reads: await store.readsOf(machine), isWhole: true });
  const to = since === null ? null : await lastUnplaced(store, machine, since);
  let from = since;
  for (let before = FIRST_LOOK; from !== null && before <= FURTHEST; ) {
    const found = await store.readsOf(machine, { from, to: to!, before, after: 1, isUndatedIn: false });
    if (found.some(({ era }) => era !== null && era !== PLAIN_ERA)) break;
    const anchor = findAnchor(found, from);
    if (anchor < 0) {
      if (found.findIndex(({ at }) => at! >= from!) < before) break;
      before *= FURTHER;
      continue;
    }
    const reads = found.slice(anchor);
    const outside = findOutside(reads);
    if (outside === null) return { reads, isWhole: false };
    // A copy is looked at beside what it is a copy of.
    const at = await timeOf(store, outside);
    from = at !== null && at < from ? at : null;
  }
  return whole();
}

/** The time of the last read without a place, from a time on: those after it have theirs, and keep it. */
async function lastUnplaced(store: BookStore, machine: string, since: LocalDateTime): Promise<LocalDateTime> {
  let last = since;
  for await (const { at } of store.reads({ machine, atFrom: since, isPlaced: false })) if (at! > last) last = at!;
  return last;
}

/** The last read before a time that has its place. */
function findAnchor(reads: readonly BookRead[], from: LocalDateTime): number {
  return reads.findLastIndex(({ at, position }) => at! < from && position !== null);
}

/** A read that some of these are copies of, and that is not among them. */
function findOutside(reads: readonly BookRead[]): ReadKey | null {
  const inside = new Set(reads.map(nameOf));
  return reads.find(({ duplicateOf }) => duplicateOf !== null && !inside.has(nameOf(duplicateOf)))?.duplicateOf ?? null;
}

const nameOf = ({ entry, number }: ReadKey): string => `${entry}/${number}`;

async function timeOf(store: BookStore, { entry, number }: ReadKey): Promise<LocalDateTime | null> {
  for await (const read of store.reads({ entryFrom: entry, entryTo: entry + 1 })) {
    if (read.number === number) return read.at;
  }
  return null;
}
