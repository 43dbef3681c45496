import { keyOfName, keyOfNumbers, type LocalDateTime, type MachineNumbers, rosterNameIn } from '../../model/index.js';
import { type NumberedMachine, NumberOwners } from '../../sheets/index.js';
import { BookError, type BookStore, type Entry, type KnownOfRead } from '../store/index.js';
import { foldTold } from './told-of-file.js';
import {
  fromToldRow,
  type LateRow,
  type NumberedRow,
  type ToldBody,
  type ToldFacts,
  toldBodySchema,
} from './told-shapes.js';

/** A file of the book, as far as what its reads are matched by rests on it. */
export interface ToldFile extends ToldFacts {
  readonly entry: number;
  /** How many reads it holds. */
  readonly reads: number;
  readonly fileTime: LocalDateTime | null;
}

/** What a read is matched by: with whose counts, at what time, as which visit. */
export type Matching = Pick<KnownOfRead, 'machine' | 'receivedAt' | 'reason' | 'bag'>;

/** A roster as a run had it. */
interface RosterState {
  /** Machines by which reads were told apart: those given, else those that the book knew. */
  readonly owners: NumberOwners<NumberedMachine>;
  readonly names: ReadonlySet<string>;
  /** Which reads it gave to its machines: all that have a number of one, those of machines on no roster, or none. */
  readonly claims: 'all' | 'unknown' | 'none';
  /** All machines that the book knew from then on. */
  readonly known: readonly NumberedMachine[];
}

interface ToldEvent {
  readonly seq: number;
  readonly body: ToldBody;
  /** The roster in it; null where what the book knew held. */
  readonly given: readonly NumberedRow[] | null;
}

/**
 * All that was told in a book: the entries of the kind `told`, in order. What a read is matched by follows from these, its own
 * entry, and what it says of itself.
 */
export class ToldHistory {
  /** How many entries the book had when it was looked at. */
  readonly size: number;
  readonly #events: readonly ToldEvent[];
  readonly #rosters: RosterState[] = [];
  readonly #rowsOf = new Map<number, (LateRow & { readonly seq: number })[]>();

  private constructor(size: number, entries: readonly Entry[]) {
    this.size = size;
    const bodies = new Map(entries.map((entry) => [entry.seq, readToldBody(entry)]));
    this.#events = [...bodies].map(([seq, body]) => ({ seq, body, given: findGiven(body, bodies) }));
    for (const { seq, body } of this.#events) {
      for (const row of body.captures) {
        const own = this.#rowsOf.get(row.entry);
        if (own === undefined) this.#rowsOf.set(row.entry, [{ ...row, seq }]);
        else own.push({ ...row, seq });
      }
    }
  }

  /** @throws BookError (as a rejection) `corrupted` when an entry does not say what it must */
  static async load(store: BookStore): Promise<ToldHistory> {
    const { size } = await store.head();
    const entries: Entry[] = [];
    for await (const entry of store.entries({ kinds: ['told'], to: size })) entries.push(entry);
    return new ToldHistory(size, entries);
  }

  /** What was told last; null where nothing ever was. */
  get last(): { readonly seq: number; readonly body: ToldBody; readonly given: readonly NumberedRow[] | null } | null {
    return this.#events.at(-1) ?? null;
  }

  /** The entry in which the same roster was given before; null when it was in none. */
  findRoster(given: readonly NumberedRow[]): number | null {
    const text = JSON.stringify(given);
    return this.#events.find(({ body: { roster } }) => JSON.stringify(roster) === text)?.seq ?? null;
  }

  /**
   * Names of the machines by which reads are told apart now.
   *
   * @param knownBefore - machines that the book knows, of which no entry tells yet
   */
  names(knownBefore: readonly NumberedMachine[]): ReadonlySet<string> {
    if (this.#events.length === 0) return new Set(knownBefore.map(({ machine }) => machine));
    return this.#roster(this.#events.length - 1).names;
  }

  /** What was told of a file after it came, in order. */
  rowsOf(entry: number): readonly LateRow[] {
    return this.#rowsOf.get(entry) ?? [];
  }

  /**
   * What a read is matched by; null where its file's entry does not say what held when it came, as those of books that an
   * earlier version began.
   */
  match(file: ToldFile, read: MachineNumbers & { readonly number: number }): Matching | null {
    if (file.by === undefined) return null;
    const isLast = read.number === file.reads - 1;
    const first = fromToldRow(file.told ?? {});
    const rows = this.#rowsOf.get(file.entry) ?? [];
    const told = foldTold(first, rows, isLast);
    const saidAt = told.receivedAt ?? (this.isFileTimeReceived(file) ? file.fileTime : null);
    const { reason, bag } = told;
    return { machine: this.#machineOf(file, read, rows), receivedAt: isLast ? saidAt : null, reason, bag };
  }

  /** Whether a file's own time counts: once it is said that files' times are when they were received, it is said
   * of all that is there. */
  isFileTimeReceived({ by, entry }: ToldFile): boolean {
    return this.#events.some(({ seq, body }) => (seq === by || seq > entry) && body.isFileTimeReceived);
  }

  #machineOf(
    file: ToldFile,
    read: MachineNumbers & { readonly number: number },
    rows: readonly LateRow[],
  ): string | null {
    const place = file.by === null ? -1 : this.#events.findIndex(({ seq }) => seq === file.by);
    let roster = place < 0 ? NO_ROSTER : this.#roster(place);
    const saidKey = (name: string | undefined): string | null =>
      name !== undefined && roster.names.has(name) ? keyOfName(name) : null;
    const owned = roster.owners.find(read);
    let machine =
      owned === null ? (saidKey(file.told?.machine) ?? keyOfNumbers(read)) : keyOfName(owned.machine.machine);
    for (const [index, { seq, body }] of this.#events.entries()) {
      if (seq <= file.entry) continue;
      roster = this.#roster(index);
      const { owners, claims } = roster;
      const isClaimed =
        claims === 'all' || (claims === 'unknown' && machine !== null && rosterNameIn(machine) === null);
      const owner = isClaimed ? owners.find(read) : null;
      if (owner !== null) machine = keyOfName(owner.machine.machine);
      if (body.captures.length === 0) continue;
      for (const row of rows.filter((each) => (each as { readonly seq?: number }).seq === seq)) {
        machine = sayMachine(row, machine, saidKey(row.machine), read.number === file.reads - 1);
      }
    }
    return machine;
  }

  /** Rosters build on one another: what one lacks is as the one before left it. */
  #roster(place: number): RosterState {
    for (let i = this.#rosters.length; i <= place; i++) {
      const { body, given } = this.#events[i]!;
      const before = this.#rosters[i - 1]?.known ?? (body.knownBefore ?? []).map(toMachine);
      const isAsBefore = i > 0 && given !== null && given === this.#events[i - 1]!.given;
      this.#rosters.push(isAsBefore ? { ...this.#rosters[i - 1]!, claims: 'unknown' } : makeRoster(given, before));
    }
    return this.#rosters[place]!;
  }
}

/**
 * The machine of a read of which a list that came later says one: a number that the roster has is stronger, and so is what
 * was known before it was told of a copy.
 */
export function sayMachine(row: LateRow, machine: string | null, said: string | null, isLast: boolean): string | null {
  if (said === null) return machine;
  if (row.isCopy === true) return isLast ? (machine ?? said) : machine;
  return machine === null || rosterNameIn(machine) === null ? said : machine;
}

const toMachine = ([machine, asset, serial]: NumberedRow): NumberedMachine => ({ machine, asset, serial });

const NO_ROSTER: RosterState = {
  owners: new NumberOwners<NumberedMachine>([]),
  names: new Set(),
  claims: 'none',
  known: [],
};

function makeRoster(given: readonly NumberedRow[] | null, before: readonly NumberedMachine[]): RosterState {
  const machines = given === null ? before : given.map(toMachine);
  const owners = new NumberOwners(machines);
  const names = new Set(machines.map(({ machine }) => machine));
  if (given === null) return { owners, names, claims: 'none', known: before };
  const claims = owners.areAsIn(new NumberOwners(before)) ? 'unknown' : 'all';
  return { owners, names, claims, known: joinKnown(machines, before, owners) };
}

/** The machines that a book knows once a roster was given: its own, and the others without the numbers that are another's now. */
function joinKnown(
  given: readonly NumberedMachine[],
  before: readonly NumberedMachine[],
  owners: NumberOwners<NumberedMachine>,
): NumberedMachine[] {
  const names = new Set(given.map(({ machine }) => machine));
  const others = before.filter(({ machine }) => !names.has(machine)).map((row) => withoutClaimed(row, owners));
  return [...given, ...others].sort((a, b) => Buffer.compare(Buffer.from(a.machine), Buffer.from(b.machine)));
}

/** A machine without the numbers that are another's now. */
export function withoutClaimed<Row extends NumberedMachine>(row: Row, owners: NumberOwners<NumberedMachine>): Row {
  const free = (kind: 'asset' | 'serial'): string | null => (owners.has(kind, row[kind]) ? null : row[kind]);
  return { ...row, asset: free('asset'), serial: free('serial') };
}

function findGiven({ roster }: ToldBody, bodies: ReadonlyMap<number, ToldBody>): readonly NumberedRow[] | null {
  const found = typeof roster === 'number' ? bodies.get(roster)?.roster : roster;
  return Array.isArray(found) ? found : null;
}

function readToldBody({ seq, body }: Entry): ToldBody {
  const read = toldBodySchema.safeParse(JSON.parse(body));
  if (read.success) return read.data;
  throw new BookError('corrupted', `Entry ${seq} does not say what a told must say. Verify the book.`);
}
