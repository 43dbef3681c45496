import type { LocalDateTime } from '../../../src/model/index.js';
import type { ClockStyle } from './local-clock.js';
import type { Tube } from './piece-store.js';

/** The coins and bills of a currency that the simulated machines take, in minor units. */
export interface MoneySystem {
  readonly currency: string;
  /** ISO 4217 numeric code. */
  readonly numeric: string;
  readonly decimals: number;
  readonly coins: readonly number[];
  readonly bills: readonly number[];
}

export const EUR: MoneySystem = {
  currency: 'EUR',
  numeric: '978',
  decimals: 2,
  coins: [5, 10, 20, 50, 100, 200],
  bills: [500, 1000, 2000],
};
export const USD: MoneySystem = {
  currency: 'USD',
  numeric: '840',
  decimals: 2,
  coins: [5, 10, 25, 100],
  bills: [100, 500, 1000],
};
export const JPY: MoneySystem = {
  currency: 'JPY',
  numeric: '392',
  decimals: 0,
  coins: [10, 50, 100, 500],
  bills: [1000],
};
export const KWD: MoneySystem = {
  currency: 'KWD',
  numeric: '414',
  decimals: 3,
  coins: [5, 10, 20, 50, 100],
  bills: [250, 500, 1000],
};

/** One column (selection) as it stands in the machine. */
export interface ColumnConfig {
  readonly column: string;
  readonly product: string;
  readonly price: number;
  /** Price of the card list; null where cards pay the same. */
  readonly cardPrice: number | null;
  readonly capacity: number | null;
  readonly par: number | null;
  /** Paid vends before the simulation starts, so that the lifetime counters stand where a used machine has them. */
  readonly pastVends: number;
}

/** Counters are written modulo ten to the number of digits given here. */
export interface CounterDigits {
  readonly columnCount: number;
  readonly columnValue: number;
  readonly totalCount: number;
  readonly totalValue: number;
}

/** How the maker of this machine reads the standard. Each variation is one that domain.md describes. */
export interface MakerOptions {
  /** Level 5 writes the CRC least significant byte first. */
  readonly level: 6 | 5;
  readonly billsAs: 'value' | 'count';
  /** Whether CA309 and CA310 are written. */
  readonly billValues: boolean;
  readonly byHandInDispensed: boolean;
  /** `minor-left-out` keeps VA1, CA2, CA3, CA4, DA2 and PA2 even at zero. */
  readonly zeroSegments: 'written' | 'minor-left-out' | 'left-out';
  readonly wrapsProducts: boolean;
  readonly ea301: 'resets' | 'reads' | 'reading-id';
  /** Whether EA309 and EA310 are written. */
  readonly readCounters: boolean;
  readonly readCountsItself: boolean;
  readonly resetMode: 'every-read' | 'service-read' | 'never';
  readonly eventsReset: boolean;
  readonly cashSalesBookedAs: 'CA' | 'DA' | 'DB';
  /** Lifetime counters of money and vends. `zero`: the elements are there and stay 0. */
  readonly lifetime: 'kept' | 'zero' | 'absent';
  readonly interval: 'kept' | 'absent';
  /** Whether a memory clear writes a new date into EA4 or leaves the first one. */
  readonly initDateOnClear: 'new' | 'first';
  readonly priceLists: 'none' | 'PA7' | 'LA1' | 'both';
  /** Number of the card price list in PA703 and LA101. */
  readonly cardList: string;
  readonly discounts: boolean;
  readonly denominations: boolean;
  readonly tubes: 'none' | 'CA15' | 'CA15+CA17';
  readonly clockStyle: ClockStyle;
  readonly envelope: boolean;
  readonly digits: CounterDigits;
  /** Sales count as made in exact-change condition while the tubes hold less than this. */
  readonly exactChangeBelow: number;
  /** Segments of the maker's own, written before EA2. */
  readonly extraSegments: readonly string[];
}

export const PLAIN_MAKER: MakerOptions = {
  level: 6,
  billsAs: 'value',
  billValues: true,
  byHandInDispensed: false,
  zeroSegments: 'written',
  wrapsProducts: false,
  ea301: 'resets',
  readCounters: true,
  readCountsItself: true,
  resetMode: 'service-read',
  eventsReset: true,
  cashSalesBookedAs: 'CA',
  lifetime: 'kept',
  interval: 'kept',
  initDateOnClear: 'new',
  priceLists: 'none',
  cardList: '3',
  discounts: true,
  denominations: true,
  tubes: 'CA15+CA17',
  clockStyle: 'short',
  envelope: true,
  digits: { columnCount: 8, columnValue: 10, totalCount: 8, totalValue: 10 },
  exactChangeBelow: 0,
  extraSegments: [],
};

/** What names a machine and its board. */
export interface MachineIdentity {
  readonly communicationId: string;
  readonly serial: string;
  readonly model: string;
  readonly software: string;
  readonly location: string;
  readonly asset: string;
  readonly board: string;
}

/** Devices fitted. */
export interface MachineDevices {
  readonly coins: boolean;
  readonly bills: boolean;
  readonly card: boolean;
  readonly secondCard: boolean;
  readonly token: boolean;
}

/** Shares of the past, in percent of the past vends or of their value, from which the lifetime counters are made up. */
export interface PastShares {
  readonly cardPercent: number;
  readonly billPercent: number;
  readonly changePercent: number;
  /** Cash sales missing from CA2 and nowhere else: a scar of a board or device swapped long ago. */
  readonly scar: number;
}

/** All that a simulated machine is made of. */
export interface MachineConfig {
  readonly identity: MachineIdentity;
  readonly money: MoneySystem;
  readonly columns: readonly ColumnConfig[];
  readonly tubes: readonly Readonly<Tube>[];
  readonly devices: MachineDevices;
  readonly maker: MakerOptions;
  readonly past: PastShares;
  readonly initialisedAt: LocalDateTime;
  readonly startsAt: LocalDateTime;
}

/** A column with defaults for what a test does not care about. */
export function defineColumn(column: string, price: number, rest: Partial<ColumnConfig> = {}): ColumnConfig {
  return { column, product: '', cardPrice: null, capacity: null, par: null, pastVends: 0, ...rest, price };
}

/** What a test gives to {@link defineMachine}. */
export interface MachineGiven extends Partial<Omit<MachineConfig, 'identity' | 'devices' | 'maker' | 'past'>> {
  readonly identity?: Partial<MachineIdentity>;
  readonly devices?: Partial<MachineDevices>;
  readonly maker?: Partial<MakerOptions>;
  readonly past?: Partial<PastShares>;
}

/** A plain cash machine of two columns, unless told otherwise. */
export function defineMachine(given: MachineGiven = {}): MachineConfig {
  const money = given.money ?? EUR;
  return {
    money,
    columns: given.columns ?? [defineColumn('11', money.coins.at(-1)!), defineColumn('12', money.coins.at(-2)!)],
    tubes: given.tubes ?? money.coins.slice(0, -1).map((value) => ({ value, capacity: 60, coins: 20 })),
    initialisedAt: given.initialisedAt ?? '2024-03-04T09:00:00',
    startsAt: given.startsAt ?? '2026-11-20T06:00:00',
    identity: {
      communicationId: 'TST0000001',
      serial: 'SN100001',
      model: 'MODEL-A',
      software: '1.00',
      location: '',
      asset: 'A100',
      board: 'CB500001',
      ...given.identity,
    },
    devices: { coins: true, bills: true, card: false, secondCard: false, token: false, ...given.devices },
    maker: { ...PLAIN_MAKER, ...given.maker },
    past: { cardPercent: 0, billPercent: 0, changePercent: 0, scar: 0, ...given.past },
  };
}
