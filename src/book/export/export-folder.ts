import { existsSync, mkdirSync, readdirSync, renameSync, rmdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { printable } from '../../findings/index.js';
import { markUnfinished, removeWhenStopped, sweepUnfinished } from '../../io/index.js';
import type { LocalDate } from '../../model/index.js';
import { ExportError, explainExport } from './export-error.js';
import { ParquetFile } from './parquet-file.js';
import type { ParquetTable } from './parquet-table.js';
import { EXPORT_TABLES } from './tables.js';

/** The days whose partitions an export replaces, first and last included; null has no end. */
export interface ExportSpan {
  readonly from: LocalDate | null;
  readonly to: LocalDate | null;
}

/** What engines take for null in the name of a partition. */
const NO_DAY = '__HIVE_DEFAULT_PARTITION__';
const FILE = 'part-0.parquet';
const UNFINISHED = '.unfinished-';

/**
 * A folder of tables partitioned by day: `columns/day=2026-11-24/part-0.parquet`. Files are written beside them first, and
 * take their places when all are there, so that an engine that reads meanwhile never sees half a file, and a failure leaves
 * the folder as it was. Partitions of the span that get no rows go; those of other days stay.
 *
 * `day=__HIVE_DEFAULT_PARTITION__` holds what has no time; it belongs to a span without ends only.
 */
export class ExportFolder {
  readonly #folder: string;
  readonly #span: ExportSpan;
  readonly #unfinished: string;
  /** Open files, and those that are written, by the name of their partition. */
  readonly #open = new Map<string, ParquetFile<never>>();
  readonly #written = new Set<string>();
  readonly #counts = new Map<string, number>();
  readonly #letGo: () => void;

  /**
   * @throws ExportError when the folder can not be written, or has other files in a partition that would be replaced
   */
  constructor(folder: string, span: ExportSpan) {
    this.#folder = folder;
    this.#span = span;
    try {
      mkdirSync(folder, { recursive: true });
      for (const partition of this.#partitions()) refuseOtherFiles(join(folder, partition));
      sweepUnfinished(folder, (name) => name.startsWith(UNFINISHED));
      // Engines pass over names that begin with a dot.
      this.#unfinished = join(folder, `${UNFINISHED}${markUnfinished()}`);
      mkdirSync(this.#unfinished);
    } catch (error) {
      throw explainExport(error, folder, false);
    }
    this.#letGo = removeWhenStopped(this.#unfinished);
  }

  /** Add rows to a day of a table; null is for those without a day. */
  async add<Row>(table: ParquetTable<Row>, day: LocalDate | null, rows: readonly Row[]): Promise<void> {
    if (rows.length === 0) return;
    const partition = join(table.name, `day=${day ?? NO_DAY}`);
    try {
      let file = this.#open.get(partition) as ParquetFile<Row> | undefined;
      if (file === undefined) {
        if (this.#written.has(partition)) throw new RangeError(`${partition} is written already`);
        mkdirSync(join(this.#unfinished, partition), { recursive: true });
        file = await ParquetFile.create(join(this.#unfinished, partition, FILE), table);
        this.#open.set(partition, file as unknown as ParquetFile<never>);
      }
      file.add(rows);
    } catch (error) {
      throw explainExport(error, this.#folder, false);
    }
    this.#counts.set(table.name, (this.#counts.get(table.name) ?? 0) + rows.length);
  }

  /** No more rows come for the days there are so far. */
  closeDays(): void {
    try {
      for (const [partition, file] of this.#open) {
        this.#open.delete(partition);
        file.end();
        this.#written.add(partition);
      }
    } catch (error) {
      throw explainExport(error, this.#folder, false);
    }
  }

  /** Put everything in its place. Gives the number of rows of each table. */
  finish(): ReadonlyMap<string, number> {
    this.closeDays();
    try {
      const before = this.#partitions();
      for (const partition of this.#written) {
        mkdirSync(join(this.#folder, partition), { recursive: true });
        renameSync(join(this.#unfinished, partition, FILE), join(this.#folder, partition, FILE));
      }
      for (const partition of before) if (!this.#written.has(partition)) removePartition(join(this.#folder, partition));
    } catch (error) {
      throw explainExport(error, this.#folder, true);
    }
    return this.#counts;
  }

  /** Remove what is not in its place. Call it whatever happened. */
  cleanUp(): void {
    for (const file of this.#open.values()) file.abandon();
    this.#open.clear();
    rmSync(this.#unfinished, { recursive: true, force: true });
    this.#letGo();
  }

  /** Partitions written so far. */
  get partitions(): number {
    return this.#written.size;
  }

  /** The partitions of the span that are in the folder. */
  #partitions(): string[] {
    return EXPORT_TABLES.flatMap(({ name }) => {
      const path = join(this.#folder, name);
      if (!existsSync(path)) return [];
      return readdirSync(path)
        .filter((each) => this.#isOfSpan(each))
        .map((each) => join(name, each));
    });
  }

  #isOfSpan(name: string): boolean {
    const { from, to } = this.#span;
    if (name === `day=${NO_DAY}`) return from === null && to === null;
    const day = /^day=(\d{4}-\d\d-\d\d)$/.exec(name)?.[1];
    return day !== undefined && (from === null || day >= from) && (to === null || day <= to);
  }
}

/** Files that this program did not write would be counted beside the new ones. */
function refuseOtherFiles(partition: string): void {
  const other = readdirSync(partition).find((name) => name.endsWith('.parquet') && name !== FILE);
  if (other === undefined) return;
  throw new ExportError(
    `${printable(join(partition, other), 300)} was not written by this program, and would count beside what is exported. ` +
      'Nothing was written: choose another folder, or take that file away.',
  );
}

function removePartition(path: string): void {
  rmSync(join(path, FILE), { force: true });
  if (readdirSync(path).length === 0) rmdirSync(path);
}
