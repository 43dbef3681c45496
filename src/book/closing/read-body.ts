import type * as z from 'zod';
import { BookError, type Entry, type JsonValue } from '../store/index.js';

/**
 * What an entry says, by its shape.
 *
 * @throws BookError `corrupted` when it does not say what it must
 */
export function readBody<Shape extends z.ZodType>(shape: Shape, { seq, kind, body }: Entry): z.infer<Shape> {
  const read = shape.safeParse(JSON.parse(body));
  if (read.success) return read.data;
  throw new BookError('corrupted', `Entry ${seq} does not say what a ${kind} must say. Verify the book.`);
}

/** A value as an entry records it: what is undefined is left out. */
export function toBody(value: unknown): JsonValue {
  return JSON.parse(JSON.stringify(value)) as JsonValue;
}
