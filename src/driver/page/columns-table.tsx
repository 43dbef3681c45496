import { amountCell, countCell } from '../../report/text/words.js';
import type { CaptureView } from '../desk/messages.js';
import { ScrollTable, type TableHead } from './scroll-table.js';
import { moneyWords } from './words.js';

const HEADS: readonly TableHead[] = [
  { head: 'Column' },
  { head: 'Product' },
  { head: 'Price', isNumber: true },
  { head: 'Plan', isNumber: true },
  { head: 'Sold ever', isNumber: true },
  { head: 'Value ever', isNumber: true },
  { head: 'Sold since reset', isNumber: true },
  { head: 'Value since reset', isNumber: true },
  { head: 'Last sold out' },
];

/** What a read says of each column; a dash is "not said", never zero. */
export function ColumnsTable({ view }: { view: CaptureView }) {
  if (view.columns.length === 0) return <p>The read has no columns.</p>;
  return (
    <ScrollTable
      caption={`Counters of each column as the machine gives them, amounts in ${moneyWords(view.currency, view.decimals)}`}
      heads={HEADS}
      rows={view.columns.map((column) => [
        column.column,
        column.product ?? '',
        amountCell(column.price, view),
        amountCell(column.pricePlan, view) +
          (column.price !== null && column.pricePlan !== null && column.price !== column.pricePlan ? ' off plan' : ''),
        countCell(column.sold),
        amountCell(column.value, view),
        countCell(column.soldSinceReset),
        amountCell(column.valueSinceReset, view),
        column.soldOutAt ?? '',
      ])}
    />
  );
}
