import { type LocalDate, minutesBetween, parseMachineKey, pushAll, sheetNameOfKey } from '../../model/index.js';
import { VISIT_WINDOW_MINUTES } from '../../settlement/index.js';
import { countChanges, lastToldDay } from '../run/index.js';
import type { BookRead, BookStore, Entry } from '../store/index.js';
import { COUNT_KINDS, findHistory, loadCounts, subjectOfCount } from './book-counts.js';

/** The note of the size that the book had when its rounds were last gone through. */
const LOOKED = 'rounds looked at';
/** So many days with bags after a collection may count from it, or be settled together with it. */
const DAYS_AFTER = 2;

/** From when on the bags of a machine may come out otherwise. */
interface Change {
  readonly subject: string;
  readonly day: LocalDate;
}

/**
 * Count a change for each day of which tables were written and whose table of visits says something else now, since this was
 * last done: of which bags were recorded, corrected, moved to another day or taken out, or a closed round was adjusted, and on
 * which the next bags of such a machine were counted, or of one whose collection came late.
 */
export async function countChangedRounds(store: BookStore): Promise<void> {
  const { size } = await store.head();
  const looked = Number((await store.notes(LOOKED)).get(LOOKED) ?? 0);
  if (looked === size) return;
  const told = await lastToldDay(store);
  if (told !== null) await countChanges(store, await daysOfChanges(store, looked, told));
  // Afterwards: killed in between, they are counted once more, and a folder is made again that need not be.
  await store.writeNotes(new Map([[LOOKED, String(size)]]));
}

/** The days, up to the last of which tables were written, whose rounds may come out otherwise for what came since an entry. */
async function daysOfChanges(store: BookStore, since: number, told: LocalDate): Promise<ReadonlySet<LocalDate>> {
  const days = new Set<LocalDate>();
  const changes: Change[] = [];
  for await (const entry of store.entries({ from: since, kinds: [...COUNT_KINDS, 'adjustment'] })) {
    if (entry.day !== null) days.add(entry.day);
    pushAll(changes, await changesOfCount(store, entry));
  }
  for await (const read of store.reads({ entryFrom: since })) {
    if (read.at !== null && read.at.slice(0, 10) <= told) pushAll(changes, await changesOfRead(store, read));
  }
  for (const change of changes) for (const day of await nextDays(store, change)) days.add(day);
  // A collection is on the sheet of its day, with a bag or without.
  for (const day of new Set(changes.map((change) => change.day))) if (await hasBags(store, day)) days.add(day);
  return days;
}

/** What a bag was before it was corrected or taken out, and what it is now. */
async function changesOfCount(store: BookStore, { seq, kind, subject, day }: Entry): Promise<Change[]> {
  if (kind === 'count-entered') return subject === null || day === null ? [] : [{ subject, day }];
  if (kind !== 'count-corrected' && kind !== 'count-withdrawn') return [];
  const { versions } = (await findHistory(store, seq))!;
  return versions.map(({ machine, visitedAt: { date } }) => ({ subject: subjectOfCount(machine)!, day: date }));
}

/** A capture that may be that of a bag: a service read, one that names a bag, or one near a bag that was counted already. */
async function changesOfRead(store: BookStore, read: BookRead): Promise<Change[]> {
  const { machine, at, reason, bag } = read;
  if (machine === null || at === null || reason === 'scheduled') return [];
  const day = at.slice(0, 10);
  const { kind } = parseMachineKey(machine);
  const subject = kind === 'machine' ? machine : subjectOfCount(sheetNameOfKey(machine))!;
  if (reason !== 'service' && bag === null && !(await isNearBag(store, sheetNameOfKey(machine), at))) return [];
  return [{ subject, day }];
}

async function isNearBag(store: BookStore, machine: string, at: string): Promise<boolean> {
  const day = at.slice(0, 10);
  const bags = await loadCounts(store, { machine, dayFrom: day, dayTo: day });
  return bags.some(({ body: { visitedAt } }) => {
    if (visitedAt.time === null) return true;
    return Math.abs(minutesBetween(`${visitedAt.date}T${visitedAt.time}`, at)) <= VISIT_WINDOW_MINUTES;
  });
}

async function hasBags(store: BookStore, day: LocalDate): Promise<boolean> {
  for await (const _ of store.entries({ dayFrom: day, dayTo: day, kinds: COUNT_KINDS })) return true;
  return false;
}

/** The first days from a change on of which bags of its machine are in the book, its own day among them. */
async function nextDays(store: BookStore, { subject, day }: Change): Promise<ReadonlySet<LocalDate>> {
  const days = new Set<LocalDate>();
  for await (const entry of store.entries({ subject, dayFrom: day, kinds: COUNT_KINDS })) days.add(entry.day!);
  return new Set([...days].sort().slice(0, (days.has(day) ? 1 : 0) + DAYS_AFTER));
}
