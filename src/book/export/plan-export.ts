import type { LocalDate } from '../../model/index.js';
import type { BookStore } from '../store/index.js';
import type { ExportSpan } from './export-folder.js';

/** Days that are worked off together, first and last included. */
export interface Stretch {
  readonly from: LocalDate;
  readonly to: LocalDate;
}

/** What is to be exported, in parts that memory can hold. */
export interface ExportPlan {
  readonly stretches: readonly Stretch[];
  /** Machines that have reads without a time; they go into a partition of their own where the span has no ends. */
  readonly undated: ReadonlySet<string>;
  /** Machines whose intervals are not worked out yet, or not all of them. */
  readonly stale: ReadonlySet<string>;
}

/** Find out what there is. Holds a number a day, and the names of some machines. */
export async function planExport(store: BookStore, span: ExportSpan, readsAtOnce: number): Promise<ExportPlan> {
  const { from, to } = span;
  const isAll = from === null && to === null;
  const reads = new Map<LocalDate, number>();
  const undated = new Set<string>();
  for await (const { at, machine } of store.reads(queryOf(span))) {
    if (at !== null) reads.set(at.slice(0, 10), (reads.get(at.slice(0, 10)) ?? 0) + 1);
    else if (isAll && machine !== null) undated.add(machine);
  }
  const dayFrom = from === null ? {} : { dayFrom: from };
  for await (const { day } of store.entries({
    kinds: ['set-aside'],
    ...dayFrom,
    ...(to === null ? {} : { dayTo: to }),
  })) {
    if (day !== null) reads.set(day, (reads.get(day) ?? 0) + 1);
  }
  const stale = new Set((await store.staleMachines()).map(({ machine }) => machine));
  return { stretches: joinDays(reads, readsAtOnce), undated, stale };
}

function queryOf({ from, to }: ExportSpan) {
  return {
    ...(from === null ? {} : { atFrom: startOf(from) }),
    ...(to === null ? {} : { atTo: endOf(to) }),
  };
}

/** First and last moment of a day. */
export const startOf = (day: LocalDate): string => `${day}T00:00:00`;
export const endOf = (day: LocalDate): string => `${day}T23:59:59`;

/** Join days of few reads, so that their captures are read together. */
function joinDays(reads: ReadonlyMap<LocalDate, number>, readsAtOnce: number): Stretch[] {
  const stretches: Stretch[] = [];
  let held = 0;
  for (const [day, count] of [...reads].sort(([a], [b]) => (a < b ? -1 : 1))) {
    const last = stretches.at(-1);
    if (last !== undefined && held + count <= readsAtOnce) {
      stretches[stretches.length - 1] = { from: last.from, to: day };
      held += count;
    } else {
      stretches.push({ from: day, to: day });
      held = count;
    }
  }
  return stretches;
}
