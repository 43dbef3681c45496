import { ROW, SegmentBlock } from './segment-block.js';

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
export function mergeBlocks(given: readonly BlockPart[]): SegmentBlock {
  const parts = given.filter((part) => part.from < part.to);
  const first = parts[0];
  if (first === undefined) throw new RangeError('mergeBlocks needs at least one line');
  const lineCount = parts.reduce((sum, part) => sum + part.to - part.from, 0);
  const byteCount = parts.reduce((sum, part) => sum + byteEnd(part) - byteStart(part), 0);
  const bytes = new Uint8Array(byteCount);
  const rows = new Int32Array((lineCount + 1) * ROW.size);
  const marks: number[] = [];
  const controlLines: number[] = [];
  const skips: { at: number; length: number; line: number }[] = [];
  const integrity = new Map<number, number>();
  let bytesDone = 0;
  let linesDone = 0;
  for (const part of parts) {
    const { block, from, to } = part;
    const byteShift = bytesDone - byteStart(part);
    const lineShift = linesDone - from;
    bytes.set(block.bytes.subarray(byteStart(part), byteEnd(part)), bytesDone);
    for (let line = from; line < to; line++) {
      const row = (line + lineShift) * ROW.size;
      rows[row] = block.start(line) + byteShift;
      rows[row + ROW.contentEnd] = block.contentEnd(line) + byteShift;
      rows[row + ROW.next] = block.next(line) + byteShift;
      rows[row + ROW.firstMark] = marks.length;
      rows[row + ROW.kind] = block.kind(line);
      for (let position = 1; position <= block.elementCount(line); position++) {
        marks.push(block.elementStart(line, position) - 1 + byteShift);
      }
    }
    const isInside = (line: number): boolean => line >= from && line < to;
    for (const line of block.parts.controlLines) if (isInside(line)) controlLines.push(line + lineShift);
    for (const [line, value] of block.parts.integrity) if (isInside(line)) integrity.set(line + lineShift, value);
    for (const skip of block.parts.skips) {
      if (isInside(skip.line)) skips.push({ ...skip, at: skip.at + byteShift, line: skip.line + lineShift });
    }
    bytesDone += byteEnd(part) - byteStart(part);
    linesDone += to - from;
  }
  rows[lineCount * ROW.size + ROW.firstMark] = marks.length;
  return new SegmentBlock({
    bytes,
    baseOffset: first.block.fileOffset(byteStart(first)),
    firstLine: first.block.lineNumber(first.from),
    lineCount,
    rows,
    marks: Int32Array.from(marks),
    controlLines,
    skips,
    integrity,
  });
}

const byteStart = (part: BlockPart): number => part.block.start(part.from);
const byteEnd = (part: BlockPart): number => part.block.next(part.to - 1);
