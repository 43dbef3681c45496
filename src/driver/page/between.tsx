import { printable } from '../../findings/index.js';
import { describeMoney } from '../../model/index.js';
import type { IntervalJson } from '../../report/index.js';
import { amountCell, countCell, signedCell, timeWords } from '../../report/text/words.js';
import type { BetweenView } from '../desk/messages.js';
import { Cautions } from './answer.js';
import { FindingsList } from './findings-list.js';
import { ScrollTable, type TableHead } from './scroll-table.js';
import { machineWords, moneyWords } from './words.js';

/** So many intervals are shown at once. */
const MOST_SHOWN = 20;

/** What happened between the reads of a machine. */
export function Between({ between, headLevel }: { between: BetweenView; headLevel: 'all' | 'one' }) {
  const { intervals, findings, cautions } = between;
  if (intervals.length === 0 && findings.length === 0) return null;
  const rest = intervals.length - MOST_SHOWN;
  return (
    <section class="between" aria-labelledby={`between-${headLevel}`}>
      <h3 id={`between-${headLevel}`}>Between the reads</h3>
      {intervals.slice(0, MOST_SHOWN).map((interval, i) => (
        <OneInterval key={i} interval={interval} />
      ))}
      {rest > 0 ? <p>And {rest} more.</p> : null}
      {findings.length === 0 ? null : <FindingsList findings={findings} file={null} />}
      <Cautions cautions={cautions} />
    </section>
  );
}

const BASIS_WORDS: Readonly<Record<IntervalJson['basis'], string>> = {
  lifetime: 'from lifetime counters',
  interval: 'from interval counters, for want of lifetime ones',
  restart: 'since the counters started again: what was sold before that is lost',
};

function OneInterval({ interval }: { interval: IntervalJson }) {
  const { machine, from, to, basis, findings } = interval;
  return (
    <article class="interval">
      <h4>
        {machineWords(machine)}: {soldWords(interval)}
      </h4>
      <p>
        From {timeWords(from.time)} ({printable(from.file, 200)}) to {timeWords(to.time)} ({printable(to.file, 200)}),{' '}
        {BASIS_WORDS[basis]}
      </p>
      <SalesTable interval={interval} />
      <CashTable interval={interval} />
      {findings.length === 0 ? null : <FindingsList findings={findings} file={to.file} />}
    </article>
  );
}

function soldWords({ totals: { sold, value }, floor, decimals, currency }: IntervalJson): string {
  if (sold === null) return 'sales not known';
  const amount = value === null ? 'a value not known' : describeMoney(value, decimals, currency);
  return printable(`${floor ? 'at least ' : ''}${sold} sold for ${amount}`, 100);
}

const SALES: readonly TableHead[] = [
  { head: 'Column' },
  { head: 'Product' },
  { head: 'Sold', isNumber: true },
  { head: 'Value', isNumber: true },
  { head: 'Price', isNumber: true },
  { head: 'Plan', isNumber: true },
  { head: 'Test', isNumber: true },
  { head: 'Free', isNumber: true },
  { head: 'Unexplained', isNumber: true },
];

function SalesTable({ interval }: { interval: IntervalJson }) {
  const { columns, totals } = interval;
  const shown = columns.filter(({ sold, value, test, free }) => [sold, value, test, free].some((each) => each !== 0));
  const idle = columns.length - shown.length;
  const least = (text: string, floor: boolean): string => (floor ? `at least ${text}` : text);
  return (
    <>
      <ScrollTable
        caption={`Sold by column, amounts in ${moneyWords(interval.currency, interval.decimals)}`}
        heads={SALES}
        rows={shown.map((column) => [
          column.column,
          column.product ?? '',
          least(countCell(column.sold), column.floor),
          amountCell(column.value, interval),
          amountCell(column.priceTo, interval),
          amountCell(column.pricePlan, interval),
          countCell(column.test),
          countCell(column.free),
          signedCell(column.unexplained, interval),
        ])}
        footer={[
          'Total',
          '',
          least(countCell(totals.sold), interval.floor),
          amountCell(totals.value, interval),
          '',
          '',
          countCell(totals.test),
          countCell(totals.free),
          '',
        ]}
      />
      {idle === 0 ? null : <p>{idle} more sold nothing.</p>}
    </>
  );
}

const CASH: readonly TableHead[] = [{ head: 'Cash' }, { head: 'Amount', isNumber: true }];

function CashTable({ interval }: { interval: IntervalJson }) {
  const { cash } = interval;
  const lines: readonly (readonly [string, number | null])[] = [
    ['Cash in', cash.cashIn],
    ['To the cash box', cash.toCashBox],
    ['To the tubes', cash.toTubes],
    ['Bills', cash.bills],
    ['Change to customers', cash.dispensed],
    ['Paid out by hand', cash.byHand],
    ['Filled by hand', cash.filled],
    ['Cash sales', cash.cashSales],
    ['Card sales', cash.cardSales],
    ['Overpaid', cash.overpaid],
    ['Tubes before', cash.tubesFrom],
    ['Tubes after', cash.tubesTo],
  ];
  return (
    <ScrollTable
      caption={`Cash, in ${moneyWords(interval.currency, interval.decimals)}`}
      heads={CASH}
      rows={[
        ...lines.map(([name, amount]) => [name, amountCell(amount, interval)]),
        ['Tube difference', signedCell(cash.tubeDifference, interval)],
      ]}
    />
  );
}
