import type { MakerOptions } from './machine-config.js';
import type { MachineState } from './machine-state.js';
import { type ElementValue, writeLine } from './segment-line.js';

/** Which width a counter has. */
export type Digits = keyof MakerOptions['digits'];

/** A counter to write: its key, span and width. */
export interface CounterCell {
  readonly key: string;
  readonly span: 'lifetime' | 'interval';
  readonly digits: Digits;
}

export const init = (key: string, digits: Digits): CounterCell => ({ key, span: 'lifetime', digits });
export const reset = (key: string, digits: Digits): CounterCell => ({ key, span: 'interval', digits });

/** Value and number of a pair, in that order, since initialisation and then since the last reset: VA1, CA2, DA2. */
export function saleCells(key: string): readonly CounterCell[] {
  return [
    init(`${key}.value`, 'totalValue'),
    init(`${key}.count`, 'totalCount'),
    reset(`${key}.value`, 'totalValue'),
    reset(`${key}.count`, 'totalCount'),
  ];
}

/** Number and value of a column's pair, since initialisation and then since the last reset: PA2, PA3, PA7. */
export function columnCells(key: string): readonly CounterCell[] {
  return [
    init(`${key}.count`, 'columnCount'),
    init(`${key}.value`, 'columnValue'),
    reset(`${key}.count`, 'columnCount'),
    reset(`${key}.value`, 'columnValue'),
  ];
}

/** Interval and lifetime of one money counter, in that order: CA8, CA9, CA10. */
export function moneyCells(key: string): readonly CounterCell[] {
  return [reset(key, 'totalValue'), init(key, 'totalValue')];
}

/** What the maker writes for a counter: null where the element stays empty. */
export function readCell(state: MachineState, cell: CounterCell): number | null {
  const { maker, bank } = state;
  const choice = cell.span === 'lifetime' ? maker.lifetime : maker.interval;
  if (choice === 'absent') return null;
  if (choice === 'zero') return 0;
  const counter = cell.span === 'lifetime' ? bank.lifetime(cell.key) : bank.interval(cell.key);
  return counter % 10 ** maker.digits[cell.digits];
}

/** How much a segment matters to the maker who leaves zero segments out. */
export type Weight = 'major' | 'minor';

/** A segment of counters, or nothing where the maker leaves it out because every counter in it is zero or absent. */
export function writeCounters(
  state: MachineState,
  id: string,
  weight: Weight,
  lead: readonly ElementValue[],
  cells: readonly CounterCell[],
): string[] {
  const values = cells.map((cell) => readCell(state, cell));
  const { zeroSegments } = state.maker;
  const mayLeaveOut = zeroSegments === 'left-out' || (zeroSegments === 'minor-left-out' && weight === 'minor');
  if (mayLeaveOut && values.every((value) => !value)) return [];
  return [writeLine(id, ...lead, ...values)];
}
