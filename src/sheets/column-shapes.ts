import type * as z from 'zod';
import type { Column } from './columns.js';

/** So many values of a column are remembered as fitting: those of a plan for thousands of machines are mostly the same few. */
const MOST_REMEMBERED = 10_000;

/** The shapes of a sheet's columns. What was found to fit once is not held against its shape again. */
export class ColumnShapes {
  readonly #columns = new Map<string, { readonly shape: z.ZodType; readonly fitting: Set<unknown> }>();

  constructor(columns: Readonly<Record<string, Column<unknown>>>) {
    for (const [key, { shape }] of Object.entries(columns)) this.#columns.set(key, { shape, fitting: new Set() });
  }

  /** Why a value does not fit the shape of its column; null where it does. */
  refuse(key: string, value: unknown): string | null {
    const { shape, fitting } = this.#columns.get(key)!;
    if (fitting.has(value)) return null;
    const issue = shape.safeParse(value).error?.issues[0];
    if (issue !== undefined) return issue.message;
    // A list or a map may be changed after it was looked at.
    if ((typeof value !== 'object' || value === null) && fitting.size < MOST_REMEMBERED) fitting.add(value);
    return null;
  }
}
