import fc from 'fast-check';
import type { Restart } from '../simulator/index.js';

/** How a customer pays: to the coin, with large coins, with a bill if there is one, or with many middling coins. */
export type PayStyle = 'exact' | 'large-coins' | 'bill' | 'middling-coins';

/**
 * One thing that happens to a machine. Columns, tubes and prices are picked by a number taken modulo how many there are,
 * so that any step fits any machine; one that its machine cannot do (a card at a machine with no reader) does nothing.
 */
export type Step =
  | { readonly do: 'cash'; readonly column: number; readonly pay: PayStyle; readonly discount: number }
  | { readonly do: 'card' | 'second-card'; readonly column: number; readonly discount: number }
  | { readonly do: 'token' | 'test' | 'free' | 'sold-out'; readonly column: number }
  | { readonly do: 'refund' | 'revalue' | 'insert'; readonly column: number; readonly pay: PayStyle }
  | { readonly do: 'price'; readonly column: number; readonly units: number }
  | { readonly do: 'pay-out' | 'fill' | 'unentered-fill' | 'lose-coins'; readonly tube: number; readonly count: number }
  | { readonly do: 'clock'; readonly secondsAhead: number }
  | { readonly do: 'event'; readonly code: string; readonly isOn: boolean }
  | { readonly do: 'outage' | 'unseen-reset' | 'bills-setting' }
  | { readonly do: Restart };

/** What may happen. The defaults leave every figure knowable from lifetime counters. */
export interface StepChoice {
  /** At most one a column between two reads. Default true. */
  readonly priceChanges?: boolean;
  /** Default false. */
  readonly discounts?: boolean;
  /** Cash put onto cards. Default false. */
  readonly revalues?: boolean;
  /** Money put in that buys nothing yet. Default false. */
  readonly standingCredit?: boolean;
  /** A reset by a read that nobody kept. Default false. */
  readonly unseenResets?: boolean;
  /** Coins lost from tubes, fills not entered. Default false. */
  readonly tubeFaults?: boolean;
  /** The operator's setting of CA304 and CA308 changes. Default false. */
  readonly billsSettingChanges?: boolean;
  /** Payments and fills by hand. Default true. */
  readonly handWork?: boolean;
  /** Default false. */
  readonly clockChanges?: boolean;
  /** Kinds of restart, at most one between two reads. Default none. */
  readonly restarts?: readonly Restart[];
}

const column = fc.nat(50);
const pay = fc.constantFrom<PayStyle[]>('exact', 'large-coins', 'bill', 'middling-coins');
const does = <const T extends Step['do']>(...kinds: readonly T[]): fc.Arbitrary<T> => fc.constantFrom(...kinds);

type Weighted = fc.WeightedArbitrary<Step>;

function sales(choice: StepChoice): Weighted[] {
  const discount = choice.discounts ? fc.constantFrom(0, 0, 1, 2) : fc.constant(0);
  return [
    { weight: 12, arbitrary: fc.record({ do: does('cash'), column, pay, discount }) },
    { weight: 5, arbitrary: fc.record({ do: does('card', 'second-card'), column, discount }) },
    { weight: 3, arbitrary: fc.record({ do: does('token', 'test', 'free', 'sold-out'), column }) },
    { weight: 1, arbitrary: fc.record({ do: does('refund'), column, pay }) },
  ];
}

function happenings(choice: StepChoice): Weighted[] {
  const tube = fc.nat(8);
  const count = fc.integer({ min: 1, max: 15 });
  const unless = (isOff: boolean, weight: number, arbitrary: fc.Arbitrary<Step>): Weighted[] =>
    isOff ? [] : [{ weight, arbitrary }];
  return [
    { weight: 1, arbitrary: fc.record({ do: does('event'), code: fc.constantFrom('EAA', 'EGS'), isOn: fc.boolean() }) },
    { weight: 1, arbitrary: fc.record({ do: does('outage') }) },
    ...unless(choice.priceChanges === false, 1, fc.record({ do: does('price'), column, units: fc.nat(60) })),
    ...unless(choice.handWork === false, 2, fc.record({ do: does('pay-out', 'fill'), tube, count })),
    ...unless(!choice.revalues, 1, fc.record({ do: does('revalue'), column, pay })),
    ...unless(!choice.standingCredit, 1, fc.record({ do: does('insert'), column, pay })),
    ...unless(!choice.unseenResets, 1, fc.record({ do: does('unseen-reset') })),
    ...unless(!choice.tubeFaults, 2, fc.record({ do: does('unentered-fill', 'lose-coins'), tube, count })),
    ...unless(!choice.billsSettingChanges, 1, fc.record({ do: does('bills-setting') })),
    ...unless(
      !choice.clockChanges,
      1,
      fc.record({ do: does('clock'), secondsAhead: fc.integer({ min: -90_000, max: 90_000 }) }),
    ),
  ];
}

/** What happens between two reads, and how the second is taken. */
export interface Stretch {
  readonly steps: readonly Step[];
  readonly minutesBetween: number;
  /** A visit: service read and bag. Otherwise a scheduled read. */
  readonly visit: boolean;
}

/** A random stretch of a machine's life. */
export function arbitraryStretch(choice: StepChoice, maxSteps: number): fc.Arbitrary<Stretch> {
  const steps = fc.array(fc.oneof(...sales(choice), ...happenings(choice)), { maxLength: maxSteps });
  const restarts = choice.restarts ?? [];
  const restart = restarts.length === 0 ? fc.constant(null) : fc.option(fc.constantFrom(...restarts), { freq: 3 });
  return fc
    .record({
      steps,
      restart,
      at: fc.nat(maxSteps),
      minutesBetween: fc.integer({ min: 2, max: 90 }),
      visit: fc.boolean(),
    })
    .map(({ steps: made, restart: kind, at, ...rest }) => ({
      ...rest,
      steps: kind === null ? made : [...made.slice(0, at), { do: kind }, ...made.slice(at)],
    }));
}
