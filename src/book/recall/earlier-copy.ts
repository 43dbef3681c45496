import * as z from 'zod';
import type { CaptureReason, LocalDateTime } from '../../model/index.js';
import type { BookRead, JsonObject } from '../store/index.js';

/** What the captures list said of a copy of a file that was received before the one that the book has it from. */
export interface EarlierCopy {
  readonly receivedAt: LocalDateTime;
  readonly reason: CaptureReason | null;
  readonly bag: string | null;
  readonly filled: boolean | null;
}

const earlierCopySchema = z.object({
  receivedAt: z.string(),
  reason: z.enum(['scheduled', 'on demand', 'service']).nullable(),
  bag: z.string().nullable(),
  filled: z.boolean().nullable(),
});
const factsSchema = z.object({ earlierCopy: earlierCopySchema });

/** What is known of an earlier copy of a read; null when there is none. */
export function readEarlierCopy({ facts }: Pick<BookRead, 'facts'>): EarlierCopy | null {
  return factsSchema.safeParse(facts).data?.earlierCopy ?? null;
}

/** The facts of a read with what is known of an earlier copy. */
export function writeEarlierCopy({ facts }: Pick<BookRead, 'facts'>, copy: EarlierCopy): JsonObject {
  const { receivedAt, reason, bag, filled } = copy;
  const others = (facts ?? {}) as JsonObject;
  return { ...others, ...(filled === null ? {} : { filled }), earlierCopy: { receivedAt, reason, bag, filled } };
}
