import type { LocalDate } from '../../model/index.js';
import type { NumberedMachine, Roster } from '../../sheets/index.js';
import { readFileEntry } from '../recall/index.js';
import type { BookStore, WorkedOutRead } from '../store/index.js';
import { makeToldEntry, recordTold, ToldHistory, type ToldSheet, toNumbered } from '../told/index.js';
import { meetRoster, recallOffice } from './known-roster.js';
import { rematchRead } from './retell-read.js';

/** What is told by a run. */
export interface Telling {
  readonly day: LocalDate;
  /** The present instant in UTC. */
  readonly recordedAt: () => string;
  /** The sheets it was given, as far as reads are matched by them: the roster and the captures list. */
  readonly sheets: readonly ToldSheet[];
  readonly isFileTimeReceived: boolean;
}

/**
 * Meet a roster (see {@link meetRoster}) and record what holds for what comes in now, where that is new: one entry (`told`) with
 * the numbers of the machines, the sheets' hashes, and whether files' times count. Reads that are matched otherwise by it are
 * changed in the same act.
 *
 * @returns the entry that says what holds; null where nothing was ever told
 * @throws BookError (as a rejection) `busy` when the book keeps being added to
 */
export async function tellOffice(store: BookStore, roster: Roster, telling: Telling): Promise<number | null> {
  let by: number | null = null;
  // Machines that the book knew before entries told of any.
  const knownBefore = (await recallOffice(store)).machines;
  const { machines } = roster.books;
  await meetRoster(store, roster, async (listMoved) => {
    const recorded = await recordTold(store, async () => {
      const history = await ToldHistory.load(store);
      const moved = await listMoved();
      by = history.last?.seq ?? null;
      const given = machines.length > 0 ? machines : null;
      if (moved.length === 0 && !isNew(history, { ...telling, given, knownBefore })) return null;
      const { day, recordedAt, sheets, isFileTimeReceived } = telling;
      const now = { day, recordedAt: recordedAt(), sheets, given, isFileTimeReceived, knownBefore };
      const isTurnedOn = isFileTimeReceived && history.last?.body.isFileTimeReceived !== true;
      return { entry: makeToldEntry(history, now), reads: isTurnedOn ? await takeFileTimes(store, moved) : moved };
    });
    by = recorded ?? by;
  });
  return by;
}

function isNew(
  { last }: ToldHistory,
  now: Pick<Telling, 'sheets' | 'isFileTimeReceived'> & {
    readonly given: readonly NumberedMachine[] | null;
    readonly knownBefore: readonly NumberedMachine[];
  },
): boolean {
  const { sheets, given, isFileTimeReceived, knownBefore } = now;
  if (last === null) return sheets.length > 0 || given !== null || isFileTimeReceived || knownBefore.length > 0;
  if (isFileTimeReceived !== last.body.isFileTimeReceived) return true;
  if (JSON.stringify(given?.map(toNumbered) ?? null) !== JSON.stringify(last.given)) return true;
  return sheets.some(({ of, sha256 }) => !last.body.sheets.some((each) => each.of === of && each.sha256 === sha256));
}

/** From now on the times of files are when they were received: of those that are there, too. */
async function takeFileTimes(store: BookStore, moved: readonly WorkedOutRead[]): Promise<WorkedOutRead[]> {
  const changed = new Map(moved.map((read) => [`${read.entry}/${read.number}`, read]));
  for await (const entry of store.entries({ kinds: ['capture-taken'] })) {
    const { fileTime, reads } = readFileEntry(entry);
    if (fileTime === null) continue;
    for await (const row of store.reads({ entryFrom: entry.seq, entryTo: entry.seq + 1 })) {
      if (row.receivedAt !== null || row.number !== reads - 1) continue;
      const name = `${row.entry}/${row.number}`;
      const machine = changed.get(name)?.machine ?? row.machine;
      changed.set(name, rematchRead(row, { machine, receivedAt: fileTime, reason: row.reason, bag: row.bag }));
    }
  }
  return [...changed.values()];
}
