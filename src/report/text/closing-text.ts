import { printable } from '../../findings/index.js';
import { addAll, describeMoney, type Minor } from '../../model/index.js';
import type { AdjustmentJson, ChangesJson, ClosingJson, VisitChangeJson } from '../shapes/closing.js';
import type { Style } from './style.js';
import { layTable, type TableColumn } from './text-table.js';
import { amountCell, type MoneyUnit, NOT_KNOWN, plural, signedCell } from './words.js';
import { hangText } from './wrap-text.js';

/** By which entry, when and by whom a settlement was closed, as the end of its first line; nothing while it is open. */
export function closedWords({ closed }: ClosingJson): string {
  if (closed === null) return '';
  const { entry, recordedAt, by } = closed;
  return ` Closed ${instantWords(recordedAt)} by ${printable(by, 60)}, entry ${entry}.`;
}

/** An instant in UTC to the minute: `2026-11-25 06:00 UTC`. */
export function instantWords(instant: string): string {
  return `${instant.slice(0, 16).replace('T', ' ')} UTC`;
}

/**
 * What came of a settlement since it was closed, and what it carries, in a line each; none where there is nothing.
 *
 * @param overShort - as it was closed, over the settled visits
 */
export function layClosingState(closing: ClosingJson, overShort: Minor | null, unit: MoneyUnit): string[] {
  const { changes, adjustments, carried, closed, withCarried } = closing;
  const lines: string[] = [];
  if (adjustments.length > 0) {
    const sums = adjustments.map((adjustment) => adjustment.overShort.total);
    const now = moneyWords(addAll([overShort, ...sums]), unit);
    lines.push(`Adjusted since by ${sums.map((sum) => signedCell(sum, unit)).join(', ')}: over/short in all ${now}.`);
  }
  if (changes !== null) {
    const sum = signedCell(changes.overShort.total, unit);
    lines.push(`What came later changes over/short by ${sum}; not recorded yet: --close records it as an adjustment.`);
  }
  if (carried.length > 0) {
    const verb = closed === null ? 'would be carried into it' : 'carried into it';
    lines.push(
      `${plural(carried.length, 'adjustment')} of earlier rounds ${verb}: over/short with that ${moneyWords(withCarried.total, unit)}.`,
    );
  }
  return lines.flatMap((line) => hangText('  ', line));
}

function moneyWords(amount: number | null, { decimals, currency }: MoneyUnit): string {
  if (amount === null) return 'is not known';
  const sign = amount > 0 ? '+' : '';
  return sign + describeMoney(amount, decimals, currency);
}

/** Whether anything besides the settlement itself tells of money over or short. */
export function tellsOverShort({ changes, adjustments, carried }: ClosingJson): boolean {
  const sums = [...adjustments, ...carried, ...(changes === null ? [] : [changes])];
  return sums.some(({ overShort }) => overShort.total !== 0);
}

const CARRIED: readonly TableColumn[] = [
  { head: 'carried from' },
  { head: 'by entry', align: 'right' },
  { head: 'coins', align: 'right' },
  { head: 'bills', align: 'right' },
  { head: 'over/short', align: 'right' },
];

/** What a settlement carries of earlier ones, a line each, with the sum of all. */
export function layCarried({ carried, withCarried }: ClosingJson, unit: MoneyUnit, style: Style): string[] {
  if (carried.length === 0) return [];
  const rows = carried.map(({ day, entry, overShort }) => [
    day,
    String(entry),
    signedCell(overShort.coins, unit),
    signedCell(overShort.bills, unit),
    signedCell(overShort.total, unit),
  ]);
  const { coins, bills, total } = withCarried;
  const footer = [
    'total with this round',
    '',
    signedCell(coins, unit),
    signedCell(bills, unit),
    signedCell(total, unit),
  ];
  return ['', ...layTable(CARRIED, rows, style, { indent: '  ', footer })];
}

/** Adjustments, and changes that are not recorded yet: what changed, by how much, and why. */
export function layAfterClosing({ changes, adjustments }: ClosingJson, unit: MoneyUnit, style: Style): string[] {
  return [
    ...adjustments.flatMap((adjustment) => ['', ...layChanges(adjustmentWords(adjustment), adjustment, unit, style)]),
    ...(changes === null ? [] : ['', ...layChanges('Changed since, not recorded yet', changes, unit, style)]),
  ];
}

function adjustmentWords({ entry, recordedAt, by, carriedBy }: AdjustmentJson): string {
  const who = by === null ? '' : ` by ${printable(by, 60)}`;
  const carried = carriedBy === null ? 'not carried yet' : `carried by entry ${carriedBy}`;
  return `Adjusted ${instantWords(recordedAt)}${who}, entry ${entry}, ${carried}`;
}

const CHANGES: readonly TableColumn[] = [
  { head: 'machine', mayCut: true },
  { head: 'bag', mayCut: true },
  { head: 'what' },
  { head: 'from', align: 'right' },
  { head: 'to', align: 'right' },
  { head: 'by', align: 'right' },
];

const FIELD_WORDS: Readonly<Record<VisitChangeJson['field'], string>> = {
  state: 'state',
  'expected.coins': 'expected coins',
  'expected.bills': 'expected bills',
  'counted.coins': 'counted coins',
  'counted.bills': 'counted bills',
  'overShort.coins': 'over/short coins',
  'overShort.bills': 'over/short bills',
  'overShort.total': 'over/short',
};

function layChanges(
  title: string,
  { visits, because, overShort }: ChangesJson,
  unit: MoneyUnit,
  style: Style,
): string[] {
  const rows = visits.map(({ machine, bag, field, from, to, by }) => [
    machine,
    bag ?? '',
    FIELD_WORDS[field],
    valueCell(from, unit),
    valueCell(to, unit),
    field === 'state' ? '' : signedCell(by, unit),
  ]);
  const why = because.map(({ entry, what }) => (entry === null ? what : `${what} (entry ${entry})`));
  const reason = why.length === 0 ? 'no entry since: what is known of captures changed' : why.join(', ');
  return [
    ...hangText('', `${title}: over/short ${signedCell(overShort.total, unit)}.`).map(style.bold),
    ...hangText('  because of ', printable(reason, 2000)),
    ...layTable(CHANGES, rows, style, { indent: '  ' }),
  ];
}

function valueCell(value: VisitChangeJson['from'], unit: MoneyUnit): string {
  if (value === null) return NOT_KNOWN;
  return typeof value === 'number' ? amountCell(value, unit) : value;
}
