import { choosePayment } from '../arbitraries/play-history.js';
import {
  type Bag,
  type Coins,
  type ColumnConfig,
  fromSeconds,
  SimulatedMachine,
  type SimulatedRead,
  type Snapshot,
  toSeconds,
} from '../simulator/index.js';
import { DAYS, type DemoMachine } from './demo-roster.js';
import { SeededRandom } from './seeded-random.js';

/** A read of the demo, before anything happened to its file. */
export interface DemoRead {
  readonly machine: string;
  readonly reason: 'scheduled' | 'service';
  /** True time, which is also when the reading side took it. */
  readonly at: string;
  readonly read: SimulatedRead;
}

/** What one machine went through in the four days. */
export interface DemoLife {
  readonly plan: DemoMachine;
  readonly reads: readonly DemoRead[];
  /** The visits on the first and last day: when, the truth at the read, and the bag taken. */
  readonly visits: readonly { readonly at: string; readonly snapshot: Snapshot; readonly bag: Bag }[];
  /** Columns at the end. */
  readonly columns: readonly ColumnConfig[];
  /** Just before and at the restart of the counters, where there was one. */
  readonly restart: { readonly before: Snapshot; readonly start: Snapshot } | null;
}

/** Hand work at the last visit, by machine. */
const HAND_WORK: ReadonlyMap<string, { readonly fill?: Coins; readonly payOut?: Coins }> = new Map([
  ['V101', { fill: new Map([[50, 8]]) }],
  ['V103', { payOut: new Map([[100, 6]]) }],
]);

const BOARD_SWAP = { machine: 'V105', at: `${DAYS[1]}T15:10:00`, board: 'CB990317' };
const PRICE_CHANGE = { machine: 'V104', at: `${DAYS[2]}T09:40:00`, column: '14', price: 130 };

class DemoPlayer {
  readonly machine: SimulatedMachine;
  readonly reads: DemoRead[] = [];
  readonly visits: DemoLife['visits'][number][] = [];
  restart: DemoLife['restart'] = null;
  readonly #random: SeededRandom;
  readonly #stock = new Map<string, number>();
  readonly #demo: DemoMachine;

  constructor(demo: DemoMachine, seed: number) {
    this.#demo = demo;
    this.#random = new SeededRandom(seed);
    this.machine = new SimulatedMachine(demo.config);
    this.machine.setClock(demo.clockAhead);
  }

  /** Sell until a moment, at the machine's usual pace. */
  sellUntil(end: string): void {
    const paceMinutes = Math.round((14 * 60) / this.#demo.vendsPerDay);
    for (;;) {
      const next = toSeconds(this.machine.snapshot().at) + 60 * (1 + this.#random.nat(2 * paceMinutes));
      if (next >= toSeconds(end)) break;
      this.machine.advanceTo(fromSeconds(next));
      this.#sellOne();
    }
    this.machine.advanceTo(end);
  }

  #sellOne(): void {
    const { machine } = this;
    const column = this.#random.pick(machine.columns);
    const left = this.#stock.get(column.column) ?? column.par!;
    if (left === 0) return;
    this.#stock.set(column.column, left - 1);
    const { devices } = this.#demo.config;
    if (devices.card && this.#random.nat(100) < 45) machine.sellByCard(column.column);
    else machine.sellForCash(column.column, this.#choosePayment(column));
    if (left === 1) machine.markSoldOut(column.column);
  }

  #choosePayment(column: ColumnConfig): ReturnType<typeof choosePayment> {
    const roll = this.#random.nat(100);
    // A bill is refused while the tubes cannot change it.
    const canChangeBills = this.machine.snapshot().tubes > 2500;
    const style = roll < 50 ? 'exact' : roll < 85 ? 'large-coins' : canChangeBills ? 'bill' : 'exact';
    return choosePayment(this.#demo.config, column.price, style);
  }

  takeScheduled(at: string): void {
    this.sellUntil(at);
    this.#keep('scheduled', this.machine.read());
  }

  visit(at: string): void {
    this.sellUntil(at);
    const work = this.visits.length > 0 ? HAND_WORK.get(this.#demo.machine) : undefined;
    const { read, bag } = this.machine.serviceVisit(work);
    this.#keep('service', read);
    this.visits.push({ at, snapshot: read.snapshot, bag });
    this.#stock.clear();
    this.machine.advance(12);
  }

  /** A technician changes the control board, takes no read, and tries two columns. */
  swapBoard(at: string, board: string): void {
    this.sellUntil(at);
    const before = this.machine.snapshot();
    this.machine.swapBoard(board);
    this.restart = { before, start: this.machine.eraStartOf(this.machine.snapshot()) };
    this.machine.vendTest('11');
    this.machine.vendTest('12');
  }

  #keep(reason: DemoRead['reason'], read: SimulatedRead): void {
    this.reads.push({ machine: this.#demo.machine, reason, at: read.snapshot.at, read });
  }
}

const two = (value: number): string => String(value).padStart(2, '0');

/** Live the four days of one machine: visits on the first and last morning, a scheduled read every evening. */
export function playDays(demo: DemoMachine, place: number): DemoLife {
  const player = new DemoPlayer(demo, 7000 + place);
  const visitMinute = 8 * 60 + 5 + place * 27;
  const visitTime = `${two(Math.floor(visitMinute / 60))}:${two(visitMinute % 60)}:00`;
  for (const day of DAYS) {
    const isVisitDay = day === DAYS[0] || day === DAYS.at(-1);
    if (day !== DAYS[0]) player.machine.advanceTo(`${day}T07:00:00`);
    if (isVisitDay) player.visit(`${day}T${visitTime}`);
    if (BOARD_SWAP.machine === demo.machine && BOARD_SWAP.at.startsWith(day)) {
      player.swapBoard(BOARD_SWAP.at, BOARD_SWAP.board);
    }
    if (PRICE_CHANGE.machine === demo.machine && PRICE_CHANGE.at.startsWith(day)) {
      player.sellUntil(PRICE_CHANGE.at);
      player.machine.setPrice(PRICE_CHANGE.column, PRICE_CHANGE.price);
    }
    player.takeScheduled(`${day}T22:${two(place * 2)}:00`);
  }
  const { machine, reads, visits, restart } = player;
  return { plan: demo, reads, visits, columns: machine.columns, restart };
}
