import { lookAtAdjusted } from './adjusted-round.js';
import type { AttentionItem } from './attention-item.js';
import { lookAtMachine, lookAtSetAside } from './look-at-machine.js';
import { orderAttention } from './order-attention.js';
import { type AttentionInputs, type SplitDay, splitDay } from './split-day.js';

/**
 * One list of what a person has to look at after a day's captures came in, worst first by money at stake.
 *
 * One item is one machine and one cause, with what is wrong, what it may cost and how that was estimated, what to do and
 * which cautions go with that. Every finding of the day that is more than a note is in one of the items.
 */
export function listAttention(inputs: AttentionInputs): AttentionItem[] {
  return listAttentionOf(splitDay(inputs));
}

/** See {@link listAttention}, of a day that is sorted by machine already. */
export function listAttentionOf({ machines, nobody, setAside, adjusted }: SplitDay): AttentionItem[] {
  return orderAttention([
    ...[...machines.values(), nobody].flatMap(lookAtMachine),
    ...lookAtSetAside(setAside, nobody),
    ...adjusted.map(lookAtAdjusted),
  ]);
}
