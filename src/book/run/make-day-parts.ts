import type { TakeOptions } from '../../captures/index.js';
import { type Day, type DayInputs, makeDay } from '../../day/index.js';
import type { Finding } from '../../findings/index.js';
import type { LocalDate, MachineNames } from '../../model/index.js';
import type { Settlements, Visit } from '../../settlement/index.js';
import { Contents, Recall } from '../recall/index.js';
import type { BookStore } from '../store/index.js';
import { type PlannedPart, planDay } from './plan-day.js';
import { countOwned, narrowCheck, type SharedCheck } from './share-check.js';
import { type TakenMachines, takeMachines } from './take-machines.js';

/** What a day is made of, besides the book. */
export interface DayPartsOptions {
  readonly day: LocalDate;
  /** The roster of the day, and what the user says of all captures. */
  readonly take: TakeOptions;
  readonly isFileTimeReceived?: boolean;
  readonly strict?: boolean;
  /** The rounds of the day as they stand. Default: none. */
  readonly settlements?: Settlements;
  /** Closed rounds that were adjusted; see `adjustedOnDay`. Default: none. */
  readonly adjusted?: DayInputs['adjusted'];
  /** Machines and drivers whose bags always differ in one direction; see `lookBack`. Default: none. */
  readonly oneSided?: DayInputs['oneSided'];
  /** What was found in the office's sheets and while files were taken in. */
  readonly findings?: readonly Finding[];
  /** How many machines are looked at together. Default 8. */
  readonly machinesAtOnce?: number;
  /** Machines that are not worked out, by key, such as those of a book that is only read. Default: none. */
  readonly stale?: ReadonlySet<string>;
  /** Whether pages are made of it, which show where figures come from. Default false. */
  readonly withContents?: boolean;
  /** Told of every machine before it is looked at. */
  readonly onMachine?: (machine: string) => void;
}

/** A part of a day, and what it was made from. */
export interface DayPart {
  readonly inputs: DayInputs;
  readonly day: Day;
}

const MACHINES_AT_ONCE = 8;
const NOTHING: Settlements = { settlements: [], findings: [] };

/**
 * Make a day from the book as it is now, part by part: see `makeDay` and `joinDays`. Every machine is in one part, and every
 * file of the day is counted in one; the rounds are in the first. What was worked out is taken from the book and not worked out
 * again, but for machines that are named as not worked out.
 */
export async function* makeDayParts(store: BookStore, options: DayPartsOptions): AsyncGenerator<DayPart> {
  const { day, take, settlements = NOTHING, adjusted = [], oneSided = [], machinesAtOnce = MACHINES_AT_ONCE } = options;
  const { parts, names } = await planDay(store, { day, roster: take.roster, machinesAtOnce });
  const visits = shareVisits(settlements, parts, names);
  for (const [place, part] of parts.entries()) {
    const first = { settlements, adjusted, oneSided };
    const own = {
      visits: visits[place]!,
      ...(place === 0 ? first : { settlements: NOTHING, adjusted: [], oneSided: [] }),
    };
    yield await makePart(store, part, own, { ...options, findings: place === 0 ? (options.findings ?? []) : [] });
  }
}

/** Each visit goes with the part that has its machine; those of machines that no part has with the first. */
function shareVisits({ settlements }: Settlements, parts: readonly PlannedPart[], names: MachineNames): Visit[][] {
  const placeOf = new Map<string, number>();
  for (const [place, { machines }] of parts.entries()) for (const { key } of machines) placeOf.set(key, place);
  const shared = parts.map((): Visit[] => []);
  for (const visit of settlements.flatMap((settlement) => settlement.visits)) {
    shared[placeOf.get(names.find(visit.machine) ?? '') ?? 0]!.push(visit);
  }
  return shared;
}

async function makePart(
  store: BookStore,
  part: PlannedPart,
  own: Pick<DayInputs, 'visits' | 'settlements' | 'adjusted' | 'oneSided'>,
  options: DayPartsOptions,
): Promise<DayPart> {
  const { day, take, findings = [], stale = new Set(), withContents = false, onMachine } = options;
  const recall = new Recall(store, options);
  const contents = new Contents(recall);
  await nameFiles(recall, part);
  const { rowsOfFiles, ...taken } = await takeMachines(
    store,
    recall,
    contents,
    { day, part },
    { stale, withContents, onMachine },
  );
  const checks = await checkFiles(store, recall, part, rowsOfFiles);
  const inputs: DayInputs = {
    day,
    roster: take.roster,
    expected: part.machines.map(({ row }) => row).filter((row) => row !== null),
    checks: checks.map(({ check }) => check),
    ...taken,
    ...own,
    findings,
  };
  const made = await taken.past.during(() => contents.during(() => makeDay(inputs)));
  return { inputs, day: { ...made, files: countOwned(checks, made) } };
}

/** The day's own files keep their plain names: what a list says now is said of them; of two of one name, of the later. */
async function nameFiles(recall: Recall, { files }: PlannedPart): Promise<void> {
  for (const { entry } of files.toSorted((a, b) => b.entry - a.entry)) recall.labels.labelOf(await recall.file(entry));
}

async function checkFiles(
  store: BookStore,
  recall: Recall,
  part: PlannedPart,
  rowsOf: TakenMachines['rowsOfFiles'],
): Promise<SharedCheck[]> {
  const machines = new Set(part.machines.map(({ key }) => key));
  const checks: SharedCheck[] = [];
  for (const { entry, isOwner, isShared } of part.files) {
    const check = await recall.checkFile(entry, rowsOf.get(entry));
    checks.push({ check: isShared ? await narrow(store, check, { entry, isOwner, machines }) : check, isOwner });
  }
  return checks;
}

async function narrow(
  store: BookStore,
  check: SharedCheck['check'],
  { entry, isOwner, machines }: { entry: number; isOwner: boolean; machines: ReadonlySet<string> },
): Promise<SharedCheck['check']> {
  const own = new Set<number>();
  for await (const { number, machine } of store.reads({ entryFrom: entry, entryTo: entry + 1 })) {
    if (machine === null ? isOwner : machines.has(machine)) own.add(number);
  }
  return narrowCheck(check, (number) => own.has(number), isOwner);
}
