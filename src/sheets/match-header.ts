import type { CellRow } from './split-cells.js';

/** A column that a sheet may have beyond its named ones. */
export interface ExtraColumn<Extra> {
  readonly index: number;
  /** Its name in the header, as written. */
  readonly header: string;
  readonly extra: Extra;
}

/** What the header of a sheet says. */
export interface HeaderMatch<Extra> {
  /** Where each known column stands, by its name. */
  readonly indexes: ReadonlyMap<string, number>;
  readonly extras: readonly ExtraColumn<Extra>[];
  /** Names without a meaning here, as written. */
  readonly unknown: readonly string[];
  /** Known names that come twice. */
  readonly repeated: readonly string[];
  /** Number of columns, those without a name at the end left out. */
  readonly width: number;
}

/** A column's name in the form that sheets are described in: lower case, one underscore for spaces and hyphens. */
export function normaliseHeader(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, '_');
}

/**
 * Find the columns of a sheet.
 *
 * @param known - the names it can have, normalised
 * @param readExtra - what a name that is not among them means, or null
 */
export function matchHeader<Extra>(
  { cells }: CellRow,
  known: ReadonlySet<string>,
  readExtra: (header: string) => Extra | null,
): HeaderMatch<Extra> {
  const indexes = new Map<string, number>();
  const extras: ExtraColumn<Extra>[] = [];
  const unknown: string[] = [];
  const repeated: string[] = [];
  for (const [index, header] of cells.entries()) {
    const name = normaliseHeader(header);
    const extra = known.has(name) ? null : readExtra(header);
    if (extra !== null) extras.push({ index, header, extra });
    else if (!known.has(name)) unknown.push(header);
    else if (indexes.has(name)) repeated.push(name);
    else indexes.set(name, index);
  }
  const width = cells.findLastIndex((cell) => cell !== '') + 1;
  return { indexes, extras, unknown: unknown.filter((name) => name !== ''), repeated, width };
}
