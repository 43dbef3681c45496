import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  LONGEST_SEGMENT,
  mergeBlocks,
  parseSegments,
  parseWholeNumber,
  type SegmentBlock,
  SegmentParser,
  streamSegments,
  writeSegments,
} from '../../src/segments/index.js';
import { factsOf, type LineFacts, referenceLines } from '../segments/reference-lines.js';
import { bytesOf, joinCaptures } from '../support/latin1-bytes.js';

// Any bytes at all, and bytes of the kind that hold something for a parser to get wrong.
const PIECES = ['ST*001*0001', 'G85*BB3D', 'SE*4*0001', 'PA1*1*100', 'CA10*5', 'ZZ9*x', 'ST', 'G85', '*', '**', '*1'];
const BREAKS = ['\r\n', '\r\n', '\r\n', '\n', '\r', '\r\r\n', '\n\r', ' ', '  ', '\0', '\x1a', '\t', 'ä', '0', 'A'];
const captureLike = fc
  .array(fc.constantFrom(...PIECES, ...BREAKS), { maxLength: 60 })
  .map((pieces) => bytesOf(pieces.join('')));
const anyBytes = fc.oneof(captureLike, fc.uint8Array({ maxLength: 200 }));
const anyCuts = fc.oneof(fc.constant('each byte' as const), fc.array(fc.nat(400), { maxLength: 12 }));
// Small limits too, so that overlong lines come about in short inputs.
const anyLongest = fc.oneof(fc.constant(LONGEST_SEGMENT), fc.integer({ min: 1, max: 20 }));

function cutUp(bytes: Uint8Array, cuts: readonly number[] | 'each byte'): Uint8Array[] {
  const inner = cuts === 'each byte' ? Array.from(bytes, (_, i) => i) : [...cuts].sort((a, b) => a - b);
  const edges = [0, ...inner.map((cut) => Math.min(cut, bytes.length)), bytes.length];
  // A buffer of its own for each chunk, as a stream gives them.
  return edges.slice(1).map((edge, i) => bytes.slice(edges[i], edge));
}

function pushAll(chunks: readonly Uint8Array[], longestSegment: number): SegmentBlock[] {
  const blocks: SegmentBlock[] = [];
  const parser = new SegmentParser({ longestSegment });
  const keep = (block: SegmentBlock): void => {
    blocks.push(block);
  };
  for (const chunk of chunks) parser.push(chunk, keep);
  parser.end(keep);
  return blocks;
}

async function streamAll(chunks: readonly Uint8Array[], longestSegment: number): Promise<SegmentBlock[]> {
  const blocks: SegmentBlock[] = [];
  for await (const block of streamSegments(chunks, { longestSegment })) blocks.push(block);
  return blocks;
}

/** The bytes the facts say were kept, with a gap wherever they say some were skipped. */
const keptBytes = (bytes: Uint8Array, facts: readonly LineFacts[]): Uint8Array =>
  joinCaptures(
    ...facts.flatMap((fact) => {
      const keptEnd = fact.offset + fact.raw.length - fact.ending.length;
      const endingStart = keptEnd + fact.skipped;
      return [bytes.subarray(fact.offset, keptEnd), bytes.subarray(endingStart, endingStart + fact.ending.length)];
    }),
  );

describe('segments of any bytes in any chunks', () => {
  it('are what the plainest reading of the whole file gives: lines, places, control lines, skips and CRCs', () => {
    fc.assert(
      fc.property(anyBytes, anyCuts, anyLongest, (bytes, cuts, longest) => {
        expect(factsOf(pushAll(cutUp(bytes, cuts), longest))).toEqual(referenceLines(bytes, longest));
      }),
      { numRuns: 3000 },
    );
  });

  it('are the same from parseSegments, streamSegments and pushes', async () => {
    await fc.assert(
      fc.asyncProperty(anyBytes, anyCuts, anyLongest, async (bytes, cuts, longest) => {
        const whole = factsOf(parseSegments(bytes, { longestSegment: longest }));
        const chunks = cutUp(bytes, cuts);
        expect(factsOf(pushAll(chunks, longest))).toEqual(whole);
        expect(factsOf(await streamAll(chunks, longest))).toEqual(whole);
      }),
      { numRuns: 500 },
    );
  });

  it('can be written back byte for byte, but for what was skipped, which is counted exactly', () => {
    fc.assert(
      fc.property(anyBytes, anyCuts, anyLongest, (bytes, cuts, longest) => {
        const blocks = pushAll(cutUp(bytes, cuts), longest);
        const written = writeSegments(blocks);
        const skipped = blocks.flatMap((block) => block.parts.skips).reduce((sum, skip) => sum + skip.length, 0);
        expect(written.length + skipped).toBe(bytes.length);
        expect(written).toEqual(keptBytes(bytes, factsOf(blocks)));
        if (longest === LONGEST_SEGMENT) expect(written).toEqual(bytes);
      }),
      { numRuns: 1000 },
    );
  });

  it('have offsets at which the file holds the very bytes', () => {
    fc.assert(
      fc.property(anyBytes, anyCuts, anyLongest, (bytes, cuts, longest) => {
        for (const fact of factsOf(pushAll(cutUp(bytes, cuts), longest))) {
          const texts = [fact.id, ...fact.elements];
          [fact.offset, ...fact.elementOffsets].forEach((offset, i) => {
            const expected = bytesOf(texts[i] ?? '');
            expect(bytes.subarray(offset, offset + expected.length)).toEqual(expected);
          });
        }
      }),
      { numRuns: 500 },
    );
  });

  it('give as the number of an element what its text says', () => {
    const element = fc.oneof(
      fc.constantFrom('', '0', '-', '+5', '12.5', '99999999999999999999', ' 1'),
      fc.nat().map(String),
    );
    const line = fc.array(element, { minLength: 1, maxLength: 6 }).map((elements) => ['PA2', ...elements].join('*'));
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 6 }), (lines) => {
        const [block] = parseSegments(bytesOf(`${lines.join('\r\n')}\r\n`));
        lines.forEach((text, line) => {
          const elements = text.split('*').slice(1);
          const numbers = elements.map((written) => parseWholeNumber(bytesOf(written), 0, written.length));
          expect(elements.map((_, i) => block!.number(line, i + 1))).toEqual(numbers);
          expect(block!.number(line, elements.length + 1)).toBeNull();
        });
      }),
    );
  });

  it('give one block when merged: that of the same bytes pushed at once', () => {
    fc.assert(
      fc.property(anyBytes, anyCuts, anyLongest, (bytes, cuts, longest) => {
        const blocks = pushAll(cutUp(bytes, cuts), longest);
        fc.pre(blocks.length > 0);
        const merged = mergeBlocks(blocks.map((block) => ({ block, from: 0, to: block.lineCount })));
        expect(factsOf([merged])).toEqual(referenceLines(bytes, longest));
        expect([...merged]).toEqual(blocks.flatMap((block) => [...block]));
      }),
      { numRuns: 500 },
    );
  });

  it('keep their places and CRCs when only some of the lines are merged', () => {
    fc.assert(
      fc.property(anyBytes, anyCuts, anyLongest, fc.nat(30), fc.nat(30), (bytes, cuts, longest, a, b) => {
        const blocks = pushAll(cutUp(bytes, cuts), longest);
        const all = factsOf(blocks);
        const [first, last] = [Math.min(a, b) + 1, Math.min(Math.max(a, b) + 1, all.length)];
        fc.pre(first <= last);
        const parts = blocks.map((block) => {
          const inBlock = (line: number): number => Math.min(Math.max(line - block.lineNumber(0), 0), block.lineCount);
          return { block, from: inBlock(first), to: inBlock(last + 1) };
        });
        const merged = mergeBlocks(parts.filter((part) => part.from < part.to));
        expect(factsOf([merged])).toEqual(all.slice(first - 1, last));
      }),
      { numRuns: 1000 },
    );
  });
});
