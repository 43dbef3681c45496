import { ELEMENT } from '../dictionary/index.js';
import { bestTime, type LocalDateTime, pushAll, tellingNumber } from '../model/index.js';
import { initialisation } from './initialisation.js';
import { measureFall } from './lifetime-fall.js';
import { compareText, orderEra } from './order-era.js';
import { isSerialSetAnew } from './relabelling.js';
import { findFall } from './restart.js';
import type { TakenRead } from './taken-read.js';

/** Reads that share their lifetime counters, in the order they happened. */
export type Era = readonly TakenRead[];

/**
 * Put the reads of one machine in order: first by era, since a board swap or a cleared memory starts a new one; eras by
 * clock or time received; within an era as {@link orderEra} says.
 */
export function orderReads(reads: readonly TakenRead[]): readonly Era[] {
  const eras = joinRelabelled(groupBySignature(reads)).flatMap(splitAtFalls);
  const starts = new Map(eras.map((era) => [era, firstTime(era)]));
  return eras.sort((a, b) => compareText(starts.get(a)!, starts.get(b)!) || compareText(a[0]!.file, b[0]!.file));
}

/** How two eras of one machine lie in time. */
export interface EraOverlap {
  /** Whether the one ends before the other begins, as far as all their reads have times that can be compared. */
  readonly isApart: boolean;
  /** Whether that is by the times received, and not by the machine's own clocks. */
  readonly isByReceived: boolean;
}

type TimeOf = (taken: TakenRead) => LocalDateTime | null;
const receivedOf: TimeOf = ({ receivedAt }) => receivedAt;
const clockOf: TimeOf = ({ read }) => read.clock;

/**
 * Hold the reads of two eras against each other: by the time received where all have it, else by the clock. Where nothing
 * but fallen counters tells the two apart, times that contradict each other leave it open which came first.
 */
export function compareEras(earlier: Era, later: Era): EraOverlap {
  const isByReceived = [...earlier, ...later].every(({ receivedAt }) => receivedAt !== null);
  if (!isByReceived) return { isApart: endsBefore(earlier, later, clockOf), isByReceived };
  const isAlike = String(signatureOf(earlier.at(-1)!)) === String(signatureOf(later[0]!));
  const isContradicted = isAlike && endsBefore(later, earlier, clockOf);
  return { isApart: endsBefore(earlier, later, receivedOf) && !isContradicted, isByReceived };
}

/** Whether all reads of one era have times, and none later than any of the other. */
function endsBefore(earlier: Era, later: Era, timeOf: TimeOf): boolean {
  const [before, after] = [earlier.map(timeOf), later.map(timeOf)];
  if (before.includes(null) || after.includes(null)) return false;
  return (before as LocalDateTime[]).sort(compareText).at(-1)! <= (after as LocalDateTime[]).sort(compareText)[0]!;
}

function firstTime(era: Era): LocalDateTime {
  return era.map((taken) => bestTime(taken) ?? '').sort(compareText)[0]!;
}

/** Board, serial number and initialisation: reads of one era agree on them. Null is not said. */
type Signature = readonly (string | null)[];

const signatureOf = ({ read }: TakenRead): Signature => [
  tellingNumber(read.text(ELEMENT.CB101)),
  tellingNumber(read.text(ELEMENT.ID101)),
  initialisation(read),
];

interface Group {
  readonly signature: Signature;
  readonly reads: TakenRead[];
}

/**
 * Reads that agree on board, serial number and initialisation. One that does not say all of them goes with the reads before
 * it in time that it fits, else with those after it.
 */
function groupBySignature(reads: readonly TakenRead[]): Group[] {
  const signed = reads.map((taken) => ({ taken, signature: signatureOf(taken) }));
  // What no read says tells none of them apart.
  const isSaid = [0, 1, 2].map((part) => signed.some(({ signature }) => signature[part] !== null));
  const isWhole = (signature: Signature): boolean => signature.every((part, i) => part !== null || !isSaid[i]);
  const groups = new Map<string, Group>();
  const add = (taken: TakenRead, signature: Signature): Group => {
    const key = JSON.stringify(signature);
    const group = groups.get(key) ?? { signature, reads: [] };
    group.reads.push(taken);
    groups.set(key, group);
    return group;
  };
  const inTime = signed
    .map((one) => ({ ...one, time: bestTime(one.taken) ?? '' }))
    .sort((a, b) => compareText(a.time, b.time) || compareText(a.taken.file, b.taken.file));
  const sides = inTime.map(({ taken, signature }) => (isWhole(signature) ? add(taken, signature) : null));
  const after = [...sides];
  for (let i = after.length - 2; i >= 0; i--) after[i] ??= after[i + 1]!;
  let before: Group | null = null;
  for (const [i, { taken, signature }] of inTime.entries()) {
    const side = sides[i]!;
    if (side !== null) {
      before = side;
      continue;
    }
    const group = find(signature, before, after[i]!);
    if (group === null) add(taken, signature);
    else group.reads.push(taken);
  }
  return [...groups.values()];
}

/**
 * Put groups together that differ in the machine number (ID101) alone, where that was set anew on a machine whose counters
 * went on: one era, as often as it was changed.
 */
function joinRelabelled(groups: readonly Group[]): TakenRead[][] {
  const joined: Group[] = [];
  for (const group of groups) {
    const [board, , date] = group.signature;
    const same = joined.find(
      ({ signature, reads }) =>
        signature[0] === board && signature[2] === date && isOneLabelledAnew([...reads, ...group.reads]),
    );
    if (same === undefined) joined.push({ signature: group.signature, reads: [...group.reads] });
    else pushAll(same.reads, group.reads);
  }
  return joined.map(({ reads }) => reads);
}

/** Whether every change of the machine number among reads, in the order in which their counters go on, is a setting. */
function isOneLabelledAnew(reads: readonly TakenRead[]): boolean {
  const numbered = orderEra(reads).filter(({ read }) => tellingNumber(read.text(ELEMENT.ID101)) !== null);
  return numbered.slice(1).every((to, i) => {
    const from = numbered[i]!;
    return signatureOf(from)[1] === signatureOf(to)[1] || isSerialSetAnew(from, to);
  });
}

function find(signature: Signature, ...groups: readonly (Group | null)[]): Group | null {
  const fits = (group: Group): boolean =>
    signature.every((part, i) => part === null || group.signature[i] === null || part === group.signature[i]);
  return groups.find((group) => group !== null && fits(group)) ?? null;
}

/**
 * Split a group where most counters fall to near zero although board and date of initialisation stay the same: some makers
 * keep the first date. Falls are looked for in the order of arrival and in that of the clocks, each where all reads have
 * it; a fall in either splits, since a figure that spans a cleared memory would be made up.
 */
function splitAtFalls(reads: TakenRead[]): Era[] {
  for (const timeOf of [receivedOf, clockOf]) {
    if (reads.some((taken) => timeOf(taken) === null)) continue;
    const byTime = orderEra(reads, timeOf);
    const isFall = byTime.map((taken, i) => i > 0 && isFallen(byTime[i - 1]!, taken));
    if (!isFall.includes(true)) continue;
    const eras: TakenRead[][] = [[]];
    for (const [i, taken] of byTime.entries()) {
      if (isFall[i]) eras.push([]);
      eras.at(-1)!.push(taken);
    }
    return eras.map((era) => orderEra(era));
  }
  return [orderEra(reads)];
}

/** Counters that fell, or that are all gone at once, as on a machine that leaves zero segments out and was cleared. */
function isFallen(from: TakenRead, to: TakenRead): boolean {
  const fall = measureFall(from, to);
  return findFall(from, to, fall) !== null || (fall.compared === 0 && fall.gone > 1);
}
