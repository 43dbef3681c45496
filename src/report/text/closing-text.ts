import { printable } from '../../findings/index.js';
import { describeMoney, formatMinor } from '../../model/index.js';
import type { SettlementTotals } from '../../settlement/index.js';
import type { AdjustmentJson, BookFactsJson, ChangeJson, DriverPartJson } from '../shapes/closing.js';
import type { Style } from './style.js';
import { layTable, type TableColumn } from './text-table.js';
import { type MoneyUnit, NOT_KNOWN, plural, signedCell, timeWords } from './words.js';
import { hangText } from './wrap-text.js';

/** By which entry, when and by whom a settlement was closed, as the end of its first line; nothing while it is open. */
export function closedWords({ closing }: BookFactsJson): string {
  if (closing === null) return '';
  const { entry, at, by } = closing;
  return ` Closed ${instantWords(at)} by ${printable(by, 60)}, entry ${entry}.`;
}

/** An instant in UTC to the minute: `2026-11-25 06:00 UTC`. */
export function instantWords(instant: string): string {
  return `${instant.slice(0, 16).replace('T', ' ')} UTC`;
}

/** What sums come to: `5.00 EUR short on 6 settled visits; 2 visits still open`. */
export function outcomeWords({ overShort, settledVisits, openVisits }: SettlementTotals, unit: MoneyUnit): string {
  const open = openVisits === 0 ? '' : `; ${plural(openVisits, 'visit')} still open`;
  if (settledVisits === 0) return `nothing could be settled${open}`;
  const { total } = overShort;
  const amount = describeMoney(Math.abs(total ?? 0), unit.decimals, unit.currency);
  const difference =
    total === null
      ? 'difference not known'
      : total === 0
        ? 'no difference'
        : `${amount} ${total < 0 ? 'short' : 'over'}`;
  return `${difference} on ${plural(settledVisits, 'settled visit')}${open}`;
}

/** Whether a round does not stand as it was closed. */
export function isChanged({ adjustments, pending }: BookFactsJson): boolean {
  return adjustments.length > 0 || pending.length > 0;
}

/**
 * How a settlement was closed, what came of it since, what it carries, and why it was closed or cannot be, in a line each; none
 * where there is nothing.
 */
export function layClosingState(inBook: BookFactsJson, unit: MoneyUnit): string[] {
  const { closing, asClosed, adjustments, pendingAdjustment, inTheWay } = inBook;
  const lines: string[] = [];
  if (closing !== null && closing.reason !== null)
    lines.push(`Closed though something was in the way: ${printable(closing.reason, 500)}`);
  if (asClosed !== null && isChanged(inBook)) lines.push(`As closed: ${outcomeWords(asClosed, unit)}.`);
  if (adjustments.length > 0) {
    const sums = adjustments.map(({ overShort, entry }) => `${signedCell(overShort, unit)} (entry ${entry})`);
    lines.push(`Adjustments: ${sums.join(', ')}.`);
  }
  if (pendingAdjustment !== null) {
    const sum = signedCell(pendingAdjustment.overShort, unit);
    lines.push(`Not recorded yet: ${sum}. To record it as an adjustment, run this again with --close.`);
  }
  if (inTheWay.length > 0) lines.push(`It cannot be closed: ${inTheWay.join(' ')}`);
  return lines.flatMap((line) => hangText('  ', line));
}

/** Whether anything besides the settlement itself tells of money over or short. */
export function tellsOverShort({ drivers, adjustments, pendingAdjustment }: BookFactsJson): boolean {
  const parts = [...adjustments, ...(pendingAdjustment === null ? [] : [pendingAdjustment])].flatMap(
    ({ byDriver }) => byDriver,
  );
  return [...parts, ...drivers.flatMap(({ carried }) => carried)].some(({ overShort }) => overShort !== 0);
}

const DRIVERS: readonly TableColumn[] = [
  { head: 'driver', mayCut: true },
  { head: 'as it stands', align: 'right' },
  { head: 'as closed', align: 'right' },
  { head: 'carried in', align: 'right' },
  { head: 'carried on', align: 'right' },
  { head: 'to answer for', align: 'right' },
];

/** Over/short driver by driver, where it is not all in the settlement's own sums: as it stands, as closed, and what is carried. */
export function layDriversInBook(inBook: BookFactsJson, unit: MoneyUnit, style: Style): string[] {
  const { drivers } = inBook;
  const carried = drivers.flatMap((each) => each.carried.map((part) => ({ ...part, driver: each.driver })));
  if (!isChanged(inBook) && carried.length === 0) return [];
  const rows = drivers.map(({ driver, asItStands, asClosed, carried: own, overShortWithCarried }) => {
    const into = own.reduce((sum, { overShort }) => sum + overShort, 0);
    const stands = asItStands.overShort.total;
    return [
      nameDriver(driver),
      signedCell(stands, unit),
      signedCell(asClosed?.overShort.total ?? null, unit),
      signedCell(into, unit),
      signedCell((stands ?? 0) + into - overShortWithCarried, unit),
      signedCell(overShortWithCarried, unit),
    ];
  });
  const verb = inBook.closing === null ? 'would be carried in by a closing now' : 'carried in';
  const lines = carried.map(
    ({ driver, entry, route, day, overShort }) =>
      `${nameDriver(driver)}: ${signedCell(overShort, unit)} of ${roundWords({ route, day })} (entry ${entry}) ${verb}.`,
  );
  return [
    '',
    ...layTable(DRIVERS, rows, style, { indent: '  ' }),
    ...lines.flatMap((line) => hangText('  ', printable(line, 300))),
  ];
}

/** Whose an amount is: a driver's, or the route's own where nobody answers for it. */
export function nameDriver(driver: string | null): string {
  return driver ?? 'no driver named';
}

/** A round in words: `route R7, 2026-11-23`. */
export function roundWords({ route, day }: { readonly route: string | null; readonly day: string }): string {
  return `${route === null ? 'no route' : `route ${route}`}, ${day}`;
}

/** Adjustments, and changes that are not recorded yet: what changed, by how much, because of what, and who answers for it. */
export function layAfterClosing(inBook: BookFactsJson, unit: MoneyUnit, style: Style): string[] {
  const { adjustments, pending, pendingAdjustment } = inBook;
  const parts = adjustments.flatMap((adjustment) => {
    const title = `Adjusted ${instantWords(adjustment.at)}${byWords(adjustment)}, entry ${adjustment.entry}`;
    return ['', ...layChanges(title, adjustment, unit, style)];
  });
  if (pendingAdjustment === null) return parts;
  const { byDriver, ...rest } = pendingAdjustment;
  const carried = byDriver.map((part) => ({ ...part, carriedTo: null }));
  const now = { ...rest, changes: pending, byDriver: carried };
  return [...parts, '', ...layChanges('Changed since, not recorded yet', now, unit, style)];
}

function byWords({ by }: AdjustmentJson): string {
  return by === null ? '' : ` by ${printable(by, 60)}`;
}

const CHANGES: readonly TableColumn[] = [
  { head: 'machine', mayCut: true },
  { head: 'bag', mayCut: true },
  { head: 'what' },
  { head: 'from', align: 'right' },
  { head: 'to', align: 'right' },
];

/** What the fields of a change are called. */
export const FIELD_WORDS: Readonly<Record<ChangeJson['field'], string>> = {
  state: 'state',
  driver: 'driver',
  bag: 'bag',
  visitedAt: 'visited at',
  'expected.coins': 'expected coins',
  'expected.bills': 'expected bills',
  'counted.coins': 'counted coins',
  'counted.bills': 'counted bills',
  'overShort.coins': 'over/short coins',
  'overShort.bills': 'over/short bills',
  'overShort.total': 'over/short',
  cardSales: 'card sales',
  sold: 'sold',
  value: 'sold for',
  loss: 'lost by prices off plan',
  settledVisits: 'settled visits',
  openVisits: 'open visits',
  'countedOpen.coins': 'counted coins, open visits',
  'countedOpen.bills': 'counted bills, open visits',
};

/** Fields that are numbers of things, and no amounts. */
const PIECES: ReadonlySet<ChangeJson['field']> = new Set(['sold', 'settledVisits', 'openVisits']);

/** A value of a change as it is shown. */
export function valueWords({ field }: Pick<ChangeJson, 'field'>, value: ChangeJson['from'], unit: MoneyUnit): string {
  if (value === null) return NOT_KNOWN;
  if (typeof value === 'string') return field === 'visitedAt' ? timeWords(value) : printable(value, 60);
  return PIECES.has(field) ? String(value) : formatMinor(value, unit.decimals ?? 0);
}

/** Why something changed, in words. */
export function becauseWords(because: AdjustmentJson['because']): string {
  const why = because.map(({ entry, what }) => (entry === null ? what : `${what} (entry ${entry})`));
  return why.length === 0 ? 'no entry since: what is known of captures changed' : why.join(', ');
}

type Part = DriverPartJson & Pick<AdjustmentJson['byDriver'][number], 'carriedTo'>;

/** Who answers for a part of an adjustment, and where it was carried. */
export function partWords({ driver, overShort, carriedTo }: Part, unit: MoneyUnit): string {
  const to =
    carriedTo === null ? 'not carried yet' : `carried into ${roundWords(carriedTo)} (entry ${carriedTo.entry})`;
  return printable(`${nameDriver(driver)}: ${signedCell(overShort, unit)}, ${to}.`, 300);
}

function layChanges(
  title: string,
  { changes, because, overShort, byDriver }: Pick<AdjustmentJson, 'changes' | 'because' | 'overShort' | 'byDriver'>,
  unit: MoneyUnit,
  style: Style,
): string[] {
  const rows = changes.map((change) => [
    change.machine ?? 'the round',
    change.bag ?? '',
    FIELD_WORDS[change.field],
    valueWords(change, change.from, unit),
    valueWords(change, change.to, unit),
  ]);
  return [
    ...hangText('', `${title}: over/short ${signedCell(overShort, unit)}.`).map(style.bold),
    ...hangText('  because of ', printable(becauseWords(because), 2000)),
    ...layTable(CHANGES, rows, style, { indent: '  ' }),
    ...byDriver.flatMap((part) => hangText('  ', partWords(part, unit))),
  ];
}
