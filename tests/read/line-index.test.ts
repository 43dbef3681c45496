import { describe, expect, it } from 'vitest';
import { SEGMENT, type SegmentId } from '../../src/dictionary/index.js';
import { indexLines, type LineIndex } from '../../src/read/line-index.js';
import { parseText } from '../segments/parse-text.js';

/** The index of lines written as text, from the second line on to the last but one, to see that only those are taken. */
function indexOf(...lines: string[]): LineIndex {
  const block = parseText(['VA1*9', ...lines, 'CA2*9', ''].join('\r\n'))[0]!;
  return indexLines(block, 1, lines.length + 1);
}
const lineOf = (index: LineIndex, id: SegmentId): number => index.single[SEGMENT[id].index]!;

describe('line index', () => {
  it('knows the first line of what comes once, and what came again', () => {
    const index = indexOf('VA1*1', 'CA3*1', 'VA1*2', 'VA1*3');
    expect([lineOf(index, 'VA1'), lineOf(index, 'CA3'), lineOf(index, 'CA2')]).toEqual([1, 2, -1]);
    expect(index.misplaced).toEqual([
      { line: 3, why: 'repeated' },
      { line: 4, why: 'repeated' },
    ]);
    expect(index.segmentCount).toBe(4);
  });

  it('lists what comes often, and what it does not know', () => {
    const index = indexOf('CA11*5', 'ZZ1*5', 'EA2*A', 'CA11*10', '', '\u0000', 'ZZ2');
    expect(index.many).toEqual([1, 3, 4]);
    expect(index.unknown).toEqual([2, 7]);
    expect(index.segmentCount).toBe(5);
  });

  it('groups product segments by the PA1 before them', () => {
    const index = indexOf('PA1*1', 'PA2*1', 'PA5*', 'PA7*1', 'PA7*1', 'PA1*2', 'PA4*1', 'PA3*1', 'PA7*2');
    expect(index.columns).toEqual([1, 2, -1, -1, 3, 6, -1, 8, 7, -1]);
    expect(index.payments).toEqual([4, 5, 9]);
    expect(index.misplaced).toEqual([]);
  });

  it('keeps the first of two groups of one column, and of two segments in a group', () => {
    const index = indexOf('PA1*1', 'PA2*1', 'PA2*2', 'PA1*1', 'PA2*3', 'PA7*1', 'PA1*2', 'PA2*4');
    expect(index.columns).toEqual([1, 2, -1, -1, -1, 7, 8, -1, -1, -1]);
    expect(index.payments).toEqual([]);
    expect(index.misplaced).toEqual([
      { line: 3, why: 'repeated' },
      { line: 4, why: 'repeated-column' },
    ]);
  });

  it('gives no column to segments before any, or after a nameless one', () => {
    const index = indexOf('PA2*1', 'PA7*1', 'PA1*1', 'PA2*1', 'PA1', 'PA3*1', 'PA7*1');
    expect(index.columns).toEqual([3, 4, -1, -1, -1]);
    expect(index.payments).toEqual([]);
    expect(index.misplaced.map(({ line, why }) => `${line} ${why}`)).toEqual([
      '1 orphan',
      '2 orphan',
      '5 orphan',
      '6 orphan',
      '7 orphan',
    ]);
  });

  it('sums what is paid over the columns that are kept', () => {
    const index = indexOf(
      'PA2*7*7*7*7',
      'PA1*1',
      'PA2*1*100*1*100',
      'PA1*2',
      'PA2*2*300*0*0*5',
      'PA1*1',
      'PA2*9*9*9*9',
    );
    expect(index.paid.totals).toEqual([3, 400, 1, 100]);
    expect(index.paid.lineCount).toBe(2);
  });
});
