import { ELEMENT } from '../dictionary/index.js';
import type { Read } from '../read/index.js';
import { fellTogether, initialisation, measureFall } from './restart.js';
import { bestTime, type TakenRead } from './taken-read.js';

/** Reads of one machine in the order they happened; reads of one era share their lifetime counters. */
export type Eras = readonly (readonly TakenRead[])[];

type Order = (a: TakenRead, b: TakenRead) => number;

/**
 * Put the reads of one machine in order: first by era (a board swap or a cleared memory starts a new one), then by read
 * counters, then clock, then time received. Of the orders that can be made the first one is taken in which no lifetime
 * counter goes down, since makers differ on what they count as a read, and clocks are set wrong.
 */
export function orderReads(reads: readonly TakenRead[]): Eras {
  const eras = groupBySignature(reads).flatMap(splitAtFalls);
  return eras.sort(byFirstTime);
}

/** Reads that agree on board, serial number and initialisation; one that does not say fits any that does. */
function groupBySignature(reads: readonly TakenRead[]): TakenRead[][] {
  const groups: { signature: (string | null)[]; reads: TakenRead[] }[] = [];
  const bySaid = [...reads].sort((a, b) => unsaid(signatureOf(a.read)) - unsaid(signatureOf(b.read)));
  for (const taken of bySaid) {
    const signature = signatureOf(taken.read);
    const fitting = groups.filter((group) =>
      signature.every((part, i) => part === null || part === group.signature[i]),
    );
    if (fitting.length === 1) fitting[0]!.reads.push(taken);
    else groups.push({ signature, reads: [taken] });
  }
  return groups.map((group) => group.reads);
}

const signatureOf = (read: Read): (string | null)[] => [
  read.text(ELEMENT.CB101),
  read.text(ELEMENT.ID101),
  initialisation(read),
];

const unsaid = (signature: readonly (string | null)[]): number => signature.filter((part) => part === null).length;

/** Split a group where most counters fall to near zero although board and date of initialisation stay the same. */
function splitAtFalls(reads: TakenRead[]): TakenRead[][] {
  const ordered = orderEra(reads);
  const byTime = [...reads].sort(byBestTime);
  if (!byTime.some((taken, i) => i > 0 && fellTogether(measureFall(byTime[i - 1]!.read, taken.read)))) return [ordered];
  // An order without a fall exists: the times were wrong, not the counters cleared.
  if (isRising(ordered) && !isTimeReceived(reads)) return [ordered];
  const eras: TakenRead[][] = [[]];
  for (const [i, taken] of byTime.entries()) {
    if (i > 0 && fellTogether(measureFall(byTime[i - 1]!.read, taken.read))) eras.push([]);
    eras.at(-1)!.push(taken);
  }
  return eras.map(orderEra);
}

const isTimeReceived = (reads: readonly TakenRead[]): boolean => reads.every(({ receivedAt }) => receivedAt !== null);

function orderEra(reads: TakenRead[]): TakenRead[] {
  const orders: Order[][] = [
    [byReadCount, byResetCount, byClock, byReceived],
    [byClock, byReadCount, byReceived],
    [byReceived, byClock],
  ];
  const candidates = orders.map((chain) => [...reads].sort(inTurn(chain.filter((order) => isUsable(order, reads)))));
  return candidates.find(isRising) ?? candidates[0]!;
}

/** Whether no lifetime total goes down from read to read; one roll-over among many counters does not count. */
function isRising(reads: readonly TakenRead[]): boolean {
  return reads.every((taken, i) => {
    if (i === 0) return true;
    const { compared, down } = measureFall(reads[i - 1]!.read, taken.read);
    return down === 0 || (down <= 2 && down * 4 < compared);
  });
}

const byReadCount: Order = (a, b) => compare(a.read.integer(ELEMENT.EA309), b.read.integer(ELEMENT.EA309));
const byResetCount: Order = (a, b) =>
  a.profile?.ea301 === 'identifier' ? 0 : compare(a.read.integer(ELEMENT.EA301), b.read.integer(ELEMENT.EA301));
const byClock: Order = (a, b) => compare(a.read.clock, b.read.clock);
const byReceived: Order = (a, b) => compare(a.receivedAt, b.receivedAt);
const byBestTime: Order = (a, b) => compare(bestTime(a), bestTime(b));
const byFirstTime = (a: readonly TakenRead[], b: readonly TakenRead[]): number => compare(firstTime(a), firstTime(b));

function firstTime(reads: readonly TakenRead[]): string | null {
  const times = reads.map(bestTime).filter((time) => time !== null);
  return times.sort()[0] ?? null;
}

/** An order can only be used where every read has what it goes by: else it would put the others anywhere. */
function isUsable(order: Order, reads: readonly TakenRead[]): boolean {
  if (order === byReadCount) return reads.every(({ read }) => read.integer(ELEMENT.EA309) !== null);
  if (order === byResetCount) return reads.every(({ read }) => read.integer(ELEMENT.EA301) !== null);
  if (order === byClock) return reads.every(({ read }) => read.clock !== null);
  return isTimeReceived(reads);
}

function inTurn(orders: readonly Order[]): Order {
  return (a, b) => {
    for (const order of orders) {
      const result = order(a, b);
      if (result !== 0) return result;
    }
    return 0;
  };
}

/** Not known sorts first and makes no difference to another that is not known. */
function compare<T extends string | number>(a: T | null, b: T | null): number {
  if (a === b) return 0;
  if (a === null) return -1;
  if (b === null) return 1;
  return a < b ? -1 : 1;
}
