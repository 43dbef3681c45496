import {
  type ColumnConfig,
  defineColumn,
  defineMachine,
  type MachineConfig,
  type MachineGiven,
} from '../simulator/index.js';
import { SeededRandom } from './seeded-random.js';

// All of it is invented: the operator, the people, the places and the products.
export const OPERATOR = 'Thistlequay Vending (invented)';
export const ROUTE = 'R7';
export const DRIVER = 'Robin Sample';

/** The days of the demo; the route is driven on the first and on the last. */
export const DAYS = ['2026-11-20', '2026-11-21', '2026-11-22', '2026-11-23'] as const;

/** A price on the plan, and the day from which it holds. */
export interface PlannedPrice {
  readonly price: number;
  readonly from: string | null;
}

/** One machine of the demo, and how busy it is. */
export interface DemoMachine {
  /** The operator's own identifier, as in the sheets. */
  readonly machine: string;
  readonly location: string;
  readonly config: MachineConfig;
  readonly vendsPerDay: number;
  /** Price on the plan where it is not the one the machine starts with, by column. */
  readonly plan: ReadonlyMap<string, PlannedPrice>;
  /** How far the machine's clock is ahead, in seconds. */
  readonly clockAhead: number;
  /** What was agreed with the location; nothing for most. Rates in percent, as the sheet has them. */
  readonly rates?: {
    readonly commission: string;
    readonly base: 'gross' | 'net';
    readonly tax: string;
    readonly isTaxIncluded: boolean;
  };
}

const SNACKS = ['Oat bar', 'Salted crisps', 'Nut mix', 'Rice cake', 'Ginger biscuit', 'Dried apple', 'Cheese twist'];
const SWEETS = ['Dark chocolate', 'Milk chocolate', 'Fruit gums', 'Mint drops', 'Toffee', 'Wafer', 'Nougat'];
const DRINKS = ['Still water', 'Sparkling water', 'Apple juice', 'Orange juice', 'Iced tea', 'Lemonade', 'Cola'];
const SNACK_PRICES = [90, 100, 110, 120, 130, 140, 150];
const DRINK_PRICES = [100, 120, 150, 160, 180, 200];

/** Trays of columns, numbered as on the front: tray 1 is 11, 12, …; snacks above, drinks below. */
function fillTrays(trays: number, perTray: number, seed: number): ColumnConfig[] {
  const random = new SeededRandom(seed);
  const columns: ColumnConfig[] = [];
  for (let tray = 1; tray <= trays; tray++) {
    const isDrinks = tray * 3 > trays * 2;
    const products = isDrinks ? DRINKS : tray % 2 === 0 ? SWEETS : SNACKS;
    for (let place = 1; place <= perTray; place++) {
      const capacity = isDrinks ? 8 : 12;
      columns.push(
        defineColumn(`${tray}${place}`, random.pick(isDrinks ? DRINK_PRICES : SNACK_PRICES), {
          product: products[(place + tray) % products.length]!,
          capacity,
          par: capacity - random.nat(2),
          pastVends: 120 + random.nat(1500),
        }),
      );
    }
  }
  return columns;
}

const withPrice = (columns: readonly ColumnConfig[], column: string, price: number): ColumnConfig[] =>
  columns.map((each) => (each.column === column ? { ...each, price } : each));

/** The card list stands 0.10 above the label. */
const withCardPrices = (columns: readonly ColumnConfig[]): ColumnConfig[] =>
  columns.map((each) => ({ ...each, cardPrice: each.price + 10 }));

interface DemoGiven extends Omit<DemoMachine, 'config' | 'plan' | 'machine'> {
  readonly number: number;
  readonly columns: readonly ColumnConfig[];
  readonly given?: MachineGiven;
  readonly plan?: DemoMachine['plan'];
}

function defineDemoMachine({ number, columns, given = {}, plan = new Map(), ...rest }: DemoGiven): DemoMachine {
  const config = defineMachine({
    columns,
    tubes: [
      { value: 10, capacity: 75, coins: 73 },
      { value: 20, capacity: 70, coins: 69 },
      { value: 50, capacity: 60, coins: 58 },
      { value: 100, capacity: 55, coins: 46 },
    ],
    past: { cardPercent: 35, billPercent: 20, changePercent: 30 },
    initialisedAt: `2025-0${number}-14T10:20:00`,
    startsAt: `${DAYS[0]}T07:30:00`,
    ...given,
    identity: {
      communicationId: `TST000010${number}`,
      serial: `SIM70010${number}`,
      model: columns.length > 20 ? 'TRAY-45' : 'CAN-20',
      software: '3.12',
      location: rest.location,
      asset: `TQ010${number}`,
      board: `CB44210${number}`,
    },
  });
  return { machine: `V10${number}`, config, plan, ...rest };
}

/** The eight machines, in the order in which the route is driven. */
export function defineRoster(): readonly DemoMachine[] {
  return [
    defineDemoMachine({
      number: 1,
      location: 'Library foyer',
      columns: fillTrays(5, 8, 101),
      vendsPerDay: 38,
      clockAhead: 40,
      rates: { commission: '10', base: 'gross', tax: '7', isTaxIncluded: true },
    }),
    defineDemoMachine({
      number: 2,
      location: 'Clinic waiting room',
      columns: withCardPrices(fillTrays(4, 8, 102)),
      given: { devices: { card: true }, maker: { priceLists: 'PA7' } },
      vendsPerDay: 45,
      clockAhead: -75,
      rates: { commission: '12.5', base: 'net', tax: '7', isTaxIncluded: true },
    }),
    // An older machine: level 5, bills as a number, zero segments left out, by-hand dispensing inside CA403.
    defineDemoMachine({
      number: 3,
      location: 'Print shop canteen',
      columns: [...fillTrays(1, 9, 103), ...fillTrays(2, 6, 113).filter(({ column }) => column.startsWith('2'))],
      given: {
        maker: {
          level: 5,
          billsAs: 'count',
          billValues: false,
          zeroSegments: 'minor-left-out',
          byHandInDispensed: true,
        },
      },
      vendsPerDay: 26,
      clockAhead: 130,
    }),
    defineDemoMachine({
      number: 4,
      location: 'Swimming hall',
      columns: withPrice(fillTrays(5, 6, 104), '14', 120),
      given: { maker: { wrapsProducts: true } },
      plan: new Map([['14', { price: 130, from: DAYS[2] }]]),
      vendsPerDay: 34,
      clockAhead: 0,
    }),
    defineDemoMachine({
      number: 5,
      location: 'Ferry hall',
      columns: fillTrays(6, 6, 105),
      vendsPerDay: 40,
      clockAhead: 15,
    }),
    defineDemoMachine({
      number: 6,
      location: 'College block B',
      columns: fillTrays(5, 9, 106),
      vendsPerDay: 52,
      clockAhead: -30,
    }),
    // Column 23 is labelled 1.40; the plan says 1.50.
    defineDemoMachine({
      number: 7,
      location: 'Town archive',
      columns: withPrice(fillTrays(4, 5, 107), '23', 140),
      given: { maker: { resetMode: 'every-read', ea301: 'reads' } },
      plan: new Map([['23', { price: 150, from: null }]]),
      vendsPerDay: 24,
      clockAhead: 60,
    }),
    defineDemoMachine({
      number: 8,
      location: 'Bus depot',
      columns: fillTrays(2, 5, 108),
      given: { devices: { bills: false } },
      vendsPerDay: 20,
      clockAhead: -10,
    }),
  ];
}
