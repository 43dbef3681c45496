import type { LocalDateTime } from '../../../model/index.js';
import type { BookMachine, StaleMachine } from '../steps.js';
import type { Connection } from './connection.js';

/**
 * The table of machines: what was last said of them, and since when their intervals are not up to date. Each change of a
 * machine's reads raises its revision; its intervals are stale while they were worked out for an earlier one.
 */
export class MachineTable {
  readonly #mark;
  readonly #markAll;
  readonly #settle;
  readonly #stale;
  readonly #remember;
  readonly #all;

  constructor(connection: Connection) {
    // min() of SQL with several values is NULL when one of them is: a change at no known time may be anywhere.
    this.#mark = connection.prepare(
      'INSERT INTO machine (key, revision, stale_since) VALUES (?, 1, ?) ON CONFLICT (key) DO UPDATE SET ' +
        'stale_since = CASE WHEN revision = worked_out THEN excluded.stale_since ' +
        'ELSE min(stale_since, excluded.stale_since) END, revision = revision + 1',
    );
    this.#markAll = connection.prepare('UPDATE machine SET revision = revision + 1, stale_since = NULL');
    // Never beyond what there is: changes still to come must not be taken for worked out.
    this.#settle = connection.prepare(
      'UPDATE machine SET worked_out = min(?, revision) WHERE key = ? AND worked_out < ?',
    );
    this.#stale = connection.prepare<[], StaleMachine>(
      'SELECT key AS machine, revision, stale_since AS since FROM machine WHERE revision > worked_out ORDER BY key',
    );
    this.#remember = connection.prepare(
      'INSERT INTO machine (key, facts) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET facts = excluded.facts',
    );
    this.#all = connection.prepare<[], { key: string; facts: string | null }>(
      'SELECT key, facts FROM machine ORDER BY key',
    );
  }

  /** A machine's intervals are out of date from a time on, or anywhere. */
  mark(key: string, since: LocalDateTime | null): void {
    this.#mark.run(key, since);
  }

  /** All intervals of all machines are out of date. */
  markAll(): void {
    this.#markAll.run();
  }

  /** A machine's intervals are what they should be as of a revision. */
  settle(key: string, revision: number): void {
    this.#settle.run(revision, key, revision);
  }

  stale(): StaleMachine[] {
    return this.#stale.all();
  }

  remember({ key, facts }: BookMachine): void {
    this.#remember.run(key, facts === null ? null : JSON.stringify(facts));
  }

  all(): BookMachine[] {
    return this.#all
      .all()
      .map(({ key, facts }) => ({ key, facts: facts === null ? null : (JSON.parse(facts) as unknown) }));
  }
}
