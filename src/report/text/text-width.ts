const GRAPHEMES = new Intl.Segmenter('en', { granularity: 'grapheme' });
// Characters that terminals give two places to: CJK, its full-width forms, and emoji shown as pictures.
const WIDE =
  /[\u1100-\u115f\u2e80-\u303e\u3041-\u33ff\u3400-\u4dbf\u4e00-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe4f\uff01-\uff60\uffe0-\uffe6]|\p{Emoji_Presentation}/u;
const PLAIN = /^[\x20-\x7e]*$/;

/** How many places a text takes in a terminal. For text without control characters. */
export function textWidth(text: string): number {
  if (PLAIN.test(text)) return text.length;
  let width = 0;
  for (const { segment } of GRAPHEMES.segment(text)) width += WIDE.test(segment) ? 2 : 1;
  return width;
}

/** The text cut to at most so many places, with `…` for what is left out. */
export function cutText(text: string, width: number): string {
  if (textWidth(text) <= width) return text;
  let cut = '';
  let used = 0;
  for (const { segment } of GRAPHEMES.segment(text)) {
    used += textWidth(segment);
    if (used > width - 1) break;
    cut += segment;
  }
  return `${cut.trimEnd()}…`;
}

/** The text with spaces after it, or before it, up to so many places. */
export function padText(text: string, width: number, align: 'left' | 'right' = 'left'): string {
  const filler = ' '.repeat(Math.max(0, width - textWidth(text)));
  return align === 'left' ? text + filler : filler + text;
}
