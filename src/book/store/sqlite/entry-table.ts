import type { Entry, EntryQuery } from '../entries.js';
import { Conditions } from './conditions.js';
import type { Connection } from './connection.js';
import { StatementCache } from './statement-cache.js';

/** Entries looked up at a time: few enough that large ones do not add up. */
const PAGE = 200;

const COLUMNS = 'seq, kind, recorded_at AS recordedAt, subject, day, key, refers_to AS refersTo, body';

/** The table of entries. */
export class EntryTable {
  readonly #statements: StatementCache;
  readonly #size;
  readonly #insert;
  readonly #get;
  readonly #byKey;

  constructor(connection: Connection) {
    this.#statements = new StatementCache(connection);
    this.#size = connection.prepare<[], number>('SELECT coalesce(max(seq), -1) + 1 FROM entry').pluck();
    this.#insert = connection.prepare(
      'INSERT INTO entry (seq, kind, recorded_at, subject, day, key, refers_to, body) VALUES (?, ?, ?, ?, ?, ?, ?, ?)',
    );
    this.#get = connection.prepare<[number], Entry>(`SELECT ${COLUMNS} FROM entry WHERE seq = ?`);
    this.#byKey = connection.prepare<[string], number>('SELECT seq FROM entry WHERE key = ?').pluck();
  }

  /** How many there are: the number of the next one. */
  size(): number {
    return this.#size.get()!;
  }

  insert({ seq, kind, recordedAt, subject, day, key, refersTo, body }: Entry): void {
    this.#insert.run(seq, kind, recordedAt, subject, day, key, refersTo, body);
  }

  get(seq: number): Entry | null {
    return this.#get.get(seq) ?? null;
  }

  findKey(key: string): number | null {
    return this.#byKey.get(key) ?? null;
  }

  /** The first entries that fit and come after another; none when there are no more. */
  page(query: EntryQuery, after: number): Entry[] {
    // The plus keeps the number from being preferred to the day, which few entries have.
    const number = query.dayFrom !== undefined || query.dayTo !== undefined ? '+seq' : 'seq';
    const where = conditionsOf(query).add(`${number} > ?`, after);
    return this.#statements
      .prepare<Entry>(`SELECT ${COLUMNS} FROM entry ${where.sql} ORDER BY ${number} LIMIT ${PAGE}`)
      .all(where.values);
  }
}

function conditionsOf(query: EntryQuery): Conditions {
  const where = new Conditions()
    .add('seq >= ?', query.from)
    .add('seq < ?', query.to)
    .addOneOf('kind', query.kinds)
    .add('subject = ?', query.subject)
    .add('key = ?', query.key)
    .add('refers_to = ?', query.refersTo)
    .add('day >= ?', query.dayFrom)
    .add('day <= ?', query.dayTo);
  // Spelt out, so that the index without captures is used: most entries are captures.
  if (query.kinds !== undefined && !query.kinds.includes('capture-taken')) where.always(`kind <> 'capture-taken'`);
  return where;
}
