import { lookUpSegment } from '../dictionary/index.js';
import { type Border, bordersIntegrity } from './integrity-tracker.js';
import { hasControlCharacter, kindOfEmptyLine, trimFiller } from './line-content.js';
import { KIND_SHIFT, type LineTable, makeTable, ROW } from './line-table.js';
import { findSpecialBytes, SPAN } from './special-bytes.js';

const LF = 0x0a;
const CR = 0x0d;
const SPACE = 0x20;
const STAR = 0x2a;

const { start: START, contentEnd: CONTENT_END, firstMark: FIRST_MARK, kind: KIND, size: ROW_SIZE } = ROW;

/** Most bytes that are tokenized at once: every index into them fits the small numbers of a table. */
export const LARGEST_PIECE = 0xffff;

// Working space, shared by all: a call fills it and copies out what it found before it returns. As constants of the module
// the two are reached faster than as fields.
const ROWS = new Uint16Array((LARGEST_PIECE + 1) * ROW_SIZE);
const MARKS = new Uint16Array(LARGEST_PIECE);

/** What {@link tokenize} finds. */
export interface TokenizedLines {
  readonly lineCount: number;
  readonly table: LineTable;
  /** Lines that hold control characters. */
  readonly controlLines: readonly number[];
  readonly borders: readonly Border[];
}

/**
 * Find the lines and elements in `bytes` from `from` up to `to`, which must be where a line ends.
 *
 * @param bytes - not more than {@link LARGEST_PIECE}
 */
export function tokenize(bytes: Uint8Array, from: number, to: number): TokenizedLines {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const { lineCount, hasControl } = findLines(bytes, view, from, to);
  const borders = settleLines(bytes, view, lineCount);
  const controlLines = hasControl ? findControlLines(bytes, lineCount) : [];
  return { lineCount, table: copyTable(lineCount), controlLines, borders };
}

/**
 * One pass over every byte: this is where the time of the whole program goes, so it does the least that can be done and
 * leaves the rest to {@link settleLines}, once a line.
 *
 * @returns the number of lines, and whether there is a control character in any of them, be it as filler
 */
function findLines(
  bytes: Uint8Array,
  view: DataView,
  from: number,
  to: number,
): { readonly lineCount: number; readonly hasControl: boolean } {
  let hasControl = false;
  let markCount = 0;
  let row = 0;
  let start = from;
  ROWS[START] = from;
  ROWS[FIRST_MARK] = 0;
  for (let span = from; span < to; span += SPAN) {
    let special = findSpecialBytes(view, span, to);
    while (special !== 0) {
      const at = span + 31 - Math.clz32(special & -special);
      special &= special - 1;
      const byte = bytes[at]!;
      if (byte === STAR) {
        MARKS[markCount++] = at;
      } else if (byte === CR || byte === LF) {
        // An LF already taken with its CR, that stood at the end of the last span.
        if (at < start) continue;
        ROWS[row + CONTENT_END] = at;
        start = at + 1;
        if (byte === CR && start < to && bytes[start] === LF) {
          start++;
          special &= special - 1;
        }
        row += ROW_SIZE;
        ROWS[row + START] = start;
        ROWS[row + FIRST_MARK] = markCount;
      } else if (byte < SPACE) {
        hasControl = true;
      }
    }
  }
  return { lineCount: row / ROW_SIZE, hasControl };
}

/** Settle where each line's content ends and which segment it is. Gives the borders among them. */
function settleLines(bytes: Uint8Array, view: DataView, lineCount: number): Border[] {
  const borders: Border[] = [];
  const rowsEnd = lineCount * ROW_SIZE;
  for (let row = 0; row < rowsEnd; row += ROW_SIZE) {
    const start = ROWS[row + START]!;
    const ending = ROWS[row + CONTENT_END]!;
    let end = ending;
    if (end > start && bytes[end - 1]! <= SPACE) {
      end = trimFiller(bytes, start, ending);
      ROWS[row + CONTENT_END] = end;
    }
    const firstMark = ROWS[row + FIRST_MARK]!;
    const idEnd = ROWS[row + ROW_SIZE + FIRST_MARK]! > firstMark ? MARKS[firstMark]! : end;
    const kind = end > start ? lookUpSegment(view, start, idEnd) : kindOfEmptyLine(bytes, start, ending);
    ROWS[row + KIND] = kind + KIND_SHIFT;
    if (bordersIntegrity(kind)) borders.push({ line: row / ROW_SIZE, kind, start });
  }
  return borders;
}

function findControlLines(bytes: Uint8Array, lineCount: number): number[] {
  const lines: number[] = [];
  for (let line = 0; line < lineCount; line++) {
    const row = line * ROW_SIZE;
    if (hasControlCharacter(bytes, ROWS[row + START]!, ROWS[row + CONTENT_END]!)) lines.push(line);
  }
  return lines;
}

function copyTable(lineCount: number): LineTable {
  const rows = (lineCount + 1) * ROW_SIZE;
  const marks = ROWS[lineCount * ROW_SIZE + FIRST_MARK]!;
  const table = makeTable(rows + marks, LARGEST_PIECE);
  table.set(ROWS.subarray(0, rows));
  table.set(MARKS.subarray(0, marks), rows);
  return table;
}
