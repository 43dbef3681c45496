import { z } from 'zod';
import { FINDING_CODES, type FindingCode } from '../../findings/index.js';
import { textShape } from './figures.js';

const placeKeys = {
  file: z.string().optional(),
  machine: z.string().optional(),
  column: z.string().optional(),
  row: z.int().min(1).optional(),
  field: z.string().optional(),
};

/** The cautions that go with an advice, in full: whoever shows the advice shows these. */
export const cautionsShape = z.array(z.string()).optional();

/** Another place a finding rests on. */
const relatedShape = z.object({
  ...placeKeys,
  segment: z.string().optional(),
  element: z.string().optional(),
  line: z.int().min(1).optional(),
  offset: z.int().min(0).optional(),
  read: z.int().min(0).optional(),
});

/** One finding. Lines and rows count from 1, offsets and reads from 0. */
export const findingShape = z.object({
  code: z.enum(Object.keys(FINDING_CODES) as [FindingCode, ...FindingCode[]]),
  severity: z.enum(['fault', 'doubt', 'note']),
  message: z.string(),
  advice: textShape,
  cautions: cautionsShape,
  segment: textShape,
  element: textShape,
  line: z.int().min(1).nullable(),
  offset: z.int().min(0).nullable(),
  read: z.int().min(0).nullable(),
  ...placeKeys,
  expected: z.string().optional(),
  received: z.string().optional(),
  related: z.array(relatedShape).optional(),
});

/** See {@link findingShape}. */
export type FindingJson = z.infer<typeof findingShape>;

/** Findings that belong to no single object of an output: they ride on its first. */
export const generalShape = z.array(findingShape).optional();

/** What is printed where there is no object for them to ride on. */
export const onlyGeneralShape = z.object({ general: z.array(findingShape) });
