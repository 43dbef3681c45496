import type { TakenRead } from '../../interval/index.js';
import type { LocalDate } from '../../model/index.js';
import type { BookStore } from '../store/index.js';
import { Recall, type RecallOptions } from './recall.js';

/** Which reads are recalled. */
export interface RecalledPeriod extends RecallOptions {
  /** First and last day, both included, by the best time of a read. Default: all there are. */
  readonly from?: LocalDate;
  readonly to?: LocalDate;
  /** Told of every machine before its reads are taken. */
  readonly onMachine?: (machine: string) => void;
}

/**
 * All reads of all machines in a period, with the nearest read before it and after it, so that what happened in the period is
 * between two reads. Reads without a time are among them, since they may be of any day.
 */
export async function recallPeriod(store: BookStore, options: RecalledPeriod): Promise<TakenRead[]> {
  const { from, to, onMachine } = options;
  const window = {
    ...(from === undefined ? {} : { from: `${from}T00:00:00`, before: 1 }),
    ...(to === undefined ? {} : { to: `${to}T23:59:59`, after: 1 }),
    isUndatedIn: true,
  };
  const recall = new Recall(store, options);
  const all: TakenRead[] = [];
  for (const { key } of await store.machines()) {
    onMachine?.(key);
    for (const read of await recall.takeReads(await store.readsOf(key, window))) all.push(read);
  }
  const nobodys = [];
  for await (const read of store.reads({ machine: null })) nobodys.push(read);
  return [...all, ...(await recall.takeReads(nobodys))];
}
