import { writeSchema } from '../report/index.js';
import { BOOK_SHAPES } from './shapes.js';

/** The name of a JSON Schema under `schemas/` of what the book's commands print. */
export type BookSchemaName = keyof typeof BOOK_SHAPES;

/** The JSON Schema (draft 2020-12) of an output, made from the shape that the code itself uses. */
export function makeBookSchema(name: BookSchemaName): Record<string, unknown> {
  return writeSchema(name, BOOK_SHAPES[name]);
}
