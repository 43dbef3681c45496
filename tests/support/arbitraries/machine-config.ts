import fc from 'fast-check';
import {
  type CounterDigits,
  defineColumn,
  defineMachine,
  EUR,
  JPY,
  KWD,
  type MachineConfig,
  type MachineDevices,
  type MachineIdentity,
  type MakerOptions,
  type MoneySystem,
  PLAIN_MAKER,
  USD,
} from '../simulator/index.js';

/** Which counters stand just below the point at which they roll over when the history begins. */
export type RollOver = 'none' | 'column-count' | 'column-value' | 'total-count' | 'total-value';

/** What a random machine may be. Left out: what is common in the field; never what makes figures unknowable. */
export interface MachineChoice {
  readonly rollOver?: readonly RollOver[];
  readonly lifetime?: readonly MakerOptions['lifetime'][];
  readonly interval?: readonly MakerOptions['interval'][];
  readonly resetMode?: readonly MakerOptions['resetMode'][];
  readonly cashSalesBookedAs?: readonly MakerOptions['cashSalesBookedAs'][];
  readonly billsAs?: readonly MakerOptions['billsAs'][];
  readonly cardPriceLists?: boolean;
  readonly devices?: Partial<MachineDevices>;
  readonly money?: readonly MoneySystem[];
  readonly identity?: Partial<MachineIdentity>;
  readonly maxColumns?: number;
  /** Paid vends that each column has behind it at the least. Default 0. */
  readonly minPastVends?: number;
  /** Settings that every machine is to have. */
  readonly maker?: Partial<MakerOptions>;
}

interface Draft {
  readonly money: MoneySystem;
  readonly prices: readonly number[];
  readonly vends: readonly number[];
  readonly hasCardPrices: boolean;
  readonly maker: Partial<MakerOptions>;
  readonly devices: Partial<MachineDevices>;
  readonly tubeCapacity: number;
  readonly tubeCoins: number;
  readonly shares: { readonly cardPercent: number; readonly billPercent: number; readonly changePercent: number };
  readonly rollOver: RollOver;
  /** How far below the roll-over its counter stands, in vends. */
  readonly vendsLeft: number;
}

const anyOf = <const T>(values: readonly T[]): fc.Arbitrary<T> => fc.constantFrom(...values);

/** A price that the smallest coin can pay, no more than one bill. */
function arbitraryPrice(money: MoneySystem): fc.Arbitrary<number> {
  const unit = money.coins[0]!;
  const most = money.bills[0]!;
  return fc.integer({ min: 2, max: Math.min(100, Math.floor(most / unit)) }).map((units) => units * unit);
}

function arbitraryMaker(choice: MachineChoice): fc.Arbitrary<Partial<MakerOptions>> {
  const settings = fc.record({
    level: anyOf([6, 5]),
    billsAs: anyOf(choice.billsAs ?? ['value', 'count']),
    billValues: fc.boolean(),
    byHandInDispensed: fc.boolean(),
    zeroSegments: anyOf(['written', 'minor-left-out', 'left-out']),
    wrapsProducts: fc.boolean(),
    ea301: anyOf(['resets', 'reads', 'reading-id']),
    readCounters: fc.boolean(),
    readCountsItself: fc.boolean(),
    resetMode: anyOf(choice.resetMode ?? ['every-read', 'service-read', 'never']),
    eventsReset: fc.boolean(),
    cashSalesBookedAs: anyOf(choice.cashSalesBookedAs ?? ['CA']),
    lifetime: anyOf(choice.lifetime ?? ['kept']),
    interval: anyOf(choice.interval ?? ['kept']),
    initDateOnClear: anyOf(['new', 'first']),
    priceLists: anyOf(['none', 'PA7', 'LA1', 'both']),
    cardList: anyOf(['1', '3']),
    discounts: fc.boolean(),
    denominations: fc.boolean(),
    tubes: anyOf(['CA15', 'CA15+CA17']),
    clockStyle: anyOf(['short', 'long', 'short-with-seconds']),
    envelope: fc.boolean(),
    exactChangeBelow: anyOf([0, 100, 1000]),
  });
  // Level 5 machines have no CA309 and CA310 (manual L0118P-SP, p. 62, gives them as the level 6.0 layout).
  return settings.map((made) => ({ ...made, billValues: made.billValues && made.level === 6, ...choice.maker }));
}

function arbitraryDraft(choice: MachineChoice): fc.Arbitrary<Draft> {
  return anyOf(choice.money ?? [EUR, USD, JPY, KWD]).chain((money) =>
    fc
      .record({
        prices: fc.array(arbitraryPrice(money), { minLength: 1, maxLength: choice.maxColumns ?? 6 }),
        hasCardPrices: choice.cardPriceLists ? fc.boolean() : fc.constant(false),
        maker: arbitraryMaker(choice),
        devices: fc.record({ bills: fc.boolean(), card: fc.boolean(), secondCard: fc.boolean(), token: fc.boolean() }),
        tubeCapacity: fc.integer({ min: 3, max: 60 }),
        tubeCoins: fc.integer({ min: 0, max: 60 }),
        shares: fc.record({
          cardPercent: fc.integer({ min: 0, max: 60 }),
          billPercent: fc.integer({ min: 0, max: 80 }),
          changePercent: fc.integer({ min: 0, max: 60 }),
        }),
        rollOver: anyOf(choice.rollOver ?? ['none']),
        vendsLeft: fc.integer({ min: 1, max: 8 }),
      })
      .chain((draft) => {
        const past = fc.integer({ min: choice.minPastVends ?? 0, max: (choice.minPastVends ?? 0) + 5000 });
        const vends = fc.array(past, { minLength: draft.prices.length, maxLength: draft.prices.length });
        return vends.map((made) => ({
          ...draft,
          money,
          vends: made,
          devices: { ...draft.devices, ...choice.devices },
        }));
      }),
  );
}

const COUNT_DIGITS = 5;
const VALUE_DIGITS = 8;

/** Past vends with which one counter of the last column, or one total, stands a few vends below its roll-over. */
function placeBeforeRollOver(draft: Draft): { readonly vends: readonly number[]; readonly digits: CounterDigits } {
  const { vends, prices, rollOver, vendsLeft } = draft;
  const others = vends.slice(0, -1);
  const price = prices.at(-1)!;
  const countLimit = 10 ** COUNT_DIGITS;
  const valueLimit = 10 ** VALUE_DIGITS;
  const valueOfOthers = others.reduce((sum, count, index) => sum + count * prices[index]!, 0);
  const countOfOthers = others.reduce((sum, count) => sum + count, 0);
  const usual = PLAIN_MAKER.digits;
  switch (rollOver) {
    case 'column-count':
      return { vends: [...others, countLimit - vendsLeft], digits: { ...usual, columnCount: COUNT_DIGITS } };
    case 'column-value': {
      const last = Math.floor((valueLimit - 1) / price) - vendsLeft + 1;
      return { vends: [...others, last], digits: { ...usual, columnValue: VALUE_DIGITS } };
    }
    case 'total-count':
      return {
        vends: [...others, countLimit - countOfOthers - vendsLeft],
        digits: { ...usual, totalCount: COUNT_DIGITS },
      };
    case 'total-value': {
      const last = Math.floor((valueLimit - 1 - valueOfOthers) / price) - vendsLeft + 1;
      return { vends: [...others, last], digits: { ...usual, totalValue: VALUE_DIGITS } };
    }
    default:
      return { vends, digits: usual };
  }
}

function buildConfig(draft: Draft, identity: Partial<MachineIdentity>): MachineConfig {
  const { money, prices, maker, devices, tubeCapacity, rollOver } = draft;
  const { vends, digits } = placeBeforeRollOver(draft);
  const surcharge = money.coins[0]!;
  return defineMachine({
    identity,
    money,
    devices,
    maker: { ...maker, digits },
    // A single device has to carry all the past for one total to stand where it is meant to.
    past: rollOver === 'none' ? draft.shares : { ...draft.shares, cardPercent: 0 },
    columns: prices.map((price, index) =>
      defineColumn(String(11 + index), price, {
        product: `P${index + 1}`,
        cardPrice: draft.hasCardPrices ? price + surcharge : null,
        capacity: 20,
        par: 18,
        pastVends: vends[index]!,
      }),
    ),
    tubes: money.coins.slice(0, 4).map((value) => ({
      value,
      capacity: tubeCapacity,
      coins: Math.min(tubeCapacity, draft.tubeCoins),
    })),
  });
}

/** A random machine: its money, columns, devices, past and what its maker departs in. */
export function arbitraryMachineConfig(choice: MachineChoice = {}): fc.Arbitrary<MachineConfig> {
  return arbitraryDraft(choice).map((draft) => buildConfig(draft, choice.identity ?? {}));
}
