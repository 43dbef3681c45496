import { traceFigure } from '../../explain/index.js';
import type { Difference, Interval } from '../../interval/index.js';
import type { Minor } from '../../model/index.js';
import { unitWords } from '../../report/text/words.js';
import { type CashAnchor, cashAnchor, DataTable, Money, type TableColumn } from '../frame/index.js';
import { flowCash, hasNoCounter } from './cash-flow.js';
import { CashFlowPart } from './cash-flow-part.js';
import { cashTraceId } from './trace-ids.js';
import { Trace, type TraceContext } from './traces.js';

/** What is shown of the cash of an interval. */
export interface CashPartProps {
  readonly interval: Interval;
  /** Which interval of the page, from 1. */
  readonly number: number;
  readonly context: TraceContext;
}

type CashFigure = Exclude<CashAnchor, 'isCashBookedAsCard'>;

const FIGURES: readonly (readonly [CashFigure, string])[] = [
  ['cashIn', 'Cash in'],
  ['toCashBox', 'Cash to the cash box'],
  ['toTubes', 'Cash to the tubes'],
  ['bills', 'Bills'],
  ['dispensed', 'Change to customers'],
  ['byHand', 'Paid out by hand'],
  ['filled', 'Filled by hand'],
  ['cashSales', 'Cash sales'],
  ['overpaid', 'Overpaid'],
  ['credited', 'Credited to cards for cash'],
  ['customerDifference', 'Cash in less change, sales, overpaid and credited'],
  ['cardSales', 'Card sales'],
  ['tokenSales', 'Token sales'],
  ['tubesFrom', 'Tubes at the earlier read'],
  ['tubesTo', 'Tubes at the later read'],
  ['tubeDifference', 'Tubes: more (+) or less (−) than they should hold'],
];

const SIGNED: ReadonlySet<string> = new Set(['customerDifference', 'tubeDifference']);

/** The cash of an interval: how it flowed, every figure, and where each comes from. */
export function CashPart({ interval, number, context }: CashPartProps) {
  const { cash } = interval;
  const columns: readonly TableColumn<readonly [CashFigure, string]>[] = [
    { head: 'Cash figure', cell: ([, label]) => label },
    {
      head: 'Amount',
      isNumber: true,
      cell: ([figure]) => <CashAmount amount={cash[figure]} interval={interval} figure={figure} number={number} />,
    },
  ];
  return (
    <>
      {cash.isCashBookedAsCard ? <p>This machine books cash sales as card sales.</p> : null}
      {flowCash(interval).map((flow) => (
        <CashFlowPart key={flow.name} flow={flow} unit={interval} interval={number} level={3} />
      ))}
      <DataTable
        caption={`Cash figures, in ${unitWords(interval)}`}
        columns={columns}
        rows={FIGURES}
        rowId={([figure]) => cashAnchor(figure, number)}
      />
      <div class="traces">
        {FIGURES.map(([figure, label]) => (
          <details key={figure}>
            <summary>{label}: where it comes from</summary>
            <div id={cashTraceId(figure, number)}>
              <Trace trace={traceFigure(interval, `cash.${figure}`)!} context={context} />
            </div>
          </details>
        ))}
      </div>
    </>
  );
}

interface CashAmountProps {
  readonly amount: Minor | null;
  readonly interval: Interval;
  readonly figure: CashFigure;
  readonly number: number;
}

function CashAmount({ amount, interval, figure, number }: CashAmountProps) {
  const from = `#${cashTraceId(figure, number)}`;
  if (amount === null)
    return <a href={from}>{hasNoCounter(countersOf(interval, figure)) ? 'no counter' : 'not known'}</a>;
  return (
    <Money
      amount={amount}
      unit={interval}
      signed={SIGNED.has(figure)}
      floor={countersOf(interval, figure).some((counter) => counter.floor)}
      from={from}
    />
  );
}

/** The counters that a figure is, where it is some and nothing else. */
function countersOf({ differences }: Interval, figure: CashFigure): readonly Difference[] {
  const { credited1, credited2, cardSales1, cardSales2, ...single } = differences;
  if (figure === 'credited') return [credited1, credited2];
  if (figure === 'cardSales') return [cardSales1, cardSales2];
  return figure in single ? [single[figure as keyof typeof single]] : [];
}
