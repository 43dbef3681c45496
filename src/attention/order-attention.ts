import { largestOf } from '../model/index.js';
import { ATTENTION_CAUSES, type AttentionItem } from './attention-item.js';
import { weighStake } from './stake.js';

const CAUSE_RANK = new Map(ATTENTION_CAUSES.map((cause, rank) => [cause, rank]));
const SEVERITY_RANK = { fault: 0, doubt: 1, note: 2 } as const;

/**
 * Put items in order, worst first: by money at stake; those whose stake is not known after them, faults before doubts;
 * those at which nothing is at stake last. Amounts of different currencies can not be compared: they take turns, the
 * largest of each first. What else is equal goes by cause and name, so that the same items always come in the same order.
 */
export function orderAttention(items: readonly AttentionItem[]): AttentionItem[] {
  const weighed = items.map((item) => ({ item, weight: weighStake(item.stake) })).toSorted(byRest);
  const withMoney = weighed.filter(({ weight }) => weight !== null && weight > 0);
  const notKnown = weighed.filter(({ weight }) => weight === null);
  const nothing = weighed.filter(({ weight }) => weight !== null && weight <= 0);
  return [...takeTurns(withMoney), ...notKnown, ...nothing].map(({ item }) => item);
}

interface Weighed {
  readonly item: AttentionItem;
  readonly weight: number | null;
}

/** The largest amount of each currency, then the second of each, and so on; currencies by name. */
function takeTurns(weighed: readonly Weighed[]): Weighed[] {
  const currencies = new Map<string, Weighed[]>();
  for (const one of weighed) {
    const key = `${one.item.currency} ${one.item.decimals}`;
    const same = currencies.get(key);
    if (same === undefined) currencies.set(key, [one]);
    else same.push(one);
  }
  const queues = [...currencies]
    .toSorted(([a], [b]) => compare(a, b))
    .map(([, queue]) => queue.toSorted((a, b) => b.weight! - a.weight!));
  const longest = largestOf(
    queues.map((queue) => queue.length),
    0,
  );
  const turns = Array.from({ length: longest }, (_, turn) => queues.flatMap((queue) => queue.slice(turn, turn + 1)));
  return turns.flat();
}

/** By everything but money. The last of it tells any two items apart that differ at all. */
function byRest({ item: a }: Weighed, { item: b }: Weighed): number {
  return (
    SEVERITY_RANK[a.severity] - SEVERITY_RANK[b.severity] ||
    CAUSE_RANK.get(a.cause)! - CAUSE_RANK.get(b.cause)! ||
    compare(a.machine ?? '', b.machine ?? '') ||
    compare(a.what, b.what) ||
    compare(JSON.stringify(a), JSON.stringify(b))
  );
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
