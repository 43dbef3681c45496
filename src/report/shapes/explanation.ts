import { z } from 'zod';
import { currencyShape, decimalsShape, textShape } from './figures.js';
import { generalShape } from './finding.js';

const explainedElementShape = z.object({
  name: z.string(),
  text: z.string(),
  meaning: textShape,
  isByProfile: z.boolean(),
  kind: z.enum(['text', 'code', 'count', 'money', 'money-or-count', 'date', 'time', 'hex']).nullable(),
  /** Since initialisation, since the last reset, or as it stands now. */
  span: z.enum(['init', 'reset', 'level']).nullable(),
  words: textShape,
  isUnconfirmed: z.boolean().describe('Nothing else in a capture, or in those before and after it, confirms it'),
  offset: z.int().min(0),
});

/** What `explain CAPTURE --json` prints: one object a segment. */
export const explanationShape = z.object({
  file: z.string(),
  id: z.string(),
  title: textShape,
  line: z.int().min(1),
  offset: z.int().min(0),
  read: z.int().min(0).nullable(),
  column: textShape,
  elements: z.array(explainedElementShape),
  remark: textShape,
});

/** See {@link explanationShape}. */
export type ExplanationJson = z.infer<typeof explanationShape>;

const placeShape = z.object({
  file: z.string().optional(),
  read: z.int().min(0).optional(),
  segment: z.string().optional(),
  element: z.string().optional(),
  line: z.int().min(1).optional(),
  offset: z.int().min(0).optional(),
  column: z.string().optional(),
  row: z.int().min(1).optional(),
  field: z.string().optional(),
});

const traceStepShape = z.object({
  how: z.enum(['element', 'sheet', 'figure', 'constant', 'sum', 'product', 'unknown']),
  label: z.string(),
  /** How it enters the sum it is part of. */
  sign: z.union([z.literal(1), z.literal(-1)]),
  value: z.int().nullable(),
  unit: z.enum(['money', 'count']),
  place: placeShape.nullable(),
  ref: textShape,
  note: textShape,
  get parts() {
    return z.array(traceStepShape);
  },
});

/** What `explain --figure ID --json` prints: one object a figure. */
export const figureShape = z.object({
  id: z.string(),
  currency: currencyShape,
  decimals: decimalsShape,
  /** The interval or round it is of, in words. */
  of: z.string(),
  step: traceStepShape,
  general: generalShape,
});

/** See {@link figureShape}. */
export type FigureJson = z.infer<typeof figureShape>;
