import { writeWhen } from '../checks/wording.js';
import { ELEMENT } from '../dictionary/index.js';
import { type Finding, makeFinding, printable } from '../findings/index.js';
import type { MachineDay } from './machine-day.js';
import type { ColumnStock } from './stock.js';

/** The columns that are sold out at the last read of a machine, with how that is known. */
export function findSoldOut({ stock, name }: MachineDay): Finding[] {
  if (stock === null) return [];
  const { until, columns } = stock;
  return columns
    .filter(({ soldOut }) => soldOut !== null)
    .map((column) =>
      makeFinding('sold-out', describe(column), {
        file: until.file,
        ...until.read.column(column.column)!.place(column.soldOut!.by === 'machine' ? ELEMENT.PA501 : ELEMENT.PA201),
        ...(name.row === null ? {} : { machine: name.row.machine }),
      }),
    );
}

function describe({ column, product, par, soldOut }: ColumnStock): string {
  const what = product === null ? '' : ` (${printable(product, 40)})`;
  const how =
    soldOut!.by === 'counters'
      ? `by its counters, since ${par} were vended after it was filled to ${par}`
      : `since ${writeWhen(soldOut!.at!)} by the machine's own clock`;
  return `Column ${printable(column, 20)}${what} is sold out: ${how}.`;
}
