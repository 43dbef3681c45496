import { writeClock } from './local-clock.js';
import type { ColumnState, MachineState } from './machine-state.js';
import { writeLine } from './segment-line.js';
import { type CounterCell, columnCells, init, reset, writeCounters } from './write-counters.js';

interface PriceList {
  readonly device: string;
  readonly list: string;
  readonly price: number;
}

/** The payment devices and lists that a column can be sold by. */
function priceListsOf(state: MachineState, column: ColumnState): readonly PriceList[] {
  const { config, maker } = state;
  const { devices } = config;
  const cardList = column.cardPrice === null ? '0' : maker.cardList;
  const cardPrice = column.cardPrice ?? column.price;
  const lists: PriceList[] = [];
  if (devices.coins) lists.push({ device: maker.cashSalesBookedAs, list: '0', price: column.price });
  for (const [device, isFitted] of [
    ['DA', devices.card],
    ['DB', devices.secondCard],
  ] as const) {
    const isListed = lists.some((entry) => entry.device === device && entry.list === cardList);
    if (isFitted && !isListed) lists.push({ device, list: cardList, price: cardPrice });
  }
  if (devices.token) lists.push({ device: 'TA', list: '0', price: column.price });
  return lists;
}

function paidCells(state: MachineState, key: string): readonly CounterCell[] {
  if (!state.maker.discounts) return columnCells(key);
  return [...columnCells(key), ...columnCells(`${key}.discount`)];
}

function writeSoldOut(state: MachineState, column: ColumnState): string[] {
  const key = `${column.column}/PA5`;
  const [date, time] = column.soldOutAt === null ? ['', ''] : writeClock(column.soldOutAt, state.maker.clockStyle);
  return writeCounters(state, 'PA5', 'minor', [date, time], [reset(key, 'columnCount'), init(key, 'columnCount')]);
}

/** One PA group: PA1 to PA5, and PA7 where the maker has it. */
function writeColumn(state: MachineState, column: ColumnState): string[] {
  const { column: name, price, product, capacity, par } = column;
  const hasLists = state.maker.priceLists === 'PA7' || state.maker.priceLists === 'both';
  return [
    writeLine('PA1', name, price, product, capacity, par),
    ...writeCounters(state, 'PA2', 'major', [], paidCells(state, `${name}/PA2`)),
    ...writeCounters(state, 'PA3', 'minor', [], columnCells(`${name}/PA3`)),
    ...writeCounters(state, 'PA4', 'minor', [], columnCells(`${name}/PA4`)),
    ...writeSoldOut(state, column),
    ...(hasLists ? priceListsOf(state, column) : []).flatMap((entry) =>
      writeCounters(
        state,
        'PA7',
        'minor',
        [name, entry.device, entry.list, entry.price],
        columnCells(`${name}/PA7/${entry.device}/${entry.list}`),
      ),
    ),
  ];
}

/** All PA groups, in a loop where the maker wraps them. */
export function writeProductSegments(state: MachineState): string[] {
  const groups = state.columns.flatMap((column) => writeColumn(state, column));
  return state.maker.wrapsProducts ? ['LS*0100', ...groups, 'LE*0100'] : groups;
}

/**
 * LA1, list by list: 0 normal, the card list, 4 free, 5 test. What a list means is the maker's; this is how one maker has
 * it (Saeco Freestanding 400 use and maintenance manual, p. 29), so that the sum over all lists is not paid vends.
 */
export function writePriceListSegments(state: MachineState): string[] {
  const { priceLists, cardList } = state.maker;
  if (priceLists !== 'LA1' && priceLists !== 'both') return [];
  const { card, secondCard } = state.config.devices;
  const lists = ['0', ...(card || secondCard ? [cardList] : []), '4', '5'];
  return lists.flatMap((list) =>
    state.columns.flatMap((column) => {
      const key = `${column.column}/LA1/${list}`;
      const price = list === cardList ? (column.cardPrice ?? column.price) : column.price;
      const cells = [reset(key, 'columnCount'), init(key, 'columnCount')];
      return writeCounters(state, 'LA1', 'minor', [list, column.column, price], cells);
    }),
  );
}
