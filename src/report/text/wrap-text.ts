import { textWidth } from './text-width.js';

/** Widest line of a text report. */
export const LINE_WIDTH = 80;

/**
 * Break a text into lines of at most `width` places, between words; a word that is longer than a line is cut.
 *
 * @returns at least one line
 */
export function wrapText(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ').flatMap((each) => cutWord(each, width))) {
    if (line === '') line = word;
    else if (textWidth(line) + 1 + textWidth(word) <= width) line += ` ${word}`;
    else {
      lines.push(line);
      line = word;
    }
  }
  return [...lines, line];
}

/** Lines that begin with a label, those after the first one indented to stand under its text. */
export function hangText(label: string, text: string, width = LINE_WIDTH): string[] {
  const indent = ' '.repeat(textWidth(label));
  return wrapText(text, width - textWidth(label)).map((line, i) => (i === 0 ? label : indent) + line);
}

/** Parts of a report with an empty line between them. */
export function joinParts(parts: readonly (readonly string[])[]): string[] {
  return parts.flatMap((part, i) => (i === 0 ? part : ['', ...part]));
}

function cutWord(word: string, width: number): string[] {
  if (textWidth(word) <= width) return [word];
  const pieces: string[] = [];
  let piece = '';
  for (const character of word) {
    if (textWidth(piece + character) > width && piece !== '') {
      pieces.push(piece);
      piece = '';
    }
    piece += character;
  }
  return [...pieces, piece];
}
