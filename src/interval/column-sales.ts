import { ELEMENT, type ElementDef } from '../dictionary/index.js';
import type { Minor, PlanRow } from '../model/index.js';
import type { Column } from '../read/index.js';
import type { Difference } from './difference.js';
import { explainValue } from './explain-value.js';
import type { PaymentLists } from './payment-lists.js';
import { type ColumnPrices, measureLoss } from './price-loss.js';
import type { ColumnEnds, ReadPair } from './read-pair.js';
import type { PriceShare } from './split-value.js';
import type { StepColumn } from './step.js';

const { PA103, PA201, PA202, PA203, PA204, PA206, PA208, PA301, PA303, PA401, PA403 } = ELEMENT;

/** What one column sold between two reads, and how its figures came about, for findings and explanations. */
export interface ColumnSales extends StepColumn {
  /** What cards pay at the later read, where a card price is planned; null where no list tells it. */
  readonly cardPriceTo: Minor | null;
  /** The operator's price in force at the earlier read. */
  readonly pricePlanFrom: Minor | null;
  readonly cardPricePlan: Minor | null;
  /** Vends at each known price, before discounts: its sum is `value` + `discounts`. Empty where prices do not explain it. */
  readonly split: readonly PriceShare[];
  /** Discounts given, where the machine counts them. */
  readonly discounts: Minor | null;
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
export function measureColumn(pair: ReadPair, ends: ColumnEnds, plan: PlanEnds, lists: PaymentLists): ColumnSales {
  const { id, before, after } = ends;
  const sold = pair.betweenColumns(ends, PA201, PA203);
  const value = pair.betweenColumns(ends, PA202, PA204);
  const test = pair.betweenColumns(ends, PA301, PA303);
  const free = pair.betweenColumns(ends, PA401, PA403);
  const discounts = pair.betweenColumns(ends, PA206, PA208);
  const { profile } = pair.to;
  const planned = pricesOf(plan);
  const prices: ColumnPrices = {
    priceFrom: before?.price ?? null,
    priceTo: after?.price ?? null,
    cardPriceTo: planned.cardPlanTo === null ? null : lists.cardPrice(id),
    planFrom: planned.planFrom,
    planTo: planned.planTo,
    cardPlanFrom: planned.cardPlanFrom,
    cardPlanTo: planned.cardPlanTo,
  };
  const cardPlan = planned.cardPlanTo !== null && takesCards(pair) ? planned.cardPlanTo : null;
  const split = explainValue({ column: id, sold, value, discounts, prices, cardPlan }, lists);
  return {
    column: id,
    product: plan.to?.product ?? plan.from?.product ?? after?.text(PA103) ?? before?.text(PA103) ?? null,
    sold: sold.value,
    value: value.value,
    priceFrom: prices.priceFrom,
    priceTo: prices.priceTo,
    cardPriceTo: prices.cardPriceTo,
    pricePlan: prices.planTo,
    pricePlanFrom: prices.planFrom,
    cardPricePlan: prices.cardPlanTo,
    split: split?.shares ?? NO_SHARES,
    test: test.value,
    free: free.value,
    keepsTest: test.value !== null || isCounted(ends, [PA301, PA303]),
    keepsFree: free.value !== null || isCounted(ends, [PA401, PA403]),
    discounts: discounts.value,
    unexplained: split?.unexplained ?? null,
    loss: measureLoss({ sold: sold.value, value: value.value, discounts: discounts.value, split, prices, profile }),
    basis: sold.basis,
    // One mark says of all figures of a column whether they are floors.
    floor: sold.floor || value.floor || test.floor || free.floor || discounts.floor,
    inFrom: before !== null,
    inTo: after !== null,
    soldDifference: sold,
    valueDifference: value,
    testDifference: test,
    freeDifference: free,
  };
}

/** Whether either read has one of the counters: one that is in neither is one that this machine does not keep. */
function isCounted({ before, after }: ColumnEnds, elements: readonly ElementDef[]): boolean {
  return [before, after].some((column: Column | null) => elements.some((element) => column?.text(element)));
}

const NO_SHARES: readonly PriceShare[] = [];

const takesCards = ({ to: { read } }: ReadPair): boolean => read.has('DA2') || read.has('DB2');

const NO_PLAN = { planFrom: null, planTo: null, cardPlanFrom: null, cardPlanTo: null };

function pricesOf({ from, to, isSameMoney }: PlanEnds) {
  if (!isSameMoney || (from === null && to === null)) return NO_PLAN;
  return {
    planFrom: from?.price ?? null,
    planTo: to?.price ?? null,
    cardPlanFrom: from?.cardPrice ?? null,
    cardPlanTo: to?.cardPrice ?? null,
  };
}
