import type { LocalDateTime } from '../src/model/index.js';
import {
  type ColumnConfig,
  defineColumn,
  defineMachine,
  EUR,
  type MakerOptions,
  SimulatedMachine,
} from '../tests/support/simulator/index.js';

const COLUMNS = 45;
const FIRST_READ: LocalDateTime = '2026-11-20T06:00:00';

/** Numbers that look random and are the same in every run (mulberry32, from memory). */
export class Dice {
  #state: number;

  constructor(seed: number) {
    this.#state = seed;
  }

  /** A whole number from 0 up to, not with, `below`. */
  roll(below: number): number {
    this.#state = (this.#state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(this.#state ^ (this.#state >>> 15), 1 | this.#state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) % below;
  }
}

/**
 * How the maker writes captures, both of which come to some 4.6 KB. `sparse`: segments of zeros left out, each column's sales
 * by payment device, products named. `dense`: zeros written, which makes for more and shorter elements.
 */
export type CaptureStyle = 'sparse' | 'dense';

const MAKERS: Readonly<Record<CaptureStyle, Partial<MakerOptions>>> = {
  sparse: { zeroSegments: 'minor-left-out', priceLists: 'PA7', discounts: false },
  dense: { wrapsProducts: true, discounts: false },
};

/** The columns of a snack machine, some years old. */
export function makeColumns(style: CaptureStyle, dice: Dice): readonly ColumnConfig[] {
  return Array.from({ length: COLUMNS }, (_, i) =>
    defineColumn(String(10 + i), 100 + 10 * dice.roll(15), {
      product: style === 'sparse' ? `SNACK BAR ${100 + dice.roll(900)}` : `P${100 + dice.roll(900)}`,
      capacity: 12,
      pastVends: dice.roll(3000),
    }),
  );
}

/** A snack machine, some years old. */
export function makeMachine(
  number: number,
  style: CaptureStyle,
  columns: readonly ColumnConfig[],
  startsAt: LocalDateTime = FIRST_READ,
): SimulatedMachine {
  const config = defineMachine({
    columns,
    tubes: EUR.coins.slice(0, -1).map((value) => ({ value, capacity: 300, coins: 150 })),
    identity: {
      serial: `SN${100_000 + number}`,
      model: 'SNACK-45',
      software: '2.10',
      location: `SITE ${number}`,
      asset: `A${1000 + number}`,
      board: `CB${500_000 + number}`,
    },
    devices: { card: style === 'dense' },
    maker: MAKERS[style],
    past: { cardPercent: style === 'dense' ? 40 : 0, billPercent: 20, changePercent: 10 },
    startsAt,
  });
  return new SimulatedMachine(config);
}

/** Some hours of sales. */
function sell(machine: SimulatedMachine, style: CaptureStyle, dice: Dice, sales: number): void {
  for (let i = 0; i < sales; i++) {
    const column = String(10 + dice.roll(COLUMNS));
    if (style === 'dense' && dice.roll(2) === 0) machine.sellByCard(column);
    else machine.sellForCash(column, { coins: [100, 100, 50] });
  }
}

/** Captures of as many machines, each another: about 4.6 KB with 45 columns, as machines of that size write them. */
export function makeCaptures(count: number, style: CaptureStyle): Uint8Array[] {
  const dice = new Dice(count);
  return Array.from({ length: count }, (_, number) => {
    const machine = makeMachine(number, style, makeColumns(style, dice));
    sell(machine, style, dice, 60);
    return machine.read({ service: true }).bytes;
  });
}

/**
 * A day's files of several machines: as many reads each, some hours apart.
 *
 * @param first - number of the first machine
 */
export function makeHistory(machines: number, reads: number, first = 0): Uint8Array[] {
  const dice = new Dice(machines + first);
  return Array.from({ length: machines }, (_, number) =>
    makeMachine(first + number, 'dense', makeColumns('dense', dice)),
  ).flatMap((machine) =>
    Array.from({ length: reads }, () => {
      sell(machine, 'dense', dice, 10);
      machine.advance(360);
      return machine.read({ service: dice.roll(4) === 0 }).bytes;
    }),
  );
}
