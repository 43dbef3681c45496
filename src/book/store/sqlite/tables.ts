import { BlobTable } from './blob-table.js';
import type { Connection } from './connection.js';
import { DayMarks } from './day-marks.js';
import { EntryTable } from './entry-table.js';
import { MachineTable } from './machine-table.js';
import { NoteTable } from './note-table.js';
import { ReadQueries } from './read-queries.js';
import { ReadTable } from './read-table.js';
import { SeenTable } from './seen-table.js';
import { StepTable } from './step-table.js';
import { TreeTable } from './tree-table.js';

/** All tables of a book. */
export interface Tables {
  readonly entries: EntryTable;
  readonly tree: TreeTable;
  readonly blobs: BlobTable;
  readonly reads: ReadTable;
  readonly readQueries: ReadQueries;
  readonly steps: StepTable;
  readonly notes: NoteTable;
  readonly dayMarks: DayMarks;
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
    steps: new StepTable(connection),
    notes: new NoteTable(connection),
    dayMarks: new DayMarks(connection),
    machines: new MachineTable(connection),
    seen: new SeenTable(connection),
  };
}
