import {
  type Bag,
  defineColumn,
  defineMachine,
  type MachineConfig,
  type Payment,
  SimulatedMachine,
  type SimulatedRead,
} from '../simulator/index.js';
import type { PayStyle, Step, Stretch } from './history-steps.js';

/** A read of a history, and the bag where it was taken at a visit. */
export interface HistoryRead extends SimulatedRead {
  readonly bag: Bag | null;
}

/** Pieces that reach a price, as few or as many as the style says. */
export function choosePayment(config: MachineConfig, price: number, style: PayStyle): Payment {
  const coins = config.money.coins;
  const repeat = (coin: number): Payment => ({ coins: Array.from({ length: Math.ceil(price / coin) }, () => coin) });
  const bill = config.money.bills.find((value) => value >= price);
  if (style === 'bill' && config.devices.bills && bill !== undefined) return { bills: [bill] };
  if (style === 'middling-coins') return repeat(coins[Math.floor(coins.length / 2)]!);
  if (style !== 'exact') return repeat(coins.at(-1)!);
  const pieces: number[] = [];
  let left = price;
  for (const coin of [...coins].reverse()) {
    for (; left >= coin; left -= coin) pieces.push(coin);
  }
  if (left > 0) pieces.push(coins[0]!);
  return { coins: pieces };
}

/** Plays steps on one machine, and remembers what each stretch allows only once. */
export class HistoryPlayer {
  readonly machine: SimulatedMachine;
  readonly reads: HistoryRead[] = [];
  readonly #repriced = new Set<string>();
  #config: MachineConfig;
  #hasRestarted = false;
  #successors = 0;

  constructor(config: MachineConfig) {
    this.machine = new SimulatedMachine(config);
    this.#config = config;
  }

  playStretch(stretch: Stretch): void {
    this.#repriced.clear();
    for (const step of stretch.steps) {
      this.machine.advance(stretch.minutesBetween);
      this.#play(step);
    }
    this.machine.advance(stretch.minutesBetween);
    this.takeRead(stretch.visit);
  }

  takeRead(isVisit: boolean): void {
    if (isVisit) {
      const { read, bag } = this.machine.serviceVisit();
      this.reads.push({ ...read, bag });
    } else {
      this.reads.push({ ...this.machine.read(), bag: null });
    }
  }

  #play(step: Step): void {
    if ('column' in step) this.#playColumn(step);
    else if ('tube' in step) this.#playTube(step);
    else this.#playMachine(step);
  }

  #playColumn(step: Extract<Step, { column: number }>): void {
    const { machine } = this;
    const { devices } = this.#config;
    const column = machine.columns[step.column % machine.columns.length]!;
    const name = column.column;
    // A discount is a few of the smallest coin, and never the whole price.
    const discount = 'discount' in step ? Math.min(step.discount * this.#config.money.coins[0]!, column.price - 1) : 0;
    const payment = 'pay' in step ? choosePayment(this.#config, column.price - discount, step.pay) : {};
    if ('pay' in step && !devices.coins) return;
    if (step.do === 'cash') machine.sellForCash(name, payment, discount);
    else if (step.do === 'card' && devices.card) machine.sellByCard(name, 'DA', discount);
    else if (step.do === 'second-card' && devices.secondCard) machine.sellByCard(name, 'DB', discount);
    else if (step.do === 'token' && devices.token) machine.sellForToken(name);
    else if (step.do === 'test') machine.vendTest(name);
    else if (step.do === 'free') machine.vendFree(name);
    else if (step.do === 'sold-out') machine.markSoldOut(name);
    else if (step.do === 'revalue' && devices.card) machine.revalueCard(payment);
    else if (step.do === 'insert') machine.insert(payment);
    else if (step.do === 'refund') {
      machine.insert(payment);
      machine.returnCredit();
    } else if (step.do === 'price') this.#reprice(name, column.cardPrice, step.units);
  }

  #reprice(name: string, cardPrice: number | null, units: number): void {
    // A second change before the next read would make the first price unknowable.
    if (this.#repriced.has(name)) return;
    this.#repriced.add(name);
    const unit = this.#config.money.coins[0]!;
    const price = (units + 2) * unit;
    this.machine.setPrice(name, price, cardPrice === null ? null : price + unit);
  }

  #playTube(step: Extract<Step, { tube: number }>): void {
    const { machine } = this;
    const tube = machine.tubes[step.tube % Math.max(1, machine.tubes.length)];
    if (tube === undefined) return;
    const out = new Map([[tube.value, Math.min(step.count, tube.coins)]]);
    const fill = new Map([[tube.value, Math.min(step.count, tube.capacity - tube.coins)]]);
    if (step.do === 'pay-out') machine.payOutByHand(out);
    else if (step.do === 'lose-coins') machine.loseFromTubes(out);
    else machine.fillByHand(fill, step.do === 'fill');
  }

  #playMachine(step: Exclude<Step, { column: number } | { tube: number }>): void {
    const { machine } = this;
    switch (step.do) {
      case 'clock':
        machine.setClock(step.secondsAhead);
        break;
      case 'event':
        if (step.isOn) machine.raiseEvent(step.code);
        else machine.clearEvent(step.code);
        break;
      case 'outage':
        machine.losePower();
        break;
      case 'unseen-reset':
        machine.read({ reset: true, reader: 'OTHER' });
        break;
      case 'bills-setting':
        this.#changeBillsSetting();
        break;
      case 'board-changed':
        this.#hasRestarted = true;
        this.#successors += 1;
        machine.swapBoard(`CB59000${this.#successors}`);
        break;
      case 'memory-cleared':
        // Counters that began again a moment ago leave no trace when they do so once more and no date says it.
        if (this.#hasRestarted && this.#config.maker.initDateOnClear === 'first') break;
        this.#hasRestarted = true;
        machine.clearMemory();
        break;
      case 'other-machine':
        this.#replace();
        break;
    }
  }

  #changeBillsSetting(): void {
    const billsAs = this.#config.maker.billsAs === 'value' ? 'count' : 'value';
    this.#config = { ...this.#config, maker: { ...this.#config.maker, billsAs } };
    this.machine.setMaker({ billsAs });
  }

  #replace(): void {
    this.#successors += 1;
    const { money, columns, tubes, devices, identity: before } = this.#config;
    const identity = { serial: `${before.serial}X`, asset: `${before.asset}X`, board: `CB69000${this.#successors}` };
    const successor = defineMachine({
      identity,
      money,
      devices,
      tubes,
      maker: this.#config.maker,
      columns: [
        ...columns.slice(1).map((column, index) => ({ ...column, pastVends: 37 * (index + 1) })),
        defineColumn(`9${this.#successors}`, columns[0]!.price, { pastVends: 211 }),
      ],
      startsAt: this.#config.startsAt,
    });
    this.#config = successor;
    this.machine.replaceBy(successor);
  }
}
