import { describe, expect, it } from 'vitest';
import { mergeBlocks, parseSegments, type SegmentBlock, SegmentParser } from '../../src/segments/index.js';
import { crc16Bitwise } from '../support/crc16-bitwise.js';
import { bytesOf, textOf } from '../support/latin1-bytes.js';
import { factsOf, referenceLines } from './reference-lines.js';

const TEXT = `DXS*X\r\nST*001*0001\r\nPA1*\t1*${'9'.repeat(40)}*1\r\nG85*1234\r\nSE*4*0001\r\nDXE*1*1\r\n`;

function parseInChunks(text: string, size: number, longestSegment: number): SegmentBlock[] {
  const blocks: SegmentBlock[] = [];
  const keep = (block: SegmentBlock): void => {
    blocks.push(block);
  };
  const parser = new SegmentParser({ longestSegment });
  for (let at = 0; at < text.length; at += size) parser.push(bytesOf(text.slice(at, at + size)), keep);
  parser.end(keep);
  return blocks;
}

const wholeOf = (block: SegmentBlock): { block: SegmentBlock; from: number; to: number } => ({
  block,
  from: 0,
  to: block.lineCount,
});

describe('mergeBlocks', () => {
  it.each([1, 3, 20, 1000])('makes one block of chunks of %i bytes, with skips, control lines and CRC', (size) => {
    const merged = mergeBlocks(parseInChunks(TEXT, size, 20).map(wholeOf));
    expect(factsOf([merged])).toEqual(referenceLines(bytesOf(TEXT), 20));
    expect(merged.parts.controlLines).toEqual([2]);
    expect(merged.parts.skips).toEqual([{ at: 40, length: 29, line: 2 }]);
    expect([...merged.parts.integrity]).toEqual([[3, crc16Bitwise(bytesOf(TEXT.slice(7, TEXT.indexOf('G85'))))]]);
  });

  it('takes only the lines asked for', () => {
    const [block] = parseSegments(bytesOf(TEXT));
    const merged = mergeBlocks([
      { block: block!, from: 1, to: 3 },
      { block: block!, from: 3, to: 3 },
      { block: block!, from: 3, to: 5 },
    ]);
    expect(factsOf([merged])).toEqual(referenceLines(bytesOf(TEXT), 1000).slice(1, 5));
    expect(textOf(merged.bytes)).toBe(TEXT.slice(7, -9));
  });

  it('leaves out the skips, control lines and CRC of lines that are not asked for', () => {
    const block = mergeBlocks(parseInChunks(TEXT, 1000, 20).map(wholeOf));
    expect(block.parts.skips).toHaveLength(1);
    const { controlLines, skips, integrity } = mergeBlocks([{ block, from: 4, to: 6 }]).parts;
    expect([controlLines, skips, [...integrity]]).toEqual([[], [], []]);
  });

  it('takes more bytes than a small table has numbers for', () => {
    const line = `PA1*7*${'9'.repeat(40_000)}\r\n`;
    const text = `ST*1\r\n${line}${line}G85*1\r\n`;
    const merged = mergeBlocks(parseInChunks(text, 1000, 65_536).map(wholeOf));
    expect(factsOf([merged])).toEqual(referenceLines(bytesOf(text), 65_536));
  });

  it('copies the bytes, so that the chunks may be given up', () => {
    const chunk = bytesOf(TEXT);
    const merged = mergeBlocks(parseSegments(chunk).map(wholeOf));
    chunk.fill(0);
    expect(textOf(merged.bytes)).toBe(TEXT);
  });

  it('needs at least one line', () => {
    const [block] = parseSegments(bytesOf(TEXT));
    expect(() => mergeBlocks([])).toThrow(RangeError);
    expect(() => mergeBlocks([{ block: block!, from: 0, to: 0 }])).toThrow(RangeError);
  });
});
