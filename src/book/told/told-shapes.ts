import * as z from 'zod';
import type { ToldOfFile } from '../../checks/index.js';

/** What was told of a file, in an entry: what was not said is left out. */
export const toldRowSchema = z.object({
  receivedAt: z.string().optional(),
  reason: z.enum(['scheduled', 'on demand', 'service']).optional(),
  bag: z.string().optional(),
  machine: z.string().optional(),
  filled: z.boolean().optional(),
  signal: z.int().optional(),
});

/** What is said of a file beside its own facts: which entry says what held for it, and what a captures list told of it. */
export const toldFactsSchema = z.object({
  /** The entry (`told`) by which it was taken in; null where nothing was told; absent in entries of earlier versions. */
  by: z.int().nonnegative().nullish(),
  told: toldRowSchema.optional(),
});

/** A machine and the numbers by which its reads are known. */
const numberedSchema = z.tuple([z.string(), z.string().nullable(), z.string().nullable()]);

/** A machine of the roster: its name, asset and serial number. */
export type NumberedRow = z.infer<typeof numberedSchema>;

/** A row of a captures list that tells something else of a file than was told before. */
const lateRowSchema = toldRowSchema.extend({
  /** The entry of the file. */
  entry: z.int().nonnegative(),
  file: z.string(),
  /** Whether it tells of an earlier copy of the file: then it is of the time and the visit of its last read alone. */
  isCopy: z.literal(true).optional(),
  /** When the file's reads were taken or received by what was told before, the earliest of them. */
  before: z.string().optional(),
});

/** See {@link lateRowSchema}. */
export type LateRow = z.infer<typeof lateRowSchema>;

/** What an entry of the kind `told` says: what the office said, as far as reads are matched by it. */
export const toldBodySchema = z.object({
  /** The sheets it was said in, each with the SHA-256 of its bytes. */
  sheets: z.array(z.object({ of: z.string(), file: z.string(), sha256: z.string() })),
  /** Numbers of machines as the roster has them; as in an earlier entry; or, where none was given, as the book knew them. */
  roster: z.union([z.array(numberedSchema), z.int().nonnegative(), z.literal('remembered')]),
  /** Machines that a book knew before it kept what was told. */
  knownBefore: z.array(numberedSchema).optional(),
  /** Whether a file's own time counts as the time it was received. */
  isFileTimeReceived: z.boolean(),
  /** What it tells of files that were in the book. */
  captures: z.array(lateRowSchema),
});

/** See {@link toldBodySchema}. */
export type ToldBody = z.infer<typeof toldBodySchema>;
export type ToldRow = z.infer<typeof toldRowSchema>;
export type ToldFacts = z.infer<typeof toldFactsSchema>;

const KEYS = ['receivedAt', 'reason', 'bag', 'machine', 'filled', 'signal'] as const;

/** What was told of a file as an entry has it; null where nothing was said. */
export function toToldRow(told: ToldOfFile): ToldRow {
  const said = KEYS.filter((key) => told[key] !== null).map((key) => [key, told[key]]);
  return Object.fromEntries(said) as ToldRow;
}

/** The same with null for what was not said. */
export function fromToldRow(row: ToldRow): ToldOfFile {
  return Object.fromEntries(KEYS.map((key) => [key, row[key] ?? null])) as unknown as ToldOfFile;
}
