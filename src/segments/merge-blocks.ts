import { KIND_SHIFT, type LineTable, makeTable, ROW } from './line-table.js';
import { SegmentBlock } from './segment-block.js';

/** Lines `from` up to `to` of one block. */
export interface BlockPart {
  readonly block: SegmentBlock;
  readonly from: number;
  readonly to: number;
}

/**
 * One block out of parts of blocks that follow each other in the file, so that a set which fell across chunks can be
 * read like any other. The bytes are copied.
 *
 * @throws RangeError when there is no line in them
 */
export function mergeBlocks(parts: readonly BlockPart[]): SegmentBlock {
  const full = parts.filter((part) => part.from < part.to);
  const first = full[0];
  if (first === undefined) throw new RangeError('mergeBlocks needs at least one line');
  const merger = new Merger(full);
  for (const part of full) merger.add(part);
  return merger.finish(first.block.fileOffset(byteStart(first)), first.block.lineNumber(first.from));
}

const byteStart = (part: BlockPart): number => part.block.start(part.from);
const byteEnd = (part: BlockPart): number => part.block.next(part.to - 1);

function sumOver(parts: readonly BlockPart[], count: (part: BlockPart) => number): number {
  return parts.reduce((sum, part) => sum + count(part), 0);
}

function countMarks({ block, from, to }: BlockPart): number {
  let count = 0;
  for (let line = from; line < to; line++) count += block.elementCount(line);
  return count;
}

/** Takes in the parts one after the other; bytes, lines and marks done so far are what the next ones are shifted by. */
class Merger {
  readonly #bytes: Uint8Array;
  readonly #table: LineTable;
  readonly #marksAt: number;
  readonly #controlLines: number[] = [];
  readonly #skips: { at: number; length: number; line: number }[] = [];
  readonly #integrity = new Map<number, number>();
  #byteCount = 0;
  #lineCount = 0;
  #markCount = 0;

  constructor(parts: readonly BlockPart[]) {
    this.#bytes = new Uint8Array(sumOver(parts, (part) => byteEnd(part) - byteStart(part)));
    this.#marksAt = (sumOver(parts, (part) => part.to - part.from) + 1) * ROW.size;
    this.#table = makeTable(this.#marksAt + sumOver(parts, countMarks), this.#bytes.length);
  }

  add(part: BlockPart): void {
    const byteShift = this.#byteCount - byteStart(part);
    this.#bytes.set(part.block.bytes.subarray(byteStart(part), byteEnd(part)), this.#byteCount);
    this.#addNotes(part, byteShift);
    for (let line = part.from; line < part.to; line++) this.#addLine(part.block, line, byteShift);
    this.#byteCount += byteEnd(part) - byteStart(part);
  }

  #addNotes({ block, from, to }: BlockPart, byteShift: number): void {
    const lineShift = this.#lineCount - from;
    const isInside = (line: number): boolean => line >= from && line < to;
    for (const line of block.parts.controlLines) if (isInside(line)) this.#controlLines.push(line + lineShift);
    for (const [line, crc] of block.parts.integrity) if (isInside(line)) this.#integrity.set(line + lineShift, crc);
    for (const { at, length, line } of block.parts.skips) {
      if (isInside(line)) this.#skips.push({ at: at + byteShift, length, line: line + lineShift });
    }
  }

  #addLine(block: SegmentBlock, line: number, byteShift: number): void {
    const row = this.#lineCount++ * ROW.size;
    this.#table[row + ROW.start] = block.start(line) + byteShift;
    this.#table[row + ROW.contentEnd] = block.contentEnd(line) + byteShift;
    this.#table[row + ROW.firstMark] = this.#markCount;
    this.#table[row + ROW.kind] = block.kind(line) + KIND_SHIFT;
    for (let position = 1; position <= block.elementCount(line); position++) {
      this.#table[this.#marksAt + this.#markCount++] = block.elementStart(line, position) - 1 + byteShift;
    }
  }

  finish(baseOffset: number, firstLine: number): SegmentBlock {
    const end = this.#lineCount * ROW.size;
    this.#table[end + ROW.start] = this.#byteCount;
    this.#table[end + ROW.firstMark] = this.#markCount;
    return new SegmentBlock({
      bytes: this.#bytes,
      baseOffset,
      firstLine,
      lineCount: this.#lineCount,
      table: this.#table,
      controlLines: this.#controlLines,
      skips: this.#skips,
      integrity: this.#integrity,
    });
  }
}
