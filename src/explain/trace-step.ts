import type { Place } from '../findings/index.js';
import { add, multiply, subtract } from '../model/index.js';

/**
 * How a value of a trace comes about. `element`: read off a capture; `sheet`: off an office sheet; `figure`: another figure,
 * which has a trace of its own; `constant`: given; `sum` and `product`: of its parts; `unknown`: not known, and then the
 * parts are only what there is.
 */
export type TraceHow = 'element' | 'sheet' | 'figure' | 'constant' | 'sum' | 'product' | 'unknown';

/** One line of the arithmetic behind a figure. */
export interface TraceStep {
  readonly how: TraceHow;
  /** What it is, in words. */
  readonly label: string;
  /** Whether it is added to the sum it is part of, or taken away. */
  readonly sign: 1 | -1;
  /** Null is not known. */
  readonly value: number | null;
  readonly unit: 'money' | 'count';
  /** Where it stands, for elements and sheets. */
  readonly place: Place | null;
  /** The id of the figure, for figures. */
  readonly ref: string | null;
  /** What was decided on the way, or why it is not known. */
  readonly note: string | null;
  readonly parts: readonly TraceStep[];
}

/** The arithmetic behind one printed figure. */
export interface FigureTrace {
  readonly id: string;
  readonly currency: string | null;
  readonly decimals: number | null;
  readonly step: TraceStep;
}

/** Make a step; what is not said is nothing. */
export function makeStep(step: Pick<TraceStep, 'how' | 'label' | 'value' | 'unit'> & Partial<TraceStep>): TraceStep {
  return { sign: 1, place: null, ref: null, note: null, parts: [], ...step };
}

/** The step taken away instead of added. */
export function negate(step: TraceStep): TraceStep {
  return { ...step, sign: step.sign === 1 ? -1 : 1 };
}

/** A sum of steps. Its value is what they come to; it is not known where one of them is not. */
export function sumOf(
  label: string,
  unit: TraceStep['unit'],
  parts: readonly TraceStep[],
  note: string | null = null,
): TraceStep {
  const step = makeStep({ how: 'sum', label, unit, value: null, parts, note });
  const value = recompute(step);
  return value === null ? unknownStep(label, unit, note ?? 'A part of it is not known.', parts) : { ...step, value };
}

/** A step whose value is not known, with the reason and with what there is. */
export function unknownStep(
  label: string,
  unit: TraceStep['unit'],
  note: string | null,
  parts: readonly TraceStep[] = [],
): TraceStep {
  return makeStep({ how: 'unknown', label, unit, value: null, note, parts });
}

/** Amounts in two currencies can not be taken from each other, though the digits are there. */
export function withheld(step: TraceStep): TraceStep {
  const note = 'The two reads are not in the same money, so nothing is taken from one to the other.';
  return unknownStep(step.label, step.unit, note, step.parts);
}

/** A value that is given. */
export function constant(
  label: string,
  value: number,
  unit: TraceStep['unit'] = 'money',
  note: string | null = null,
): TraceStep {
  return makeStep({ how: 'constant', label, value, unit, note });
}

/** The step with every figure it refers to worked out in its place. */
export function inlineFigures(step: TraceStep, traces: ReadonlyMap<string, () => TraceStep>): TraceStep {
  const own = step.ref === null ? undefined : traces.get(step.ref)?.();
  const { parts } = own ?? step;
  const inlined = { ...(own ?? step), sign: step.sign, label: step.label };
  return { ...inlined, parts: parts.map((part) => inlineFigures(part, traces)) };
}

/** Do the arithmetic of a step anew from its parts. Null when one of them is not known. */
export function recompute(step: TraceStep): number | null {
  const { how, parts, value } = step;
  if (how === 'unknown') return null;
  if (how === 'product') return parts.map(recompute).reduce(multiply, 1);
  if (how !== 'sum') return value;
  let sum: number | null = 0;
  for (const part of parts) {
    const partValue = recompute(part);
    sum = part.sign === 1 ? add(sum, partValue) : subtract(sum, partValue);
  }
  return sum;
}
