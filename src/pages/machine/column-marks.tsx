import type { RefillRow } from '../../day/index.js';
import type { ColumnSales, Interval } from '../../interval/index.js';
import { amountCell, type MoneyUnit, plural, signedCell } from '../../report/text/words.js';
import { Mark, type MarkTone } from '../frame/index.js';

/** Something to be minded of a column, in words with a sign. */
export interface ColumnMark {
  readonly tone: MarkTone;
  readonly sign: string;
  readonly word: string;
}

/** What goes into a column's marks. */
export interface MarksGiven {
  readonly column: ColumnSales;
  readonly interval: Interval;
  /** What the column holds at the machine's last read; null where that is not of this interval, or not known. */
  readonly refill: RefillRow | null;
}

/** What has to be minded of a column, the gravest first: these stand on its place in its tray. */
export function markColumn({ column, interval, refill }: MarksGiven): ColumnMark[] {
  const { priceTo, pricePlan, loss, inFrom, inTo, sold, value, floor, unexplained } = column;
  const isOff = priceTo !== null && pricePlan !== null && priceTo !== pricePlan;
  const hadLoss = loss !== null && loss !== 0;
  const marks: readonly (readonly [boolean, ColumnMark])[] = [
    [refill !== null && refill.soldOut !== null, { tone: 'bad', sign: '0', word: soldOutWords(refill) }],
    [isOff, { tone: 'bad', sign: '≠', word: 'priced off plan' }],
    [!isOff && hadLoss, { tone: 'warn', sign: '≠', word: 'sold off plan' }],
    [
      unexplained !== null && unexplained !== 0,
      { tone: 'warn', sign: '?', word: `unexplained ${signedCell(unexplained, interval).replace(/^-/, '−')}` },
    ],
    [sold === null || value === null, { tone: 'warn', sign: '?', word: 'not all known' }],
    [floor, { tone: 'warn', sign: '≥', word: 'at least' }],
    [!inFrom, { tone: 'plain', sign: '+', word: 'new' }],
    [!inTo, { tone: 'warn', sign: '−', word: 'gone' }],
  ];
  return marks.filter(([holds]) => holds).map(([, mark]) => mark);
}

function soldOutWords(refill: RefillRow | null): string {
  return refill?.soldOut === 'counters' ? 'sold out by the counters' : 'sold out';
}

/** What else there is to say of a column, after its marks. */
export function remarkColumn({ column, interval, refill }: MarksGiven): string[] {
  const { priceFrom, priceTo, split, test, free, loss, discounts, basis } = column;
  const money = (amount: number): string => amountCell(amount, interval);
  const wasOther = priceFrom !== null && priceTo !== null && priceFrom !== priceTo;
  return [
    loss === null || loss === 0 ? '' : lossWords(loss, interval),
    wasOther ? `price was ${money(priceFrom)}` : '',
    split.length > 1 ? split.map(({ count, price }) => `${count} at ${money(price)}`).join(', ') : '',
    discounts === null || discounts === 0 ? '' : `discounts ${money(discounts)}`,
    test === null || test === 0 ? '' : plural(test, 'test vend'),
    free === null || free === 0 ? '' : plural(free, 'free vend'),
    basis === 'interval' ? 'by counters since the last reset' : '',
    refill === null || refill.left === null || refill.soldOut !== null ? '' : leftWords(refill),
  ].filter((remark) => remark !== '');
}

function lossWords(loss: number, unit: MoneyUnit): string {
  const amount = amountCell(Math.abs(loss), unit);
  return loss > 0 ? `the price cost ${amount}` : `customers paid ${amount} above plan`;
}

function leftWords({ left, par, flags }: RefillRow): string {
  const doubt = flags.length === 0 ? '' : ', in doubt';
  return `${left} left${par === null ? '' : ` of ${par}`}${doubt}`;
}

/** Marks side by side. */
export function ColumnMarks({ marks }: { readonly marks: readonly ColumnMark[] }) {
  return (
    <>
      {marks.map((mark, place) => (
        <span key={place}>
          <Mark {...mark} />{' '}
        </span>
      ))}
    </>
  );
}
