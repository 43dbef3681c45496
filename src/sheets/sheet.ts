import type { Finding } from '../findings/index.js';

/** An office sheet as it came. */
export interface Sheet {
  /** Its file, as the user named it: findings and rows carry this name. */
  readonly file: string;
  /** Bytes, or text that someone else decoded. */
  readonly content: string | Uint8Array;
}

/** The usable rows of a sheet, in its order, and everything a person should know about the rest. */
export interface SheetReading<Row> {
  readonly rows: readonly Row[];
  readonly findings: readonly Finding[];
}
