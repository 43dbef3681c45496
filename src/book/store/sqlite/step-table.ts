import { createHash } from 'node:crypto';
import type { ReadKey } from '../reads.js';
import type { BookStep, StepQuery, StepToKeep } from '../steps.js';
import { Conditions } from './conditions.js';
import type { Connection } from './connection.js';
import { StatementCache } from './statement-cache.js';

const SELECT = `
SELECT s.entry, s.number, s.from_entry AS fromEntry, s.from_number AS fromNumber, s.layout, s.figures, s.findings, s.seal,
  r.machine, r.at AS toAt, f.at AS fromAt, r.rests AS toRests, f.rests AS fromRests
FROM read r JOIN step s ON s.entry = r.entry AND s.number = r.number
  JOIN read f ON f.entry = s.from_entry AND f.number = s.from_number`;

type StepRow = Omit<BookStep, 'from' | 'to' | 'layout'> & {
  readonly entry: number;
  readonly number: number;
  readonly fromEntry: number;
  readonly fromNumber: number;
  readonly layout: number;
};

/** What tells one step from another: its reads, by the later of them, and its figures. */
export interface StoredStep extends ReadKey {
  readonly fromEntry: number;
  readonly fromNumber: number;
  /** The number of its layout. */
  readonly layout: number;
  readonly figures: Uint8Array;
}

/** The table of steps, each under its later read. */
export class StepTable {
  readonly #statements: StatementCache;
  readonly #layouts: LayoutTable;
  readonly #insert;
  readonly #own;
  readonly #fromThis;
  readonly #remove;
  readonly #get;
  readonly #clear;

  constructor(connection: Connection) {
    this.#statements = new StatementCache(connection);
    this.#layouts = new LayoutTable(connection);
    this.#insert = connection.prepare(
      'INSERT INTO step (entry, number, from_entry, from_number, layout, figures, findings, seal) ' +
        'VALUES (?, ?, ?, ?, ?, ?, ?, ?)',
    );
    this.#own = connection.prepare<[number, number], StoredStep>(
      'SELECT entry, number, from_entry AS fromEntry, from_number AS fromNumber, layout, figures ' +
        'FROM step WHERE entry = ? AND number = ?',
    );
    this.#fromThis = connection.prepare<[number, number], ReadKey>(
      'SELECT entry, number FROM step WHERE from_entry = ? AND from_number = ?',
    );
    this.#remove = connection.prepare('DELETE FROM step WHERE entry = ? AND number = ?');
    this.#get = connection.prepare<[number, number], StepRow>(`${SELECT} WHERE r.entry = ? AND r.number = ?`);
    this.#clear = connection.prepare('DELETE FROM step');
  }

  insert({ from, to, layout, figures, findings, seal }: StepToKeep): StoredStep {
    const id = this.#layouts.idOf(layout);
    this.#insert.run(to.entry, to.number, from.entry, from.number, id, figures, findings, seal);
    return { ...to, fromEntry: from.entry, fromNumber: from.number, layout: id, figures };
  }

  /** Remove the steps between any two of some reads. Gives those that there were. */
  removeWithin(reads: readonly ReadKey[]): StoredStep[] {
    const window = new Set(reads.map(nameOf));
    const removed: StoredStep[] = [];
    for (const { entry, number } of reads) {
      const own = this.#own.get(entry, number);
      if (own === undefined || !window.has(`${own.fromEntry}/${own.fromNumber}`)) continue;
      this.#remove.run(entry, number);
      removed.push(own);
    }
    return removed;
  }

  /** Remove the steps that begin or end with any of some reads. Gives the reads at the ends of those that there were. */
  removeTouching(reads: readonly ReadKey[]): ReadKey[] {
    const removed: ReadKey[] = [];
    for (const key of reads) {
      for (const end of [...this.#fromThis.all(key.entry, key.number), key]) {
        if (this.#remove.run(end.entry, end.number).changes > 0) removed.push(end);
      }
    }
    return removed;
  }

  /** The reads at the ends of the steps that begin with a read. */
  endsAfter({ entry, number }: ReadKey): ReadKey[] {
    return this.#fromThis.all(entry, number);
  }

  clear(): void {
    this.#clear.run();
  }

  /** The keys of the later reads of the steps that fit, entry and number in turn; by machine, then time. */
  keys(query: StepQuery): number[] {
    const where = whereOf(query);
    const join = 'read r JOIN step s ON s.entry = r.entry AND s.number = r.number';
    return this.#statements
      .prepare<number[]>(`SELECT s.entry, s.number FROM ${join} ${where.sql} ORDER BY ${ORDER}`)
      .raw()
      .all(where.values)
      .flat();
  }

  /** The steps of one machine that fit, in order. */
  ofMachine(query: StepQuery & { readonly machine: string }): BookStep[] {
    const where = whereOf(query);
    const rows = this.#statements.prepare<StepRow>(`${SELECT} ${where.sql} ORDER BY ${ORDER}`);
    return rows.all(where.values).map((row) => this.#complete(row));
  }

  /** The step that ends with a read; null when there is none. */
  get({ entry, number }: ReadKey): BookStep | null {
    const row = this.#get.get(entry, number);
    return row === undefined ? null : this.#complete(row);
  }

  #complete({ entry, number, fromEntry, fromNumber, layout, ...rest }: StepRow): BookStep {
    return {
      ...rest,
      layout: this.#layouts.text(layout),
      from: { entry: fromEntry, number: fromNumber },
      to: { entry, number },
    };
  }
}

const ORDER = 'r.machine, r.at, r.entry, r.number';
const nameOf = ({ entry, number }: ReadKey): string => `${entry}/${number}`;

function whereOf(query: StepQuery): Conditions {
  const where = new Conditions()
    .add('r.machine = ?', query.machine)
    .add('r.at >= ?', query.atFrom)
    .add('r.at <= ?', query.atTo);
  const isByTime = query.atFrom !== undefined || query.atTo !== undefined;
  // Times are indexed by machine: naming all machines lets the index be used for each.
  if (isByTime && query.machine === undefined) where.always('r.machine IN (SELECT key FROM machine)');
  return where;
}

/** How many layouts are held in memory. */
const LAYOUTS_AT_HAND = 2000;

/** What steps have in common: each text once, by a number. */
class LayoutTable {
  readonly #find;
  readonly #insert;
  readonly #text;
  readonly #hash;
  readonly #idOfText = new Map<string, number>();
  readonly #textOfId = new Map<number, string>();

  constructor(connection: Connection) {
    this.#find = connection
      .prepare<[Uint8Array, string], number>('SELECT id FROM layout WHERE hash = ? AND body = ?')
      .pluck();
    this.#insert = connection.prepare('INSERT INTO layout (hash, body) VALUES (?, ?)');
    this.#text = connection.prepare<[number], string>('SELECT body FROM layout WHERE id = ?').pluck();
    this.#hash = connection.prepare<[number], Buffer>('SELECT hash FROM layout WHERE id = ?').pluck();
  }

  /** The number of a text, which is stored where it was not. */
  idOf(text: string): number {
    const hash = createHash('sha256').update(text).digest().subarray(0, 8);
    const known = this.#idOfText.get(text);
    // A transaction that was undone may have taken it away, and its number may be another's now.
    if (known !== undefined && this.#hash.get(known)?.equals(hash) === true) return known;
    const id = this.#find.get(hash, text) ?? Number(this.#insert.run(hash, text).lastInsertRowid);
    if (this.#idOfText.size >= LAYOUTS_AT_HAND) this.#idOfText.clear();
    this.#idOfText.set(text, id);
    this.#textOfId.delete(id);
    return id;
  }

  /** The text of a number; empty where it has gone, with which no step can be unpacked. */
  text(id: number): string {
    const known = this.#textOfId.get(id);
    if (known !== undefined) return known;
    const text = this.#text.get(id) ?? '';
    if (this.#textOfId.size >= LAYOUTS_AT_HAND) this.#textOfId.clear();
    this.#textOfId.set(id, text);
    return text;
  }
}
