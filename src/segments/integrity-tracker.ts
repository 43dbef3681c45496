import { crc16 } from '../bytes/index.js';
import { SEGMENT } from '../dictionary/index.js';

const ST = SEGMENT.ST.index;
const G85 = SEGMENT.G85.index;

/** Whether a line of this kind starts or ends the range that the integrity value covers. */
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
