import type { Statement } from 'better-sqlite3';
import type { Connection } from './connection.js';

/** Statements kept at hand: there are no more kinds of query than that but for lists of values. */
const MOST = 64;

/**
 * Statements that are put together as they are asked for, each prepared once: preparing takes longer than most of them run, and
 * what was prepared is freed only when garbage is collected.
 */
export class StatementCache {
  readonly #connection: Connection;
  readonly #statements = new Map<string, Statement<unknown[], unknown>>();

  constructor(connection: Connection) {
    this.#connection = connection;
  }

  /** The statement of that text; it gives rows as objects. It must not be in use while it is asked for again. */
  prepare<Row>(sql: string): Statement<unknown[], Row> {
    const known = this.#statements.get(sql);
    if (known !== undefined) return known as Statement<unknown[], Row>;
    if (this.#statements.size >= MOST) this.#statements.clear();
    const made = this.#connection.prepare<unknown[], Row>(sql);
    this.#statements.set(sql, made as Statement<unknown[], unknown>);
    return made;
  }
}
