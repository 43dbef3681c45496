import { z } from 'zod';
import { entryKindSchema } from '../book/index.js';
import { bookPath, date, path, sharedShape } from './option-shapes.js';

// Apart from the other options, since only the commands of the book may load what the book is made of.

const entries = (what: string) =>
  z
    .string()
    .regex(/^\d{1,15}$/, `expected ${what}`)
    .transform(Number);

const inBook = { book: bookPath, json: z.boolean().default(false) };

/** A head that was written down elsewhere. */
const noted = {
  size: entries('a number of entries').optional(),
  root: z
    .string()
    .transform((text) => text.toLowerCase())
    .refine((text) => /^[0-9a-f]{64}$/.test(text), 'expected 64 hex digits')
    .optional(),
};

export const bookHeadShape = z.object(inBook);
export const bookVerifyShape = z.object({
  ...inBook,
  ...noted,
  deep: z.boolean().default(false),
  putBack: z.boolean().default(false),
});
export const bookFileShape = z.object({ book: bookPath, out: path.optional() });
export const bookProofShape = z.object({
  book: bookPath,
  from: entries('an earlier number of entries').optional(),
});
export const bookCheckProofShape = z.object({ ...noted, json: z.boolean().default(false) });
export const bookEntriesShape = z.object({
  ...inBook,
  kind: z.array(entryKindSchema).optional(),
  day: date.optional(),
});

export const bookExportShape = z.object({
  ...sharedShape.shape,
  book: bookPath,
  parquet: path,
  from: date.optional(),
  to: date.optional(),
});

export type NotedOptions = Pick<z.infer<typeof bookCheckProofShape>, keyof typeof noted>;
