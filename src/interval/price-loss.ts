import { add, type Count, type Minor, multiply, subtract } from '../model/index.js';
import type { Profile } from '../profile/index.js';
import { meaningOf } from './payment-lists.js';
import type { PriceShare, ValueSplit } from './split-value.js';

/** What a column's sales are held against. Null is not known, or not planned. */
export interface LossParts {
  readonly sold: Count | null;
  readonly value: Minor | null;
  readonly discounts: Minor | null;
  readonly split: ValueSplit | null;
  readonly priceFrom: Minor | null;
  readonly priceTo: Minor | null;
  readonly cardPriceTo: Minor | null;
  /** The operator's prices in force at the earlier read, and at the later. */
  readonly planFrom: Minor | null;
  readonly planTo: Minor | null;
  readonly cardPlanFrom: Minor | null;
  readonly cardPlanTo: Minor | null;
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
  const { sold, split, planTo, cardPlanTo } = parts;
  if ((planTo === null && cardPlanTo === null) || sold === null) return null;
  if (sold === 0) return 0;
  if (split !== null && split.shares.length > 0) return add(...split.shares.map((share) => lossOfShare(parts, share)));
  if (isOnPlan(parts)) return 0;
  // Prices do not explain the money: what the plan would have brought, less what came. With card prices no plan tells that.
  if (split === null || split.unexplained === 0 || cardPlanTo !== null) return null;
  return subtract(multiply(sold, planTo), add(parts.value, parts.discounts ?? 0));
}

function isOnPlan({ priceFrom, priceTo, planFrom, planTo, cardPriceTo, cardPlanTo }: LossParts): boolean {
  const agrees = (price: Minor | null, plan: Minor | null): boolean =>
    price === null || plan === null || price === plan;
  return agrees(priceTo, planTo) && agrees(priceFrom, planFrom) && agrees(cardPriceTo, cardPlanTo);
}

function lossOfShare(parts: LossParts, share: PriceShare): Minor | null {
  const plan = planFor(parts, share);
  return plan === null ? 0 : multiply(share.count, plan - share.price);
}

/** The planned price that a share is held against; null when it is not judged. */
function planFor(parts: LossParts, { list, price }: PriceShare): Minor | null {
  if (kindOf(parts, list, price) === 'card') {
    const wasEarlier = parts.cardPriceTo !== null && price !== parts.cardPriceTo;
    return wasEarlier ? parts.cardPlanFrom : parts.cardPlanTo;
  }
  if (kindOf(parts, list, price) === 'unknown') return null;
  const wasEarlier = price === parts.priceFrom && price !== parts.priceTo;
  return wasEarlier ? parts.planFrom : parts.planTo;
}

function kindOf(parts: LossParts, list: string | undefined, price: Minor): 'cash' | 'card' | 'unknown' {
  const isLabel = price === parts.priceFrom || price === parts.priceTo;
  if (list === undefined) return isLabel ? 'cash' : 'unknown';
  const [device, number = ''] = list.split('/');
  const meaning = meaningOf(parts.profile, number);
  if (meaning === 'card' || device === 'DA' || device === 'DB') return 'card';
  if (meaning === 'other') return 'unknown';
  return isLabel || device !== 'LA1' || meaning !== undefined ? 'cash' : 'unknown';
}
