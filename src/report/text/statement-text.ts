import {
  describeRemainder,
  type LocationStatement,
  type RoundedAmount,
  type StatementFigure,
  type StatementLine,
  writePercent,
} from '../../accounts/index.js';
import { printable } from '../../findings/index.js';
import { describeMoney, type Minor } from '../../model/index.js';
import { type FigureLine, layFigures } from './figure-lines.js';
import { layFindings } from './findings-text.js';
import type { Style } from './style.js';
import { layTable, type TableColumn } from './text-table.js';
import { amountCell, NOT_KNOWN, timeWords, unitWords } from './words.js';
import { hangText } from './wrap-text.js';

const LINES: readonly TableColumn[] = [
  { head: 'machine', mayCut: true },
  { head: 'until' },
  { head: 'cash', align: 'right' },
  { head: 'card', align: 'right' },
  { head: 'together', align: 'right' },
  { head: 'commission', align: 'right' },
  { head: 'tax', align: 'right' },
];

/** A location's statement for a person: the answer first, then its machines, how the figures come about, and what to look at. */
export function layStatement(statement: LocationStatement, style: Style): string[] {
  const { lines, from, to, findings, cashSales, cardSales, gross, floors } = statement;
  const cell = (amount: Minor | null, isLeast: boolean): string =>
    amount === null ? NOT_KNOWN : `${isLeast ? '>= ' : ''}${amountCell(amount, statement)}`;
  const rows = lines.map((line) => [
    line.machine.machine,
    line.to?.slice(0, 10) ?? NOT_KNOWN,
    cell(line.cashSales, line.floors.cashSales),
    cell(line.cardSales, line.floors.cardSales),
    cell(line.sales, line.floors.sales),
    ...rateCells(line),
  ]);
  const sums = [cell(cashSales, floors.cashSales), cell(cardSales, floors.cardSales), cell(gross, floors.gross)];
  const footer = ['together', '', ...sums, '', ''];
  const isRead = lines.some(({ intervals }) => intervals.length > 0);
  const counted = isRead ? `sales from ${timeWords(from)} to ${timeWords(to)}` : 'no two reads to count sales between';
  const period = `${counted}; amounts in ${unitWords(statement)}`;
  return [
    ...hangText('', headline(statement)).map(style.bold),
    ...hangText('  ', period).map(style.dim),
    '',
    ...layTable(LINES, rows, style, { indent: '  ', footer }),
    ...layAmounts(statement),
    ...(findings.length === 0 ? [] : ['', ...layFindings(findings, style)]),
  ];
}

function headline(statement: LocationStatement): string {
  const { location, lines, gross, commission, currency, decimals, floors } = statement;
  const name = location ?? lines[0]!.machine.machine;
  const money = (amount: Minor, isLeast: boolean): string =>
    `${isLeast ? 'at least ' : ''}${describeMoney(amount, decimals, currency)}`;

  if (gross === null) return printable(`${name}: sales not known, so no statement.`, 200);
  if (commission !== null) {
    return printable(
      `${name}: commission ${money(commission.amount, floors.commission)} on ${money(gross, floors.gross)} sold.`,
      200,
    );
  }
  const isAgreed = lines.some(({ machine }) => machine.commission !== null);
  const none = isAgreed ? 'commission not known' : 'no commission stated';
  return printable(`${name}: ${none}; ${money(gross, floors.gross)} sold.`, 200);
}

function rateCells({ machine }: StatementLine): string[] {
  const { commission, commissionBase, tax, taxIncluded } = machine;
  const ofBase = commission === null || commissionBase === null ? '' : ` of ${commissionBase}`;
  const onTop = tax !== null && taxIncluded === false ? ' on top' : '';
  return [
    commission === null ? NOT_KNOWN : `${writePercent(commission)} %${ofBase}`,
    tax === null ? NOT_KNOWN : `${writePercent(tax)} %${onTop}`,
  ];
}

/** Gross to commission, each figure below the one it comes from, and what rounding left out. */
function layAmounts(statement: LocationStatement): string[] {
  const { gross, tax, net, taxOnTop, base, commission, floors } = statement;
  const figure = (of: StatementFigure, name: string, amount: Minor | null | undefined): FigureLine[] =>
    amount === null || amount === undefined ? [] : [[floors[of] ? `${name}, at least` : name, amount]];
  const figures: FigureLine[] = [
    [floors.gross ? 'cash and card sales, at least' : 'cash and card sales', gross],
    ...figure('tax', 'tax contained', tax?.amount),
    ...figure('net', 'net of tax', net),
    ...figure('taxOnTop', 'tax on top', taxOnTop?.amount),
    ...figure('base', 'commission is taken of', base?.amount),
    ...figure('commission', 'commission', commission?.amount),
  ];
  if (figures.length === 1) return [];
  const left = [
    ...remainderWords('tax', tax),
    ...remainderWords('tax on top', taxOnTop),
    ...remainderWords('commission', commission),
  ];
  const rounding = left.length === 0 ? 'No rounding was needed.' : `Rounded once, half to even: ${left.join('; ')}.`;
  return ['', ...layFigures(figures, statement), ...hangText('  ', rounding)];
}

function remainderWords(name: string, rounded: RoundedAmount | null): string[] {
  const left = rounded === null ? null : describeRemainder(rounded);
  return left === null ? [] : [`the exact ${name} is ${left}`];
}
