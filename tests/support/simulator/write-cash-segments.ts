import type { MachineState } from './machine-state.js';
import { valueOfTubes } from './piece-store.js';
import { writeLine } from './segment-line.js';
import { type CounterCell, init, moneyCells, reset, saleCells, writeCounters } from './write-counters.js';

/** CA3: cash in, to box, to tubes, bills; since reset and since initialisation; CA309 and CA310 where the maker has them. */
function cashInCells(state: MachineState): readonly CounterCell[] {
  const { billsAs, billValues } = state.maker;
  const bills = billsAs === 'value' ? 'bills.value' : 'bills.count';
  const digits = billsAs === 'value' ? 'totalValue' : 'totalCount';
  const flows = ['cash-in', 'to-box', 'to-tubes'];
  return [
    ...flows.map((key) => reset(key, 'totalValue')),
    reset(bills, digits),
    ...flows.map((key) => init(key, 'totalValue')),
    init(bills, digits),
    ...(billValues ? [reset('bills.value', 'totalValue'), init('bills.value', 'totalValue')] : []),
  ];
}

const cashOutCells: readonly CounterCell[] = [
  reset('dispensed', 'totalValue'),
  reset('by-hand', 'totalValue'),
  init('dispensed', 'totalValue'),
  init('by-hand', 'totalValue'),
];

/** Value and number, since reset and since initialisation: CA7 has value, value, number, number. */
const cashDiscountCells: readonly CounterCell[] = [
  reset('CA7.value', 'totalValue'),
  init('CA7.value', 'totalValue'),
  reset('CA7.count', 'totalCount'),
  init('CA7.count', 'totalCount'),
];

/** Numbers by coin and bill value, all since the last reset. */
function writeDenominations(state: MachineState): string[] {
  const { money, devices } = state.config;
  const count = (key: string): CounterCell => reset(key, 'totalCount');
  const line = (id: string, value: number, keys: readonly string[]): string[] =>
    writeCounters(state, id, 'minor', [value], keys.map(count));
  const tubeValues = state.tubes.map((tube) => tube.value);
  return [
    ...money.coins.flatMap((v) => line('CA11', v, [`coin/${v}/accepted`, `coin/${v}/to-box`, `coin/${v}/to-tubes`])),
    ...tubeValues.flatMap((v) => line('CA12', v, [`coin/${v}/dispensed`, `coin/${v}/by-hand`])),
    ...tubeValues.flatMap((v) => line('CA13', v, [`coin/${v}/filled`])),
    ...(devices.bills ? money.bills.flatMap((v) => line('CA14', v, [`bill/${v}`, `bill/${v}`])) : []),
  ];
}

function writeTubes(state: MachineState): string[] {
  if (state.maker.tubes === 'none') return [];
  const total = writeLine('CA15', valueOfTubes(state.tubes));
  if (state.maker.tubes === 'CA15') return [total];
  return [total, ...state.tubes.map((tube, index) => writeLine('CA17', index, tube.value, tube.coins))];
}

/** CA2 to CA17. Nothing on a machine that takes no coins. */
export function writeCashSegments(state: MachineState): string[] {
  if (!state.config.devices.coins) return [];
  const { maker, readMemory, doorOpenings } = state;
  return [
    ...writeCounters(state, 'CA2', 'major', [], saleCells('CA2')),
    ...writeCounters(state, 'CA3', 'major', [], cashInCells(state)),
    ...writeCounters(state, 'CA4', 'major', [], cashOutCells),
    ...(maker.readCounters
      ? [writeLine('CA6', readMemory.reads + (maker.readCountsItself ? 1 : 0), doorOpenings)]
      : []),
    ...(maker.discounts ? writeCounters(state, 'CA7', 'minor', [], cashDiscountCells) : []),
    ...writeCounters(state, 'CA8', 'minor', [], moneyCells('overpaid')),
    ...writeCounters(state, 'CA9', 'minor', [], moneyCells('exact-change')),
    ...writeCounters(state, 'CA10', 'minor', [], moneyCells('filled')),
    ...(maker.denominations && maker.interval === 'kept' ? writeDenominations(state) : []),
    ...writeTubes(state),
  ];
}

/** DA2 to DA5 or DB2 to DB5. */
function writeCardSegments(state: MachineState, device: 'DA' | 'DB', isFitted: boolean): string[] {
  const sales = writeCounters(state, `${device}2`, 'major', [], saleCells(`${device}2`));
  if (!isFitted) return state.maker.cashSalesBookedAs === device ? sales : [];
  const movement = (id: string): string[] =>
    writeCounters(state, id, 'minor', [], [init(id, 'totalValue'), reset(id, 'totalValue')]);
  const discounts = [
    reset(`${device}5.value`, 'totalValue'),
    reset(`${device}5.count`, 'totalCount'),
    init(`${device}5.value`, 'totalValue'),
    init(`${device}5.count`, 'totalCount'),
  ];
  return [
    ...sales,
    ...movement(`${device}3`),
    ...movement(`${device}4`),
    ...(state.maker.discounts ? writeCounters(state, `${device}5`, 'minor', [], discounts) : []),
  ];
}

/** DA2 to DA5, DB2 to DB5 and TA2, for the devices fitted. */
export function writeCashlessSegments(state: MachineState): string[] {
  const { devices } = state.config;
  return [
    ...writeCardSegments(state, 'DA', devices.card),
    ...writeCardSegments(state, 'DB', devices.secondCard),
    ...(devices.token ? writeCounters(state, 'TA2', 'minor', [], saleCells('TA2')) : []),
  ];
}
