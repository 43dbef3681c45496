import { pushAll } from '../../../model/index.js';
/** The conditions of a query, of which those not asked for are left out. Values are only ever bound, never written in. */
export class Conditions {
  readonly #parts: string[] = [];
  readonly values: unknown[] = [];

  /** Add a condition with one `?` for the value; nothing when the value is not given. */
  add(condition: string, value: string | number | Uint8Array | null | undefined): this {
    if (value === undefined) return this;
    this.#parts.push(condition);
    this.values.push(value);
    return this;
  }

  /** Add that a column has one of some values; nothing when they are not given. */
  addOneOf(column: string, values: readonly string[] | undefined): this {
    if (values === undefined) return this;
    this.#parts.push(`${column} IN (${values.map(() => '?').join(', ')})`);
    pushAll(this.values, values);
    return this;
  }

  /** Add a condition that has no value. */
  always(condition: string): this {
    this.#parts.push(condition);
    return this;
  }

  /** The WHERE clause; empty without conditions. */
  get sql(): string {
    return this.#parts.length === 0 ? '' : `WHERE ${this.#parts.map((part) => `(${part})`).join(' AND ')}`;
  }
}
