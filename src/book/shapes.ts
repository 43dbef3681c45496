import * as z from 'zod';

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

/** See {@link inclusionProofSchema}. */
export type InclusionProof = z.infer<typeof inclusionProofSchema>;
/** See {@link consistencyProofSchema}. */
export type ConsistencyProof = z.infer<typeof consistencyProofSchema>;
/** See {@link bookProofSchema}. */
export type BookProof = z.infer<typeof bookProofSchema>;
/** See {@link captureBodySchema}. */
export type CaptureBody = z.infer<typeof captureBodySchema>;
