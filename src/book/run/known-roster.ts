import * as z from 'zod';
import type { MachineRow } from '../../model/index.js';
import { Roster } from '../../sheets/index.js';
import { machineRowSchema } from '../machine-row-schema.js';
import type { BookMachine, BookRead, BookStore, WorkedOutRead } from '../store/index.js';

/** What is remembered of a machine: its row on the roster when it was last there. */
const factsSchema = z.object({ row: machineRowSchema });

/** The roster as the book remembers it: the last row of every machine that ever was on one. By machine. */
export async function recallRoster(store: BookStore): Promise<readonly MachineRow[]> {
  return rowsOf(await store.machines());
}

function rowsOf(known: readonly BookMachine[]): readonly MachineRow[] {
  const rows = known.map(({ facts }) => factsSchema.safeParse(facts).data?.row ?? null);
  return rows.filter((row) => row !== null) as readonly MachineRow[];
}

/** A roster and, after its own, the machines that the book remembers and it does not have. */
export function addRemembered(roster: Roster, remembered: readonly MachineRow[]): Roster {
  const others = remembered.filter(({ machine }) => roster.machine(machine) === null);
  return others.length === 0
    ? roster
    : new Roster({ ...roster.books, machines: [...roster.books.machines, ...others] });
}

/**
 * Make the roster of today known to the book: reads that it gives to another machine than before go there, and machines of
 * which it says other money or another profile are worked out anew. Reads of a machine that it no longer has stay where they
 * are: a roster may be of one route only. Where nothing has changed since, nothing is looked through.
 *
 * @returns how many reads went to another machine
 */
export async function meetRoster(store: BookStore, { books: { machines } }: Roster): Promise<number> {
  if (machines.length === 0) return 0;
  const known = await store.machines();
  const remembered = rowsOf(known);
  const before = new Map(remembered.map((row) => [row.machine, row]));
  const owners = new Owners(machines);
  const isMoved = !owners.areAsIn(new Owners(remembered));
  const moved = isMoved ? await moveReads(store, store.reads(), owners) : await claimUnknown(store, known, owners);
  for (const row of machines) {
    const then = before.get(row.machine);
    if (then !== undefined && COUNTED_BY.some((key) => then[key] !== row[key])) await markAll(store, keyOf(row));
  }
  const now = [...machines, ...remembered.filter(({ machine }) => !owners.hasName(machine)).map(owners.withoutClaimed)];
  const news = now.filter((row) => JSON.stringify(before.get(row.machine)) !== JSON.stringify(row));
  if (news.length > 0)
    await store.rememberMachines(news.map((row): BookMachine => ({ key: keyOf(row), facts: { row } })));
  return moved;
}

/** What all figures of a machine depend on. */
const COUNTED_BY = ['currency', 'decimals', 'profile'] as const;
const AT_ONCE = 5000;

const keyOf = ({ machine }: MachineRow): string => `machine ${machine}`;

/** Which machine the numbers of a read belong to. See `Roster.matchMachine`: the asset number, else the serial number. */
class Owners {
  readonly #names = new Set<string>();
  readonly #byAsset = new Map<string, string>();
  readonly #bySerial = new Map<string, string>();

  constructor(rows: readonly MachineRow[]) {
    for (const { machine, asset, serial } of rows) {
      this.#names.add(machine);
      if (asset !== null && !this.#byAsset.has(asset)) this.#byAsset.set(asset, machine);
      if (serial !== null && !this.#bySerial.has(serial)) this.#bySerial.set(serial, machine);
    }
  }

  hasName(machine: string): boolean {
    return this.#names.has(machine);
  }

  find({ asset, serial }: Pick<BookRead, 'asset' | 'serial'>): string | null {
    return this.#byAsset.get(asset ?? '') ?? this.#bySerial.get(serial ?? '') ?? null;
  }

  /** Whether every number has the owner here that it has there. */
  areAsIn(other: Owners): boolean {
    const isAsIn = (own: ReadonlyMap<string, string>, theirs: ReadonlyMap<string, string>): boolean =>
      [...own].every(([number, machine]) => theirs.get(number) === machine);
    return isAsIn(this.#byAsset, other.#byAsset) && isAsIn(this.#bySerial, other.#bySerial);
  }

  /** A machine without the numbers that are another's now. */
  readonly withoutClaimed = (row: MachineRow): MachineRow => ({
    ...row,
    asset: this.#byAsset.has(row.asset ?? '') ? null : row.asset,
    serial: this.#bySerial.has(row.serial ?? '') ? null : row.serial,
  });
}

/** What a machine calls itself, where the office did not know it. */
const UNKNOWN_KEY = /^(?:asset|serial|board) /;

/**
 * Reads that came while the roster lacked their machine, as when a sheet was not given or half of it could not be read: they
 * belong to a machine that was known before and is known again.
 */
async function claimUnknown(store: BookStore, known: readonly BookMachine[], owners: Owners): Promise<number> {
  let moved = 0;
  for (const { key } of known) {
    if (!UNKNOWN_KEY.test(key)) continue;
    const last = await lastReads(store, key);
    if (last.some((read) => owners.find(read) !== null))
      moved += await moveReads(store, store.reads({ machine: key }), owners);
  }
  return moved;
}

async function moveReads(store: BookStore, reads: AsyncIterable<BookRead>, owners: Owners): Promise<number> {
  let moved = 0;
  let waiting: WorkedOutRead[] = [];
  const flush = async (): Promise<void> => {
    if (waiting.length > 0) await store.reassignReads(waiting);
    waiting = [];
  };
  for await (const read of reads) {
    const owner = owners.find(read);
    if (owner === null || read.machine === `machine ${owner}`) continue;
    waiting.push({ ...read, machine: `machine ${owner}`, era: null, position: null });
    moved++;
    if (waiting.length >= AT_ONCE) await flush();
  }
  await flush();
  return moved;
}

/** Have a machine worked out anew, all of it. */
async function markAll(store: BookStore, machine: string): Promise<void> {
  const last = (await lastReads(store, machine)).at(-1);
  if (last !== undefined) await store.reassignReads([last]);
}

/** A machine's last read, and those without a time. */
function lastReads(store: BookStore, machine: string): Promise<readonly BookRead[]> {
  return store.readsOf(machine, { from: '9999-12-31T23:59:59', before: 1, isUndatedIn: true });
}
