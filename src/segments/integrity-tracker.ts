import { crc16 } from '../bytes/index.js';
import { SEGMENT } from '../dictionary/index.js';

const ST = SEGMENT.ST.index;
const G85 = SEGMENT.G85.index;

/** A line at which the range that the integrity value covers starts or ends: its number, kind and first byte. */
export interface Border {
  readonly line: number;
  readonly kind: number;
  readonly start: number;
}

/** Whether a line of this kind is a {@link Border}. */
export function bordersIntegrity(kind: number): boolean {
  return kind === ST || kind === G85;
}

/**
 * The CRC carried along as bytes pass: it starts anew at the first byte of every ST line and is read off at the first
 * byte of a G85 line, so that it covers ST up to and with the line ending before G85 (range from memory).
 */
export class IntegrityTracker {
  #crc = 0;
  #isCovered = false;

  /** Take bytes of the file in order. */
  pass(bytes: Uint8Array, start: number, end: number): void {
    if (this.#isCovered) this.#crc = crc16(bytes, start, end, this.#crc);
  }

  /**
   * Take the bytes of whole lines.
   *
   * @param borders - those of the lines that are borders, in order
   * @returns the CRC at each G85 that has an ST before it, by the number of its line
   */
  passLines(bytes: Uint8Array, start: number, end: number, borders: readonly Border[]): Map<number, number> {
    const values = new Map<number, number>();
    let at = start;
    for (const border of borders) {
      this.pass(bytes, at, border.start);
      const crc = this.startLine(border.kind);
      if (crc !== null) values.set(border.line, crc);
      at = border.start;
    }
    this.pass(bytes, at, end);
    return values;
  }

  /**
   * Say that a line of this kind starts here, before its bytes are passed.
   *
   * @returns for a G85 line with an ST before it the CRC so far, else null
   */
  startLine(kind: number): number | null {
    if (kind === ST) {
      this.#crc = 0;
      this.#isCovered = true;
    } else if (kind === G85 && this.#isCovered) {
      this.#isCovered = false;
      return this.#crc;
    }
    return null;
  }
}
