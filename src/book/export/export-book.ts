import { makeCashRow, makeSalesRows } from '../../day/index.js';
import { nameOfMachineKey } from '../../model/index.js';
import type { RecallOptions } from '../recall/index.js';
import { addRemembered, recallOffice, withRemembered } from '../run/index.js';
import type { BookStep, BookStore, ReadQuery } from '../store/index.js';
import { CaptureRows, makeSetAsideRow } from './capture-rows.js';
import { ExportFolder, type ExportSpan } from './export-folder.js';
import { type ExportPlan, endOf, planExport, type Stretch, startOf } from './plan-export.js';
import { type DatedStep, StepSource } from './step-source.js';
import { CAPTURES_TABLE, CASH_EXPORT_TABLE, COLUMNS_TABLE } from './tables.js';

/** What is exported, and by what is known today. */
export interface ExportOptions extends ExportSpan, RecallOptions {
  /** Told of every day, or stretch of days, before it is worked off. */
  readonly onStretch?: (stretch: Stretch) => void;
  /** Reads of days that are worked off together, and that are taken from their files at a time. */
  readonly readsAtOnce?: number;
}

/** What was written: rows of each table, and the partitions they are in. */
export interface ExportTally {
  readonly captures: number;
  readonly columns: number;
  readonly cash: number;
  readonly partitions: number;
}

const READS_AT_ONCE = 2000;

/**
 * Write captures, columns and cash of a book as Parquet, partitioned by day: `columns/day=2026-11-24/part-0.parquet`. The day
 * of a read is that of the best time there is for it, the day of an interval that of its later read; what has no time goes to
 * `day=__HIVE_DEFAULT_PARTITION__`, when all days are asked for. Partitions of the span are replaced whole, others stay.
 *
 * Machines that are not on the roster given are those that the book remembers. Money is INT64 in minor units beside
 * `currency` and `decimals`; times have no zone; null is not known, never 0.
 *
 * @throws ExportError (as a rejection) when it can not be written: then the folder is as it was, or every partition of it is
 *   whole, as the message says; BookError when the book can not be read
 */
export async function exportBook(store: BookStore, folder: string, options: ExportOptions): Promise<ExportTally> {
  const plan = await planExport(store, options, options.readsAtOnce ?? READS_AT_ONCE);
  const remembered = await recallOffice(store);
  const roster = addRemembered(withRemembered(options.take.roster, remembered), remembered.machines);
  const target = new ExportFolder(folder, options);
  try {
    const exporter = new Exporter(store, target, plan, { ...options, take: { ...options.take, roster } });
    for (const stretch of plan.stretches) {
      options.onStretch?.(stretch);
      await exporter.addStretch(stretch);
      target.closeDays();
    }
    if (options.from === null && options.to === null) await exporter.addUndated();
    const counts = target.finish();
    const count = (name: string): number => counts.get(name) ?? 0;
    return {
      captures: count('captures'),
      columns: count('columns'),
      cash: count('cash'),
      partitions: target.partitions,
    };
  } finally {
    target.cleanUp();
  }
}

/** One export on its way. */
class Exporter {
  readonly #store: BookStore;
  readonly #target: ExportFolder;
  readonly #plan: ExportPlan;
  readonly #source: StepSource;

  constructor(store: BookStore, target: ExportFolder, plan: ExportPlan, options: ExportOptions) {
    this.#store = store;
    this.#target = target;
    this.#plan = plan;
    this.#source = new StepSource(store, options, options.readsAtOnce);
  }

  /** Everything of some days. */
  async addStretch({ from, to }: Stretch): Promise<void> {
    const within = { atFrom: startOf(from), atTo: endOf(to) };
    const machines = await this.#addReads(within);
    for await (const entry of this.#store.entries({ kinds: ['set-aside'], dayFrom: from, dayTo: to })) {
      await this.#target.add(CAPTURES_TABLE, entry.day, [makeSetAsideRow(entry)]);
    }
    const isWithin = (at: string | null): boolean => at !== null && at >= within.atFrom && at <= within.atTo;
    await this.#addSteps(this.#workedOut(this.#store.steps(within), isWithin), machines, isWithin);
  }

  /** Everything that has no time. */
  async addUndated(): Promise<void> {
    const rows = new CaptureRows(this.#store);
    for await (const read of this.#store.reads()) {
      if (read.at === null) await this.#target.add(CAPTURES_TABLE, null, [await rows.ofRead(read)]);
    }
    for await (const entry of this.#store.entries({ kinds: ['set-aside'] })) {
      if (entry.day === null) await this.#target.add(CAPTURES_TABLE, null, [makeSetAsideRow(entry)]);
    }
    const isUndated = (at: string | null): boolean => at === null;
    const { undated } = this.#plan;
    await this.#addSteps(this.#workedOut(this.#ofMachines(undated), isUndated), undated, isUndated);
  }

  /** Rows of reads. Gives the machines that they are of. */
  async #addReads(query: ReadQuery): Promise<ReadonlySet<string>> {
    const rows = new CaptureRows(this.#store);
    const machines = new Set<string>();
    for await (const read of this.#store.reads({ ...query, order: 'machine' })) {
      if (read.machine !== null) machines.add(read.machine);
      await this.#target.add(CAPTURES_TABLE, dayOf(read.at), [await rows.ofRead(read)]);
    }
    return machines;
  }

  async *#ofMachines(machines: ReadonlySet<string>): AsyncGenerator<BookStep> {
    for (const machine of machines) yield* await this.#store.stepsOf(machine);
  }

  /** Those of the time asked for whose machines are worked out: of others, intervals may be there that are not so any more. */
  async *#workedOut(
    steps: AsyncIterable<BookStep>,
    isAskedFor: (at: string | null) => boolean,
  ): AsyncGenerator<BookStep> {
    for await (const step of steps) {
      const isStale = step.machine !== null && this.#plan.stale.has(step.machine);
      if (!isStale && isAskedFor(step.toAt)) yield step;
    }
  }

  async #addSteps(
    steps: AsyncIterable<BookStep>,
    machines: ReadonlySet<string>,
    isAskedFor: (at: string | null) => boolean,
  ): Promise<void> {
    for await (const dated of this.#source.ofKept(steps)) await this.#addStep(dated);
    const stale = [...machines].filter((machine) => this.#plan.stale.has(machine));
    for await (const dated of this.#source.ofMachines(stale)) {
      if (isAskedFor(dated.to.at)) await this.#addStep(dated);
    }
  }

  async #addStep({ step, to }: DatedStep): Promise<void> {
    // As the book has it, so that it is the same in all tables: the roster of today may not be that of the last run.
    const machine = nameOfMachineKey(to.machine!);
    const sales = makeSalesRows(step).map((row) => ({ ...row, machine }));
    await this.#target.add(COLUMNS_TABLE, dayOf(to.at), sales);
    await this.#target.add(CASH_EXPORT_TABLE, dayOf(to.at), [{ ...makeCashRow(step), machine }]);
  }
}

const dayOf = (at: string | null): string | null => at?.slice(0, 10) ?? null;
