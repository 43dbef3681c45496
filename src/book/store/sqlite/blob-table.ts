import { createHash } from 'node:crypto';
import { BookError } from '../book-error.js';
import type { Connection } from './connection.js';
import { type Packed, packBytes, unpackBytes } from './packing.js';

/** What is known of stored bytes without looking at them. `entry` is the first entry about them. */
export interface BlobHead {
  readonly entry: number;
  readonly sha256: Buffer;
  readonly size: number;
}

/** A file's bytes, whole or in parts, with what they must be. */
export interface BytesToKeep {
  /** Lower-case hex. */
  readonly sha256: string;
  readonly size: number;
  readonly bytes: Uint8Array | Iterable<Uint8Array>;
}

/** The tables of original bytes: the first part, mostly the only one, beside what is known of them; further parts apart. */
export class BlobTable {
  readonly #name: string;
  readonly #insert;
  readonly #insertPart;
  readonly #bySha;
  readonly #byEntry;
  readonly #first;
  readonly #part;

  /** @param name - what the book is called in messages */
  constructor(connection: Connection, name: string) {
    this.#name = name;
    this.#insert = connection.prepare('INSERT INTO blob (entry, sha256, size, packing, bytes) VALUES (?, ?, ?, ?, ?)');
    this.#insertPart = connection.prepare('INSERT INTO blob_part (entry, part, packing, bytes) VALUES (?, ?, ?, ?)');
    const head = 'SELECT entry, sha256, size FROM blob';
    this.#bySha = connection.prepare<[Uint8Array, Uint8Array], BlobHead>(
      `${head} WHERE substr(sha256, 1, 6) = substr(?, 1, 6) AND sha256 = ?`,
    );
    this.#byEntry = connection.prepare<[number], BlobHead>(`${head} WHERE entry = ?`);
    this.#first = connection.prepare<[number], Packed>('SELECT packing, bytes FROM blob WHERE entry = ?');
    this.#part = connection.prepare<[number, number], Packed>(
      'SELECT packing, bytes FROM blob_part WHERE entry = ? AND part = ?',
    );
  }

  /** Store the bytes of a file. False when parts were not what they should be: then what was stored must be undone. */
  insert(entry: number, capture: BytesToKeep): boolean {
    const { bytes, size } = capture;
    const sha256 = Buffer.from(capture.sha256, 'hex');
    if (bytes instanceof Uint8Array) {
      this.#insertFirst(entry, sha256, size, bytes);
      return true;
    }
    const hash = createHash('sha256');
    let stored = 0;
    let count = 0;
    for (const part of bytes) {
      hash.update(part);
      stored += part.length;
      if (count === 0) this.#insertFirst(entry, sha256, size, part);
      else this.#insertFurther(entry, count, part);
      count++;
    }
    if (count === 0) this.#insertFirst(entry, sha256, size, new Uint8Array());
    return stored === size && hash.digest().equals(sha256);
  }

  #insertFirst(entry: number, sha256: Buffer, size: number, bytes: Uint8Array): void {
    const packed = packBytes(bytes);
    this.#insert.run(entry, sha256, size, packed.packing, packed.bytes);
  }

  #insertFurther(entry: number, part: number, bytes: Uint8Array): void {
    const packed = packBytes(bytes);
    this.#insertPart.run(entry, part, packed.packing, packed.bytes);
  }

  find(sha256: Uint8Array): BlobHead | null {
    return this.#bySha.get(sha256, sha256) ?? null;
  }

  /** What came with an entry first. */
  of(entry: number): BlobHead | null {
    return this.#byEntry.get(entry) ?? null;
  }

  /**
   * A part of stored bytes, from 0; null when there are no more.
   *
   * @throws BookError `corrupted` when it can not be unpacked
   */
  part({ entry, size }: BlobHead, number: number): Uint8Array | null {
    const packed = number === 0 ? this.#first.get(entry) : this.#part.get(entry, number);
    if (packed === undefined) return null;
    const bytes = unpackBytes(packed, size);
    if (bytes !== null) return bytes;
    throw new BookError(
      'corrupted',
      `${this.#name} is damaged: the bytes kept with entry ${entry} can not be unpacked. Verify the book.`,
    );
  }
}
