import { pushAll } from '../../model/index.js';
import { type BookStore, canonicalJson, type Entry, type EntryQuery, type EntryToRecord } from '../store/index.js';

/**
 * A book with entries that are about to be recorded, or would be: whoever looks at it finds them as if they were there. What
 * is worked out, shown and recorded goes one way by this, whether it is kept or not.
 *
 * What comes into the book meanwhile is not seen: record the entries on condition that it is of the same size still.
 */
export class PlannedBook {
  /** The book with what is planned. Nothing can be recorded through it. */
  readonly store: BookStore;
  /** How many entries the book has without what is planned. */
  readonly size: number;
  readonly #planned: EntryToRecord[] = [];
  readonly #book: BookStore;
  #worked: { readonly next: number; readonly results: WeakMap<object, Map<number, unknown>> } | null = null;

  constructor(book: BookStore, size: number) {
    this.#book = book;
    this.size = size;
    this.store = new Proxy(book, { get: (target, name) => this.#find(target, name) });
  }

  /** What is to be recorded, in order. */
  get entries(): readonly EntryToRecord[] {
    return this.#planned;
  }

  /** The number that the next entry will have. */
  get next(): number {
    return this.size + this.#planned.length;
  }

  /** Plan an entry. */
  add(...entries: readonly EntryToRecord[]): void {
    pushAll(this.#planned, entries);
  }

  /**
   * What was worked out for an entry by a request, once for as long as nothing more is planned.
   *
   * @param request - the same object for what is asked in the same way
   */
  async workedFor<T>(request: object, entry: number, work: () => Promise<T>): Promise<T> {
    if (this.#worked?.next !== this.next) this.#worked = { next: this.next, results: new WeakMap() };
    const { results } = this.#worked;
    const own = results.get(request) ?? new Map<number, unknown>();
    results.set(request, own);
    if (!own.has(entry)) own.set(entry, await work());
    return own.get(entry) as T;
  }

  #find(target: BookStore, name: string | symbol): unknown {
    switch (name) {
      case 'entry':
        return (seq: number) => this.#entry(seq);
      case 'entries':
        return (query: EntryQuery = {}) => this.#entries(query);
      case 'recordEntries':
      case 'recordCaptures':
        return () => Promise.reject(new RangeError('nothing is recorded in a book that is only planned'));
      default: {
        const value = Reflect.get(target, name) as unknown;
        return typeof value === 'function' ? value.bind(target) : value;
      }
    }
  }

  async #entry(seq: number): Promise<Entry | null> {
    if (seq < this.size) return this.#book.entry(seq);
    const planned = this.#planned[seq - this.size];
    return planned === undefined ? null : asRecorded(planned, seq);
  }

  async *#entries(query: EntryQuery): AsyncGenerator<Entry> {
    yield* this.#book.entries({ ...query, to: Math.min(query.to ?? this.size, this.size) });
    for (const [place, planned] of this.#planned.entries()) {
      const entry = asRecorded(planned, this.size + place);
      if (isAskedFor(entry, query)) yield entry;
    }
  }
}

function asRecorded(entry: EntryToRecord, seq: number): Entry {
  const { kind, recordedAt, subject = null, day = null, key = null, refersTo = null, body } = entry;
  return { seq, kind, recordedAt, subject, day, key, refersTo, body: canonicalJson(body) };
}

/** The same that the book's own look-up asks of an entry. */
function isAskedFor(entry: Entry, { from, to, kinds, subject, key, refersTo, dayFrom, dayTo }: EntryQuery): boolean {
  const { seq, kind, day } = entry;
  if ((from !== undefined && seq < from) || (to !== undefined && seq >= to)) return false;
  if (kinds !== undefined && !kinds.includes(kind)) return false;
  if (subject !== undefined && entry.subject !== subject) return false;
  if (key !== undefined && entry.key !== key) return false;
  if (refersTo !== undefined && entry.refersTo !== refersTo) return false;
  if (dayFrom !== undefined && (day === null || day < dayFrom)) return false;
  return dayTo === undefined || (day !== null && day <= dayTo);
}
