import { describe, expect, it } from 'vitest';
import { SEGMENT, SEGMENTS, type SegmentId } from '../../src/dictionary/index.js';
import { ID_LENGTH, RUN, SEGMENT_SHAPING, SHAPE, SHAPED_RUNS, SHAPING } from '../../src/read/element-shapes.js';

/** The runs of a segment, each as first position, last position and shape. */
const runsOf = (index: number): number[][] =>
  SHAPED_RUNS[index]!.map((run) => [run & RUN.mask, (run >> RUN.lastShift) & RUN.mask, run >> RUN.shapeShift]);

describe('element shapes', () => {
  it.each([
    [
      'PA1',
      [
        [2, 2, SHAPE.number],
        [4, 6, SHAPE.number],
      ],
    ],
    [
      'PA5',
      [
        [1, 1, SHAPE.date],
        [2, 2, SHAPE.time],
        [3, 4, SHAPE.number],
      ],
    ],
    ['CA3', [[1, 10, SHAPE.number]]],
    ['DA1', []],
  ] as const)('group the elements of %s that share a shape', (id, expected) => {
    expect(runsOf(SEGMENT[id].index)).toEqual(expected);
  });

  it('give every element that has a shape to one run, and no other', () => {
    for (const { elements, index } of SEGMENTS) {
      const covered = runsOf(index).flatMap(([first, last]) =>
        Array.from({ length: last! - first! + 1 }, (_, at) => first! + at),
      );
      const isShaped = (kind: string): boolean => !['text', 'code', 'hex'].includes(kind);
      expect(covered).toEqual(elements.filter(({ kind }) => isShaped(kind)).map(({ position }) => position));
    }
  });

  it('say how a segment is looked at, and how long its identifier is', () => {
    const of = (id: SegmentId): number => SEGMENT_SHAPING[SEGMENT[id].index]!;
    expect([of('VA1'), of('PA1'), of('DA1')]).toEqual([SHAPING.numbers, SHAPING.mixed, SHAPING.none]);
    expect([...ID_LENGTH]).toEqual(SEGMENTS.map(({ id }) => id.length));
  });
});
