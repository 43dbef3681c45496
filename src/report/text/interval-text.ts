import { printable } from '../../findings/index.js';
import { type ColumnSales, type Interval, tellStep } from '../../interval/index.js';
import { bestTime, describeMoney, machineKey, sheetNameOfKey } from '../../model/index.js';
import { layFigures } from './figure-lines.js';
import { layFindings, type ShownContext } from './findings-text.js';
import type { Style } from './style.js';
import { layTable, type TableColumn } from './text-table.js';
import { textWidth } from './text-width.js';
import { amountCell, countCell, durationWords, plural, signedCell, timeWords, unitWords } from './words.js';
import { hangText, LINE_WIDTH } from './wrap-text.js';

const COLUMNS: readonly TableColumn[] = [
  { head: 'column' },
  { head: 'product', mayCut: true },
  { head: 'sold', align: 'right' },
  { head: 'value', align: 'right' },
  { head: 'price', align: 'right' },
  { head: 'plan', align: 'right' },
];

/** What one machine did between two reads, for a person: the answer first, then columns, cash and findings. */
export function layInterval(interval: Interval, style: Style): string[] {
  const { from, to } = interval;
  const findings = tellStep(interval);
  return [
    ...hangText('', headline(interval)).map(style.bold),
    ...hangText('  ', `from ${endWords(from)}`).map(style.dim),
    ...hangText('  ', `to   ${endWords(to)}`).map(style.dim),
    ...basisLines(interval),
    '',
    ...laySales(interval, style),
    '',
    ...layCash(interval, style),
    ...(findings.length === 0 ? [] : ['', ...layFindings(findings, style, contextOf(to))]),
  ];
}

/** Which interval it is, in one line. */
export function describeInterval({ from, to }: Interval): string {
  return printable(`${machineWords(to)}, ${timeWords(bestTime(from))} to ${timeWords(bestTime(to))}`, 300);
}

/** The name of a machine in a heading: the operator's own, else what the machine says of itself. */
function machineWords({ machine, read }: Interval['to']): string {
  if (machine !== null) return [machine.machine, machine.location].filter((part) => part !== null).join(', ');
  const key = machineKey({ machine, read });
  const name = key === null ? 'machine without a name' : `machine ${sheetNameOfKey(key)}`;
  return [name, read.machine.model].filter((part) => part !== null).join(', ');
}

function contextOf({ file, machine }: Interval['to']): ShownContext {
  return { file, machine: machine?.machine, indent: '  ' };
}

function headline(interval: Interval): string {
  const { to, totals, currency, decimals, floor } = interval;
  const atLeast = floor ? 'at least ' : '';
  const sold = totals.sold === null ? 'sales not known' : `${atLeast}${totals.sold} sold`;
  const value =
    totals.value === null ? ' for a value not known' : ` for ${describeMoney(totals.value, decimals, currency)}`;
  return printable(`${machineWords(to)}: ${sold}${totals.sold === null && totals.value === null ? '' : value}`, 300);
}

function endWords(taken: Interval['from']): string {
  const { file, read } = taken;
  const number = read.number === 0 ? '' : `, read ${read.number + 1}`;
  return printable(`${timeWords(bestTime(taken))}  ${file}${number}`, 400);
}

function basisLines({ basis, from, to }: Interval): string[] {
  const duration = durationWords(bestTime(from), bestTime(to));
  const counters = {
    lifetime: 'from lifetime counters',
    interval: 'from interval counters, for want of lifetime ones',
    restart: 'since the counters started again: what was sold before that is lost',
  }[basis];
  return hangText('  ', `${duration === null ? '' : `${duration}, `}${counters}`);
}

function laySales(interval: Interval, style: Style): string[] {
  const { columns, totals } = interval;
  const shown = columns.filter(
    (column) => column.sold !== 0 || column.value !== 0 || remarksOf(column, interval) !== '',
  );
  const idle = columns.length - shown.length;
  const still = idle === 0 ? [] : [`  ${plural(idle, 'more column')} sold nothing.`];
  if (shown.length === 0) return columns.length === 0 ? ['  The reads have no columns.'] : still;
  const rows = shown.map((column) => [
    column.column,
    column.product ?? '',
    countCell(column.sold),
    amountCell(column.value, interval),
    amountCell(column.priceTo, interval),
    amountCell(column.pricePlan, interval),
  ]);
  const footer = ['total', '', countCell(totals.sold), amountCell(totals.value, interval), '', ''];
  const [head, ...lines] = layTable(COLUMNS, rows, style, { indent: '  ', footer });
  const remarks = shown.map((column) => remarksOf(column, interval));
  return [head!, ...lines.flatMap((line, i) => addRemark(line, remarks[i] ?? '')), ...still];
}

/** A remark stands behind its column, or below where it is too long for that. */
function addRemark(line: string, remark: string): string[] {
  if (remark === '') return [line];
  const text = printable(remark, 400);
  const isShort = textWidth(line) + 2 + textWidth(text) <= LINE_WIDTH;
  return isShort ? [`${line}  ${text}`] : [line, ...hangText('          ', text)];
}

function remarksOf(column: ColumnSales, interval: Interval): string {
  const { priceFrom, priceTo, pricePlan, split, test, free, unexplained, loss, floor, inFrom, inTo } = column;
  const money = (amount: number): string => amountCell(amount, interval);
  const isOffPlan = priceTo !== null && pricePlan !== null && priceTo !== pricePlan;
  return [
    inFrom ? '' : 'new',
    inTo ? '' : 'gone',
    isOffPlan ? `off plan${loss === null || loss === 0 ? '' : `: ${signedCell(-loss, interval)}`}` : '',
    priceFrom === null || priceTo === null || priceFrom === priceTo || split.length > 1
      ? ''
      : `was ${money(priceFrom)}`,
    split.length > 1 ? split.map(({ count, price }) => `${count} at ${money(price)}`).join(', ') : '',
    unexplained === null || unexplained === 0 ? '' : `unexplained ${signedCell(unexplained, interval)}`,
    test === null || test === 0 ? '' : `${test} test`,
    free === null || free === 0 ? '' : `${free} free`,
    floor && !interval.floor ? 'at least' : '',
  ]
    .filter((remark) => remark !== '')
    .join('; ');
}

function layCash(interval: Interval, style: Style): string[] {
  const { cash } = interval;
  return [
    style.dim(`  cash, ${unitWords(interval)}`),
    ...layFigures(
      [
        ['cash in', cash.cashIn],
        ['  to the cash box', cash.toCashBox],
        ['  to the tubes', cash.toTubes],
        ['  bills', cash.bills],
        ['change to customers', cash.dispensed],
        ['paid out by hand', cash.byHand],
        ['filled by hand', cash.filled],
        ['cash sales', cash.cashSales],
        ['card sales', cash.cardSales],
        ['overpaid', cash.overpaid],
        ['tubes before', cash.tubesFrom],
        ['tubes after', cash.tubesTo],
        ['tube difference', cash.tubeDifference, 'signed'],
      ],
      interval,
    ),
  ];
}
