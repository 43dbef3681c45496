import { LINE_KIND } from './segment-block.js';

const SUB = 0x1a;
const SPACE = 0x20;

const isFiller = (byte: number): boolean => byte === SPACE || byte === 0 || byte === SUB;

/** Where the content of a line ends that stands from `start` up to `end`: before trailing spaces and padding. */
export function trimFiller(bytes: Uint8Array, start: number, end: number): number {
  let trimmed = end;
  while (trimmed > start && isFiller(bytes[trimmed - 1]!)) trimmed--;
  return trimmed;
}

/** Whether there is a control character from `start` up to `end`. */
export function hasControlCharacter(bytes: Uint8Array, start: number, end: number): boolean {
  for (let at = start; at < end; at++) {
    if (bytes[at]! < SPACE) return true;
  }
  return false;
}

/** What a line is that has no content: padding if NUL or 1Ah stand in it, else blank. */
export function kindOfEmptyLine(bytes: Uint8Array, start: number, end: number): number {
  return hasControlCharacter(bytes, start, end) ? LINE_KIND.padding : LINE_KIND.blank;
}
