import { ELEMENT, type ElementName } from '../dictionary/index.js';
import { type Finding, makeFinding } from '../findings/index.js';
import { addAll } from '../model/index.js';
import type { CashMovement } from './cash-movement.js';
import type { ColumnSales } from './column-sales.js';
import { type Difference, valueOrNothing } from './difference.js';
import { baseDetail } from './interval-finding.js';
import type { ReadPair } from './read-pair.js';
import type { TakenRead } from './taken-read.js';

type Counter = readonly [lifetime: ElementName, interval: ElementName];

/** One way to hold the sales of a machine against its parts. */
export interface MovedTotal {
  readonly unit: 'money' | 'count';
  /** Which vends, fit to stand before "vends". */
  readonly vends: 'paid' | 'test' | 'free';
  readonly total: Counter;
  readonly devices: readonly Counter[];
  readonly ofColumn: Counter;
}

/** The totals of paid vends, the ways of paying they are made of, and what of a column is in them. */
export const PAID_TOTALS: readonly MovedTotal[] = [
  {
    unit: 'money',
    vends: 'paid',
    total: ['VA101', 'VA103'],
    devices: [
      ['CA201', 'CA203'],
      ['DA201', 'DA203'],
      ['DB201', 'DB203'],
      ['TA201', 'TA203'],
    ],
    ofColumn: ['PA202', 'PA204'],
  },
  {
    unit: 'count',
    vends: 'paid',
    total: ['VA102', 'VA104'],
    devices: [
      ['CA202', 'CA204'],
      ['DA202', 'DA204'],
      ['DB202', 'DB204'],
      ['TA202', 'TA204'],
    ],
    ofColumn: ['PA201', 'PA203'],
  },
];

/** Those of test and free vends: goods leave by them, too. */
const UNPAID_TOTALS: readonly MovedTotal[] = [
  { unit: 'money', vends: 'test', total: ['VA201', 'VA203'], devices: [], ofColumn: ['PA302', 'PA304'] },
  { unit: 'count', vends: 'test', total: ['VA202', 'VA204'], devices: [], ofColumn: ['PA301', 'PA303'] },
  { unit: 'money', vends: 'free', total: ['VA301', 'VA303'], devices: [], ofColumn: ['PA402', 'PA404'] },
  { unit: 'count', vends: 'free', total: ['VA302', 'VA304'], devices: [], ofColumn: ['PA401', 'PA403'] },
];

/**
 * Hold what counters moved by against each other where no lifetime totals of both reads bear them out (those are compared by
 * `compareCrossTotals`): VA1 = CA2 + DA2 + DB2 + TA2, VA1 = Σ PA2, VA2 = Σ PA3 and VA3 = Σ PA4, by whichever counter each
 * figure was taken from. What is the least it can have been may not be more than a total that is known in full.
 */
export function judgeMovedTotals(pair: ReadPair, columns: readonly ColumnSales[]): Finding[] {
  if (pair.restart !== null) return [];
  return [...PAID_TOTALS, ...UNPAID_TOTALS].flatMap((kind) => {
    if (kind.unit === 'money' && !pair.isSameMoney) return [];
    if (kind.vends !== 'paid' && !isKeptApart(pair, kind)) return [];
    const moved = ([lifetime, interval]: Counter): Difference => pair.difference(lifetime, interval);
    const total = moved(kind.total);
    const byDevice = kind.devices.map(moved);
    // Cash came in, but how much of it were sales is not said.
    const isSaid = byDevice.some(({ why }) => why !== 'absent') && (byDevice[0]!.why !== 'absent' || !hasCashIn(pair));
    const byColumn = columns.map((column) => moveColumn(pair, column, kind));
    return [
      ...(isSaid ? compare(pair, kind, total, byDevice, 'cash, cashless and token sales') : []),
      ...(columns.length > 0 ? compare(pair, kind, total, byColumn, 'its columns') : []),
    ];
  });
}

function moveColumn(pair: ReadPair, column: ColumnSales, { ofColumn: [lifetime, interval] }: MovedTotal): Difference {
  const { soldDifference, valueDifference, testDifference, freeDifference } = column;
  const known = [soldDifference, valueDifference, testDifference, freeDifference];
  const same = known.find(({ element: { name } }) => name === lifetime || name === interval);
  return same ?? pair.columnDifference(column.column, lifetime, interval);
}

/** Whether a machine counts such vends both in all and by column: many keep the one or the other alone. */
function isKeptApart({ from, to }: ReadPair, { total, ofColumn }: MovedTotal): boolean {
  const isInAll = [from, to].some(({ read }) => total.some((name) => read.integer(name) !== null));
  return isInAll && [from, to].some((taken) => isInColumns(taken, ofColumn));
}

const isInColumns = ({ read }: TakenRead, names: readonly ElementName[]): boolean =>
  read.columns.some((column) => names.some((name) => column.number(ELEMENT[name]) !== null));

/** Whether the lifetime totals of both reads can be compared, which says more: what was off before, and is an old scar. */
function isComparedByTotals({ from, to }: ReadPair, { total: [all], ofColumn: [part] }: MovedTotal): boolean {
  return [from, to].every((taken) => taken.read.integer(all) !== null && isInColumns(taken, [part]));
}

const hasCashIn = ({ from, to }: ReadPair): boolean => [from, to].some(({ read }) => read.has('CA3'));

function compare(
  pair: ReadPair,
  kind: MovedTotal,
  total: Difference,
  parts: readonly Difference[],
  partsWhat: string,
): Finding[] {
  const { unit, vends } = kind;
  const isFallback = [total, ...parts].some(({ basis, value }) => basis === 'interval' && value !== null);
  if (!isFallback && (vends === 'paid' || isComparedByTotals(pair, kind))) return [];
  const sum = addAll(parts.map(valueOrNothing));
  if (total.value === null || total.floor || sum === null) return [];
  const isLeast = parts.some(({ floor }) => floor);
  if (isLeast ? sum <= total.value : sum === total.value) return [];
  const say = (amount: number): string => (unit === 'money' ? pair.money(amount) : String(amount));
  const what = unit === 'money' ? 'value' : 'number';
  const why = isFallback ? '; some of these are counters since the last reset, which nothing else bears out' : '';
  const message = `The ${what} of all ${vends} vends rose by ${say(total.value)}, ${partsWhat} by ${isLeast ? 'at least ' : ''}${say(sum)}${why}.`;
  const advice = 'Do not rely on the figures of this interval before another read bears them out.';
  return [makeFinding('cross-total', message, { ...baseDetail(pair, kind.total[0]), severity: 'doubt', advice })];
}

/**
 * Card sales above all sales: no roll-over explains that, since each figure is what a counter moved by.
 *
 * @see domain rule: VA1 = CA2 + DA2 + DB2 + TA2
 */
export function judgeCardShare(pair: ReadPair, { cardSales }: CashMovement): Finding[] {
  const all = pair.difference('VA101', 'VA103');
  if (!pair.isSameMoney || pair.restart !== null || cardSales === null || all.value === null || all.floor) return [];
  if (cardSales <= all.value) return [];
  const message = `Card sales rose by ${pair.money(cardSales)}, all sales by ${pair.money(all.value)} only: more cannot have been sold by card than was sold.`;
  const advice = 'Read the machine again and compare; do not hold card sales against deposits before.';
  return [makeFinding('cross-total', message, { ...baseDetail(pair, 'DA201'), severity: 'doubt', advice })];
}
