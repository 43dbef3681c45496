import type { SegmentBlock } from '../segments/index.js';

/**
 * Tells whether a PA1 names a column that came before. Columns almost always come in rising order; then a look at the one
 * before is enough, and a set of names is made only for a capture where they do not.
 */
export class ColumnNames {
  readonly #block: SegmentBlock;
  #highest = 0;
  #seen: Set<number | string> | null = null;

  constructor(block: SegmentBlock) {
    this.#block = block;
  }

  /**
   * Take the PA1 on a line: `new`, `repeated`, or `none` when it names no column.
   *
   * @param columns - the lines found so far, every `stride`th one a PA1 that was new
   */
  take(line: number, columns: readonly number[], stride: number): 'new' | 'repeated' | 'none' {
    const key = keyOf(this.#block, line);
    if (key === '') return 'none';
    if (this.#seen === null) {
      if (typeof key === 'number' && key > this.#highest) {
        this.#highest = key;
        return 'new';
      }
      this.#seen = new Set();
      for (let at = 0; at < columns.length; at += stride) this.#seen.add(keyOf(this.#block, columns[at]!));
    }
    const known = this.#seen.size;
    return this.#seen.add(key).size === known ? 'repeated' : 'new';
  }
}

/** For short ASCII names a number that grows with length and text (no text is made), else the text. */
function keyOf(block: SegmentBlock, line: number): number | string {
  if (block.elementCount(line) === 0) return '';
  const { bytes } = block;
  const start = block.elementStart(line, 1);
  const end = block.elementEnd(line, 1);
  if (end === start) return '';
  if (end - start > 4) return block.text(line, 1)!;
  let key = 1;
  for (let at = start; at < end; at++) {
    const byte = bytes[at]!;
    if (byte > 0x7f) return block.text(line, 1)!;
    key = key * 128 + byte;
  }
  return key;
}
