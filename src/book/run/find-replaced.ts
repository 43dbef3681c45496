import { listSteps, type PlacedRead, type Step } from '../../interval/index.js';
import type { LocalDate } from '../../model/index.js';
import type { Recall, RecalledHistories } from '../recall/index.js';
import type { BookRead, BookStore } from '../store/index.js';
import { comparePlaces } from './reads-of-day.js';
import { PLAIN_ERA } from './work-out-machine.js';

/** A machine on a day. */
export interface MachineOnDay {
  /** The key that the book has it under. */
  readonly key: string;
  readonly day: LocalDate;
  /** Entries of the day's files. */
  readonly entries: ReadonlySet<number>;
}

/**
 * For the steps that end with a capture of the day: the days whose tables, as they were before, told what they tell. A
 * capture that comes late ends a step that was part of a longer one, told in the table of the day on which the capture at the
 * end of that came; and what follows it is told there again, shorter.
 *
 * It is told from the order in which the captures came and the order in which their reads were taken alone, so that a day made
 * again says the same, whenever that is.
 *
 * @returns by the read at the step's end; most steps are not in it
 */
export async function findReplaced(
  store: BookStore,
  recall: Recall,
  { key, day, entries }: MachineOnDay,
  recalled: RecalledHistories,
): Promise<Map<PlacedRead, LocalDate[]>> {
  const replaced = new Map<PlacedRead, LocalDate[]>();
  const ends = listSteps(recalled).flatMap((step) => endsOf(step, recalled, entries));
  if (ends.length === 0 || !(await isSomethingLate(store, key, ends))) return replaced;
  const all = (await store.readsOf(key)).filter(isPlaced).sort(comparePlaces);
  const dayOf = async ({ entry }: BookRead): Promise<LocalDate | null> => (await recall.file(entry)).day;
  for (const { from, to, placed } of ends) {
    const [start, end] = [all.findIndex(isSame(from)), all.findIndex(isSame(to))];
    if (start < 0 || end < 0) continue;
    const days = new Set<LocalDate>();
    const told = await findLater(all.slice(end + 1), to, dayOf);
    if (told !== null && (await wasTold(all.slice(0, end), { late: to, end: told }, dayOf)))
      days.add((await dayOf(told))!);
    const isSplit = from.entry > to.entry && (await dayOf(from)) !== day;
    if (isSplit && (await wasTold(all.slice(0, start), { late: from, end: to }, dayOf))) days.add(day);
    if (days.size > 0) replaced.set(placed, [...days].sort());
  }
  return replaced;
}

type DayOf = (read: BookRead) => Promise<LocalDate | null>;

/** The nearest of later reads whose capture came before that of a read, and not on the same day. */
async function findLater(later: readonly BookRead[], read: BookRead, dayOf: DayOf): Promise<BookRead | null> {
  const day = await dayOf(read);
  for (const other of later) {
    if (other.entry >= read.entry) continue;
    const came = await dayOf(other);
    if (came !== null && came !== day) return other;
  }
  return null;
}

/** Whether a step to `end` was told before a read came that stands in it now: whether any of the reads before was there. */
async function wasTold(
  before: readonly BookRead[],
  { late, end }: { readonly late: BookRead; readonly end: BookRead },
  dayOf: DayOf,
): Promise<boolean> {
  const day = await dayOf(late);
  for (const read of before) {
    if (read.entry >= late.entry) continue;
    // What came with it on one day was told with it.
    if (read.entry < end.entry || (await dayOf(read)) !== day) return true;
  }
  return false;
}

/** The two reads of a step as the book has them. */
interface Ends {
  readonly from: BookRead;
  readonly to: BookRead;
  readonly placed: PlacedRead;
}

function endsOf(step: Step, { rowOf }: RecalledHistories, entries: ReadonlySet<number>): Ends[] {
  const [from, to] = [rowOf.get(step.from)!, rowOf.get(step.to)!];
  return entries.has(to.entry) ? [{ from, to, placed: step.to }] : [];
}

/** Whether any read came after one that was taken later, which is rare: only then all are looked at. */
async function isSomethingLate(store: BookStore, machine: string, ends: readonly Ends[]): Promise<boolean> {
  if (ends.some(({ from, to }) => from.entry > to.entry || to.era !== PLAIN_ERA)) return true;
  const [first] = ends.map(({ to }) => to.at!).sort();
  const newest = ends.reduce((entry, { to }) => Math.max(entry, to.entry), 0);
  const own = new Set(ends.map(({ to }) => to.entry));
  for await (const { entry } of store.reads({ machine, atFrom: first!, entryTo: newest, isDuplicate: false })) {
    if (!own.has(entry)) return true;
  }
  return false;
}

const isPlaced = ({ position, duplicateOf }: BookRead): boolean => position !== null && duplicateOf === null;
const isSame =
  (a: BookRead) =>
  (b: BookRead): boolean =>
    a.entry === b.entry && a.number === b.number;
