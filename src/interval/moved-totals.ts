import type { ElementName } from '../dictionary/index.js';
import { type Finding, makeFinding } from '../findings/index.js';
import { addAll } from '../model/index.js';
import type { CashMovement } from './cash-movement.js';
import type { ColumnSales } from './column-sales.js';
import { type Difference, valueOrNothing } from './difference.js';
import { baseDetail } from './interval-finding.js';
import type { ReadPair } from './read-pair.js';

type Counter = readonly [lifetime: ElementName, interval: ElementName];

interface MovedTotal {
  readonly unit: 'money' | 'count';
  readonly total: Counter;
  readonly devices: readonly Counter[];
  readonly ofColumn: 'value' | 'sold';
}

/** The totals of paid vends, the ways of paying they are made of, and what of a column is in them. */
export const PAID_TOTALS: readonly MovedTotal[] = [
  {
    unit: 'money',
    total: ['VA101', 'VA103'],
    devices: [
      ['CA201', 'CA203'],
      ['DA201', 'DA203'],
      ['DB201', 'DB203'],
      ['TA201', 'TA203'],
    ],
    ofColumn: 'value',
  },
  {
    unit: 'count',
    total: ['VA102', 'VA104'],
    devices: [
      ['CA202', 'CA204'],
      ['DA202', 'DA204'],
      ['DB202', 'DB204'],
      ['TA202', 'TA204'],
    ],
    ofColumn: 'sold',
  },
];

/**
 * Hold what counters moved by against each other where interval counters stand in for lifetime ones, for then no lifetime
 * total bears them out: VA1 = CA2 + DA2 + DB2 + TA2, and VA1 = Σ PA2, by whichever counter each figure was taken from. What
 * is the least it can have been may not be more than a total that is known in full.
 */
export function judgeMovedTotals(pair: ReadPair, columns: readonly ColumnSales[]): Finding[] {
  if (pair.restart !== null) return [];
  return PAID_TOTALS.flatMap((kind) => {
    if (kind.unit === 'money' && !pair.isSameMoney) return [];
    const moved = ([lifetime, interval]: Counter): Difference => pair.difference(lifetime, interval);
    const total = moved(kind.total);
    const byDevice = kind.devices.map(moved);
    // Cash came in, but how much of it were sales is not said.
    const isSaid = byDevice.some(({ why }) => why !== 'absent') && (byDevice[0]!.why !== 'absent' || !hasCashIn(pair));
    const byColumn = columns.map((column) =>
      kind.ofColumn === 'value' ? column.valueDifference : column.soldDifference,
    );
    return [
      ...(isSaid ? compare(pair, kind, total, byDevice, 'cash, cashless and token sales') : []),
      ...(columns.length > 0 ? compare(pair, kind, total, byColumn, 'its columns') : []),
    ];
  });
}

const hasCashIn = ({ from, to }: ReadPair): boolean => [from, to].some(({ read }) => read.has('CA3'));

function compare(
  pair: ReadPair,
  { unit, total: [element] }: MovedTotal,
  total: Difference,
  parts: readonly Difference[],
  partsWhat: string,
): Finding[] {
  const isFallback = [total, ...parts].some(({ basis, value }) => basis === 'interval' && value !== null);
  const sum = addAll(parts.map(valueOrNothing));
  if (!isFallback || total.value === null || total.floor || sum === null) return [];
  const isLeast = parts.some(({ floor }) => floor);
  if (isLeast ? sum <= total.value : sum === total.value) return [];
  const say = (amount: number): string => (unit === 'money' ? pair.money(amount) : String(amount));
  const what = unit === 'money' ? 'value' : 'number';
  const message = `The ${what} of all paid vends rose by ${say(total.value)}, ${partsWhat} by ${isLeast ? 'at least ' : ''}${say(sum)}; some of these are counters since the last reset, which nothing else bears out.`;
  const advice = 'Do not rely on the figures of this interval before another read bears them out.';
  return [makeFinding('cross-total', message, { ...baseDetail(pair, element), severity: 'doubt', advice })];
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
