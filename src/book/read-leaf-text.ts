import * as z from 'zod';
import { entryKindSchema } from './shapes.js';
import { canonicalJson, type Entry } from './store/index.js';

const leafSchema = z.object({
  body: z.json(),
  day: z.string().optional(),
  key: z.string().optional(),
  kind: entryKindSchema,
  recordedAt: z.string(),
  refersTo: z.int().nonnegative().optional(),
  seq: z.int().nonnegative(),
  subject: z.string().optional(),
});

/** The entry that a leaf's text tells of, such as the one in a proof; null when it tells of none. See `writeLeafText`. */
export function readLeafText(leaf: string): Entry | null {
  const read = leafSchema.safeParse(parse(leaf));
  if (!read.success) return null;
  const { body, day = null, key = null, refersTo = null, subject = null, ...rest } = read.data;
  return { ...rest, day, key, refersTo, subject, body: canonicalJson(body) };
}

function parse(leaf: string): unknown {
  try {
    return JSON.parse(leaf);
  } catch {
    return null;
  }
}
