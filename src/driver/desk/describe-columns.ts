import { ELEMENT } from '../../dictionary/index.js';
import type { Count, Minor } from '../../model/index.js';
import type { Read } from '../../read/index.js';

/** What a read says of one column. Money in minor units; null is not said, never 0. */
export interface ColumnLine {
  readonly column: string;
  readonly product: string | null;
  readonly price: Minor | null;
  readonly pricePlan: Minor | null;
  /** Paid vends and their value since initialisation, then since the last reset. */
  readonly sold: Count | null;
  readonly value: Minor | null;
  readonly soldSinceReset: Count | null;
  readonly valueSinceReset: Minor | null;
  /** When it was last sold out, as the machine says. */
  readonly soldOutAt: string | null;
}

/** What the operator's plan says of a column; null when there is none. */
export type PlanOfColumn = (column: string) => { readonly product: string | null; readonly price: Minor | null } | null;

const { PA103, PA201, PA202, PA203, PA204 } = ELEMENT;

/** The columns of a read in the machine's order. */
export function describeColumns(read: Read, planOf: PlanOfColumn): ColumnLine[] {
  return read.columns.map((column) => {
    const plan = planOf(column.id);
    const out = column.soldOutAt;
    return {
      column: column.id,
      product: plan?.product ?? column.text(PA103),
      price: column.price,
      pricePlan: plan?.price ?? null,
      sold: column.number(PA201),
      value: column.number(PA202),
      soldSinceReset: column.number(PA203),
      valueSinceReset: column.number(PA204),
      soldOutAt: out === null ? null : `${out.date}${out.time === null ? '' : ` ${out.time.slice(0, 5)}`}`,
    };
  });
}
