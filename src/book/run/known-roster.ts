import * as z from 'zod';
import { keyOfName, type MachineKey, type MachineRow, rosterNameIn } from '../../model/index.js';
import { profileSchema } from '../../profile/index.js';
import { NumberOwners, type OfficeBooks, Roster } from '../../sheets/index.js';
import { digestOffice, type OfficeOptions } from '../kept/index.js';
import { machineRowSchema, planRowSchema } from '../machine-row-schema.js';
import type { BookMachine, BookRead, BookStore, WorkedOutRead } from '../store/index.js';
import { withoutClaimed } from '../told/index.js';

/** What is remembered of a machine: its row on the roster when it was last there, and what its results rest on. */
const factsSchema = z.object({
  row: machineRowSchema.optional(),
  /** See `digestOffice`. */
  office: z.string().optional(),
});
type MachineFacts = z.infer<typeof factsSchema>;

const factsOf = ({ facts }: BookMachine): MachineFacts => factsSchema.safeParse(facts).data ?? {};

/** What the office said, as the book remembers it. */
export type RememberedOffice = Pick<OfficeBooks, 'machines' | 'plan' | 'profiles'>;

/**
 * What the office said when it last did: the last row of every machine that ever was on a roster, by machine; the plan of each
 * machine and the profiles as they were last given.
 */
export async function recallOffice(store: BookStore): Promise<RememberedOffice> {
  return new OfficeOfNotes(rowsOf(await store.machines()), await store.notes(OFFICE));
}

/** Its plan and profiles are taken from their notes when they are asked for: a night that gives its own needs none. */
class OfficeOfNotes implements RememberedOffice {
  readonly machines: RememberedOffice['machines'];
  readonly #notes: ReadonlyMap<string, string>;
  #plan: RememberedOffice['plan'] | null = null;
  #profiles: RememberedOffice['profiles'] | null = null;

  constructor(machines: RememberedOffice['machines'], notes: ReadonlyMap<string, string>) {
    this.machines = machines;
    this.#notes = notes;
  }

  get plan(): RememberedOffice['plan'] {
    this.#plan ??= this.#rowsIn(PLAN, z.array(planRowSchema));
    return this.#plan;
  }

  get profiles(): RememberedOffice['profiles'] {
    this.#profiles ??= this.#rowsIn(PROFILES, z.array(profileSchema));
    return this.#profiles;
  }

  #rowsIn(note: string, schema: z.ZodType): never[] {
    return (schema.safeParse(JSON.parse(this.#notes.get(note) ?? '[]')).data ?? []) as never[];
  }
}

const OFFICE = 'office ';
const PLAN = `${OFFICE}plan`;
const PROFILES = `${OFFICE}profiles`;

/** Options by which everything was worked out last, as the book remembers them. */
export async function recallOptions(store: BookStore): Promise<WorkedOutOptions> {
  const noted = (await store.notes(`${OFFICE}options`)).get(`${OFFICE}options`);
  const { defaults, clockToleranceMinutes, isFileTimeReceived } = optionsSchema.parse(JSON.parse(noted ?? '{}'));
  return {
    ...(defaults === undefined ? {} : { defaults }),
    ...(clockToleranceMinutes === undefined ? {} : { clockToleranceMinutes }),
    isFileTimeReceived,
  };
}

/** What the user said of all captures when they were worked out. */
export type WorkedOutOptions = OfficeOptions & { readonly isFileTimeReceived: boolean };

const optionsSchema = z.object({
  defaults: z.object({ currency: z.string().nullable(), decimals: z.int().nullable() }).optional(),
  clockToleranceMinutes: z.number().optional(),
  isFileTimeReceived: z.boolean().default(false),
});

/** What the office gave today, with what it said before where it gave nothing. */
export function withRemembered({ books }: Roster, remembered: RememberedOffice): Roster {
  return new Roster({
    ...books,
    machines: books.machines.length > 0 ? books.machines : remembered.machines,
    plan: books.plan.length > 0 ? books.plan : remembered.plan,
    profiles: books.profiles.length > 0 ? books.profiles : remembered.profiles,
  });
}

/** Keep the plan and the profiles as they were given today; a plan of some machines leaves that of others as it was. */
async function rememberSheets(store: BookStore, { books: { plan, profiles } }: Roster): Promise<void> {
  const notes = new Map<string, string | null>();
  const known = plan.length + profiles.length === 0 ? new Map<string, string>() : await store.notes(OFFICE);
  const planText = JSON.stringify(plan);
  if (plan.length > 0 && known.get(PLAN) !== planText) {
    const given = new Set(plan.map(({ machine }) => machine));
    const before = new OfficeOfNotes([], known).plan.filter(({ machine }) => !given.has(machine));
    notes.set(PLAN, before.length === 0 ? planText : JSON.stringify([...before, ...plan]));
  }
  if (profiles.length > 0) notes.set(PROFILES, JSON.stringify(profiles));
  const changed = [...notes].filter(([name, text]) => known.get(name) !== text);
  if (changed.length > 0) await store.writeNotes(new Map(changed));
}

async function rememberOptions(store: BookStore, options: WorkedOutOptions): Promise<void> {
  const { defaults, clockToleranceMinutes, isFileTimeReceived } = options;
  const text = JSON.stringify({ defaults, clockToleranceMinutes, isFileTimeReceived });
  const key = `${OFFICE}options`;
  if ((await store.notes(key)).get(key) !== text) await store.writeNotes(new Map([[key, text]]));
}

/**
 * Mark the machines of which the office says something else now than what their results rest on, so that these are worked out
 * anew: another plan, another profile, other money, other options.
 *
 * @returns how many there were
 */
export async function markChanged(store: BookStore, roster: Roster, options: WorkedOutOptions): Promise<number> {
  await rememberOptions(store, options);
  const stale: MachineKey[] = [];
  const news: BookMachine[] = [];
  for (const known of await store.machines()) {
    const facts = factsOf(known);
    const name = rosterNameIn(known.key);
    const office = digestOffice(roster, name === null ? null : roster.machine(name), options);
    if (facts.office === office) continue;
    if (facts.office !== undefined) stale.push(known.key);
    news.push({ key: known.key, facts: { ...facts, office } });
  }
  if (stale.length > 0) await store.markStale(stale);
  // Afterwards: killed in between, they are marked once more.
  if (news.length > 0) await store.rememberMachines(news);
  return stale.length;
}

function rowsOf(known: readonly BookMachine[]): readonly MachineRow[] {
  const rows = known.map((machine) => factsOf(machine).row ?? null);
  return rows.filter((row) => row !== null) as readonly MachineRow[];
}

/** A roster and, after its own, the machines that the book remembers and it does not have. */
export function addRemembered(roster: Roster, remembered: readonly MachineRow[]): Roster {
  const others = remembered.filter(({ machine }) => roster.machine(machine) === null);
  return others.length === 0
    ? roster
    : new Roster({ ...roster.books, machines: [...roster.books.machines, ...others] });
}

/** Keeps reads that go to another machine, with what makes them go there. */
export type KeepMoved = (listMoved: () => Promise<readonly WorkedOutRead[]>) => Promise<void>;

/**
 * Make the roster of today known to the book: reads that it gives to another machine than before go there, and what
 * it gives is remembered. Reads of a machine that it no longer has stay where they
 * are: a roster may be of one route only. Where nothing has changed since, nothing is looked through.
 *
 * @param keep - keeps the reads that go to another machine; told of them, or of none, before anything is remembered
 * @returns how many reads went to another machine
 */
export async function meetRoster(
  store: BookStore,
  roster: Roster,
  keep: KeepMoved = async (list) => reassign(store, await list()),
): Promise<number> {
  const { machines } = roster.books;
  await rememberSheets(store, roster);
  let moved = 0;
  const known = machines.length === 0 ? [] : await store.machines();
  const remembered = rowsOf(known);
  const owners = new NumberOwners(machines);
  await keep(async () => {
    if (machines.length === 0) return [];
    const isMoved = !owners.areAsIn(new NumberOwners(remembered));
    const found = await listMoved(isMoved ? store.reads() : listUnknown(store, known, owners), owners);
    moved = found.length;
    return found;
  });
  if (machines.length > 0) await rememberRoster(store, machines, known, owners);
  return moved;
}

async function rememberRoster(
  store: BookStore,
  machines: readonly MachineRow[],
  known: readonly BookMachine[],
  owners: Owners,
): Promise<void> {
  const remembered = rowsOf(known);
  const factsBy = new Map(known.map((machine) => [machine.key, factsOf(machine)]));
  const before = new Map(remembered.map((row) => [row.machine, row]));
  const names = new Set(machines.map(({ machine }) => machine));
  const others = remembered.filter(({ machine }) => !names.has(machine));
  const now = [...machines, ...others.map((row) => withoutClaimed(row, owners))];
  const news = now.filter((row) => JSON.stringify(before.get(row.machine)) !== JSON.stringify(row));
  if (news.length > 0)
    await store.rememberMachines(
      news.map((row): BookMachine => ({ key: keyOf(row), facts: { ...factsBy.get(keyOf(row)), row } })),
    );
}

type Owners = NumberOwners<MachineRow>;

const AT_ONCE = 5000;

async function reassign(store: BookStore, moved: readonly WorkedOutRead[]): Promise<void> {
  for (let from = 0; from < moved.length; from += AT_ONCE) await store.reassignReads(moved.slice(from, from + AT_ONCE));
}

const keyOf = ({ machine }: MachineRow): MachineKey => keyOfName(machine);

/**
 * Reads that came while the roster lacked their machine, as when a sheet was not given or half of it could not be read: they
 * belong to a machine that was known before and is known again.
 */
async function* listUnknown(store: BookStore, known: readonly BookMachine[], owners: Owners): AsyncGenerator<BookRead> {
  for (const { key } of known) {
    if (rosterNameIn(key) !== null) continue;
    const last = await lastReads(store, key);
    if (last.some((read) => owners.find(read) !== null)) yield* store.reads({ machine: key });
  }
}

/** Reads as they are to be kept that go to another machine. */
async function listMoved(reads: AsyncIterable<BookRead>, owners: Owners): Promise<WorkedOutRead[]> {
  const moved: WorkedOutRead[] = [];
  for await (const read of reads) {
    const owner = owners.find(read);
    const machine = owner === null ? null : keyOf(owner.machine);
    if (machine !== null && read.machine !== machine) moved.push({ ...read, machine, era: null, position: null });
  }
  return moved;
}

/** A machine's last read, and those without a time. */
function lastReads(store: BookStore, machine: string): Promise<readonly BookRead[]> {
  return store.readsOf(machine, { from: '9999-12-31T23:59:59', before: 1, isUndatedIn: true });
}
