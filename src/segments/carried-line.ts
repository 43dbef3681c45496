import { lookUpSegment } from '../dictionary/index.js';
import { hasControlCharacter, kindOfEmptyLine, trimFiller } from './line-content.js';
import { KIND_SHIFT, type LineTable, makeTable, ROW } from './line-table.js';

const STAR = 0x2a;
const SMALLEST_ROOM = 256;
const NO_BYTES = new Uint8Array(0);

/** A line that began in an earlier chunk and has not ended yet: its content as far as it came, up to the longest allowed. */
export class CarriedLine {
  readonly #longest: number;
  #bytes = NO_BYTES;
  #length = 0;

  constructor(longest: number) {
    this.#longest = longest;
  }

  /** The content so far. Good until the next call. */
  get content(): Uint8Array {
    return this.#bytes.subarray(0, this.#length);
  }

  /** Take in bytes as long as there is room for them. Gives the index up to which they were taken. */
  append(piece: Uint8Array, from: number, to: number): number {
    const end = Math.min(to, from + this.#longest - this.#length);
    this.#makeRoom(this.#length + end - from);
    this.#bytes.set(piece.subarray(from, end), this.#length);
    this.#length += end - from;
    return end;
  }

  clear(): void {
    this.#length = 0;
  }

  #makeRoom(needed: number): void {
    if (needed <= this.#bytes.length) return;
    const larger = new Uint8Array(Math.min(Math.max(needed * 2, SMALLEST_ROOM), this.#longest));
    larger.set(this.content);
    this.#bytes = larger;
  }
}

/** What {@link tokenizeLine} finds. */
export interface TokenizedLine {
  readonly kind: number;
  readonly table: LineTable;
  readonly hasControl: boolean;
}

/**
 * Find the elements of one line of any length.
 *
 * @param bytes - the line with its ending
 * @param ending - where that begins
 */
export function tokenizeLine(bytes: Uint8Array, ending: number): TokenizedLine {
  const end = trimFiller(bytes, 0, ending);
  const marks: number[] = [];
  for (let at = bytes.indexOf(STAR); at >= 0; at = bytes.indexOf(STAR, at + 1)) marks.push(at);
  const kind = findLineKind(bytes, ending);
  const table = makeTable(2 * ROW.size + marks.length, bytes.length);
  table[ROW.contentEnd] = end;
  table[ROW.kind] = kind + KIND_SHIFT;
  table[ROW.size + ROW.start] = bytes.length;
  table[ROW.size + ROW.firstMark] = marks.length;
  table.set(marks, 2 * ROW.size);
  return { kind, table, hasControl: hasControlCharacter(bytes, 0, end) };
}

/** Which segment a line is, with or without its ending. */
export function findLineKind(bytes: Uint8Array, ending: number): number {
  const end = trimFiller(bytes, 0, ending);
  if (end === 0) return kindOfEmptyLine(bytes, 0, ending);
  const star = bytes.indexOf(STAR);
  return lookUpSegment(new DataView(bytes.buffer, bytes.byteOffset, end), 0, star < 0 ? end : star);
}
