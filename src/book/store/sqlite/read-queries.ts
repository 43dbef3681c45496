import { BookError } from '../book-error.js';
import type { BookRead, LastReadQuery, ReadKey, ReadQuery, ReadWindow } from '../reads.js';
import { Conditions } from './conditions.js';
import type { Connection } from './connection.js';
import { StatementCache } from './statement-cache.js';

// A file set aside and taken in later keeps its bytes under the first entry, which the second one refers to.
const SELECT = `
SELECT r.entry, r.number, r.asset, r.serial, r.board, r.clock, r.content, r.machine, r.received_at AS receivedAt,
  r.reason, r.bag, r.currency, r.decimals, r.verdict, r.rests, r.facts, r.duplicate_entry AS duplicateEntry,
  r.duplicate_number AS duplicateNumber, r.era, r.position, r.at, b.sha256
FROM read r LEFT JOIN entry e ON e.seq = r.entry LEFT JOIN blob b ON b.entry = coalesce(e.refers_to, e.seq)`;

const BY_TIME = 'r.at, r.entry, r.number';

type ReadRow = Omit<BookRead, 'content' | 'sha256' | 'facts' | 'duplicateOf'> & {
  readonly content: Buffer;
  readonly sha256: Buffer | null;
  readonly facts: string | null;
  readonly duplicateEntry: number | null;
  readonly duplicateNumber: number | null;
};

/** Looking reads up. */
export class ReadQueries {
  readonly #connection: Connection;
  readonly #name: string;
  readonly #statements: StatementCache;
  readonly #get;

  /** @param name - what the book is called in messages */
  constructor(connection: Connection, name: string) {
    this.#name = name;
    this.#connection = connection;
    this.#statements = new StatementCache(connection);
    this.#get = connection.prepare<[number, number], ReadRow>(`${SELECT} WHERE r.entry = ? AND r.number = ?`);
  }

  /** Part of a machine's history, or all of it; those without a time first. */
  ofMachine(machine: string, window: ReadWindow): BookRead[] {
    const { from, to, before = 0, after = 0 } = window;
    const isWhole = from === undefined && to === undefined;
    const ofMachine = (): Conditions => new Conditions().add('r.machine = ?', machine);
    const undated = (window.isUndatedIn ?? isWhole) ? this.#all(ofMachine().always('r.at IS NULL'), BY_TIME) : [];
    const earlier =
      from === undefined ? [] : this.#nearest(ofMachine().add('r.at < ?', from), 'DESC', before).reverse();
    const within = ofMachine().always('r.at IS NOT NULL').add('r.at >= ?', from).add('r.at <= ?', to);
    const later = to === undefined ? [] : this.#nearest(ofMachine().add('r.at > ?', to), 'ASC', after);
    return [...undated, ...earlier, ...this.#all(within, BY_TIME), ...later];
  }

  #nearest(where: Conditions, direction: 'ASC' | 'DESC', count: number): BookRead[] {
    if (count <= 0) return [];
    return this.#all(where, `${BY_TIME.replaceAll(',', ` ${direction},`)} ${direction} LIMIT ${Math.floor(count)}`);
  }

  #all(where: Conditions, order: string): BookRead[] {
    const rows = this.#statements.prepare<ReadRow>(`${SELECT} ${where.sql} ORDER BY ${order}`);
    return rows.all(where.values).map((row) => this.#complete(row));
  }

  /** The keys of the reads that fit: entry and number in turn. */
  keys(query: ReadQuery): number[] {
    const where = conditionsOf(query);
    const order = query.order === 'machine' ? `r.machine, ${BY_TIME}` : 'r.entry, r.number';
    return this.#statements
      .prepare<number[]>(`SELECT r.entry, r.number FROM read r ${where.sql} ORDER BY ${order}`)
      .raw()
      .all(where.values)
      .flat();
  }

  get({ entry, number }: ReadKey): BookRead {
    return this.#complete(this.#get.get(entry, number)!);
  }

  #complete(row: ReadRow): BookRead {
    const { duplicateEntry, duplicateNumber, sha256 } = row;
    // Not left out silently: a read without its file would be missing from the accounts.
    if (sha256 === null) {
      const text = `${this.#name} is damaged: the file that came with entry ${row.entry} is missing. Verify the book.`;
      throw new BookError('corrupted', text);
    }
    let facts: unknown;
    // Written out key by key, and facts only when they are asked for: of most rows nothing but their place is looked at.
    return {
      entry: row.entry,
      number: row.number,
      asset: row.asset,
      serial: row.serial,
      board: row.board,
      clock: row.clock,
      machine: row.machine,
      receivedAt: row.receivedAt,
      reason: row.reason,
      bag: row.bag,
      currency: row.currency,
      decimals: row.decimals,
      verdict: row.verdict,
      at: row.at,
      rests: row.rests,
      era: row.era,
      position: row.position,
      content: row.content.toString('hex'),
      sha256: sha256.toString('hex'),
      get facts() {
        facts ??= row.facts === null ? null : (JSON.parse(row.facts) as unknown);
        return facts;
      },
      duplicateOf: duplicateEntry === null ? null : { entry: duplicateEntry, number: duplicateNumber! },
    };
  }

  /** The latest read of each machine that fits. */
  last(query: LastReadQuery): BookRead[] {
    const where = new Conditions()
      .always('l.machine = m.key AND l.at IS NOT NULL AND l.duplicate_entry IS NULL')
      .add('l.at <= ?', query.atTo)
      .add('l.reason = ?', query.reason)
      .addOneOf('l.verdict', query.verdicts);
    const latest = `SELECT l.entry, l.number FROM read l ${where.sql} ORDER BY l.at DESC, l.entry DESC, l.number DESC LIMIT 1`;
    const lookup = (column: string): string => `(SELECT ${column} FROM (${latest}))`;
    return this.#connection
      .prepare<unknown[], number[]>(`SELECT ${lookup('entry')}, ${lookup('number')} FROM machine m ORDER BY m.key`)
      .raw()
      .all([...where.values, ...where.values])
      .filter(([entry]) => entry !== null)
      .map(([entry, number]) => this.get({ entry: entry!, number: number! }));
  }
}

function conditionsOf(query: ReadQuery): Conditions {
  const content = query.content === undefined ? undefined : Buffer.from(query.content, 'hex');
  const where = new Conditions()
    .add('r.entry >= ?', query.entryFrom)
    .add('r.entry < ?', query.entryTo)
    .add('r.machine IS ?', query.machine)
    .add('r.at >= ?', query.atFrom)
    .add('r.at <= ?', query.atTo)
    .add('r.verdict = ?', query.verdict)
    .add('substr(r.content, 1, 6) = ?', content?.subarray(0, 6))
    .add('r.content = ?', content);
  if (query.isDuplicate !== undefined) where.always(`r.duplicate_entry IS ${query.isDuplicate ? 'NOT ' : ''}NULL`);
  if (query.isPlaced !== undefined) where.always(`r.position IS ${query.isPlaced ? 'NOT ' : ''}NULL`);
  const isByTime = query.atFrom !== undefined || query.atTo !== undefined;
  // Times are indexed by machine: naming all machines lets the index be used for each.
  if (isByTime && query.machine === undefined)
    where.always('r.machine IN (SELECT key FROM machine) OR r.machine IS NULL');
  return where;
}
