import type { ExplainedSegment, FigureTrace, TraceStep } from '../../explain/index.js';
import type { ExplanationJson, FigureJson } from '../shapes/explanation.js';

/** A segment in words as programs get it. */
export function explainedToJson(file: string, segment: ExplainedSegment): ExplanationJson {
  const { id, title, line, offset, read, column, elements, remark } = segment;
  return { file, id, title, line, offset, read, column, elements: [...elements], remark };
}

/**
 * The arithmetic of a figure as programs get it.
 *
 * @param of - the interval or round it is of, in words
 */
export function figureToJson({ id, currency, decimals, step }: FigureTrace, of: string): FigureJson {
  return { id, currency, decimals, of, step: stepToJson(step) };
}

function stepToJson(step: TraceStep): FigureJson['step'] {
  return { ...step, place: step.place === null ? null : placeToJson(step.place), parts: step.parts.map(stepToJson) };
}

function placeToJson(place: NonNullable<TraceStep['place']>): NonNullable<FigureJson['step']['place']> {
  const known = Object.entries(place).filter(
    ([key, value]) => value !== undefined && key !== 'machine' && key !== 'value',
  );
  return Object.fromEntries(known);
}
