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
 * the parts that lie between equal sums, but for parts that stated days link to each other.
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
  return { equal, several, rest: joinByStatedDays(rest) };
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

/** A deposit and sales of its stated days are one matter, whatever lies between them. */
function joinByStatedDays(parts: readonly Group[]): Group[] {
  const joined: Group[] = [];
  for (const part of parts) {
    let whole = part;
    for (const other of [...joined]) {
      if (!areLinkedByStatedDays(other, whole)) continue;
      joined.splice(joined.indexOf(other), 1);
      whole = together([other, whole]);
    }
    joined.push(whole);
  }
  return joined;
}

function areLinkedByStatedDays(a: Group, b: Group): boolean {
  const isFor = (deposits: Group['deposits'], sales: Group['sales']): boolean =>
    deposits.some(
      ({ row, dated }) => isStated(row) && sales.some((sale) => haveCommonDay(sale.dated.span, dated.span)),
    );
  return isFor(a.deposits, b.sales) || isFor(b.deposits, a.sales);
}
