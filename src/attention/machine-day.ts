import type { ReadSummary } from '../checks/index.js';
import type { Finding } from '../findings/index.js';
import type { PlacedRead, Step } from '../interval/index.js';
import { bestTime, currencyByAlpha, type LocalDate, type LocalDateTime, type MachineRow } from '../model/index.js';
import type { Visit } from '../settlement/index.js';
import type { PastStretch } from './sales-history.js';
import type { MachineStock } from './stock.js';

/** One read of the day as it was checked. */
export interface DayRead {
  readonly file: string;
  /** Number of the read in its file, from 0. */
  readonly number: number;
  /** See `timeOfRead`; null when nothing says. */
  readonly at: LocalDateTime | null;
  readonly summary: ReadSummary;
  /** Its own, and those of its file where it is the only read there. */
  readonly findings: readonly Finding[];
}

/** What a machine is called. */
export interface MachineName {
  /** The operator's name; on no roster what it calls itself (`asset A1`); null for no machine at all. */
  readonly name: string | null;
  readonly row: MachineRow | null;
  readonly location: string | null;
  readonly route: string | null;
  readonly driver: string | null;
}

/** All that a day knows of one machine. */
export interface MachineDay {
  readonly day: LocalDate;
  readonly name: MachineName;
  /** Whether a capture of it is looked for: it is on the roster, and not said to be inactive. */
  readonly isExpected: boolean;
  /** The day's reads, faulty ones included, in the order of their times. */
  readonly reads: readonly DayRead[];
  /** The intervals that the day's captures made, in order. */
  readonly intervals: readonly Step[];
  /** The day's visits. */
  readonly visits: readonly Visit[];
  /** Its last usable read, of whatever day. */
  readonly latest: PlacedRead | null;
  readonly stock: MachineStock | null;
  /** What it did from read to read, oldest first, the day's intervals included. */
  readonly stretches: readonly PastStretch[];
  /** The last of these, where it is known without asking what came long before; null where it is not. */
  readonly lastStretch: PastStretch | null;
  /** What else was found about it. */
  readonly findings: readonly Finding[];
}

/** Money as a machine counts it. */
export interface MachineMoney {
  readonly currency: string | null;
  readonly decimals: number | null;
}

/** The money of a machine, from the latest that says it: its intervals, its last read, its visits, its roster row. */
export function moneyOfMachine({ intervals, latest, visits, name: { row } }: MachineDay): MachineMoney {
  const said = intervals.at(-1) ?? latest ?? visits.at(-1) ?? null;
  const currency = said?.currency ?? row?.currency ?? null;
  const decimals = said?.decimals ?? row?.decimals ?? currencyByAlpha(row?.currency ?? '')?.decimals ?? null;
  return { currency, decimals };
}

/** The last moment of a day: until then it is counted. */
export function endOfDay(day: LocalDate): LocalDateTime {
  return `${day}T23:59:59`;
}

/** When a read is known to have been taken last; null when there is none. */
export function lastReadAt(day: MachineDay): LocalDateTime | null {
  const read = day.latest === null ? null : bestTime(day.latest);
  return read ?? day.stretches.at(-1)?.to ?? null;
}

/** The stretches in the machine's present money. */
export function stretchesInMoney(day: MachineDay): readonly PastStretch[] {
  const { currency, decimals } = moneyOfMachine(day);
  return day.stretches.filter((stretch) => stretch.currency === currency && stretch.decimals === decimals);
}
