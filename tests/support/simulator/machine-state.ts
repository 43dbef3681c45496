import { CounterBank } from './counter-bank.js';
import { createLedger, type Ledger, ledgerOf } from './ledger.js';
import { toSeconds } from './local-clock.js';
import type { ColumnConfig, MachineConfig, MachineIdentity, MakerOptions } from './machine-config.js';
import { addPast } from './open-past.js';
import { PieceStore, type Tube, valueOfTubes } from './piece-store.js';
import type { Restart, Snapshot } from './snapshot.js';

/** One column now: its prices can change, and it remembers when it sold out. */
export interface ColumnState extends Omit<ColumnConfig, 'price' | 'cardPrice'> {
  price: number;
  cardPrice: number | null;
  soldOutAt: number | null;
}

/** Reads that the machine remembers. */
export interface ReadMemory {
  reads: number;
  resets: number;
  lastAt: number | null;
  lastReader: string;
}

/** Everything a simulated machine knows and holds. Operations change it in place. */
export interface MachineState {
  config: MachineConfig;
  identity: MachineIdentity;
  maker: MakerOptions;
  readonly columns: ColumnState[];
  readonly bank: CounterBank;
  readonly cashBox: PieceStore;
  readonly stacker: PieceStore;
  /** Coins the driver took out by hand less those he put in, since the last collection. */
  readonly hand: PieceStore;
  tubes: Tube[];
  /** Tube contents from which the ledger's flows are counted. */
  tubeBase: number;
  /** Taken out at collections so far, by where it lay. */
  readonly collected: { box: number; bills: number; hand: number };
  /** Value of fills that the machine was not told of. */
  unenteredFills: number;
  /** Money put in that has bought nothing yet. */
  credit: number;
  readonly ledger: Ledger;
  /** True time, and how far the machine's clock is ahead of it, in seconds. */
  now: number;
  clockAhead: number;
  /** What the board remembers of its reads; the simulator counts true resets apart. */
  readonly readMemory: ReadMemory;
  trueResets: number;
  doorOpenings: number;
  initialisedAt: number;
  priceChangedAt: number | null;
  clockChange: { readonly before: number; readonly after: number } | null;
  /** Event code → active now, and when it last came on. */
  readonly events: Map<string, { active: boolean; since: number }>;
  temperatureC: number | null;
  /** The first snapshot of each era: the start, then one at each restart of the counters. */
  readonly eraStarts: Snapshot[];
  /** The first snapshot of each stretch that the interval counters cover: after each reset and each restart. */
  readonly intervalStarts: Snapshot[];
  readonly restarts: Restart[];
}

/** A machine as configured, with its past in the lifetime counters and its interval counters at zero. */
export function createState(config: MachineConfig): MachineState {
  const startsAt = toSeconds(config.startsAt);
  const state: MachineState = {
    config,
    identity: config.identity,
    maker: config.maker,
    columns: config.columns.map((column) => ({ ...column, soldOutAt: null })),
    bank: new CounterBank(),
    cashBox: new PieceStore(),
    stacker: new PieceStore(),
    hand: new PieceStore(),
    tubes: config.devices.coins ? config.tubes.map((tube) => ({ ...tube })) : [],
    tubeBase: 0,
    collected: { box: 0, bills: 0, hand: 0 },
    unenteredFills: 0,
    credit: 0,
    ledger: createLedger(),
    now: startsAt,
    clockAhead: 0,
    readMemory: { reads: 0, resets: 0, lastAt: null, lastReader: '' },
    trueResets: 0,
    doorOpenings: 0,
    initialisedAt: toSeconds(config.initialisedAt),
    priceChangedAt: null,
    clockChange: null,
    events: new Map(),
    temperatureC: null,
    eraStarts: [],
    intervalStarts: [],
    restarts: [],
  };
  state.tubeBase = valueOfTubes(state.tubes);
  for (const column of state.columns) ledgerOf(state.ledger, column.column);
  addPast(state.bank, config);
  return state;
}

/** The column by its name; wrong use when there is none. */
export function findColumn(state: MachineState, column: string): ColumnState {
  const found = state.columns.find((candidate) => candidate.column === column);
  if (found === undefined) throw new RangeError(`no column ${column}`);
  return found;
}

/** The machine's own clock, in seconds. */
export const clockOf = (state: MachineState): number => state.now + state.clockAhead;
