import type { Interval, Intervals } from '../../interval/index.js';
import { machineKey } from '../../model/index.js';
import type { StaleMachine, WorkedOut } from '../store/index.js';
import type { TakenMachine } from './take-machines.js';
import { keepBuilt } from './work-out-machine.js';

/** What the intervals of a part of a day are good for besides the day. */
export interface SharedWork {
  readonly done: readonly WorkedOut[];
  /** Machines that have to be worked out by themselves. */
  readonly left: readonly StaleMachine[];
}

/**
 * Work out machines from the intervals that were built for a day, so that they are not built twice: those of which all that
 * changed lies among the day's reads.
 *
 * @param stale - machines to be worked out, by key; others are passed over
 */
export function shareWork(
  machines: readonly TakenMachine[],
  { intervals, machines: ordered }: Intervals,
  stale: ReadonlyMap<string, StaleMachine>,
): SharedWork {
  const built = new Map<string, Interval[]>();
  for (const interval of intervals) {
    const key = machineKey(interval.to)!;
    const own = built.get(key);
    if (own === undefined) built.set(key, [interval]);
    else own.push(interval);
  }
  const done: WorkedOut[] = [];
  const left: StaleMachine[] = [];
  for (const machine of machines) {
    const { key } = machine;
    const change = stale.get(key);
    if (change === undefined) continue;
    const own = { intervals: built.get(key) ?? [], ordered: ordered.get(key) ?? [] };
    const work = isCovered(machine, change) ? keepBuilt(machine.reads, own, machine.isFromStart) : null;
    if (work === null) left.push(change);
    else done.push({ machine: key, asOf: change.revision, ...work });
  }
  return { done, left };
}

/** Whether everything that changed is among a machine's reads, and nothing between them was left out. */
function isCovered({ key, reads, isComplete, isFromStart }: TakenMachine, { since }: StaleMachine): boolean {
  if (since === null || !isComplete) return false;
  const first = reads.find(({ kept }) => kept.at !== null)?.kept.at ?? null;
  const isReached = isFromStart || (first !== null && first < since);
  return isReached && reads.every(({ kept, taken }) => machineKey(taken) === key && (kept.era ?? 0) === 0);
}
