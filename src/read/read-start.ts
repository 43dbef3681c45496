import type { Read } from './read.js';

/** Where a read begins in its file: from there on it can be read without what comes before. */
export interface ReadStart {
  /** Offset of its DXS, from 0, and the number of that line, from 1. */
  readonly offset: number;
  readonly line: number;
  /** Number of the read in its file, from 0. */
  readonly number: number;
}

/** Where a read begins; null where no DXS stands right before it: then what comes before may belong to it. */
export function startOfRead({ number, range: { block, dxsLine } }: Read): ReadStart | null {
  if (dxsLine < 0) return null;
  return { offset: block.fileOffset(block.start(dxsLine)), line: block.lineNumber(dxsLine), number };
}
