import type { MachineState } from './machine-state.js';
import type { Tube } from './piece-store.js';

/** Coins by value → number. */
export type Coins = ReadonlyMap<number, number>;

/** What a driver hands in for one visit: the cash box and what he took out of the tubes by hand, less what he put in. */
export interface Bag {
  readonly coins: number;
  readonly bills: number;
  /** Of the coins: what lay in the box, what was paid out by hand and what was filled by hand. */
  readonly box: number;
  readonly hand: number;
  readonly coinPieces: Coins;
  readonly billPieces: Coins;
}

function findTube(state: MachineState, value: number): Tube {
  const tube = state.tubes.find((candidate) => candidate.value === value);
  if (tube === undefined) throw new RangeError(`no tube for ${value}`);
  return tube;
}

function takeFromTube(state: MachineState, value: number, count: number): number {
  const tube = findTube(state, value);
  if (count < 0 || count > tube.coins) throw new RangeError(`${count} coins of ${value} are not in the tube`);
  tube.coins -= count;
  return value * count;
}

/** Pay coins out of the tubes by hand, into the driver's hand. */
export function payOutByHand(state: MachineState, coins: Coins): void {
  const { bank, maker, ledger } = state;
  for (const [value, count] of coins) {
    const amount = takeFromTube(state, value, count);
    state.hand.add(value, count);
    bank.add('by-hand', amount);
    bank.add(`coin/${value}/by-hand`, count);
    // Makers differ on whether "dispensed" counts these too.
    if (maker.byHandInDispensed) {
      bank.add('dispensed', amount);
      bank.add(`coin/${value}/dispensed`, count);
    }
    ledger.cash.byHand += amount;
  }
}

/** Fill tubes from the driver's hand. `entered` false: the machine is not told, and its counters stay. */
export function fillByHand(state: MachineState, coins: Coins, entered = true): void {
  for (const [value, count] of coins) {
    const tube = findTube(state, value);
    if (count < 0 || tube.coins + count > tube.capacity) throw new RangeError(`no room for ${count} coins of ${value}`);
    tube.coins += count;
    state.hand.add(value, -count);
    if (entered) {
      state.bank.add('filled', value * count);
      state.bank.add(`coin/${value}/filled`, count);
      state.ledger.cash.filled += value * count;
    } else {
      state.ledger.cash.tubesUnrecorded += value * count;
      state.unenteredFills += value * count;
    }
  }
}

/** Coins leave the tubes with nobody counting them: a jam, or a hand in the tubes. */
export function loseFromTubes(state: MachineState, coins: Coins): void {
  for (const [value, count] of coins) state.ledger.cash.tubesUnrecorded -= takeFromTube(state, value, count);
}

/** What the bag would hold now. */
export function weighBag(state: MachineState): Bag {
  const coinPieces = new Map(state.cashBox.pieces);
  for (const [value, count] of state.hand.pieces) coinPieces.set(value, (coinPieces.get(value) ?? 0) + count);
  return {
    coins: state.cashBox.total + state.hand.total,
    bills: state.stacker.total,
    box: state.cashBox.total,
    hand: state.hand.total,
    coinPieces: new Map([...coinPieces].filter(([, count]) => count !== 0).sort(([a], [b]) => a - b)),
    billPieces: state.stacker.pieces,
  };
}

/** Empty the cash box, the stacker and the driver's hand into a bag. */
export function collectBag(state: MachineState): Bag {
  const bag = weighBag(state);
  state.collected.box += bag.box;
  state.collected.bills += bag.bills;
  state.collected.hand += bag.hand;
  state.cashBox.empty();
  state.stacker.empty();
  state.hand.empty();
  return bag;
}
