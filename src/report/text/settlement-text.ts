import { type Finding, printable, worstSeverity } from '../../findings/index.js';
import { add, type Minor } from '../../model/index.js';
import {
  type CashByKind,
  type ExpectedLine,
  isInDoubt,
  type Settlement,
  type SettlementTotals,
  type Visit,
} from '../../settlement/index.js';
import type { BookFactsJson } from '../shapes/closing.js';
import {
  closedWords,
  isChanged,
  layAfterClosing,
  layClosingState,
  layDriversInBook,
  nameDriver,
  outcomeWords,
} from './closing-text.js';
import { layFindings } from './findings-text.js';
import type { Style } from './style.js';
import { layTable, type TableColumn } from './text-table.js';
import { amountCell, countCell, type MoneyUnit, plural, signedCell, timeWords, unitWords } from './words.js';
import { hangText } from './wrap-text.js';

const VISITS: readonly TableColumn[] = [
  { head: 'machine', mayCut: true },
  { head: 'location', mayCut: true },
  { head: 'bag', mayCut: true },
  { head: 'state' },
  { head: 'expected', align: 'right' },
  { head: 'counted', align: 'right' },
  { head: 'over/short', align: 'right' },
];

const KINDS: readonly TableColumn[] = [
  { head: 'settled visits' },
  { head: 'expected', align: 'right' },
  { head: 'counted', align: 'right' },
  { head: 'over/short', align: 'right' },
];

/**
 * A settled round for a person: the answer first, then its visits, sums, and what to look at, worst first.
 *
 * @param inBook - what the book says of it, where it was looked up in one: the settlement is then as it stands
 */
export function laySettlement(settlement: Settlement, style: Style, inBook: BookFactsJson | null = null): string[] {
  const { visits, totals, findings, drivers } = settlement;
  return [
    ...hangText('', headline(settlement, inBook)).map(style.bold),
    ...(inBook === null ? [] : layClosingState(inBook, settlement)),
    ...hangText('  ', `${periodWords(settlement)}; amounts in ${unitWords(settlement)}`).map(style.dim),
    '',
    ...layTable(VISITS, visits.map(visitRow), style, { indent: '  ' }),
    '',
    ...layTotals(totals, settlement, style),
    ...(drivers.length > 1 ? ['', ...layDrivers(settlement, style)] : []),
    ...(inBook === null ? [] : layDriversInBook(inBook, settlement, style)),
    ...(inBook === null ? [] : layAfterClosing(inBook, settlement, style)),
    ...layLookAt(visits, findings, style),
  ];
}

/** Which round it is, in one line. */
export function describeSettlement({ route, day, currency }: Settlement): string {
  const name = route === null ? 'No route' : `Route ${route}`;
  return printable([name, day, currency].filter((part) => part !== null).join(', '), 200);
}

function headline(settlement: Settlement, inBook: BookFactsJson | null): string {
  const { route, day, totals, visits } = settlement;
  const name = `${route === null ? 'No route' : `Route ${route}`}, ${day}`;
  const stands = inBook !== null && isChanged(inBook) ? `${name}, as it stands` : name;
  return (
    printable(`${stands}: ${outcomeWords(totals, settlement)}${doubtWords(visits)}.`, 200) +
    (inBook === null ? '' : closedWords(inBook))
  );
}

/** How many of the settled visits hold only as far as what they rest on is right. */
function doubtWords(visits: readonly Visit[]): string {
  const inDoubt = visits.filter(isInDoubt).length;
  return inDoubt === 0 ? '' : `; ${plural(inDoubt, 'visit')} in doubt`;
}

function periodWords({ from, to }: Settlement): string {
  return `collections from ${timeWords(from)} to ${timeWords(to)}`;
}

function visitRow(visit: Visit): string[] {
  const { machine, location, bag, state, expected, expectedIsFloor, counted, overShort } = visit;
  const floor = expectedIsFloor ? '>= ' : '';
  const total = totalOf(expected);
  return [
    machine,
    location ?? '',
    bag ?? '',
    isInDoubt(visit) ? `${state}, in doubt` : state,
    total === null ? amountCell(null, visit) : floor + amountCell(total, visit),
    amountCell(totalOf(counted, expected), visit),
    signedCell(overShort.total, visit),
  ];
}

/** Coins and bills together. A kind that was not counted adds nothing where none of it is expected. */
function totalOf({ coins, bills }: CashByKind, expected: CashByKind | null = null): Minor | null {
  if (bills === null && coins !== null && (expected?.bills === 0 || expected?.bills === null)) return coins;
  return add(coins, bills);
}

function layTotals(totals: SettlementTotals, unit: MoneyUnit, style: Style): string[] {
  const { expected, counted, overShort, countedOpen } = totals;
  const row = (name: string, of: (sums: CashByKind) => Minor | null, difference: Minor | null): string[] => [
    name,
    amountCell(of(expected), unit),
    amountCell(of(counted), unit),
    signedCell(difference, unit),
  ];
  const rows = [
    row('coins', ({ coins }) => coins, overShort.coins),
    row('bills', ({ bills }) => bills, overShort.bills),
  ];
  const footer = row('total', totalOf, overShort.total);
  const open = totalOf(countedOpen);
  return [
    ...layTable(KINDS, rows, style, { indent: '  ', footer }),
    ...(totals.openVisits === 0 ? [] : [`  counted on open visits, in no sum above: ${amountCell(open, unit)}`]),
    '',
    `  sold ${countCell(totals.sold)} for ${amountCell(totals.value, unit)}, of that by card ${amountCell(totals.cardSales, unit)}`,
    ...(totals.loss === null ? [] : [`  lost by prices off plan: ${amountCell(totals.loss, unit)}`]),
  ];
}

function layDrivers({ drivers, ...unit }: Settlement, style: Style): string[] {
  const columns: readonly TableColumn[] = [{ ...KINDS[0]!, head: 'driver', mayCut: true }, ...KINDS.slice(1)];
  const rows = drivers.map(({ driver, totals }) => [
    nameDriver(driver),
    amountCell(totalOf(totals.expected), unit),
    amountCell(totalOf(totals.counted), unit),
    signedCell(totals.overShort.total, unit),
  ]);
  return layTable(columns, rows, style, { indent: '  ' });
}

const WEIGHT = { fault: 0, doubt: 1, note: 2 } as const;

function layLookAt(visits: readonly Visit[], findings: readonly Finding[], style: Style): string[] {
  const weightOf = (visit: Visit): number => WEIGHT[worstSeverity(visit.findings) ?? 'note'];
  const noted = visits.filter((visit) => visit.findings.length > 0).sort((a, b) => weightOf(a) - weightOf(b));
  return [
    ...(findings.length === 0 ? [] : ['', ...layFindings(findings, style)]),
    ...noted.flatMap((visit) => ['', ...layVisit(visit, style)]),
  ];
}

function layVisit(visit: Visit, style: Style): string[] {
  const { machine, location, bag, visitedAt, state, matchedBy, capture, since, counted, findings } = visit;
  const names = [machine, location, bag === null ? null : `bag ${bag}`, timeWords(visitedAt)];
  const match = matchedBy === null ? '' : `capture ${capture}, matched by ${matchedBy}`;
  const opening = since === null ? '' : `counted since ${since}`;
  const how = [match, opening].filter((part) => part !== '').join('; ');
  return [
    ...hangText('', printable(`${names.filter((name) => name !== null).join(', ')}: ${state}`, 300)).map(style.bold),
    ...(how === '' ? [] : hangText('  ', printable(how, 600)).map(style.dim)),
    ...expectedWords(visit),
    ...(totalOf(counted, visit.expected) === null && counted.coins === null
      ? []
      : [`  counted:  coins ${amountCell(counted.coins, visit)}, bills ${amountCell(counted.bills, visit)}`]),
    ...layFindings(findings, style, { machine, file: capture ?? undefined, indent: '  ' }),
  ];
}

const LINE_WORDS: Readonly<Record<ExpectedLine['what'], string>> = {
  'to-cash-box': 'to the cash box',
  'paid-out': 'paid out by hand',
  filled: 'filled by hand',
  'float-issued': 'float issued',
  bills: 'bills',
};

/** What is expected, and what that is made of. */
function expectedWords(visit: Visit): string[] {
  const { expected, expectedIsFloor, expectedLines } = visit;
  if (expectedLines.length === 0) return [];
  const coins = expectedLines
    .filter(({ kind, amount }) => kind === 'coins' && amount !== 0)
    .map(({ what, amount, source }) => {
      const sheet = source === 'sheet' ? ' (from the sheet)' : '';
      return `${LINE_WORDS[what]} ${signedCell(amount, visit)}${sheet}`;
    });
  const made = coins.length > 1 ? ` (${coins.join(', ')})` : '';
  const floor = expectedIsFloor ? 'at least ' : '';
  const text = `${floor}coins ${amountCell(expected.coins, visit)}${made}, bills ${amountCell(expected.bills, visit)}`;
  return hangText('  expected: ', text);
}
