import type { BookInterval, IntervalQuery, IntervalToKeep } from '../intervals.js';
import type { ReadKey } from '../reads.js';
import { Conditions } from './conditions.js';
import type { Connection } from './connection.js';
import { StatementCache } from './statement-cache.js';

const SELECT = `
SELECT i.entry, i.number, i.from_entry AS fromEntry, i.from_number AS fromNumber, i.currency, i.decimals, i.sold, i.value,
  i.severity, i.body, r.machine, r.at AS toAt, f.at AS fromAt
FROM interval i JOIN read r ON r.entry = i.entry AND r.number = i.number
  JOIN read f ON f.entry = i.from_entry AND f.number = i.from_number`;

type IntervalRow = Omit<BookInterval, 'from' | 'to' | 'body'> & {
  readonly entry: number;
  readonly number: number;
  readonly fromEntry: number;
  readonly fromNumber: number;
  readonly body: string;
};

/** The table of intervals, each under its later read. */
export class IntervalTable {
  readonly #connection: Connection;
  readonly #statements: StatementCache;
  readonly #insert;
  readonly #from;
  readonly #remove;
  readonly #get;
  readonly #clear;

  constructor(connection: Connection) {
    this.#connection = connection;
    this.#statements = new StatementCache(connection);
    this.#insert = connection.prepare(
      'INSERT INTO interval (entry, number, from_entry, from_number, currency, decimals, sold, value, severity, body) ' +
        'VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)',
    );
    this.#from = connection.prepare<[number, number], ReadKey>(
      'SELECT from_entry AS entry, from_number AS number FROM interval WHERE entry = ? AND number = ?',
    );
    this.#remove = connection.prepare('DELETE FROM interval WHERE entry = ? AND number = ?');
    this.#get = connection.prepare<[number, number], IntervalRow>(`${SELECT} WHERE i.entry = ? AND i.number = ?`);
    this.#clear = connection.prepare('DELETE FROM interval');
  }

  insert({ from, to, currency, decimals, sold, value, severity, body }: IntervalToKeep): void {
    const figures = [currency, decimals, sold, value, severity, JSON.stringify(body)];
    this.#insert.run([to.entry, to.number, from.entry, from.number, ...figures]);
  }

  /** Remove the intervals between any two of some reads. */
  removeWithin(reads: readonly ReadKey[]): void {
    const window = new Set(reads.map(nameOf));
    for (const { entry, number } of reads) {
      const from = this.#from.get(entry, number);
      if (from !== undefined && window.has(nameOf(from))) this.#remove.run(entry, number);
    }
  }

  /** Remove the intervals that begin or end with any of some reads. */
  removeTouching(reads: readonly ReadKey[]): void {
    const touched = new Set(reads.map(nameOf));
    const all = this.#connection
      .prepare<[], number[]>('SELECT entry, number, from_entry, from_number FROM interval')
      .raw()
      .all();
    for (const [entry, number, fromEntry, fromNumber] of all) {
      const isTouched = touched.has(`${entry}/${number}`) || touched.has(`${fromEntry}/${fromNumber}`);
      if (isTouched) this.#remove.run(entry, number);
    }
  }

  clear(): void {
    this.#clear.run();
  }

  /** The keys of the later reads of the intervals that fit, entry and number in turn; by machine, then time. */
  keys(query: IntervalQuery): number[] {
    const where = new Conditions()
      .add('r.machine = ?', query.machine)
      .add('r.at >= ?', query.atFrom)
      .add('r.at <= ?', query.atTo)
      .add('i.entry >= ?', query.entryFrom)
      .add('i.entry < ?', query.entryTo);
    const isByTime = query.atFrom !== undefined || query.atTo !== undefined;
    // Times are indexed by machine: naming all machines lets the index be used for each.
    if (isByTime && query.machine === undefined) where.always('r.machine IN (SELECT key FROM machine)');
    const join = 'interval i JOIN read r ON r.entry = i.entry AND r.number = i.number';
    return this.#statements
      .prepare<number[]>(
        `SELECT i.entry, i.number FROM ${join} ${where.sql} ORDER BY r.machine, r.at, i.entry, i.number`,
      )
      .raw()
      .all(where.values)
      .flat();
  }

  /** The interval that ends with a read; null when it has gone meanwhile. */
  get({ entry, number }: ReadKey): BookInterval | null {
    const row = this.#get.get(entry, number);
    if (row === undefined) return null;
    const { entry: _, number: __, fromEntry, fromNumber, body, ...rest } = row;
    return {
      ...rest,
      from: { entry: fromEntry, number: fromNumber },
      to: { entry, number },
      body: JSON.parse(body) as unknown,
    };
  }
}

const nameOf = ({ entry, number }: ReadKey): string => `${entry}/${number}`;
