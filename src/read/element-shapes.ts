import { type ElementDef, type ElementKind, SEGMENTS, type SegmentDef } from '../dictionary/index.js';

/** What has to hold for an element's characters. */
export const SHAPE = { free: 0, number: 1, date: 2, time: 3 } as const;

/** How a segment's elements are to be looked at: not at all, all of them as numbers, or each by its own shape. */
export const SHAPING = { none: 0, numbers: 1, mixed: 2 } as const;

const KIND_SHAPES: Readonly<Record<ElementKind, number>> = {
  money: SHAPE.number,
  count: SHAPE.number,
  'money-or-count': SHAPE.number,
  date: SHAPE.date,
  time: SHAPE.time,
  text: SHAPE.free,
  code: SHAPE.free,
  hex: SHAPE.free,
};

const shapeOf = (element: ElementDef): number => KIND_SHAPES[element.kind];

function shapingOf(segment: SegmentDef): number {
  const shapes = segment.elements.map(shapeOf);
  if (shapes.every((shape) => shape === SHAPE.number)) return SHAPING.numbers;
  return shapes.every((shape) => shape === SHAPE.free) ? SHAPING.none : SHAPING.mixed;
}

/** For every known segment, by its index: one of {@link SHAPING}. */
export const SEGMENT_SHAPING: Uint8Array = Uint8Array.from(SEGMENTS, shapingOf);

/** How a run is packed into one number: {@link packRun}. */
export const RUN = { lastShift: 8, shapeShift: 16, mask: 0xff } as const;

const packRun = (first: number, last: number, shape: number): number =>
  first | (last << RUN.lastShift) | (shape << RUN.shapeShift);

/** For every known segment: the runs of elements that share a shape, as first position, last position and shape. */
export const SHAPED_RUNS: readonly (readonly number[])[] = SEGMENTS.map(({ elements }) => {
  const runs: { first: number; last: number; shape: number }[] = [];
  for (const element of elements) {
    const { position } = element;
    const shape = shapeOf(element);
    const before = runs.at(-1);
    if (before?.last === position - 1 && before.shape === shape) before.last = position;
    else if (shape !== SHAPE.free) runs.push({ first: position, last: position, shape });
  }
  return runs.map(({ first, last, shape }) => packRun(first, last, shape));
});

/** For every known segment: how many bytes its identifier has. */
export const ID_LENGTH: Uint8Array = Uint8Array.from(SEGMENTS, (segment) => segment.id.length);
