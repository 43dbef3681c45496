// What JSON lets stand as it is, but a terminal acts on or hides: DEL and C1, zero-width and bidi marks, separators.
const HIDDEN =
  /[\u007f-\u009f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}]/gu;

/**
 * A value as one line of JSON that is also safe to look at in a terminal: hidden characters are written as escapes, which
 * mean the same to any JSON reader (RFC 8259, section 7).
 */
export function writeJson(value: unknown): string {
  return JSON.stringify(value).replace(HIDDEN, (character) =>
    Array.from({ length: character.length }, (_, i) => `\\u${hex(character.charCodeAt(i))}`).join(''),
  );
}

const hex = (code: number): string => code.toString(16).padStart(4, '0');
