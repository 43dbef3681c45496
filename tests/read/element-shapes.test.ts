import { describe, expect, it } from 'vitest';
import { SEGMENT, SEGMENTS, type SegmentId } from '../../src/dictionary/index.js';
import { ID_LENGTH, RUN, SEGMENT_SHAPING, SHAPE, SHAPED_RUNS, SHAPING } from '../../src/read/element-shapes.js';

describe('element shapes', () => {
  it('group the elements of a segment that share a shape', () => {
    const runsOf = (id: SegmentId): number[] => [...SHAPED_RUNS[SEGMENT[id].index]!];
    expect(runsOf('PA1')).toEqual([2, 2, SHAPE.number, 4, 6, SHAPE.number]);
    expect(runsOf('PA5')).toEqual([1, 1, SHAPE.date, 2, 2, SHAPE.time, 3, 4, SHAPE.number]);
    expect(runsOf('CA3')).toEqual([1, 10, SHAPE.number]);
    expect(runsOf('DA1')).toEqual([]);
  });

  it('give every element that has a shape to one run, and no other', () => {
    for (const { elements, index } of SEGMENTS) {
      const runs = SHAPED_RUNS[index]!;
      const covered: number[] = [];
      for (let at = 0; at < runs.length; at += RUN.size) {
        for (let position = runs[at]!; position <= runs[at + RUN.last]!; position++) covered.push(position);
      }
      const shaped = elements
        .filter(({ kind }) => !['text', 'code', 'hex'].includes(kind))
        .map(({ position }) => position);
      expect(covered).toEqual(shaped);
    }
  });

  it('say how a segment is looked at, and how long its identifier is', () => {
    const of = (id: SegmentId): number => SEGMENT_SHAPING[SEGMENT[id].index]!;
    expect([of('VA1'), of('PA1'), of('DA1')]).toEqual([SHAPING.numbers, SHAPING.mixed, SHAPING.none]);
    expect([...ID_LENGTH]).toEqual(SEGMENTS.map(({ id }) => id.length));
  });
});
