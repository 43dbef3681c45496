import type { Finding } from '../findings/index.js';
import type { SheetPlace } from '../model/index.js';

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
  /** Rows that could not be used, each once; not there where all could. */
  readonly refused?: readonly RefusedRow[];
}

/** A row that could not be used: what could be read of it all the same. */
export interface RefusedRow {
  readonly machine: string | null;
  /** Its cells by the property they would have become; null or missing where they cannot be read. */
  readonly values: Readonly<Record<string, unknown>>;
  readonly place: SheetPlace;
}
