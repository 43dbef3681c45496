import type { ToldOfFile } from '../../checks/index.js';
import { type CaptureListRow, keyOfName, type LocalDate, pushAll } from '../../model/index.js';
import { baseName, type Roster } from '../../sheets/index.js';
import { unpackFacts } from '../kept/index.js';
import { type KnownFile, readFileEntry } from '../recall/index.js';
import type { BookRead, BookStore, WorkedOutRead } from '../store/index.js';
import {
  foldTold,
  fromToldRow,
  type LateRow,
  makeToldEntry,
  recordTold,
  sayMachine,
  ToldHistory,
  toToldRow,
} from '../told/index.js';
import { recallOffice } from './known-roster.js';
import { isMatchedSo, retellRead } from './retell-read.js';
import type { Telling } from './tell-office.js';

/**
 * Record what a captures list tells otherwise of files that are in the book, and change their reads in the same act: what rests
 * on them is stale then, as after a late capture. Where it tells nothing new, nothing is recorded.
 *
 * @returns the entry (`told`); null where there is none
 * @throws BookError (as a rejection) `busy` when the book keeps being added to
 */
export async function tellList(
  store: BookStore,
  roster: Roster,
  { day, recordedAt, sheets }: Omit<Telling, 'isFileTimeReceived'>,
): Promise<number | null> {
  const { capturesList } = roster.books;
  if (capturesList.length === 0) return null;
  return recordTold(store, async () => {
    const { history, knownBefore, late, reads } = await findNews(store, capturesList);
    if (late.length === 0) return null;
    const now = { day, recordedAt: recordedAt(), sheets, captures: late, knownBefore };
    return { entry: makeToldEntry(history, now), reads };
  });
}

/** Whether a captures list tells otherwise of files that are in the book: nothing is recorded. */
export async function tellsNews(store: BookStore, { books: { capturesList } }: Roster): Promise<boolean> {
  return capturesList.length > 0 && (await findNews(store, capturesList)).late.length > 0;
}

/** What a list tells otherwise of files that are in the book, and their reads as they are by that. */
async function findNews(store: BookStore, capturesList: readonly CaptureListRow[]) {
  const history = await ToldHistory.load(store);
  const { machines: knownBefore } = await recallOffice(store);
  const late: LateRow[] = [];
  const reads: WorkedOutRead[] = [];
  for (const { row, file } of await findFiles(store, capturesList)) {
    if (isToldAlready(row, file, history)) continue;
    const found = await retellFile(store, { row, file }, history, (name) => history.names(knownBefore).has(name));
    if (found === null) continue;
    late.push(found.late);
    pushAll(reads, found.reads);
  }
  return { history, knownBefore, late, reads };
}

interface ListedFile {
  readonly row: CaptureListRow;
  readonly file: KnownFile;
}

/**
 * The files that rows of a list tell of: the latest of that name. One that was taken in before the day on which the list says
 * that it was received is another one, since readers give every day's file the same name.
 */
async function findFiles(store: BookStore, list: readonly CaptureListRow[]): Promise<ListedFile[]> {
  const rows = new Map<string, CaptureListRow>();
  for (const row of list) if (!rows.has(baseName(row.file))) rows.set(baseName(row.file), row);
  const dated = [...rows.values()].filter(({ receivedAt }) => receivedAt !== null);
  const from = dated.map(({ receivedAt }) => receivedAt!.slice(0, 10)).sort()[0];
  const found = new Map<string, ListedFile>();
  const look = async (dayFrom: LocalDate | undefined): Promise<void> => {
    const days = dayFrom === undefined ? {} : { dayFrom };
    for await (const entry of store.entries({ kinds: ['capture-taken'], ...days })) {
      const file = readFileEntry(entry);
      const row = rows.get(baseName(file.name));
      const isEarlier = row?.receivedAt != null && file.day !== null && row.receivedAt.slice(0, 10) > file.day;
      if (row !== undefined && !isEarlier) found.set(baseName(file.name), { row, file });
    }
  };
  if (from !== undefined) await look(from);
  const isMissing = [...rows].some(([name, { receivedAt }]) => receivedAt === null && !found.has(name));
  if (isMissing) await look(undefined);
  return [...found.values()];
}

/** Whether a row says what the file's own entry has, and no entry since says otherwise. */
function isToldAlready(row: CaptureListRow, { entry, told }: KnownFile, history: ToldHistory): boolean {
  const last = history.rowsOf(entry).findLast(({ isCopy }) => isCopy !== true) ?? told;
  return last !== undefined && JSON.stringify(toToldRow(fromToldRow(last))) === JSON.stringify(toToldRow(row));
}

/** What a row tells of a file, and its reads as they are by it; null where that is what they are. */
async function retellFile(
  store: BookStore,
  { row, file }: ListedFile,
  history: ToldHistory,
  isKnown: (machine: string) => boolean,
): Promise<{ readonly late: LateRow; readonly reads: WorkedOutRead[] } | null> {
  const rows: BookRead[] = [];
  for await (const read of store.reads({ entryFrom: file.entry, entryTo: file.entry + 1 })) rows.push(read);
  const times = rows.map(({ at }) => at).filter((at) => at !== null);
  const before = times.sort()[0];
  const named = { entry: file.entry, file: file.name, ...(before === undefined ? {} : { before }) };
  const late: LateRow = { ...named, ...toToldRow(row) };
  const said = row.machine !== null && isKnown(row.machine) ? keyOfName(row.machine) : null;
  const reads = rows.flatMap((read) => {
    const isLast = read.number === file.reads - 1;
    const first = file.by === undefined ? toldOfRead(read) : fromToldRow(file.told ?? {});
    const told = foldTold(first, [...history.rowsOf(file.entry), late], isLast);
    const receivedAt = isLast ? (told.receivedAt ?? fileTimeOf(file, history)) : null;
    const { reason, bag } = told;
    const matching = { machine: sayMachine(late, read.machine, said, isLast), receivedAt, reason, bag };
    const isSame = isMatchedSo(read, matching) && isSameTelling(toldOfRead(read), told);
    return isSame ? [] : [retellRead(read, matching, told)];
  });
  return reads.length === 0 ? null : { late, reads };
}

function fileTimeOf(file: KnownFile, history: ToldHistory): string | null {
  return file.by === undefined ? null : history.isFileTimeReceived(file) ? file.fileTime : null;
}

/** What was told of a read as it is kept. */
function toldOfRead(read: BookRead): ToldOfFile {
  const { receivedAt, reason, bag } = read;
  const [signal, machine] = unpackFacts(read)?.told ?? [null, null];
  const filled = (read.facts as { readonly filled?: boolean } | null)?.filled ?? null;
  return { receivedAt, reason, bag, signal, machine, filled };
}

const isSameTelling = (a: ToldOfFile, b: ToldOfFile): boolean =>
  a.filled === b.filled && a.signal === b.signal && a.machine === b.machine;
