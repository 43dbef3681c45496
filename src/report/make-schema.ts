import { z } from 'zod';
import { SHAPES } from './shapes/index.js';

/** The name of a JSON Schema under `schemas/`. */
export type SchemaName = keyof typeof SHAPES;

/** The JSON Schema (draft 2020-12) of an output, made from the shape that the code itself uses. */
export function makeSchema(name: SchemaName): Record<string, unknown> {
  return writeSchema(name, SHAPES[name]);
}

/** The JSON Schema of a shape under a name of its own: also for outputs of layers that come after this one. */
export function writeSchema(name: string, shape: z.ZodType): Record<string, unknown> {
  return { $id: `coilbook/${name}.schema.json`, ...z.toJSONSchema(shape, { target: 'draft-2020-12' }) };
}
