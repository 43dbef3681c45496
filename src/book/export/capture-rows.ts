import { nameOfMachineKey } from '../../model/index.js';
import { type KnownFile, readFileEntry } from '../recall/index.js';
import { BookError, type BookRead, type BookStore, type Entry } from '../store/index.js';
import type { CaptureRow } from './tables.js';

/** Files that are known at a time, where nothing else is said. */
const FILES_AT_HAND = 2000;

/** Makes rows of what came in. */
export class CaptureRows {
  readonly #store: BookStore;
  readonly #filesAtHand: number;
  readonly #files = new Map<number, KnownFile>();

  constructor(store: BookStore, filesAtHand = FILES_AT_HAND) {
    this.#store = store;
    this.#filesAtHand = filesAtHand;
  }

  /** The row of a read. @throws BookError (as a rejection) `corrupted` when its file's entry is missing */
  async ofRead(read: BookRead): Promise<CaptureRow> {
    const { entry, number, sha256, asset, serial, board, clock } = read;
    const { receivedAt, reason, bag, verdict, currency, decimals, duplicateOf } = read;
    const { name, kind } = await this.#file(entry);
    return {
      entry,
      number,
      kind,
      file: name,
      sha256,
      machine: read.machine && nameOfMachineKey(read.machine),
      asset,
      serial,
      board,
      clock,
      receivedAt,
      reason,
      bag,
      verdict,
      currency,
      decimals,
      duplicateOf,
      message: null,
    };
  }

  async #file(entry: number): Promise<KnownFile> {
    const known = this.#files.get(entry);
    if (known !== undefined) return known;
    const found = await this.#store.entry(entry);
    if (found === null) throw new BookError('corrupted', `Entry ${entry} is missing. Verify the book.`);
    const file = readFileEntry(found);
    if (this.#files.size >= this.#filesAtHand) this.#files.clear();
    this.#files.set(entry, file);
    return file;
  }
}

/** The row of a file that was set aside: there is no read in it. */
export function makeSetAsideRow(entry: Entry): CaptureRow {
  const { name, kind, sha256, message } = readFileEntry(entry);
  return {
    entry: entry.seq,
    number: null,
    kind,
    file: name,
    sha256,
    machine: null,
    asset: null,
    serial: null,
    board: null,
    clock: null,
    receivedAt: null,
    reason: null,
    bag: null,
    verdict: 'read-again',
    currency: null,
    decimals: null,
    duplicateOf: null,
    message,
  };
}
