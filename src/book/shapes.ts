import * as z from 'zod';
import type { EntryKind } from './store/index.js';
import type { BookFaultKind } from './verify-book.js';

const hash = z.string().regex(/^[0-9a-f]{64}$/, 'expected 64 lower-case hex digits');
const count = z.int().nonnegative();

/** The size of a book and its root: what is written down elsewhere, to hold the book against later. */
export const bookHeadSchema = z.object({
  size: count.describe('Number of entries'),
  root: hash.describe('Root of their Merkle tree, RFC 6962 with SHA-256'),
});

/** What the entry of a file says. */
export const captureBodySchema = z.object({
  file: z.string().describe('Name of the file'),
  sha256: hash.describe('SHA-256 of its bytes as they came'),
  size: count.describe('Number of its bytes'),
  isKept: z.boolean().describe('Whether its bytes are in the book'),
  reads: count.describe('Number of reads in it'),
  readsSha256: hash.describe('SHA-256 over what is recorded of its reads, one line of canonical JSON each'),
  facts: z.record(z.string(), z.json()),
});

/** Shows that an entry is in the book of a given head. */
export const inclusionProofSchema = z.object({
  proof: z.literal('inclusion'),
  head: bookHeadSchema,
  entry: count.describe('Number of the entry, from 0'),
  leaf: z.string().describe('The entry: its leaf hash is SHA-256 of a byte 00h and these characters in UTF-8'),
  path: z.array(hash).describe('PATH(entry, D[size]) of RFC 6962, section 2.1.1'),
});

/** Shows that the later book starts with every entry of the earlier one, unchanged. */
export const consistencyProofSchema = z.object({
  proof: z.literal('consistency'),
  earlier: bookHeadSchema,
  later: bookHeadSchema,
  path: z.array(hash).describe('PROOF(size, D[size]) of RFC 6962, section 2.1.2'),
});

/** A proof of either kind, as it is written to a file. */
export const bookProofSchema = z.discriminatedUnion('proof', [inclusionProofSchema, consistencyProofSchema]);

const ENTRY_KINDS = [
  'capture-taken',
  'set-aside',
  'told',
  'count-entered',
  'count-unusable',
  'count-corrected',
  'count-withdrawn',
  'settlement-closed',
  'adjustment',
  'adjustment-carried',
] as const satisfies readonly EntryKind[];
const FAULT_KINDS = [
  'missing',
  'altered',
  'tree',
  'bytes',
  'reads',
  'surplus',
  'unreadable',
  'other-head',
] as const satisfies readonly BookFaultKind[];

/** What kinds of entries there are. */
export const entryKindSchema = z.enum(ENTRY_KINDS);

/** What came of verifying a book. */
export const bookVerificationSchema = z.object({
  verdict: z
    .enum(['whole', 'doubtful', 'broken'])
    .describe(
      'doubtful: everything recorded fits, but guards against changes, or what is kept beside it, are not as they were made',
    ),
  head: bookHeadSchema.describe('Of the entries that fit, from the first on'),
  noted: bookHeadSchema.nullable().describe('The head written down elsewhere that the book was held against'),
  fault: z
    .object({
      kind: z.enum(FAULT_KINDS),
      entry: count.nullable().describe('Number of the first entry that does not fit, where it can be told'),
      entryKind: entryKindSchema.nullable(),
      of: z.string().nullable().describe('What the entry is of, such as a file'),
      message: z.string(),
    })
    .nullable(),
  missingGuards: z.array(z.string()).describe('Guards against changing what is recorded that were taken out'),
  alteredGuards: z
    .array(z.string())
    .describe('Guards, tables and indexes that say something else than they were made to'),
  unknownGuards: z.array(z.string()).describe('What was added to the database'),
  matching: z
    .object({
      reads: count.describe('Reads of which it follows from entries'),
      before: count
        .nullable()
        .describe(
          'Files in entries before this one were taken in by an earlier version, which did not record what was told of them',
        ),
      differences: z.array(
        z.object({
          entry: count,
          number: count,
          what: z.enum(['machine', 'received-at', 'reason', 'bag', 'time']),
          kept: z.string().nullable(),
          told: z.string().nullable(),
        }),
      ),
    })
    .nullable()
    .describe(
      'Whose reads are, when they were received, why they were taken, and their bags: as kept, held against what entries say',
    ),
  workedOut: z
    .object({
      machines: count,
      stale: count.describe('Machines of which more came in since they were worked out: nothing kept of them is used'),
      differences: z.array(
        z.object({
          machine: z.string(),
          entry: count,
          number: count,
          what: z.enum(['read', 'step', 'surplus-step']),
        }),
      ),
    })
    .nullable()
    .describe('What is kept of the captures, held against what they give; null where that was not asked for'),
  advice: z.string().nullable().describe('What to do'),
});

/** What came of checking a proof. */
export const proofCheckSchema = z.object({
  holds: z.boolean(),
  message: z.string(),
  noted: bookHeadSchema.nullable().describe('The head written down elsewhere that the proof was held against'),
});

/** An entry as it is listed. */
export const bookEntrySchema = z.object({
  entry: count.describe('Number of the entry, from 0'),
  recordedAt: z.string().describe('When it was recorded, in UTC'),
  kind: entryKindSchema,
  of: z.string().describe('What it is of, in words'),
  subject: z.string().nullable(),
  day: z.string().nullable(),
  key: z.string().nullable(),
  refersTo: count.nullable().describe('The entry that this one corrects, adjusts or takes the place of'),
  body: z.unknown().describe('What it records'),
});

/** What an export wrote. */
export const bookExportSchema = z.object({
  folder: z.string(),
  from: z.string().nullable().describe('First day asked for; null for all'),
  to: z.string().nullable().describe('Last day asked for; null for all'),
  captures: count.describe('Rows'),
  columns: count.describe('Rows'),
  cash: count.describe('Rows'),
  partitions: count.describe('Folders of one day and table'),
});

/** Every shape that the book's commands print as JSON, by the name of its schema under `schemas/`. */
export const BOOK_SHAPES = {
  'book-head': bookHeadSchema,
  'book-verification': bookVerificationSchema,
  'book-proof': bookProofSchema,
  'book-proof-check': proofCheckSchema,
  'book-entry': bookEntrySchema,
  'book-export': bookExportSchema,
} as const satisfies Record<string, z.ZodType>;

/** See {@link bookVerificationSchema}. */
export type BookVerificationJson = z.infer<typeof bookVerificationSchema>;
/** See {@link proofCheckSchema}. */
export type ProofCheckJson = z.infer<typeof proofCheckSchema>;
/** See {@link bookEntrySchema}. */
export type BookEntryJson = z.infer<typeof bookEntrySchema>;
/** See {@link bookExportSchema}. */
export type BookExportJson = z.infer<typeof bookExportSchema>;
/** See {@link inclusionProofSchema}. */
export type InclusionProof = z.infer<typeof inclusionProofSchema>;
/** See {@link consistencyProofSchema}. */
export type ConsistencyProof = z.infer<typeof consistencyProofSchema>;
/** See {@link bookProofSchema}. */
export type BookProof = z.infer<typeof bookProofSchema>;
/** See {@link captureBodySchema}. */
export type CaptureBody = z.infer<typeof captureBodySchema>;
