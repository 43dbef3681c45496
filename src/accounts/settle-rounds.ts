import { alignSums, type DatedDeposit } from './align-sums.js';
import { haveCommonDay } from './days.js';
import { isStated } from './deposit-order.js';
import type { Group } from './judge-group.js';
import type { PlacedDeposit, PlacedSale } from './place-stream.js';

/** Sales and deposits by how they stand against each other: see `alignSums`. */
export interface SettledGroups {
  readonly equal: readonly Group[];
  readonly several: readonly Group[];
  readonly rest: readonly Group[];
}

/**
 * Put sales and deposits together by equal sums, in rounds, since not all of them come in order: where only some deposits
 * state their days these go first, then all; then what is left over anywhere, until nothing more fits. What is left stays in
 * the parts that lie between equal sums, but for parts that are one matter.
 */
export function settleRounds(all: Group): SettledGroups {
  const stated = all.deposits.filter(({ row }) => isStated(row));
  const isMixed = stated.length > 0 && stated.length < all.deposits.length;
  // Only sums that are equal: what is open among them, the others may decide.
  const first = isMixed ? align({ sales: all.sales, deposits: stated }, all).equal : [];
  const inOrder = align(without(all, first), all);
  let { several, rest } = inOrder;
  let equal = [...first, ...inOrder.equal];
  for (;;) {
    const next = align(together(rest), all);
    const found = [...next.equal, ...next.several];
    if (found.length === 0) break;
    equal = [...equal, ...next.equal];
    several = [...several, ...next.several];
    rest = rest.map((part) => without(part, found));
  }
  return { equal, several, rest: joinLinked(rest) };
}

function align({ sales, deposits }: Group, all: Group): SettledGroups {
  const parts = alignSums(
    sales.map(({ dated }) => dated),
    deposits.map(({ dated }) => ({ ...dated, owns: ownsAmong(sales, dated, all) })),
  );
  const ofKind = (kind: (typeof parts)[number]['kind']): Group[] =>
    parts
      .filter((part) => part.kind === kind)
      .map(({ sales: s, deposits: d }) => ({ sales: sales.slice(s[0], s[1]), deposits: deposits.slice(d[0], d[1]) }));
  return { equal: ofKind('equal'), several: ofKind('several'), rest: ofKind('rest') };
}

/** The run of a deposit's own sales among those that are left. */
function ownsAmong(sales: readonly PlacedSale[], { owns }: DatedDeposit, all: Group): DatedDeposit['owns'] {
  if (owns === null || sales.length === all.sales.length) return owns;
  const own = new Set(all.sales.slice(owns[0], owns[1]));
  const from = sales.findIndex((sale) => own.has(sale));
  return from < 0 ? null : [from, sales.findLastIndex((sale) => own.has(sale)) + 1];
}

function without({ sales, deposits }: Group, groups: readonly Group[]): Group {
  const taken = new Set<PlacedSale | PlacedDeposit>(groups.flatMap((group) => [...group.sales, ...group.deposits]));
  return {
    sales: sales.filter((sale) => !taken.has(sale)),
    deposits: deposits.filter((deposit) => !taken.has(deposit)),
  };
}

function together(groups: readonly Group[]): Group {
  return { sales: groups.flatMap(({ sales }) => sales), deposits: groups.flatMap(({ deposits }) => deposits) };
}

/** Parts that are one matter, whatever lies between them; see {@link areOneMatter}. */
function joinLinked(parts: readonly Group[]): Group[] {
  let joined: (readonly Group[])[] = [];
  for (const part of parts) {
    const linked = joined.filter((others) => others.some((other) => areOneMatter(other, part)));
    joined = [...joined.filter((others) => !linked.includes(others)), [...linked.flat(), part]];
  }
  return joined.map(together);
}

/**
 * Whether one has sales of days that the other states; or one has but sales and the other but deposits, and they have a day in
 * common: a payment without sales and sales without a payment are not claimed at once.
 */
function areOneMatter(a: Group, b: Group): boolean {
  const isFor = (paid: Group, sold: Group): boolean => {
    const isEachAlone = paid.sales.length === 0 && sold.deposits.length === 0;
    const deposits = isEachAlone ? paid.deposits : paid.deposits.filter(({ row }) => isStated(row));
    return deposits.some(({ dated }) => sold.sales.some((sale) => haveCommonDay(sale.dated.span, dated.span)));
  };
  return isFor(a, b) || isFor(b, a);
}
