import { createHash } from 'node:crypto';
import { writeReadLine } from '../leaf-text.js';
import type { KnownOfRead, ReadKey, ReadToRecord, RecordedRead, WorkedOutRead } from '../reads.js';
import type { Connection } from './connection.js';
import type { ToldOfRead } from './day-marks.js';

const RECORDED = ['entry', 'number', 'asset', 'serial', 'board', 'clock', 'content'] as const;
const KNOWN = [
  'machine',
  'received_at',
  'reason',
  'bag',
  'currency',
  'decimals',
  'verdict',
  'at',
  'rests',
  'facts',
] as const;
const PLACE = ['duplicate_entry', 'duplicate_number', 'era', 'position'] as const;

/** How many reads, and the digest over what is recorded of them. */
export interface ReadDigest {
  readonly count: number;
  readonly sha256: string;
}

type RecordedRow = Omit<RecordedRead, 'content'> & { readonly content: Buffer };

/** The table of reads: adding them, and changing what is worked out of them. */
export class ReadTable {
  readonly #insert;
  readonly #equal;
  readonly #update;
  readonly #machine;
  readonly #told;
  readonly #recorded;

  constructor(connection: Connection) {
    const columns = [...RECORDED, ...KNOWN, ...PLACE.slice(0, 2)];
    this.#insert = connection.prepare(
      `INSERT INTO read (${columns.join(', ')}) VALUES (${columns.map(() => '?').join(', ')})`,
    );
    this.#equal = connection.prepare<[Uint8Array, Uint8Array, string | null], ReadKey>(
      'SELECT coalesce(duplicate_entry, entry) AS entry, coalesce(duplicate_number, number) AS number FROM read ' +
        'WHERE substr(content, 1, 6) = substr(?, 1, 6) AND content = ? AND machine IS ? ORDER BY read.entry, read.number LIMIT 1',
    );
    this.#update = connection.prepare(
      `UPDATE read SET ${[...KNOWN, ...PLACE].map((column) => `${column} = ?`).join(', ')} WHERE entry = ? AND number = ?`,
    );
    this.#machine = connection
      .prepare<[number, number], string | null>('SELECT machine FROM read WHERE entry = ? AND number = ?')
      .pluck();
    this.#told = connection.prepare<[number, number], ToldOfRead>(
      'SELECT at, currency, decimals FROM read WHERE entry = ? AND number = ?',
    );
    this.#recorded = connection.prepare<[number], RecordedRow>(
      'SELECT number, asset, serial, board, clock, content FROM read WHERE entry = ? ORDER BY number',
    );
  }

  /** Add a read. Gives the one it is the same as, by content and machine, or null. */
  insert(entry: number, read: ReadToRecord): ReadKey | null {
    const content = Buffer.from(read.content, 'hex');
    const same = this.#equal.get(content, content, read.machine) ?? null;
    this.#insert.run([
      entry,
      read.number,
      read.asset,
      read.serial,
      read.board,
      read.clock,
      content,
      ...valuesOf(read),
      same?.entry ?? null,
      same?.number ?? null,
    ]);
    return same;
  }

  /**
   * Replace what is worked out of a read.
   *
   * @throws RangeError when there is no such read
   */
  update(read: WorkedOutRead): void {
    const { duplicateOf, era, position, entry, number } = read;
    const place = [duplicateOf?.entry ?? null, duplicateOf?.number ?? null, era, position];
    const { changes } = this.#update.run([...valuesOf(read), ...place, entry, number]);
    if (changes === 0) throw new RangeError(`There is no read ${number} of entry ${entry}.`);
  }

  /** What the tables of days tell of a read; nothing of one that there is not. */
  toldOf({ entry, number }: ReadKey): ToldOfRead {
    return this.#told.get(entry, number) ?? { at: null, currency: null, decimals: null };
  }

  /** The key of a read's machine; undefined when there is no such read. */
  machineOf({ entry, number }: ReadKey): string | null | undefined {
    return this.#machine.get(entry, number);
  }

  /** The digest over what is recorded of an entry's reads, from the table. */
  digestOf(entry: number): ReadDigest {
    const digest = new ReadDigester();
    for (const row of this.#recorded.iterate(entry)) digest.add({ ...row, content: row.content.toString('hex') });
    return digest.end();
  }
}

const valuesOf = (read: KnownOfRead): (string | number | Uint8Array | null)[] => [
  read.machine,
  read.receivedAt,
  read.reason,
  read.bag,
  read.currency,
  read.decimals,
  read.verdict,
  read.at,
  read.rests,
  read.facts === null ? null : JSON.stringify(read.facts),
];

/** Takes the digest of reads as they come. */
export class ReadDigester {
  readonly #hash = createHash('sha256');
  #count = 0;

  add(read: RecordedRead): void {
    this.#hash.update(writeReadLine(read));
    this.#count++;
  }

  end(): ReadDigest {
    return { count: this.#count, sha256: this.#hash.digest('hex') };
  }
}
