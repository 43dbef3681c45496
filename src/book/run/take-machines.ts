import type { PastStretch } from '../../attention/index.js';
import { compareReads, type TakenRead } from '../../interval/index.js';
import { bestTime, type LocalDateTime, machineKey, pushAll } from '../../model/index.js';
import type { Recall } from '../recall/index.js';
import type { BookRead, BookStore } from '../store/index.js';
import type { DayPlan, PlannedPart } from './plan-day.js';
import { chooseReadsOfDay, type ReadsOfDay } from './reads-of-day.js';
import { recallPast } from './recall-past.js';
import type { RecalledRead } from './work-out-machine.js';

/** A machine's reads on a day as the accounts take them. */
export interface TakenMachine extends Omit<ReadsOfDay, 'reads'> {
  /** See `machineKey`: as the book has it. */
  readonly key: string;
  readonly reads: readonly RecalledRead[];
}

/** The reads of a part's machines. */
export interface TakenMachines {
  readonly machines: readonly TakenMachine[];
  /** With those that no machine can be told of. */
  readonly reads: readonly TakenRead[];
  readonly past: ReadonlyMap<string, readonly PastStretch[]>;
}

interface Chosen extends Omit<ReadsOfDay, 'reads'> {
  readonly key: string;
  readonly kept: readonly BookRead[];
}

/** Take the reads that a part of a day rests on, and what its machines did before them. */
export async function takeMachines(
  store: BookStore,
  recall: Recall,
  plan: DayPlan,
  part: PlannedPart,
  onMachine: ((machine: string) => void) | undefined,
): Promise<TakenMachines> {
  const chosen: Chosen[] = [];
  for (const machine of part.machines) {
    onMachine?.(machine.key);
    const { reads, isComplete, isFromStart } = await chooseReadsOfDay(store, machine, plan);
    const kept: BookRead[] = [];
    for (const read of reads) if (await isKnownOn(plan, recall, read)) kept.push(read);
    chosen.push({ key: machine.key, kept, isComplete: isComplete && kept.length === reads.length, isFromStart });
  }
  const nobody: BookRead[] = [];
  for (const { entry, isOwner } of part.files) if (isOwner) pushAll(nobody, await readsOfNobody(store, entry));
  const taken = await recall.takeReads([...chosen.flatMap(({ kept }) => kept), ...nobody]);
  const machines: TakenMachine[] = [];
  const past = new Map<string, readonly PastStretch[]>();
  let from = 0;
  for (const { kept, ...machine } of chosen) {
    const reads = kept.map((read, i) => ({ kept: read, taken: taken[from + i]! }));
    from += kept.length;
    machines.push({ ...machine, reads });
    const name = reads.map((read) => machineKey(read.taken)).find((each) => each !== null) ?? machine.key;
    past.set(name, await recallPast(store, machine.key, plan.day, firstTime(reads)));
  }
  return { machines, reads: taken.toSorted(compareReads), past };
}

/** Whether a read had come by the day. */
async function isKnownOn({ day }: DayPlan, recall: Recall, { entry }: BookRead): Promise<boolean> {
  const cameOn = (await recall.file(entry)).day;
  return cameOn === null || cameOn <= day;
}

async function readsOfNobody(store: BookStore, entry: number): Promise<BookRead[]> {
  const reads: BookRead[] = [];
  for await (const read of store.reads({ entryFrom: entry, entryTo: entry + 1, machine: null })) reads.push(read);
  return reads;
}

function firstTime(reads: readonly RecalledRead[]): LocalDateTime | null {
  const times = reads.map(({ taken }) => bestTime(taken)).filter((time) => time !== null);
  return times.sort()[0] ?? null;
}
