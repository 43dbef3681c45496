import { createHash } from 'node:crypto';
import { type Finding, makeFinding } from '../../findings/index.js';
import { isPacked } from '../../io/unpack.js';
import { CaptureReader } from '../../read/index.js';
import type { FileFacts } from '../store/index.js';
import { readInPieces } from './read-bytes.js';

/** What was found out of a file that memory should not hold, in a first pass over it. */
export interface FileSurvey {
  readonly sha256: string;
  readonly size: number;
  /** Why there is no read in it; null when there is one. */
  readonly findings: readonly Finding[] | null;
  /** What the file system said of it after that. */
  readonly facts: FileFacts;
}

/**
 * Look through a file once.
 *
 * @param largest - a longer one is not looked for reads
 * @throws the system's error; see `sayUnreadable`
 */
export function surveyFile(path: string, largest: number): FileSurvey {
  const hash = createHash('sha256');
  const search = new ReadSearch();
  let size = 0;
  const pieces = readInPieces(path);
  let next = pieces.next();
  for (; !next.done; next = pieces.next()) {
    const piece = next.value;
    hash.update(piece);
    size += piece.length;
    if (size <= largest) search.push(piece);
  }
  const findings = size > largest ? [sayTooLarge(size, largest)] : search.end();
  return { sha256: hash.digest('hex'), size, findings, facts: next.value };
}

function sayTooLarge(size: number, largest: number): Finding {
  return makeFinding(
    'file-too-large',
    `It has ${size} bytes, more than the ${largest} that a file of captures may have.`,
    {
      advice: 'Cut it into files by day, at the line ends before DXS, and take these in.',
    },
  );
}

/** Looks for a read in pieces of a file, and stops looking when there is one. */
export class ReadSearch {
  #reader: CaptureReader | null = new CaptureReader();
  #isFirst = true;
  #packed: Finding | null = null;

  push(piece: Uint8Array): void {
    if (this.#isFirst && isPacked(piece)) {
      this.#packed = makeFinding('not-a-capture', 'It is gzip-compressed data, and too long to be unpacked.');
      this.#reader = null;
    }
    this.#isFirst = false;
    this.#reader?.push(piece, this.#stop);
  }

  /** Why there is no read; null when there is one. */
  end(): readonly Finding[] | null {
    if (this.#packed !== null) return [this.#packed];
    const end = this.#reader?.end(this.#stop);
    return this.#reader === null ? null : end!.findings;
  }

  readonly #stop = (): void => {
    this.#reader = null;
  };
}
