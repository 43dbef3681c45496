import { type Interval, namesOfReads, type TakenRead } from '../interval/index.js';
import { bestTime, type DepositRow, type MachineNames, machineKey, sheetNameOfKey } from '../model/index.js';
import type { Roster } from '../sheets/index.js';
import { type DaySpan, dayNumber, haveCommonDay, spanBetween } from './days.js';
import type { DepositReason } from './deposit-match.js';
import { type DeviceSighting, listDevices } from './device-sightings.js';

/** The machine that a deposit is for, by its key, and the device where the deposit names one that is known there. */
export interface DepositOwner {
  readonly key: string;
  readonly slot: 1 | 2 | null;
}

/** Why it cannot be told which machine a deposit is for, with its name where there is one. */
export interface NoOwner {
  readonly reason: DepositReason;
  readonly machine: string | null;
}

/** What the office's sheets call the machine of a read in an interval, which always says whose it is. */
export function nameMachine(taken: TakenRead): string {
  return sheetNameOfKey(machineKey(taken)!);
}

/** Looks up the machine a deposit is for: by the machine it names, else by the serial number of the card device. */
export class DepositOwners {
  readonly #intervals: readonly Interval[];
  readonly #roster: Roster;
  readonly #names: MachineNames;
  readonly #devices: ReadonlyMap<string, readonly DeviceSighting[]>;

  constructor(intervals: readonly Interval[], roster: Roster) {
    this.#intervals = intervals;
    this.#roster = roster;
    const reads = new Set(intervals.flatMap(({ from, to }) => [from, to]));
    this.#devices = listDevices(reads);
    this.#names = namesOfReads(reads);
  }

  /** @param days - the days whose sales the deposit can be for */
  find(deposit: DepositRow, days: DaySpan): DepositOwner | NoOwner {
    const sightings = deposit.device === null ? [] : (this.#devices.get(deposit.device) ?? []);
    return deposit.machine === null
      ? this.#findByDevice(sightings, days)
      : this.#findByName(deposit.machine, sightings);
  }

  #findByName(name: string, sightings: readonly DeviceSighting[]): DepositOwner | NoOwner {
    const key = this.#names.find(name);
    if (key === null) {
      if (this.#names.isShared(name)) return { reason: 'two-machines', machine: name };
      const isKnown = this.#roster.machine(name) !== null;
      return { reason: isKnown ? 'sales-not-known' : 'unknown-machine', machine: name };
    }
    const own = sightings.filter(({ taken }) => machineKey(taken) === key);
    if (own.length === 0 && sightings.length > 0) return { reason: 'two-machines', machine: name };
    return { key, slot: onlySlot(own) };
  }

  /** A device may have been moved: then the days decide, as far as they do. */
  #findByDevice(sightings: readonly DeviceSighting[], days: DaySpan): DepositOwner | NoOwner {
    if (sightings.length === 0) return { reason: 'unknown-device', machine: null };
    const keys = new Set(sightings.map(({ taken }) => machineKey(taken)!));
    const shown = new Set(sightings.map(({ taken }) => taken));
    const fitting = keys.size === 1 ? keys : this.#keysOnDays(shown, days);
    if (fitting.size !== 1) return { reason: 'two-machines', machine: null };
    const key = [...fitting][0]!;
    return { key, slot: onlySlot(sightings.filter(({ taken }) => machineKey(taken) === key)) };
  }

  #keysOnDays(shown: ReadonlySet<TakenRead>, days: DaySpan): Set<string> {
    const near = this.#intervals.filter(({ from, to }) => {
      const [start, end] = [bestTime(from), bestTime(to)];
      const isShown = shown.has(from) || shown.has(to);
      return isShown && start !== null && end !== null && haveCommonDay(spanBetween(start, end), days);
    });
    return new Set(near.map(({ to }) => machineKey(to)!));
  }
}

function onlySlot(sightings: readonly DeviceSighting[]): 1 | 2 | null {
  const slots = new Set(sightings.map(({ slot }) => slot));
  return slots.size === 1 ? [...slots][0]! : null;
}

/** The days whose sales a deposit can be for, as far as its own row says. */
export function daysOfRow({ date, periodFrom, periodTo }: DepositRow, windowDays: number): DaySpan {
  const last = dayNumber(periodTo ?? date);
  return { first: periodFrom === null ? last - windowDays : dayNumber(periodFrom), last };
}
