import type { FigureTrace, TraceStep } from '../../explain/index.js';
import { type Place, printable } from '../../findings/index.js';
import { largestOf } from '../../model/index.js';
import type { Style } from './style.js';
import { padText } from './text-width.js';
import { amountCell, countCell, type MoneyUnit, unitWords } from './words.js';
import { hangText } from './wrap-text.js';

const LONGEST = 400;

/** The arithmetic behind a figure for a person: the answer first, then every value it is made of and where that stands. */
export function layTrace({ id, step, ...unit }: FigureTrace, style: Style): string[] {
  const value = valueCell(step, unit);
  const answer = step.value === null ? 'not known' : value;
  const money = step.unit === 'money' ? ` ${unitWords(unit)}` : '';
  return [
    ...hangText('', printable(`${id} = ${answer}${step.value === null ? '' : money}`, LONGEST)).map(style.bold),
    ...hangText('', printable(`${step.label}.`, LONGEST)),
    ...noteLines(step, ''),
    '',
    ...layParts(step, unit, style, '  '),
  ];
}

function layParts(step: TraceStep, unit: MoneyUnit, style: Style, indent: string): string[] {
  const cells = step.parts.map((part) => valueCell(part, unit));
  const width = largestOf(
    cells.map((cell) => cell.length),
    0,
  );
  const mark = (part: TraceStep, i: number): string => {
    if (step.how === 'product') return i === 0 ? ' ' : 'x';
    return part.sign === 1 ? (i === 0 ? ' ' : '+') : '-';
  };
  const lines = step.parts.flatMap((part, i) => [
    ...hangText(`${indent}${mark(part, i)} ${padText(cells[i]!, width, 'right')}  `, printable(part.label, LONGEST)),
    ...placeLines(part, `${indent}  ${' '.repeat(width)}  `).map(style.dim),
    ...noteLines(part, `${indent}  ${' '.repeat(width)}  `),
    ...(part.parts.length === 0 ? [] : layParts(part, unit, style, `${indent}    `)),
  ]);
  if (step.parts.length === 0) return [...placeLines(step, indent), ...lines];
  const result = step.value === null ? 'not known' : valueCell(step, unit);
  return [...lines, `${indent}= ${padText(result, step.value === null ? 0 : width, 'right')}`];
}

function valueCell({ value, unit }: TraceStep, money: MoneyUnit): string {
  return unit === 'money' ? amountCell(value, money) : countCell(value);
}

function noteLines({ note }: TraceStep, indent: string): string[] {
  return note === null ? [] : hangText(indent, printable(note, LONGEST));
}

function placeLines({ place, ref }: TraceStep, indent: string): string[] {
  if (ref !== null) return hangText(indent, printable(`figure ${ref}`, LONGEST));
  return place === null ? [] : hangText(indent, printable(placeWords(place), LONGEST));
}

function placeWords({ file, read, line, row, field, element }: Place): string {
  return [
    file ?? null,
    read === undefined || read === 0 ? null : `read ${read + 1}`,
    line === undefined ? null : `line ${line}`,
    row === undefined ? null : `row ${row}`,
    field === undefined ? null : `column ${field}`,
    element ?? null,
  ]
    .filter((part) => part !== null)
    .join(', ');
}
