import type { Count, Minor, PlanRow } from '../model/index.js';
import { add, multiply, subtract } from '../model/index.js';
import type { Basis, Difference } from './difference.js';
import { splitByLists } from './payment-lists.js';
import type { ReadPair } from './read-pair.js';
import { type PriceShare, splitValue, type ValueSplit } from './split-value.js';

/** What one column sold between two reads. Money in minor units; null is not known, never 0. */
export interface ColumnSales {
  readonly column: string;
  readonly product: string | null;
  readonly sold: Count | null;
  readonly value: Minor | null;
  /** The price in the machine at the earlier and the later read. */
  readonly priceFrom: Minor | null;
  readonly priceTo: Minor | null;
  /** The operator's price in force at the later read, and at the earlier one. */
  readonly pricePlan: Minor | null;
  readonly pricePlanFrom: Minor | null;
  readonly cardPricePlan: Minor | null;
  readonly split: readonly PriceShare[];
  readonly test: Count | null;
  readonly free: Count | null;
  /** Discounts given, where the machine counts them. */
  readonly discounts: Minor | null;
  /** Value less what known prices explain; null when it can not be judged. */
  readonly unexplained: Minor | null;
  /** What prices off plan cost (sold × (plan − charged)); below 0 customers paid more than planned. Null: not known. */
  readonly loss: Minor | null;
  readonly basis: Basis;
  readonly floor: boolean;
  /** Which of the reads have the column. */
  readonly inFrom: boolean;
  readonly inTo: boolean;
  /** How sold and value came about, for findings and explanations. */
  readonly soldDifference: Difference;
  readonly valueDifference: Difference;
}

/** The operator's plan for one column at both ends of an interval. */
export interface PlanEnds {
  readonly from: PlanRow | null;
  readonly to: PlanRow | null;
}

/** Work out what one column sold. The column is in at least one of the reads. */
export function measureColumn(pair: ReadPair, id: string, plan: PlanEnds): ColumnSales {
  const before = pair.from.read.column(id);
  const after = pair.to.read.column(id);
  const soldDifference = pair.columnDifference(id, 'PA201', 'PA203');
  const valueDifference = pair.columnDifference(id, 'PA202', 'PA204');
  const discounts = pair.columnDifference(id, 'PA206', 'PA208').value;
  const sold = soldDifference.value;
  const value = valueDifference.value;
  const priceFrom = before?.price ?? null;
  const priceTo = after?.price ?? null;
  const split =
    sold === null || value === null ? null : explain(pair, id, sold, value, discounts, [priceFrom, priceTo]);
  const pricePlan = plan.to?.price ?? null;
  const pricePlanFrom = plan.from?.price ?? null;
  const cardPricePlan = plan.to?.cardPrice ?? null;
  return {
    column: id,
    product: plan.to?.product ?? plan.from?.product ?? after?.text('PA103') ?? before?.text('PA103') ?? null,
    sold,
    value,
    priceFrom,
    priceTo,
    pricePlan,
    pricePlanFrom,
    cardPricePlan,
    split: split?.shares ?? [],
    test: pair.columnDifference(id, 'PA301', 'PA303').value,
    free: pair.columnDifference(id, 'PA401', 'PA403').value,
    discounts,
    unexplained: split?.unexplained ?? null,
    loss: measureLoss({ sold, value, discounts, split, priceFrom, priceTo, pricePlan, pricePlanFrom, cardPricePlan }),
    basis: soldDifference.basis,
    floor: soldDifference.floor || valueDifference.floor,
    inFrom: before !== null,
    inTo: after !== null,
    soldDifference,
    valueDifference,
  };
}

/** By lists where they add up, else by the prices, else by the prices with the discounts put back. */
function explain(
  pair: ReadPair,
  id: string,
  sold: Count,
  value: Minor,
  discounts: Minor | null,
  ends: readonly (Minor | null)[],
): ValueSplit | null {
  const prices = ends.filter((price) => price !== null);
  const byLists = splitByLists(pair, id, sold, value);
  if (byLists?.unexplained === 0) return byLists;
  const byPrices = splitValue(sold, value, prices);
  if (byPrices?.unexplained === 0) return byPrices;
  // PA2 is net of discounts (from memory): what was charged plus the discounts is vends at their prices.
  const gross = discounts === null || discounts === 0 ? null : add(value, discounts);
  const byGross = gross === null ? null : splitValue(sold, gross, prices);
  if (byGross?.unexplained === 0) return byGross;
  return byLists ?? byPrices;
}

interface LossParts {
  readonly sold: Count | null;
  readonly value: Minor | null;
  readonly discounts: Minor | null;
  readonly split: ValueSplit | null;
  readonly priceFrom: Minor | null;
  readonly priceTo: Minor | null;
  readonly pricePlan: Minor | null;
  readonly pricePlanFrom: Minor | null;
  readonly cardPricePlan: Minor | null;
}

/**
 * What prices off plan cost. Vends at the earlier price are held against the plan in force then, all others against the
 * plan in force now. Card lists are held against the card price, or not judged when the plan has none.
 */
function measureLoss(parts: LossParts): Minor | null {
  const { sold, pricePlan, pricePlanFrom, priceFrom, priceTo } = parts;
  if (pricePlan === null || sold === null) return null;
  const isOffPlan =
    (priceTo !== null && priceTo !== pricePlan) ||
    (priceFrom !== null && priceFrom !== (pricePlanFrom ?? pricePlan)) ||
    parts.split?.shares.some((share) => share.list !== undefined);
  if (!isOffPlan) return 0;
  if (parts.split === null || parts.split.unexplained !== 0) return lossOfWhole(parts, sold, pricePlan);
  let loss: Minor | null = 0;
  for (const share of parts.split.shares) loss = add(loss, lossOfShare(parts, share, pricePlan));
  return loss;
}

function lossOfShare(parts: LossParts, share: PriceShare, pricePlan: Minor): Minor | null {
  const isCard = share.list?.startsWith('DA/') || share.list?.startsWith('DB/');
  if (isCard && parts.cardPricePlan === null) return 0;
  const wasEarlier = share.price === parts.priceFrom && share.price !== parts.priceTo;
  const cashPlan = wasEarlier ? (parts.pricePlanFrom ?? pricePlan) : pricePlan;
  const plan = isCard ? parts.cardPricePlan! : cashPlan;
  return multiply(share.count, plan - share.price);
}

/** Where prices do not explain the money the loss is taken on the whole: what the plan would have brought, less what came. */
function lossOfWhole({ value, discounts }: LossParts, sold: Count, pricePlan: Minor): Minor | null {
  return subtract(multiply(sold, pricePlan), add(value, discounts ?? 0));
}
