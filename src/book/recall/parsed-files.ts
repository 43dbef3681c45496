import { createHash } from 'node:crypto';
import { makeFinding } from '../../findings/index.js';
import { type Unpacked, unpackCapture } from '../../io/unpack.js';
import { type CaptureEnd, type CaptureFile, type Read, readCaptures, streamReads } from '../../read/index.js';
import { BookError, type BookStore } from '../store/index.js';
import { FilesAtHand } from './files-at-hand.js';
import type { KnownFile } from './known-file.js';
import { LargeFile } from './large-file.js';

type FileBytes = Pick<KnownFile, 'sha256' | 'size' | 'isPacked' | 'isKept' | 'message'>;

/** Bytes of files whose reads are kept at hand, since those of one file are often asked for one after the other. */
const BYTES_AT_HAND = 16 * 1024 * 1024;
/** Files longer than this, if they are not packed, are read in parts, and of their reads only those asked for are kept. */
const LONGEST_WHOLE = 4 * 1024 * 1024;

const NO_LIMITS = { mostColumns: Number.MAX_SAFE_INTEGER, mostLines: Number.MAX_SAFE_INTEGER };

const isLarge = ({ size, isKept, isPacked }: FileBytes): boolean => size > LONGEST_WHOLE && isKept && !isPacked;

/** The files of a book read again, from the bytes as they came. */
export class ParsedFiles {
  readonly #store: BookStore;
  readonly #atHand = new FilesAtHand(BYTES_AT_HAND);
  readonly #smallAtHand: FilesAtHand;
  /** Large files whose bytes were held against their hash. */
  readonly #whole = new Set<string>();

  /** @param smallAtHand - small files that were parsed already. Default: none, so that all are read from what is stored */
  constructor(store: BookStore, smallAtHand: FilesAtHand = new FilesAtHand(0, 0)) {
    this.#store = store;
    this.#smallAtHand = smallAtHand;
  }

  /**
   * Every read of a file in turn.
   *
   * @returns what is found about the file as a whole
   * @throws BookError `corrupted` when the book does not have the bytes that it recorded
   */
  async *readsOf(file: FileBytes): AsyncGenerator<Read, Pick<CaptureEnd, 'findings'>> {
    if (isLarge(file)) {
      await this.#holdToHash(file.sha256);
      return yield* streamReads(this.#store.partsOf(file.sha256));
    }
    const { reads, ...end } = await this.whole(file);
    yield* reads;
    return end;
  }

  /** Some reads of a file, by their numbers; those that it does not have are left out. */
  async pick(file: FileBytes, numbers: ReadonlySet<number>): Promise<Map<number, Read>> {
    if (isLarge(file)) await this.#holdToHash(file.sha256);
    const picked = isLarge(file)
      ? await new LargeFile(this.#store, file.sha256).pick(numbers)
      : await this.#pickFrom(this.readsOf(file), numbers);
    if (picked.size === numbers.size || !file.isKept) return picked;
    // Taken in before there were limits: what is in the book can be read for good.
    return this.#pickFrom(streamReads(this.#chunksOf(file), NO_LIMITS), numbers);
  }

  async #pickFrom(reads: AsyncIterable<Read>, numbers: ReadonlySet<number>): Promise<Map<number, Read>> {
    const picked = new Map<number, Read>();
    for await (const read of reads) {
      if (numbers.has(read.number)) picked.set(read.number, read);
      if (picked.size === numbers.size) break;
    }
    return picked;
  }

  /** A file that is no longer than what is kept whole. */
  async whole({ sha256, isKept, message }: FileBytes): Promise<CaptureFile> {
    const known = this.#smallAtHand.get(sha256) ?? this.#atHand.get(sha256);
    if (known !== null) return known;
    if (!isKept) return sayNoCapture(message ?? 'Its bytes are not in the book.');
    const content = await this.#unpack(sha256);
    if (!('bytes' in content)) return sayNoCapture(content.message);
    const file = readCaptures(content.bytes);
    const { length } = content.bytes;
    (this.#smallAtHand.isFor(length) ? this.#smallAtHand : this.#atHand).add(sha256, file, length);
    return file;
  }

  async *#chunksOf({ sha256, isPacked }: FileBytes): AsyncGenerator<Uint8Array> {
    if (!isPacked) return yield* this.#store.partsOf(sha256);
    const content = await this.#unpack(sha256);
    if ('bytes' in content) yield content.bytes;
  }

  async #unpack(sha256: string): Promise<Unpacked> {
    const bytes = await this.#store.bytesOf(sha256);
    if (bytes === null) throw new BookError('corrupted', `The bytes of file ${sha256} are missing. Verify the book.`);
    if (createHash('sha256').update(bytes).digest('hex') !== sha256) throw notAsRecorded(sha256);
    return unpackCapture(bytes);
  }

  /** A large file is read once more for that, the first time that anything of it is asked for. */
  async #holdToHash(sha256: string): Promise<void> {
    if (this.#whole.has(sha256)) return;
    const hash = createHash('sha256');
    for await (const part of this.#store.partsOf(sha256)) hash.update(part);
    if (hash.digest('hex') !== sha256) throw notAsRecorded(sha256);
    this.#whole.add(sha256);
  }
}

const notAsRecorded = (sha256: string): BookError =>
  new BookError(
    'corrupted',
    `The bytes kept of file ${sha256} are not those that were recorded: the book is damaged, or another program changed it. Verify the book.`,
  );

/** A file that was set aside before a byte of a capture could be looked for. */
function sayNoCapture(message: string): CaptureFile {
  return { reads: [], findings: [makeFinding('not-a-capture', message)], readCount: 0, byteCount: 0 };
}
