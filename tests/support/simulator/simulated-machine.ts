import type { LocalDateTime } from '../../../src/model/index.js';
import { buildCapture, type CaptureOptions } from '../build-capture.js';
import {
  markSoldOut,
  revalueCard,
  vendForCard,
  vendForCash,
  vendForFree,
  vendForTest,
  vendForToken,
} from './book-vend.js';
import { assertConserved } from './conservation.js';
import { type Bag, type Coins, collectBag, fillByHand, loseFromTubes, payOutByHand } from './hand-work.js';
import { ledgerOf } from './ledger.js';
import { toSeconds } from './local-clock.js';
import type { ColumnConfig, MachineConfig, MakerOptions } from './machine-config.js';
import { clockOf, createState, findColumn, type MachineState } from './machine-state.js';
import { clearMemory, replaceMachine, swapBoard } from './restarts.js';
import { beginIntervalStretch, type Snapshot, takeSnapshot } from './snapshot.js';
import { insertMoney, type Payment, payChange } from './take-payment.js';
import { type Truth, truthBetween } from './truth.js';
import { writeSegments } from './write-segments.js';

/** How a read is taken. */
export interface ReadRequest {
  /** A read at a visit, which clears the counters of a machine that clears on service reads. */
  readonly service?: boolean;
  /** Clear or do not, whatever the machine's reset mode. */
  readonly reset?: boolean;
  /** True time of the read; the machine's clock may differ. */
  readonly at?: LocalDateTime;
  readonly reader?: string;
  /** How the file departs from what the machine sent. */
  readonly capture?: CaptureOptions;
}

/** A read taken: the file, and the truth at that moment. */
export interface SimulatedRead {
  readonly bytes: Uint8Array;
  readonly segments: readonly string[];
  readonly service: boolean;
  readonly reset: boolean;
  /** Before the read's own reset, and before any collection that follows. */
  readonly snapshot: Snapshot;
}

/** A visit: hand work first, then the read, then the bag, with nobody buying in between. */
export interface VisitRequest extends ReadRequest {
  readonly fill?: Coins;
  readonly payOut?: Coins;
}

/** A vending machine with counters as the standard has them, and the truth beside them. Every operation conserves money. */
export class SimulatedMachine {
  readonly #state: MachineState;

  constructor(config: MachineConfig) {
    this.#state = createState(config);
    beginIntervalStretch(this.#state);
    this.#state.eraStarts.push(takeSnapshot(this.#state));
  }

  #do<T>(operation: (state: MachineState) => T): T {
    const result = operation(this.#state);
    assertConserved(this.#state);
    return result;
  }

  /** Let time pass. */
  advance(minutes: number): void {
    if (minutes < 0) throw new RangeError('time runs forward');
    this.#state.now += Math.round(minutes * 60);
  }

  advanceTo(at: LocalDateTime): void {
    this.advance((toSeconds(at) - this.#state.now) / 60);
  }

  sellForCash(column: string, payment: Payment, discount = 0): void {
    this.#do((state) => vendForCash(state, column, payment, discount));
  }

  sellByCard(column: string, device: 'DA' | 'DB' = 'DA', discount = 0): void {
    this.#do((state) => vendForCard(state, column, device, discount));
  }

  sellForToken(column: string): void {
    this.#do((state) => vendForToken(state, column));
  }

  vendTest(column: string): void {
    this.#do((state) => vendForTest(state, column));
  }

  vendFree(column: string): void {
    this.#do((state) => vendForFree(state, column));
  }

  revalueCard(payment: Payment): void {
    this.#do((state) => revalueCard(state, payment));
  }

  /** A customer puts money in and has bought nothing yet. */
  insert(payment: Payment): void {
    this.#do((state) => insertMoney(state, payment));
  }

  /** The customer presses the return lever. */
  returnCredit(): void {
    this.#do(payChange);
  }

  markSoldOut(column: string): void {
    this.#do((state) => markSoldOut(state, column));
  }

  payOutByHand(coins: Coins): void {
    this.#do((state) => payOutByHand(state, coins));
  }

  fillByHand(coins: Coins, entered = true): void {
    this.#do((state) => fillByHand(state, coins, entered));
  }

  loseFromTubes(coins: Coins): void {
    this.#do((state) => loseFromTubes(state, coins));
  }

  /** Change the price on the label, and the card list's where given (null: cards pay the label). */
  setPrice(column: string, price: number, cardPrice?: number | null): void {
    const found = findColumn(this.#state, column);
    found.price = price;
    if (cardPrice !== undefined) found.cardPrice = cardPrice;
    this.#state.priceChangedAt = clockOf(this.#state);
  }

  /** Set the machine's clock to a number of seconds ahead of the true time. */
  setClock(secondsAhead: number): void {
    const before = clockOf(this.#state);
    this.#state.clockAhead = secondsAhead;
    this.#state.clockChange = { before, after: clockOf(this.#state) };
  }

  losePower(): void {
    this.#state.bank.add('outages', 1);
  }

  raiseEvent(code: string): void {
    const { events, bank } = this.#state;
    if (events.get(code)?.active) return;
    events.set(code, { active: true, since: clockOf(this.#state) });
    bank.add(`event/${code}`, 1);
  }

  clearEvent(code: string): void {
    const event = this.#state.events.get(code);
    if (event) event.active = false;
  }

  setTemperature(degreesCelsius: number | null): void {
    this.#state.temperatureC = degreesCelsius;
  }

  addColumn(config: ColumnConfig): void {
    this.#state.columns.push({ ...config, soldOutAt: null });
    ledgerOf(this.#state.ledger, config.column);
  }

  removeColumn(column: string): void {
    const { columns } = this.#state;
    columns.splice(columns.indexOf(findColumn(this.#state, column)), 1);
  }

  /** Change how the machine writes from now on, e.g. bills as a number. */
  setMaker(change: Partial<MakerOptions>): void {
    this.#state.maker = { ...this.#state.maker, ...change };
  }

  swapBoard(board: string): void {
    this.#do((state) => swapBoard(state, board));
  }

  clearMemory(): void {
    this.#do(clearMemory);
  }

  replaceBy(config: MachineConfig): void {
    this.#do((state) => replaceMachine(state, config));
  }

  /** Take a read. A capture shows the counters as they stood before its own reset. */
  read(request: ReadRequest = {}): SimulatedRead {
    if (request.at !== undefined) this.advanceTo(request.at);
    const state = this.#state;
    const { maker, readMemory } = state;
    const service = request.service ?? false;
    const reset =
      request.reset ?? (maker.resetMode === 'every-read' || (maker.resetMode === 'service-read' && service));
    const reader = request.reader ?? (service ? 'HANDHELD' : 'TELE');
    const segments = writeSegments(state, reader, reset);
    const capture = { crc: maker.level === 5 ? 'swapped' : 'exact', envelope: maker.envelope, ...request.capture };
    const dxsLine = `DXS*${state.identity.communicationId}*VA*V${maker.level === 6 ? '1/1' : '0/6'}*1`;
    const bytes = buildCapture(segments, { dxsLine, ...capture });
    const snapshot = takeSnapshot(state);
    if (reset) this.#reset();
    Object.assign(readMemory, { reads: readMemory.reads + 1, lastAt: clockOf(state), lastReader: reader });
    return { bytes, segments, service, reset, snapshot };
  }

  #reset(): void {
    const state = this.#state;
    state.bank.clearInterval((key) => !state.maker.eventsReset && key.startsWith('event/'));
    state.readMemory.resets += 1;
    state.trueResets += 1;
    beginIntervalStretch(state);
  }

  /** Take box, stacker and the driver's hand into a bag. */
  collect(): Bag {
    return this.#do(collectBag);
  }

  /** Open the door: hand work, a service read, then the bag. */
  serviceVisit(request: VisitRequest = {}): { readonly read: SimulatedRead; readonly bag: Bag } {
    if (request.at !== undefined) this.advanceTo(request.at);
    this.#state.doorOpenings += 1;
    if (request.payOut) this.payOutByHand(request.payOut);
    if (request.fill) this.fillByHand(request.fill);
    const { at: _taken, ...rest } = request;
    const read = this.read({ service: true, ...rest });
    return { read, bag: this.collect() };
  }

  /** The truth now, without a read. */
  snapshot(): Snapshot {
    return takeSnapshot(this.#state);
  }

  /** The snapshot at which the counters of a snapshot's era began. */
  eraStartOf(snapshot: Snapshot): Snapshot {
    return this.#state.eraStarts[snapshot.restarts.length]!;
  }

  /** The snapshot at which the interval counters of a snapshot last stood at zero. */
  intervalStartOf(snapshot: Snapshot): Snapshot {
    return this.#state.intervalStarts[snapshot.intervalStretch]!;
  }

  /** The truth between two reads of this machine, earlier first. */
  truthBetween(from: SimulatedRead, to: SimulatedRead): Truth {
    return truthBetween(from.snapshot, to.snapshot);
  }

  /** Coins in each tube now. */
  get tubes(): readonly { readonly value: number; readonly coins: number; readonly capacity: number }[] {
    return this.#state.tubes.map((tube) => ({ ...tube }));
  }

  get columns(): readonly ColumnConfig[] {
    return this.#state.columns.map((column) => ({ ...column }));
  }
}
