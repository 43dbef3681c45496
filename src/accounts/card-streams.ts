import type { Interval } from '../interval/index.js';
import { type DepositRow, machineKey } from '../model/index.js';
import type { Roster } from '../sheets/index.js';
import { type CardSales, countsDevice, type DeviceSlot, measureCardSales } from './card-sales.js';
import { DepositOwners, daysOfRow, type NoOwner, nameMachine } from './deposit-owners.js';
import { deviceSerial } from './device-sightings.js';

/** What a machine, or one device of it, sold by card in one kind of money, beside the deposits for it, each in order of time. */
export interface CardStream {
  readonly machine: string | null;
  readonly location: string | null;
  readonly device: string | null;
  readonly currency: string | null;
  readonly decimals: number | null;
  readonly sales: readonly CardSales[];
  readonly deposits: readonly DepositRow[];
}

/** A deposit that stands against no machine's sales. */
export interface LoneDeposit extends NoOwner {
  readonly deposit: DepositRow;
}

/** Sort card sales and deposits by machine, kind of money and, where every deposit of a machine names its device, device. */
export function sortIntoStreams(
  intervals: readonly Interval[],
  deposits: readonly DepositRow[],
  roster: Roster,
  windowDays: number,
): { readonly streams: CardStream[]; readonly lone: LoneDeposit[] } {
  const owners = new DepositOwners(intervals, roster);
  const accounts = groupByMachineAndMoney(intervals);
  const lone: LoneDeposit[] = [];
  for (const deposit of [...deposits].sort(byDate)) {
    const owner = owners.find(deposit, daysOfRow(deposit, windowDays));
    if ('reason' in owner) {
      lone.push({ deposit, ...owner });
      continue;
    }
    const ofMachine = accounts.filter(({ key }) => key === owner.key);
    const account = ofMachine.find(({ intervals: [first] }) => isSameMoney(first!, deposit));
    if (account === undefined) {
      const machine = nameMachine(ofMachine[0]!.intervals[0]!.to);
      lone.push({ deposit, reason: 'other-currency', machine });
    } else account.deposits.push({ deposit, slot: owner.slot });
  }
  return { streams: accounts.flatMap(splitByDevice), lone };
}

interface Account {
  readonly key: string;
  readonly intervals: Interval[];
  readonly deposits: { readonly deposit: DepositRow; readonly slot: 1 | 2 | null }[];
}

const byDate = (a: DepositRow, b: DepositRow): number => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0);

function groupByMachineAndMoney(intervals: readonly Interval[]): Account[] {
  const accounts = new Map<string, Account>();
  for (const interval of intervals) {
    const key = machineKey(interval.to)!;
    const name = JSON.stringify([key, interval.currency, interval.decimals]);
    const account = accounts.get(name);
    if (account === undefined) accounts.set(name, { key, intervals: [interval], deposits: [] });
    else account.intervals.push(interval);
  }
  return [...accounts.values()];
}

/** Whether amounts of both can be held against each other. A currency that one side does not say is taken to be the other's. */
function isSameMoney({ currency, decimals }: Interval, deposit: DepositRow): boolean {
  const isSame = currency === null || deposit.currency === null || currency === deposit.currency;
  return isSame && decimals === deposit.decimals;
}

function splitByDevice(account: Account): CardStream[] {
  const { intervals, deposits } = account;
  const slots = ([1, 2] as const).filter((slot) => intervals.some((interval) => countsDevice(interval, slot)));
  const isSplit = slots.length === 2 && deposits.length > 0 && deposits.every(({ slot }) => slot !== null);
  return isSplit ? slots.map((slot) => makeStream(account, slot)) : [makeStream(account, 'both')];
}

function makeStream({ intervals, deposits }: Account, slot: DeviceSlot): CardStream {
  const { to, currency, decimals } = intervals.at(-1)!;
  const own = deposits.filter((each) => slot === 'both' || each.slot === slot).map(({ deposit }) => deposit);
  const measured = intervals.map((interval) => measureCardSales(interval, slot, own.length > 0));
  return {
    machine: nameMachine(to),
    location: to.machine?.location ?? null,
    device: onlyDevice(intervals, slot),
    currency,
    decimals,
    // Sales between two intervals that do not follow each other are in neither.
    sales: measured.map((sales, i) => {
      const before = intervals[i - 1];
      return before === undefined || before.to === sales.interval.from ? sales : { ...sales, isFloor: true };
    }),
    deposits: own,
  };
}

/** The serial number where all reads show one and the same device. */
function onlyDevice(intervals: readonly Interval[], slot: DeviceSlot): string | null {
  const slots = slot === 'both' ? ([1, 2] as const) : [slot];
  const reads = intervals.flatMap(({ from, to }) => [from, to]);
  const serials = new Set(reads.flatMap((taken) => slots.map((one) => deviceSerial(taken, one))));
  serials.delete(null);
  return serials.size === 1 ? [...serials][0]! : null;
}
