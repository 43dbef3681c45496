// C0 controls with DEL and C1, zero-width and bidi marks, line and paragraph separators, byte-order mark, lone surrogates,
// tag characters: everything that a terminal or a browser acts on, or shows as nothing. The backslash stays as it is.
const HIDDEN =
  /[\u0000-\u001f\u007f-\u009f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}]|\p{Surrogate}/gu;

/** What stands for the characters left out of a long text. */
const ELLIPSIS = '…';

function showHidden(character: string): string {
  const code = character.codePointAt(0)!;
  const hex = code.toString(16).toUpperCase();
  return code <= 0xff ? `\\x${hex.padStart(2, '0')}` : `\\u{${hex.padStart(4, '0')}}`;
}

/**
 * Make text from a capture or a sheet fit to be shown: no character of it can steer a terminal, turn the reading
 * direction or hide. Controls up to U+00FF become `\xNN`, others `\u{NNNN}`; all other text stays as it is, also a
 * backslash, so the result is for people and is not meant to be read back.
 *
 * It is no escape for HTML, SQL or a CSV formula.
 *
 * @param text - any text, however long
 * @param max - most characters (code points) of `text` that are shown, 1 or more; what is beyond is cut and shown as `…`.
 *   The result can be longer, since one hidden character takes up to nine.
 * @example printable('A\u001b[2J') // 'A\\x1B[2J'
 */
export function printable(text: string, max = 60): string {
  // Cut before looking at the characters: the text can be megabytes. A code point takes at most two units.
  const units = text.slice(0, 2 * max + 2);
  const characters = [...units];
  const isWhole = units.length === text.length && characters.length <= max;
  const shown = isWhole ? text : characters.slice(0, max).join('') + ELLIPSIS;
  return shown.replace(HIDDEN, showHidden);
}
