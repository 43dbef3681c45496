import * as z from 'zod';
import type { LocalDate, LocalDateTime } from '../../model/index.js';
import { captureBodySchema } from '../shapes.js';
import { BookError, type Entry } from '../store/index.js';
import { type ToldFile, toldFactsSchema } from '../told/index.js';

/** A file of the book, as its entry tells of it. */
export interface KnownFile extends ToldFile {
  readonly kind: 'capture-taken' | 'set-aside';
  /** The file's name as it was when it came. */
  readonly name: string;
  readonly sha256: string;
  readonly size: number;
  readonly isKept: boolean;
  /** Whether its bytes are packed (gzip). */
  readonly isPacked: boolean;
  /** The day whose run took it in. */
  readonly day: LocalDate | null;
  /** The file's own time when it came: evidence only where the user says so. */
  readonly fileTime: LocalDateTime | null;
  /** Why it was set aside, in words. */
  readonly message: string | null;
}

/** Of its facts only what is asked for is looked at: that they are JSON is known, since they were read from it. */
const fileBodySchema = captureBodySchema.extend({
  facts: toldFactsSchema.extend({
    fileTime: z.string().nullish(),
    message: z.string().nullish(),
    packing: z.literal('gzip').nullish(),
  }),
});

/**
 * What an entry of a file says.
 *
 * @throws RangeError when the entry is of no file; BookError `corrupted` when it does not say what it must
 */
export function readFileEntry({ seq, kind, day, body }: Entry): KnownFile {
  if (kind !== 'capture-taken' && kind !== 'set-aside') throw new RangeError(`Entry ${seq} is of no file.`);
  const read = fileBodySchema.safeParse(JSON.parse(body));
  if (!read.success) {
    throw new BookError('corrupted', `Entry ${seq} does not say what an entry of a file must say. Verify the book.`);
  }
  const { file: name, sha256, size, isKept, reads, facts } = read.data;
  const { fileTime = null, message = null, packing, by, told } = facts;
  const isPacked = packing === 'gzip';
  return { entry: seq, kind, name, sha256, size, reads, isKept, isPacked, day, fileTime, message, by, told };
}
