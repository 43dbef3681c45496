import { createHash } from 'node:crypto';
import { type BookRequest, type ClosingWork, closeRounds, settleBook } from '../../../src/book/closing/index.js';
import type { BookStore, Entry, EntryKind, ReadToRecord } from '../../../src/book/store/index.js';
import { takeRead } from '../../../src/captures/index.js';
import { contentKey } from '../../../src/interval/index.js';
import { bestTime, type CaptureListRow, type CountRow, type MachineRow, machineKey } from '../../../src/model/index.js';
import { readCaptures } from '../../../src/read/index.js';
import { decimalsFromRoster, Roster } from '../../../src/sheets/index.js';
import { M1, makeCount, type Shown, writeCapture } from '../../settlement/scenario.js';
import { gather, sha256Of } from '../store/temporary-book.js';

export const DAY = '2026-11-24';
export const KIM = { by: 'Kim', recordedAt: '2026-11-25T06:00:00.000Z', reason: null } as const;

/** The roster of these tests, with what a captures list says. */
export const rosterOf = (
  machines: readonly MachineRow[] = [M1],
  capturesList: readonly CaptureListRow[] = [],
): Roster => new Roster({ machines, capturesList });

/** Take a file into a book as an intake does: the office knew then what `shown` and the roster say. */
export async function takeIn(
  store: BookStore,
  file: string,
  content: Shown | Uint8Array,
  { roster = rosterOf(), known = {} }: { roster?: Roster; known?: Partial<ReadToRecord> } = {},
): Promise<number> {
  const bytes = content instanceof Uint8Array ? content : writeCapture(content);
  const said: Partial<Shown> = content instanceof Uint8Array ? {} : content;
  const reads = readCaptures(bytes).reads.map((read): ReadToRecord => {
    const taken = takeRead(file, read, { roster });
    return {
      number: read.number,
      asset: read.machine.asset,
      serial: read.machine.serial,
      board: read.text('CB101'),
      clock: read.clock,
      content: createHash('sha256').update(contentKey(read), 'latin1').digest('hex'),
      machine: machineKey(taken),
      receivedAt: said.receivedAt ?? taken.receivedAt,
      reason: said.reason ?? taken.reason,
      bag: said.bag ?? taken.bag,
      currency: taken.currency,
      decimals: taken.decimals,
      verdict: taken.faults.length > 0 ? 'read-again' : 'sound',
      at: bestTime({ ...taken, receivedAt: said.receivedAt ?? taken.receivedAt }),
      rests: null,
      facts: null,
      ...known,
    };
  });
  const [outcome] = await store.recordCaptures([
    {
      kind: 'capture-taken',
      recordedAt: '2026-11-24T22:00:00.000Z',
      name: file,
      day: DAY,
      sha256: sha256Of(bytes),
      size: bytes.length,
      bytes,
      facts: {},
      reads,
      file: null,
    },
  ]);
  if (outcome?.state !== 'recorded') throw new RangeError(`it was ${outcome?.state}`);
  return outcome.entry;
}

/** A count sheet of these rows. */
export const sheetOf = (rows: readonly CountRow[], roster = rosterOf()): NonNullable<BookRequest['sheet']> => ({
  rows,
  findings: [],
  money: decimalsFromRoster(roster.books.machines, null),
});

/** The day asked for, with a sheet of these rows if any. */
export const ask = (rows: readonly CountRow[] | null = null, more: Partial<BookRequest> = {}): BookRequest => {
  const roster = more.roster ?? rosterOf();
  return { day: DAY, roster, sheet: rows === null ? null : sheetOf(rows, roster), ...more };
};

/** The bag of machine M1 on the day: what lay in it is 5.00 in coins and 10.00 in bills. */
export const BAG = makeCount('M1', `${DAY}T10:00`, { bag: 'B1', coins: 480, bills: 1000 });

/** The collection of the day before, and of the day. */
export const OPENING: Shown = { at: '2026-11-23T10:00', reason: 'service' };
export const VISIT: Shown = { at: `${DAY}T10:00`, reason: 'service', box: 500, bills: 1000, sold: 15 };

/** A book with the two collections. */
export async function fillPlain(store: BookStore): Promise<void> {
  await takeIn(store, 'monday.dex', OPENING);
  await takeIn(store, 'tuesday.dex', VISIT);
}

/** Close the day with these bags. */
export const close = (
  store: BookStore,
  rows: readonly CountRow[] | null = null,
  more: Partial<BookRequest> = {},
  work: ClosingWork = {},
) => closeRounds(store, ask(rows, more), KIM, work);

/** What recording came to where it came to nothing else; see `Recorded`. */
export const RECORDED = {
  counts: 0,
  unusable: 0,
  corrections: 0,
  withdrawals: 0,
  closed: 0,
  adjustments: 0,
  carried: 0,
  leftOpen: 0,
  first: 0,
  notClosed: [],
  refusals: [],
  findings: [],
  adjusted: [],
};

/** The one round of the day. */
export async function onlyRound(
  store: BookStore,
  rows: readonly CountRow[] | null = null,
  more: Partial<BookRequest> = {},
) {
  const { rounds } = await settleBook(store, ask(rows, more));
  if (rounds.length !== 1) throw new RangeError(`there are ${rounds.length} rounds`);
  return rounds[0]!;
}

/** The entries of a kind. */
export const entriesOf = (store: BookStore, ...kinds: EntryKind[]): Promise<Entry[]> =>
  gather(store.entries({ kinds }));
