import type { Day, DayCashRow, DayInputs } from '../../day/index.js';
import { nameMachine } from '../../day/name-row.js';
import { type Finding, printable } from '../../findings/index.js';
import { listReads, type PlacedRead } from '../../interval/index.js';
import {
  addAll,
  bestTime,
  type Count,
  groupBy,
  type LocalDateTime,
  type MachineRow,
  type Minor,
  pushAll,
} from '../../model/index.js';

/** What the day's page says of a machine. */
export interface MachineLine {
  readonly machine: string;
  readonly location: string | null;
  readonly route: string | null;
  readonly driver: string | null;
  /** Whether it is on the roster, and whether a capture of it is looked for. */
  readonly isKnown: boolean;
  readonly isExpected: boolean;
  /** Reads of the day, and those of them that are of no use for accounts. */
  readonly reads: Count;
  readonly faulty: Count;
  /** When it was read last, on whatever day; null when it never was or nothing says when. */
  readonly lastRead: LocalDateTime | null;
  /** What it sold in the day's intervals; not known where one of them is not. */
  readonly sold: Count | null;
  readonly value: Minor | null;
  readonly isFloor: boolean;
  readonly intervals: Count;
  readonly currency: string | null;
  readonly decimals: number | null;
}

/** A file of which there is something to say, or a read that came more than once. */
export interface FileLine {
  readonly file: string;
  readonly said: string;
}

/** So many characters of a file's name, and of what is said of it, are kept and shown. */
export const LONGEST_NAME = 300;
export const LONGEST_LINE = 600;

/** What the day's page needs of all batches, and no more: neither reads nor intervals are held. */
export class DayDigest {
  readonly machines: MachineLine[] = [];
  /** Files to be read again in which there is a read; files in which there is none; doubtful ones. */
  readonly readAgain: FileLine[] = [];
  readonly setAside: FileLine[] = [];
  readonly doubtful: FileLine[] = [];
  readonly duplicates: FileLine[] = [];

  /** Take what is needed of a batch. Each machine is in one batch. */
  add(inputs: DayInputs, day: Day): void {
    const files = new Set(inputs.checks.map(({ file }) => file));
    pushAll(this.machines, lineUpMachines(inputs, day, files));
    for (const { file, verdict, findings, headline, reads } of inputs.checks) {
      if (verdict === 'sound') continue;
      const list = reads.length === 0 ? this.setAside : verdict === 'read-again' ? this.readAgain : this.doubtful;
      // Not the headline first: it says what to do, as the list of what to look at does.
      list.push(outlineFile(file, findings[0]?.message ?? headline));
    }
    for (const finding of inputs.histories.findings) {
      if (isDuplicateOf(finding, files)) this.duplicates.push(outlineFile(finding.file!, finding.message));
    }
  }
}

/** Cut and printable: the name of a file can be as long as a book. */
function outlineFile(file: string, said: string): FileLine {
  return { file: printable(file, LONGEST_NAME), said: printable(said, LONGEST_LINE) };
}

function isDuplicateOf({ code, file }: Finding, files: ReadonlySet<string>): boolean {
  return code === 'duplicate-read' && file !== undefined && files.has(file);
}

interface Seen {
  readonly named: Pick<MachineLine, 'machine' | 'location' | 'route'>;
  readonly row: MachineRow | null;
  readonly reads: PlacedRead[];
}

function lineUpMachines(inputs: DayInputs, day: Day, files: ReadonlySet<string>): MachineLine[] {
  const expected = (inputs.expected ?? inputs.roster.books.machines).filter(({ active }) => active !== false);
  const seen = new Map<string, Seen>();
  for (const row of expected) {
    const { machine, location, route } = row;
    seen.set(machine, { named: { machine, location, route }, row, reads: [] });
  }
  for (const taken of [...inputs.histories.machines.values()].flatMap(listReads)) {
    const named = nameMachine(taken);
    const known = seen.get(named.machine);
    if (known === undefined) seen.set(named.machine, { named, row: taken.machine, reads: [taken] });
    else known.reads.push(taken);
  }
  const isExpected = new Set(expected.map(({ machine }) => machine));
  const cash = groupBy(day.cash, ({ machine }) => machine);
  return [...seen.values()]
    .map((one) => lineUp(one, isExpected.has(one.named.machine), cash.get(one.named.machine) ?? [], files))
    .filter(({ isExpected, reads, intervals }) => isExpected || reads > 0 || intervals > 0);
}

function lineUp(
  { named, row, reads }: Seen,
  isExpected: boolean,
  cash: readonly DayCashRow[],
  files: ReadonlySet<string>,
): MachineLine {
  const ofDay = reads.filter(({ file }) => files.has(file));
  const times = reads.map(bestTime).filter((time) => time !== null);
  const money = cash.at(-1) ?? reads.at(-1) ?? row;
  return {
    ...named,
    driver: row?.driver ?? null,
    isKnown: row !== null,
    isExpected,
    reads: ofDay.length,
    faulty: ofDay.filter(({ faults }) => faults.length > 0).length,
    lastRead: times.reduce<LocalDateTime | null>((last, time) => (last === null || time > last ? time : last), null),
    ...sumSales(cash),
    isFloor: cash.some(({ flags }) => flags.includes('floor')),
    intervals: cash.length,
    currency: money?.currency ?? null,
    decimals: money?.decimals ?? null,
  };
}

/** Sums over the day's intervals; money of different units is in no sum. */
function sumSales(cash: readonly DayCashRow[]): Pick<MachineLine, 'sold' | 'value'> {
  if (cash.length === 0) return { sold: null, value: null };
  const units = new Set(cash.map(({ currency, decimals }) => `${currency} ${decimals}`));
  return {
    sold: addAll(cash.map(({ sold }) => sold)),
    value: units.size > 1 ? null : addAll(cash.map(({ value }) => value)),
  };
}
