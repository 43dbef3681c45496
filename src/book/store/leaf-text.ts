import { canonicalJson, type JsonValue } from './canonical-json.js';
import type { Entry } from './entries.js';
import type { RecordedRead } from './reads.js';

/**
 * The text that an entry's leaf hash is taken of: canonical JSON (RFC 8785) of everything the entry says, what it does
 * not say left out.
 */
export function writeLeafText(entry: Entry): string {
  const { body, day, key, kind, recordedAt, refersTo, seq, subject } = entry;
  // The body is canonical already, so it is set in as it is; the keys stand in order.
  const parts = [
    `"body":${body}`,
    ...writeIfSaid('day', day),
    ...writeIfSaid('key', key),
    ...writeIfSaid('kind', kind),
    ...writeIfSaid('recordedAt', recordedAt),
    ...writeIfSaid('refersTo', refersTo),
    ...writeIfSaid('seq', seq),
    ...writeIfSaid('subject', subject),
  ];
  return `{${parts.join(',')}}`;
}

const writeIfSaid = (key: string, value: JsonValue): string[] =>
  value === null ? [] : [`"${key}":${canonicalJson(value)}`];

/** What is recorded of a read, as canonical JSON with a line end: what the digest in its entry is taken of. */
export function writeReadLine({ asset, board, clock, content, number, serial }: RecordedRead): string {
  return `${canonicalJson({ asset, board, clock, content, number, serial })}\n`;
}
