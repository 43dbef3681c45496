import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lookUpSegment, SEGMENTS, UNKNOWN_SEGMENT } from '../../src/dictionary/index.js';
import { bytesOf } from '../support/latin1-bytes.js';

const lookUp = (id: string): number => lookUpSegment(bytesOf(`*${id}*`), 1, 1 + id.length);

describe('lookUpSegment', () => {
  it('finds every segment of the dictionary by its bytes', () => {
    for (const segment of SEGMENTS) expect(lookUp(segment.id)).toBe(segment.index);
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
        expect(lookUpSegment(bytes, 0, bytes.length)).toBe(indexOf(id));
      }),
    );
  });
});
