import type { LocalDate } from '../../model/index.js';
import type { JsonObject } from './canonical-json.js';
import type { EntryKind } from './entries.js';
import type { ReadKey, ReadToRecord } from './reads.js';

/** A file as the file system shows it: when all of it is the same, the file is taken to be the same. */
export interface FileFacts {
  readonly path: string;
  readonly size: number;
  /** Time of the last change of content, and of content or attributes, in milliseconds as `fs.stat` gives them. */
  readonly modifiedMs: number;
  readonly changedMs: number;
}

/** A file to be kept for good. */
export interface CaptureToRecord {
  readonly kind: 'capture-taken' | 'set-aside';
  readonly recordedAt: string;
  /** The file's name as the entry shall have it. */
  readonly name: string;
  /** The day whose run took it in, whatever its reads are of. */
  readonly day?: LocalDate | null;
  /** SHA-256 of all its bytes, lower-case hex. */
  readonly sha256: string;
  /** Number of its bytes. */
  readonly size: number;
  /**
   * Its bytes, whole; or in parts, pulled while they are stored, for a file that memory should not hold: then they are held
   * against `sha256` and `size`. Null for a file set aside that is too large to be kept.
   */
  readonly bytes: Uint8Array | Iterable<Uint8Array> | null;
  /** What else the entry says: why it was set aside, what a list said of it. */
  readonly facts: JsonObject;
  readonly reads: Iterable<ReadToRecord>;
  /** Where it lay, so that {@link BookStore.seenFiles} knows it again. Null for one that came another way. */
  readonly file: FileFacts | null;
}

/**
 * What became of a file. `already`: its bytes are in the book, under the entry named. `changed`: the parts were not what
 * `sha256` and `size` said; nothing of it was recorded.
 */
export type CaptureOutcome =
  | { readonly state: 'recorded'; readonly entry: number; readonly duplicates: readonly DuplicateRead[] }
  | { readonly state: 'already'; readonly entry: number }
  | { readonly state: 'changed' };

/** A read that the book had before, by its content, under the same machine. */
export interface DuplicateRead {
  readonly number: number;
  readonly of: ReadKey;
}

/** A file that is in the book. */
export interface KeptCapture {
  /** The latest entry about it: a file set aside may have been taken in later. */
  readonly entry: number;
  readonly kind: EntryKind;
  /** Whether its bytes are there. */
  readonly isKept: boolean;
}
