import { add, addAll, type Count, type Minor, multiply, subtract } from '../model/index.js';
import type { Profile } from '../profile/index.js';
import { meaningOf } from './payment-lists.js';
import type { PriceShare, ValueSplit } from './split-value.js';

/** Every price of a column at both ends of an interval. Null is not known, or not planned. */
export interface ColumnPrices {
  readonly priceFrom: Minor | null;
  readonly priceTo: Minor | null;
  readonly cardPriceTo: Minor | null;
  /** The operator's prices in force at the earlier read, and at the later. */
  readonly planFrom: Minor | null;
  readonly planTo: Minor | null;
  readonly cardPlanFrom: Minor | null;
  readonly cardPlanTo: Minor | null;
}

/** What a column's sales are held against. */
export interface LossParts {
  readonly sold: Count | null;
  readonly value: Minor | null;
  readonly discounts: Minor | null;
  readonly split: ValueSplit | null;
  readonly prices: ColumnPrices;
  readonly profile: Profile | null;
}

/**
 * What prices off plan cost: sold × (plan − charged); below 0 customers paid more than planned.
 *
 * Vends at the earlier price are held against the plan in force then, all others against the plan in force at the later
 * read. Vends from a card list are held against the card price, or not judged where the plan has none; nor are vends from
 * lists of which nobody says what they are.
 *
 * @returns null when there is no plan, or it can not be told
 */
export function measureLoss(parts: LossParts): Minor | null {
  const { sold, split } = parts;
  const { planTo, cardPlanTo } = parts.prices;
  if ((planTo === null && cardPlanTo === null) || sold === null) return null;
  if (sold === 0) return 0;
  if (split !== null && split.shares.length > 0) return addAll(split.shares.map((share) => lossOfShare(parts, share)));
  if (isOnPlan(parts.prices)) return 0;
  // Prices do not explain the money: what the plan would have brought, less what came. With card prices no plan tells that.
  if (split === null || split.unexplained === 0 || cardPlanTo !== null) return null;
  return subtract(multiply(sold, planTo), add(parts.value, parts.discounts ?? 0));
}

function isOnPlan({ priceFrom, priceTo, planFrom, planTo, cardPriceTo, cardPlanTo }: ColumnPrices): boolean {
  const agrees = (price: Minor | null, plan: Minor | null): boolean =>
    price === null || plan === null || price === plan;
  return agrees(priceTo, planTo) && agrees(priceFrom, planFrom) && agrees(cardPriceTo, cardPlanTo);
}

function lossOfShare(parts: LossParts, share: PriceShare): Minor | null {
  const plan = planFor(parts, share);
  return plan === null ? 0 : multiply(share.count, plan - share.price);
}

/** The planned price that a share is held against; null when it is not judged. */
function planFor({ prices, profile }: LossParts, { list, price }: PriceShare): Minor | null {
  const kind = kindOf(prices, profile, list, price);
  if (kind === 'unknown') return null;
  if (kind === 'card') {
    const wasEarlier = prices.cardPriceTo !== null && price !== prices.cardPriceTo;
    return wasEarlier ? prices.cardPlanFrom : prices.cardPlanTo;
  }
  const wasEarlier = price === prices.priceFrom && price !== prices.priceTo;
  return wasEarlier ? prices.planFrom : prices.planTo;
}

function kindOf(
  { priceFrom, priceTo }: ColumnPrices,
  profile: Profile | null,
  list: string | undefined,
  price: Minor,
): 'cash' | 'card' | 'unknown' {
  const isLabel = price === priceFrom || price === priceTo;
  if (list === undefined) return isLabel ? 'cash' : 'unknown';
  const [device, number = ''] = list.split('/');
  const meaning = meaningOf(profile, number);
  if (meaning === 'card' || device === 'DA' || device === 'DB') return 'card';
  if (meaning === 'other') return 'unknown';
  return isLabel || device !== 'LA1' || meaning !== undefined ? 'cash' : 'unknown';
}
