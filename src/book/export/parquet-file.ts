import { closeSync, fsyncSync, openSync, writeSync } from 'node:fs';
import type { ByteWriter, ParquetWriter, SchemaElement } from 'hyparquet-writer';
import { makeCells, makeParquetSchema, type ParquetTable } from './parquet-table.js';

/** Rows that are held before they are written. */
export const ROWS_A_GROUP = 10_000;

/** A Parquet file that rows are added to; no more than one group of rows is held. */
export class ParquetFile<Row> {
  readonly #table: ParquetTable<Row>;
  readonly #rowsAGroup: number;
  readonly #fd: number;
  readonly #bytes: ByteWriter;
  readonly #writer: ParquetWriter;
  #rows: Row[] = [];
  /** Rows that were added. */
  count = 0;

  private constructor(fd: number, table: ParquetTable<Row>, rowsAGroup: number, library: Library) {
    this.#table = table;
    this.#rowsAGroup = rowsAGroup;
    this.#fd = fd;
    this.#bytes = new library.ByteWriter();
    // The library's own types name what it takes, but readonly lists are not among it.
    const schema = makeParquetSchema(table) as SchemaElement[];
    this.#writer = new library.ParquetWriter({ writer: this.#bytes, schema, createdBy: 'coilbook' });
  }

  /**
   * Make a new file.
   *
   * @param open - how to open it: one that is there already must be refused
   * @throws the system's error (as a rejection), also when there is one of that name
   */
  static async create<Row>(
    path: string,
    table: ParquetTable<Row>,
    rowsAGroup: number = ROWS_A_GROUP,
    open: (path: string) => number = (name) => openSync(name, 'wx'),
  ): Promise<ParquetFile<Row>> {
    // Loaded when it is needed: everything else runs without it.
    const library = await import('hyparquet-writer');
    return new ParquetFile(open(path), table, rowsAGroup, library);
  }

  /** @throws the system's error */
  add(rows: readonly Row[]): void {
    for (const row of rows) this.#rows.push(row);
    this.count += rows.length;
    while (this.#rows.length >= this.#rowsAGroup) this.#writeGroup(this.#rows.splice(0, this.#rowsAGroup));
  }

  /**
   * Write what is left, and make sure that it is on the disk.
   *
   * @throws the system's error; the file is closed then too
   */
  end(): void {
    try {
      if (this.#rows.length > 0) this.#writeGroup(this.#rows);
      this.#rows = [];
      void this.#writer.finish();
      this.#flush();
      fsyncSync(this.#fd);
    } finally {
      closeSync(this.#fd);
    }
  }

  /** Leave it as it is, unfinished. */
  abandon(): void {
    this.#rows = [];
    closeSync(this.#fd);
  }

  #writeGroup(rows: readonly Row[]): void {
    const columnData = this.#table.columns.map((column) => ({ name: column.name, data: makeCells(column, rows) }));
    void this.#writer.write({ columnData, rowGroupSize: this.#rowsAGroup });
    this.#flush();
  }

  #flush(): void {
    const bytes = this.#bytes.getBytes();
    for (let written = 0; written < bytes.length; ) written += writeSync(this.#fd, bytes, written);
    this.#bytes.index = 0;
  }
}

type Library = typeof import('hyparquet-writer');
