import * as z from 'zod';
import { keyOfName, type MachineKey, type MachineRow, rosterNameIn } from '../../model/index.js';
import { NumberOwners, Roster } from '../../sheets/index.js';
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
  const owners = new NumberOwners(machines);
  const names = new Set(machines.map(({ machine }) => machine));
  const isMoved = !owners.areAsIn(new NumberOwners(remembered));
  const moved = isMoved ? await moveReads(store, store.reads(), owners) : await claimUnknown(store, known, owners);
  for (const row of machines) {
    const then = before.get(row.machine);
    if (then !== undefined && COUNTED_BY.some((key) => then[key] !== row[key])) await markAll(store, keyOf(row));
  }
  const others = remembered.filter(({ machine }) => !names.has(machine));
  const now = [...machines, ...others.map((row) => withoutClaimed(row, owners))];
  const news = now.filter((row) => JSON.stringify(before.get(row.machine)) !== JSON.stringify(row));
  if (news.length > 0)
    await store.rememberMachines(news.map((row): BookMachine => ({ key: keyOf(row), facts: { row } })));
  return moved;
}

/** What all figures of a machine depend on. */
const COUNTED_BY = ['currency', 'decimals', 'profile'] as const;
const AT_ONCE = 5000;

const keyOf = ({ machine }: MachineRow): MachineKey => keyOfName(machine);

/** A machine without the numbers that are another's now. */
function withoutClaimed(row: MachineRow, owners: NumberOwners): MachineRow {
  const free = (kind: 'asset' | 'serial'): string | null => (owners.has(kind, row[kind]) ? null : row[kind]);
  return { ...row, asset: free('asset'), serial: free('serial') };
}

/**
 * Reads that came while the roster lacked their machine, as when a sheet was not given or half of it could not be read: they
 * belong to a machine that was known before and is known again.
 */
async function claimUnknown(store: BookStore, known: readonly BookMachine[], owners: NumberOwners): Promise<number> {
  let moved = 0;
  for (const { key } of known) {
    if (rosterNameIn(key) !== null) continue;
    const last = await lastReads(store, key);
    if (last.some((read) => owners.find(read) !== null))
      moved += await moveReads(store, store.reads({ machine: key }), owners);
  }
  return moved;
}

async function moveReads(store: BookStore, reads: AsyncIterable<BookRead>, owners: NumberOwners): Promise<number> {
  let moved = 0;
  let waiting: WorkedOutRead[] = [];
  const flush = async (): Promise<void> => {
    if (waiting.length > 0) await store.reassignReads(waiting);
    waiting = [];
  };
  for await (const read of reads) {
    const owner = owners.find(read);
    const machine = owner === null ? null : keyOf(owner.machine);
    if (machine === null || read.machine === machine) continue;
    waiting.push({ ...read, machine, era: null, position: null });
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
