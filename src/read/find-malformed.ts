import { classifyNumber, type SegmentBlock } from '../segments/index.js';
import { ROW } from '../segments/line-table.js';
import { RUN, SHAPE, SHAPED_RUNS } from './element-shapes.js';
import { classifyDate, classifyTime } from './machine-date.js';

/** An element whose characters are not what its kind asks for. */
export interface Malformed {
  readonly line: number;
  readonly position: number;
  readonly what: 'not-digits' | 'too-large' | 'bad-date' | 'bad-time';
}

const ZERO = 0x30;
const STAR = 0x2a;
/** So many digits can always be kept exactly. */
const SAFE_DIGITS = 15;

// 0 for a digit and for `*`, else 1. Or-ing the entries of a line's bytes needs no branch a byte.
const IS_OTHER = new Uint8Array(256).fill(1);
IS_OTHER.fill(0, ZERO, ZERO + 10);
IS_OTHER[STAR] = 0;

/** Whether there are only digits and `*`, and so few digits that no element can be too large: almost every line. */
export function isPlainNumbers(bytes: Uint8Array, from: number, to: number, elementCount: number): boolean {
  if (to - from - elementCount > SAFE_DIGITS && !hasShortRuns(bytes, from, to)) return false;
  let other = 0;
  for (let at = from; at < to; at++) other |= IS_OTHER[bytes[at]!]!;
  return other === 0;
}

function hasShortRuns(bytes: Uint8Array, from: number, to: number): boolean {
  let start = from;
  for (let at = from; at < to; at++) {
    if (bytes[at] !== STAR) continue;
    if (at - start > SAFE_DIGITS) return false;
    start = at + 1;
  }
  return to - start <= SAFE_DIGITS;
}

/** Look at each element of a known segment that must be a number, a date or a time, and add those that are not. */
export function findMalformed(block: SegmentBlock, line: number, kind: number, found: Malformed[]): void {
  const { bytes } = block;
  const { table, lineCount } = block.parts;
  const row = line * ROW.size;
  const firstMark = (lineCount + 1) * ROW.size + table[row + ROW.firstMark]! - 1;
  const elementCount = table[row + ROW.size + ROW.firstMark]! - table[row + ROW.firstMark]!;
  const runs = SHAPED_RUNS[kind]!;
  for (let i = 0; i < runs.length; i++) {
    const run = runs[i]!;
    const first = run & RUN.mask;
    if (first > elementCount) return;
    const last = Math.min((run >> RUN.lastShift) & RUN.mask, elementCount);
    const start = table[firstMark + first]! + 1;
    const end = last < elementCount ? table[firstMark + last + 1]! : table[row + ROW.contentEnd]!;
    if (start === end) continue;
    const shape = run >> RUN.shapeShift;
    if (shape === SHAPE.number && isPlainNumbers(bytes, start, end, last - first)) continue;
    addFlaws(block, line, first, last, shape, found);
  }
}

function addFlaws(
  block: SegmentBlock,
  line: number,
  first: number,
  last: number,
  shape: number,
  found: Malformed[],
): void {
  for (let position = first; position <= last; position++) {
    const what = findFlaw(block.bytes, block.elementStart(line, position), block.elementEnd(line, position), shape);
    if (what !== null) found.push({ line, position, what });
  }
}

function findFlaw(bytes: Uint8Array, start: number, end: number, shape: number): Malformed['what'] | null {
  if (shape === SHAPE.date) return classifyDate(bytes, start, end) === 'bad' ? 'bad-date' : null;
  if (shape === SHAPE.time) return classifyTime(bytes, start, end) === 'bad' ? 'bad-time' : null;
  const state = classifyNumber(bytes, start, end);
  return state === 'not-digits' || state === 'too-large' ? state : null;
}
