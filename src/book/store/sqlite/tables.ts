import { BlobTable } from './blob-table.js';
import type { Connection } from './connection.js';
import { EntryTable } from './entry-table.js';
import { IntervalTable } from './interval-table.js';
import { MachineTable } from './machine-table.js';
import { ReadQueries } from './read-queries.js';
import { ReadTable } from './read-table.js';
import { SeenTable } from './seen-table.js';
import { TreeTable } from './tree-table.js';

/** All tables of a book. */
export interface Tables {
  readonly entries: EntryTable;
  readonly tree: TreeTable;
  readonly blobs: BlobTable;
  readonly reads: ReadTable;
  readonly readQueries: ReadQueries;
  readonly intervals: IntervalTable;
  readonly machines: MachineTable;
  readonly seen: SeenTable;
}

/**
 * The tables of an open book, their statements prepared.
 *
 * @param name - what the book is called in messages
 */
export function prepareTables(connection: Connection, name: string): Tables {
  return {
    entries: new EntryTable(connection),
    tree: new TreeTable(connection, name),
    blobs: new BlobTable(connection, name),
    reads: new ReadTable(connection),
    readQueries: new ReadQueries(connection, name),
    intervals: new IntervalTable(connection),
    machines: new MachineTable(connection),
    seen: new SeenTable(connection),
  };
}
