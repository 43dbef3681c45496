import type { CaptureFile } from '../../read/index.js';
import type { BookStore } from '../store/index.js';

/** Bytes of small files that stay at hand while a book is open: those of a night of some hundred machines. */
const BYTES_AT_HAND = 2 * 1024 * 1024;
/** Larger files hold many reads, and are asked for by themselves. */
const LARGEST = 64 * 1024;

/**
 * Small files as they were parsed, each under the SHA-256 of its bytes, so that nothing can be taken for what it is not: what
 * was just taken in is asked for again when it is worked out, and when the day is made.
 */
export class FilesAtHand {
  /** The one used last at the end. */
  readonly #files = new Map<string, { readonly file: CaptureFile; readonly size: number }>();
  readonly #mostBytes: number;
  readonly #largest: number;
  #bytes = 0;

  constructor(mostBytes: number, largest: number = Number.POSITIVE_INFINITY) {
    this.#mostBytes = mostBytes;
    this.#largest = largest;
  }

  /** Those of an open book. */
  static of(store: BookStore): FilesAtHand {
    const known = FILES_OF_STORE.get(store);
    if (known !== undefined) return known;
    const made = new FilesAtHand(BYTES_AT_HAND, LARGEST);
    FILES_OF_STORE.set(store, made);
    return made;
  }

  /** Whether files of a size are held here. */
  isFor(size: number): boolean {
    return size <= this.#largest;
  }

  get(sha256: string): CaptureFile | null {
    const known = this.#files.get(sha256);
    if (known === undefined) return null;
    this.#files.delete(sha256);
    this.#files.set(sha256, known);
    return known.file;
  }

  /** Hold a file; those that were not asked for the longest go. */
  add(sha256: string, file: CaptureFile, size: number): void {
    if (!this.isFor(size) || this.#files.has(sha256)) return;
    this.#files.set(sha256, { file, size });
    this.#bytes += size;
    for (const [oldest, { size: freed }] of this.#files) {
      if (this.#bytes <= this.#mostBytes || oldest === sha256) break;
      this.#files.delete(oldest);
      this.#bytes -= freed;
    }
  }

  /** Hold a file only where no other has to go: of very many that come in together the first are as good as the last. */
  addIfRoom(sha256: string, file: CaptureFile, size: number): void {
    if (this.#bytes + size <= this.#mostBytes) this.add(sha256, file, size);
  }
}

const FILES_OF_STORE = new WeakMap<BookStore, FilesAtHand>();
