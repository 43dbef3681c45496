import { describe, expect, it } from 'vitest';
import { ELEMENT, SEGMENT } from '../../src/dictionary/index.js';
import { bytesOf, textOf } from '../support/latin1-bytes.js';
import { parseText } from './parse-text.js';

const TEXT = 'DXS*X\r\nCA3*100*-20**12.5\r\n\r\nZZ9\r\nSE*9*0001';
const block = parseText(TEXT)[0]!;
const [last] = parseText(TEXT).slice(-1);

describe('SegmentBlock', () => {
  it('gives each line as a segment with its texts, line number and offsets in the file', () => {
    expect(block.segment(1)).toEqual({
      id: 'CA3',
      elements: ['100', '-20', '', '12.5'],
      line: 2,
      offset: 7,
      elementOffsets: [11, 15, 19, 20],
    });
    expect(block.segment(3)).toEqual({ id: 'ZZ9', elements: [], line: 4, offset: 28, elementOffsets: [] });
  });

  it('gives no segment for a blank line, and runs through the others in order', () => {
    expect(block.segment(2)).toBeNull();
    expect([...block].map((segment) => segment.id)).toEqual(['DXS', 'CA3', 'ZZ9']);
  });

  it('gives elements as numbers and as text by position', () => {
    const { position } = ELEMENT.CA302;
    expect(block.kind(1)).toBe(SEGMENT.CA3.index);
    expect(block.number(1, position)).toBe(-20);
    expect(block.text(1, position)).toBe('-20');
    expect([1, 3, 4, 5].map((each) => block.number(1, each))).toEqual([100, null, null, null]);
    expect([3, 4, 5].map((each) => block.text(1, each))).toEqual(['', '12.5', null]);
  });

  it('gives the text of a line, its ending left out', () => {
    expect([0, 1, 2].map((line) => block.content(line))).toEqual(['DXS*X', 'CA3*100*-20**12.5', '']);
  });

  it('knows where content, ending and the next line start', () => {
    expect([block.start(1), block.contentEnd(1), block.endingStart(1), block.next(1)]).toEqual([7, 24, 24, 26]);
    expect([block.start(2), block.contentEnd(2), block.endingStart(2), block.next(2)]).toEqual([26, 26, 26, 28]);
  });

  it('knows that the last line of a file may have no ending', () => {
    expect(last!.endingStart(0)).toBe(last!.next(0));
    expect(textOf(last!.raw(0))).toBe('SE*9*0001');
    expect(last!.lineNumber(0)).toBe(5);
    expect(last!.fileOffset(0)).toBe(33);
  });

  it('counts places from the start of the file, not of the chunk', () => {
    const text = `${'PA1*1\r\n'.repeat(20_000)}SE*1\r\n`;
    const blocks = parseText(text);
    expect(blocks.length).toBeGreaterThan(1);
    const end = blocks.at(-1)!;
    const line = end.lineCount - 1;
    expect(end.segment(line)).toEqual({
      id: 'SE',
      elements: ['1'],
      line: 20_001,
      offset: 140_000,
      elementOffsets: [140_003],
    });
    expect(bytesOf(text).subarray(140_000, 140_002)).toEqual(bytesOf('SE'));
  });
});
