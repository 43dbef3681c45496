import { textOf } from '../support/build-capture.js';

/** Segments of a capture by plain splitting, for tests of what the support itself writes. */
export function splitSegments(bytes: Uint8Array): readonly (readonly string[])[] {
  return textOf(bytes)
    .split(/\r\n/)
    .filter((line) => line !== '')
    .map((line) => line.split('*'));
}

/** A number by segment and position, the first segment of that name; null where it is absent. */
export function numberAt(segments: readonly (readonly string[])[], id: string, position: number): number | null {
  const text = segments.find((segment) => segment[0] === id)?.[position];
  return text === undefined || text === '' ? null : Number(text);
}

/** The segments of one PA group. */
export function groupOf(segments: readonly (readonly string[])[], column: string): readonly (readonly string[])[] {
  const start = segments.findIndex((segment) => segment[0] === 'PA1' && segment[1] === column);
  if (start === -1) return [];
  const rest = segments.slice(start + 1).findIndex((segment) => !/^PA[2-8]$/.test(segment[0]!));
  return segments.slice(start, rest === -1 ? undefined : start + 1 + rest);
}
