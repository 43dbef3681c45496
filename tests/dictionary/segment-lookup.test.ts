import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lookUpSegment, SEGMENTS, UNKNOWN_SEGMENT } from '../../src/dictionary/index.js';
import { bytesOf } from '../support/latin1-bytes.js';

const viewOf = (text: string): DataView => new DataView(bytesOf(text).buffer);
const lookUp = (id: string): number => lookUpSegment(viewOf(`*${id}*1*2`), 1, 1 + id.length);

describe('lookUpSegment', () => {
  it('finds every segment of the dictionary by its bytes', () => {
    for (const { id, index } of SEGMENTS) {
      expect(lookUp(id)).toBe(index);
      // At the very end of the bytes too.
      expect(lookUpSegment(viewOf(id), 0, id.length)).toBe(index);
    }
  });

  it.each(['', 'S', 'PA9', 'pa1', 'CA', 'CA111', 'ST001', 'ST\0', 'CA1\0', 'ST\0\0', '\0ST', 'CA1 ', 'ÿÿÿÿ', 'SU'])(
    '%j is unknown',
    (id) => {
      expect(lookUp(id)).toBe(UNKNOWN_SEGMENT);
    },
  );

  it('knows no identifier but those of the dictionary', () => {
    const indexOf = (id: string): number => SEGMENTS.find((segment) => segment.id === id)?.index ?? UNKNOWN_SEGMENT;
    const letter = fc.constantFrom(...'ABCDEGILMPSTVX0123456789\0 ');
    fc.assert(
      fc.property(fc.string({ unit: letter, maxLength: 5 }), (id) => {
        expect(lookUp(id)).toBe(indexOf(id));
      }),
      { numRuns: 2000 },
    );
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 5 }), (bytes) => {
        const id = String.fromCharCode(...bytes);
        expect(lookUpSegment(new DataView(bytes.slice().buffer), 0, bytes.length)).toBe(indexOf(id));
      }),
    );
  });
});
