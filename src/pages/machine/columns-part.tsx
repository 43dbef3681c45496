import { traceFigure } from '../../explain/index.js';
import { printable } from '../../findings/index.js';
import type { ColumnSales, Interval } from '../../interval/index.js';
import { unitWords } from '../../report/text/words.js';
import { DataTable, Money, Pieces, Shown, type TableColumn } from '../frame/index.js';
import { ColumnMarks, markColumn, remarkColumn } from './column-marks.js';
import { Trace, type TraceContext } from './traces.js';
import { type TrayColumn, Trays } from './trays.js';

/** What a part of an interval's columns shows. */
export interface ColumnsPartProps {
  readonly columns: readonly TrayColumn[];
  readonly interval: Interval;
  readonly context: TraceContext;
  /** Which columns they are; nothing where they are all. */
  readonly which: string;
}

/** What columns sold: as they lie in the machine, as a table, and where every figure comes from. */
export function ColumnsPart({ columns, interval, context, which }: ColumnsPartProps) {
  const caption = `Sales by column${which}, in ${unitWords(interval)}`;
  return (
    <>
      <Trays columns={columns} />
      <DataTable caption={caption} columns={COLUMNS} rows={columns} rowId={({ rowId }) => rowId} />
      <details class="traces">
        <summary>Where the figures of the columns come from{which}</summary>
        {columns.map((one) => (
          <ColumnTraces key={one.traceId} one={one} context={context} />
        ))}
      </details>
    </>
  );
}

/** The columns of the table; the first names the machine's column. */
export const COLUMNS: readonly TableColumn<TrayColumn>[] = [
  {
    head: 'Column',
    cell: ({ column: { column, product } }) => (
      <>
        <Shown text={column} max={20} />
        {product === null ? null : (
          <span class="faint">
            {' '}
            <Shown text={product} max={60} />
          </span>
        )}
      </>
    ),
  },
  {
    head: 'Sold',
    isNumber: true,
    cell: ({ column, traceId }) => <Known value={column.sold} column={column} traceId={traceId} isCount />,
  },
  { head: 'For', isNumber: true, cell: (one) => <Known value={one.column.value} {...one} /> },
  { head: 'Price', isNumber: true, cell: (one) => <Known value={one.column.priceTo} {...one} isExact /> },
  { head: 'Plan', isNumber: true, cell: ({ column, interval }) => <Money amount={column.pricePlan} unit={interval} /> },
  {
    head: 'To be minded',
    cell: (one) => (
      <>
        <ColumnMarks marks={markColumn(one)} />
        {remarkColumn(one).join('; ')}
      </>
    ),
  },
];

interface KnownProps {
  readonly value: number | null;
  readonly column: ColumnSales;
  readonly traceId: string;
  readonly interval?: Interval;
  readonly isCount?: boolean;
  /** Prices are what they are, also where sales are the least they can have been. */
  readonly isExact?: boolean;
}

/** A figure that leads to where it comes from; one that is not known leads to why. */
function Known({ value, column, traceId, interval, isCount = false, isExact = false }: KnownProps) {
  const from = `#${traceId}`;
  if (value === null) return <a href={from}>not known</a>;
  const floor = !isExact && column.floor;
  if (isCount) return <Pieces count={value} floor={floor} from={from} />;
  return <Money amount={value} unit={interval ?? NO_UNIT} floor={floor} from={from} />;
}

const NO_UNIT = { currency: null, decimals: null };

/** The figures of a column that are explained, in this order. */
const FIGURES = ['sold', 'value', 'priceTo', 'priceFrom', 'pricePlan', 'unexplained', 'loss', 'test', 'free'] as const;
/** Those that say nothing where they are not known: the machine counts no such thing, or there is no plan. */
const QUIET: ReadonlySet<string> = new Set(['pricePlan', 'unexplained', 'loss', 'test', 'free']);

/** How labels of its figures call a column. */
function nameOf({ column, product }: ColumnSales): string {
  return product === null ? `Column ${column}` : `Column ${column}, ${product}`;
}

/** Where the figures of one column come from; by itself it tells how long that is. */
export function ColumnTraces({ one, context }: { readonly one: TrayColumn; readonly context: TraceContext }) {
  const { column, interval, traceId } = one;
  const own = { ...context, subject: nameOf(column) };
  const shown = FIGURES.filter((figure) => !(QUIET.has(figure) && column[figure] === null));
  return (
    <details>
      <summary>Column {printable(column.column, 20)}: where its figures come from</summary>
      <ul id={traceId}>
        {shown.map((figure) => {
          const trace = traceFigure(interval, `columns.${column.column}.${figure}`);
          return trace === null ? null : (
            <li key={figure}>
              <Trace trace={trace} context={own} />
            </li>
          );
        })}
      </ul>
    </details>
  );
}
