import * as z from 'zod';
import { captureBodySchema } from './shapes.js';
import type { Entry } from './store/index.js';
import { toldBodySchema } from './told/index.js';

const setAsideSchema = z.object({ message: z.string() });

/**
 * What an entry is of, in a few words for a person: the file, or whom and which day. It holds names from outside as they
 * are: make it safe where it is shown.
 *
 * @example describeEntry(entry) // 'v101.dex, 1 read'
 */
export function describeEntry(entry: Entry): string {
  const { kind, refersTo } = entry;
  const what = describeSelf(entry);
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

function describeSelf(entry: Entry): string {
  switch (entry.kind) {
    case 'capture-taken':
    case 'set-aside':
      return describeFile(entry);
    case 'told':
      return describeTold(entry);
    default:
      return describeSubject(entry);
  }
}

/** What was told, and of which files: the names that a person knows it by. */
function describeTold({ body }: Entry): string {
  const read = toldBodySchema.safeParse(parse(body));
  if (!read.success) return 'what the office said, which the entry does not say';
  const { sheets, roster, captures, isFileTimeReceived } = read.data;
  const [first, ...others] = captures.map(({ file }) => file);
  const more = others.length === 0 ? '' : ` and ${others.length} other ${others.length === 1 ? 'capture' : 'captures'}`;
  const parts = [
    ...sheets.map(({ of, file }) => `${of === 'machines' ? 'roster' : of} ${file}`),
    ...(Array.isArray(roster) ? [`${roster.length} ${roster.length === 1 ? 'machine' : 'machines'}`] : []),
    ...(isFileTimeReceived ? ['times of files count as received'] : []),
    ...(first === undefined ? [] : [`on ${first}${more}`]),
  ];
  return parts.length === 0 ? 'no roster and no list' : parts.join(', ');
}

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
