import * as z from 'zod';
import { captureBodySchema } from './shapes.js';
import type { Entry } from './store/index.js';

const setAsideSchema = z.object({ message: z.string() });

/**
 * What an entry is of, in a few words for a person: the file, or whom and which day. It holds names from outside as they
 * are: make it safe where it is shown.
 *
 * @example describeEntry(entry) // 'v101.dex, 1 read'
 */
export function describeEntry(entry: Entry): string {
  const { kind, refersTo } = entry;
  const what = kind === 'capture-taken' || kind === 'set-aside' ? describeFile(entry) : describeSubject(entry);
  return refersTo === null ? what : `${what}; ${REFERENCE_WORDS[kind] ?? 'refers to'} entry ${refersTo}`;
}

const REFERENCE_WORDS: Partial<Record<Entry['kind'], string>> = {
  'capture-taken': 'set aside before as',
  'set-aside': 'known before as',
  'count-corrected': 'corrects',
  'count-withdrawn': 'takes out',
  adjustment: 'adjusts',
  'adjustment-carried': 'carries',
};

function describeFile({ kind, body, key }: Entry): string {
  const read = captureBodySchema.safeParse(parse(body));
  if (!read.success) return key ?? 'a file that the entry does not name';
  const { file, reads, facts } = read.data;
  if (kind === 'capture-taken') return `${file}, ${reads} ${reads === 1 ? 'read' : 'reads'}`;
  const why = setAsideSchema.safeParse(facts).data?.message;
  return why === undefined ? `${file}, no capture` : `${file}, no capture: ${why}`;
}

function describeSubject({ subject, day, key }: Entry): string {
  const parts = [subject, day].filter((part) => part !== null);
  return parts.length > 0 ? parts.join(', ') : (key ?? 'nothing that it names');
}

/** Entries of a damaged book are described too. */
function parse(body: string): unknown {
  try {
    return JSON.parse(body);
  } catch {
    return null;
  }
}
