import type { Count, Minor, PlanRow } from '../model/index.js';
import type { Basis, Difference } from './difference.js';
import { explainValue } from './explain-value.js';
import type { PaymentLists } from './payment-lists.js';
import { measureLoss } from './price-loss.js';
import type { ReadPair } from './read-pair.js';
import type { PriceShare } from './split-value.js';

/** What one column sold between two reads. Money in minor units; null is not known, never 0. */
export interface ColumnSales {
  readonly column: string;
  readonly product: string | null;
  readonly sold: Count | null;
  readonly value: Minor | null;
  /** The price in the machine at the earlier and the later read. */
  readonly priceFrom: Minor | null;
  readonly priceTo: Minor | null;
  /** What cards pay at the later read; null where no list tells it. */
  readonly cardPriceTo: Minor | null;
  /** The operator's price in force at the later read, and at the earlier one. */
  readonly pricePlan: Minor | null;
  readonly pricePlanFrom: Minor | null;
  readonly cardPricePlan: Minor | null;
  /** Vends at each known price, before discounts: its sum is `value` + `discounts`. Empty where prices do not explain it. */
  readonly split: readonly PriceShare[];
  readonly test: Count | null;
  readonly free: Count | null;
  /** Discounts given, where the machine counts them. */
  readonly discounts: Minor | null;
  /** Value less what known prices and discounts explain; null when it can not be judged. */
  readonly unexplained: Minor | null;
  /** What prices off plan cost (sold × (plan − charged)); below 0 customers paid more than planned. Null: not known. */
  readonly loss: Minor | null;
  readonly basis: Basis;
  readonly floor: boolean;
  /** Which of the reads have the column. */
  readonly inFrom: boolean;
  readonly inTo: boolean;
  /** How the figures came about, for findings and explanations. */
  readonly soldDifference: Difference;
  readonly valueDifference: Difference;
  readonly testDifference: Difference;
  readonly freeDifference: Difference;
}

/** The operator's plan for one column at both ends of an interval. */
export interface PlanEnds {
  readonly from: PlanRow | null;
  readonly to: PlanRow | null;
  /** Whether its prices can be held against the machine's: they are in the same money. */
  readonly isSameMoney: boolean;
}

/** Work out what one column sold. The column is in at least one of the reads. */
export function measureColumn(pair: ReadPair, id: string, plan: PlanEnds, lists: PaymentLists): ColumnSales {
  const before = pair.from.read.column(id);
  const after = pair.to.read.column(id);
  const moved = {
    soldDifference: pair.columnDifference(id, 'PA201', 'PA203'),
    valueDifference: pair.columnDifference(id, 'PA202', 'PA204'),
    testDifference: pair.columnDifference(id, 'PA301', 'PA303'),
    freeDifference: pair.columnDifference(id, 'PA401', 'PA403'),
  };
  const { soldDifference: sold, valueDifference: value } = moved;
  const discounts = pair.columnDifference(id, 'PA206', 'PA208');
  const prices = {
    priceFrom: before?.price ?? null,
    priceTo: after?.price ?? null,
    cardPriceTo: lists.cardPrice(id),
  };
  const planned = pricesOf(plan);
  const cardPlan = pair.to.read.has('DA2') || pair.to.read.has('DB2') ? planned.cardPlanTo : null;
  const split = explainValue({ column: id, sold, value, discounts, ...prices, cardPlan }, lists);
  const figures = { sold: sold.value, value: value.value, discounts: discounts.value };
  return {
    column: id,
    product: plan.to?.product ?? plan.from?.product ?? after?.text('PA103') ?? before?.text('PA103') ?? null,
    ...figures,
    ...prices,
    pricePlan: planned.planTo,
    pricePlanFrom: planned.planFrom,
    cardPricePlan: planned.cardPlanTo,
    split: split?.shares ?? [],
    test: moved.testDifference.value,
    free: moved.freeDifference.value,
    unexplained: split?.unexplained ?? null,
    loss: measureLoss({ ...figures, ...prices, ...planned, split, profile: pair.to.profile }),
    basis: sold.basis,
    // One mark says of all figures of a column whether they are floors.
    floor: [...Object.values(moved), discounts].some(({ floor }) => floor),
    inFrom: before !== null,
    inTo: after !== null,
    ...moved,
  };
}

function pricesOf({ from, to, isSameMoney }: PlanEnds) {
  const known = <T>(value: T | null | undefined): T | null => (isSameMoney ? (value ?? null) : null);
  return {
    planFrom: known(from?.price),
    planTo: known(to?.price),
    cardPlanFrom: known(from?.cardPrice),
    cardPlanTo: known(to?.cardPrice),
  };
}
