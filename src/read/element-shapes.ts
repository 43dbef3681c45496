import { SEGMENTS, type SegmentDef } from '../dictionary/index.js';

/** What has to hold for an element's characters. */
export const SHAPE = { free: 0, number: 1, date: 2, time: 3 } as const;

function shapeOf(segment: SegmentDef): Uint8Array {
  const last = Math.max(...segment.elements.map((element) => element.position));
  const shapes = new Uint8Array(last + 1);
  for (const { kind, position } of segment.elements) {
    if (kind === 'money' || kind === 'count' || kind === 'money-or-count') shapes[position] = SHAPE.number;
    else if (kind === 'date') shapes[position] = SHAPE.date;
    else if (kind === 'time') shapes[position] = SHAPE.time;
  }
  return shapes;
}

/** For every known segment, by its index: what has to hold for the element at each position (0 is not used). */
export const SHAPES: readonly Uint8Array[] = SEGMENTS.map(shapeOf);

/** For every known segment: whether all the elements that the dictionary lists are numbers. */
export const IS_ALL_NUMBERS: readonly boolean[] = SHAPES.map((shapes) =>
  shapes.subarray(1).every((shape) => shape === SHAPE.number),
);

/** For every known segment: whether any element must be a number, a date or a time. */
export const HAS_SHAPE: readonly boolean[] = SHAPES.map((shapes) => shapes.some((shape) => shape !== SHAPE.free));
