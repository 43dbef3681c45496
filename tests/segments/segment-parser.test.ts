import { describe, expect, it } from 'vitest';
import { SEGMENT } from '../../src/dictionary/index.js';
import { LONGEST_SEGMENT, type SegmentBlock, SegmentParser, writeSegments } from '../../src/segments/index.js';
import { buildCapture } from '../support/build-capture.js';
import { bytesOf, joinCaptures, textOf } from '../support/latin1-bytes.js';
import { factsOf, type LineFacts, referenceLines } from './reference-lines.js';

function pushTexts(texts: readonly string[], longestSegment?: number): SegmentBlock[] {
  const parser = new SegmentParser(longestSegment === undefined ? {} : { longestSegment });
  const blocks: SegmentBlock[] = [];
  const keep = (block: SegmentBlock): void => {
    blocks.push(block);
  };
  for (const text of texts) parser.push(bytesOf(text), keep);
  parser.end(keep);
  return blocks;
}

const factsOfTexts = (texts: readonly string[], longest?: number): LineFacts[] => factsOf(pushTexts(texts, longest));

describe('chunks', () => {
  it('give a line as soon as its ending is sure, and not before', () => {
    const parser = new SegmentParser();
    const lines: string[] = [];
    const keep = (block: SegmentBlock): void => {
      for (let line = 0; line < block.lineCount; line++) lines.push(textOf(block.raw(line)));
    };
    const seenAfter = (text: string): string[] => {
      parser.push(bytesOf(text), keep);
      return lines.splice(0);
    };
    expect(seenAfter('ST*0')).toEqual([]);
    expect(seenAfter('01\r')).toEqual([]);
    expect(seenAfter('\n')).toEqual(['ST*001\r\n']);
    expect(seenAfter('PA1*7\r')).toEqual([]);
    expect(seenAfter('')).toEqual([]);
    expect(seenAfter('SE\nSE\n')).toEqual(['PA1*7\r', 'SE\n', 'SE\n']);
    expect(seenAfter('\r\r')).toEqual(['\r']);
    parser.end(keep);
    expect(lines).toEqual(['\r']);
  });

  it('may fall anywhere in a capture', () => {
    const capture = buildCapture(['ID1*S1*M1', 'PA1*1*100', 'PA2*5*500', 'VA1*500*5']);
    const expected = referenceLines(capture, LONGEST_SEGMENT);
    for (let cut = 0; cut <= capture.length; cut++) {
      const texts = [textOf(capture.subarray(0, cut)), textOf(capture.subarray(cut))];
      expect(factsOfTexts(texts)).toEqual(expected);
    }
  });

  it('larger than a piece are the same as small ones', () => {
    const capture = buildCapture(Array.from({ length: 40 }, (_, i) => `PA1*${i}*100`));
    const day = joinCaptures(...Array.from({ length: 400 }, () => capture));
    expect(day.length).toBeGreaterThan(2 * LONGEST_SEGMENT);
    const blocks = pushTexts([textOf(day)]);
    expect(factsOf(blocks)).toEqual(referenceLines(day, LONGEST_SEGMENT));
    expect(writeSegments(blocks)).toEqual(day);
  });

  it('are not copied where a line lies in one of them whole', () => {
    const chunk = bytesOf('ST*001*0001\r\nSE*2*0001\r\n');
    const parser = new SegmentParser();
    parser.push(chunk, (block) => expect(block.bytes.buffer).toBe(chunk.buffer));
    expect.assertions(1);
  });
});

describe('a line longer than allowed', () => {
  const long = `PA1*7*${'x'.repeat(30)}`;

  it.each([
    ['in one chunk', [`SE\r\n${long}\r\nSE\r\n`]],
    ['over two chunks', ['SE\r\nPA1*7*', `${'x'.repeat(30)}\r\nSE\r\n`]],
    ['over many chunks', [...`SE\r\n${long}\r\nSE\r\n`]],
    ['with its ending in two chunks', [`SE\r\n${long}\r`, '\nSE\r\n']],
  ])('%s is kept up to there, with its ending, and the skip is counted', (_, texts) => {
    const facts = factsOfTexts(texts, 10);
    expect(facts.map(({ raw, offset, skipped }) => ({ raw, offset, skipped }))).toEqual([
      { raw: 'SE\r\n', offset: 0, skipped: 0 },
      { raw: 'PA1*7*xxxx\r\n', offset: 4, skipped: 26 },
      { raw: 'SE\r\n', offset: 42, skipped: 0 },
    ]);
    expect(facts[1]).toMatchObject({ kind: SEGMENT.PA1.index, elements: ['7', 'xxxx'] });
  });

  it('says where the skip is', () => {
    const blocks = pushTexts([`SE\r\n${long}\r\nSE`], 10);
    const block = blocks.find((each) => each.parts.skips.length > 0)!;
    expect(block.parts.skips).toEqual([{ at: 10, length: 26, line: 0 }]);
    expect(block.fileOffset(10)).toBe(14);
    expect(block.fileOffset(11)).toBe(41);
    expect(block.lineNumber(0)).toBe(2);
  });

  it('is not one that is exactly as long as allowed', () => {
    expect(factsOfTexts(['PA1*7*1234\r\n'], 10)[0]).toMatchObject({ skipped: 0, elements: ['7', '1234'] });
    expect(factsOfTexts(['PA1*7*12345\r\n'], 10)[0]).toMatchObject({ skipped: 1, elements: ['7', '1234'] });
  });

  it('may be the last of the file', () => {
    expect(factsOfTexts([long], 10)).toMatchObject([{ raw: 'PA1*7*xxxx', skipped: 26, ending: '' }]);
    expect(factsOfTexts([`${long}\r`], 10)).toMatchObject([{ raw: 'PA1*7*xxxx\r', skipped: 26, ending: '\r' }]);
  });

  it('is one of more than 64 KB unless another length is asked for', () => {
    const line = `ZZ1*${'9'.repeat(LONGEST_SEGMENT)}`;
    expect(LONGEST_SEGMENT).toBe(65_536);
    expect(factsOfTexts([`${line}\r\nSE\r\n`])).toMatchObject([{ skipped: 4 }, { skipped: 0, kind: SEGMENT.SE.index }]);
    expect(factsOfTexts([`${line}\r\nSE\r\n`], 200_000)).toMatchObject([{ skipped: 0 }, { skipped: 0 }]);
  });

  it('may hold control characters, filler and stars in the part that is skipped', () => {
    expect(factsOfTexts(['PA1*7\x1b****\0\0\0', '   \r\n'], 5)).toMatchObject([
      { elements: ['7'], hasControl: false, skipped: 11 },
    ]);
    expect(factsOfTexts([`${' '.repeat(20)}ST*001\r\n`], 5)).toMatchObject([{ elements: [], id: '', skipped: 21 }]);
  });
});

describe('the longest segment', () => {
  it.each([0, -1, 1.5, Number.NaN, Number.POSITIVE_INFINITY])('can not be %s', (longestSegment) => {
    expect(() => new SegmentParser({ longestSegment })).toThrow(RangeError);
  });
});
