import type { AdjustedRound } from '../../attention/index.js';
import type { LocalDate } from '../../model/index.js';
import type { BookStore } from '../store/index.js';
import { type Adjustment, type Closing, closingOf } from './closings.js';

/**
 * The adjustments that a day's list has: those that what came in or was said on the day made, and those of its own rounds.
 *
 * @throws BookError (as a rejection) `corrupted` when an entry does not say what it must
 */
export async function adjustedOnDay(store: BookStore, day: LocalDate): Promise<AdjustedRound[]> {
  let from: number | null = null;
  for await (const { seq } of store.entries({ dayFrom: day, dayTo: day })) {
    from = seq;
    break;
  }
  // An adjustment stands after what made it, and after the closing of its round.
  if (from === null) return [];
  const found: AdjustedRound[] = [];
  for await (const { seq, refersTo } of store.entries({ from, kinds: ['adjustment'] })) {
    const closing = (await closingOf(store, refersTo!))!;
    const adjustment = closing.adjustments.find(({ entry }) => entry === seq)!;
    const isOfDay = closing.body.settlement.day === day || (await isMadeOn(store, adjustment, day));
    if (isOfDay) found.push(toAdjustedRound(closing, adjustment));
  }
  return found;
}

async function isMadeOn(store: BookStore, { body }: Adjustment, day: LocalDate): Promise<boolean> {
  for (const { entry } of body.because) {
    if (entry !== null && (await store.entry(entry))?.day === day) return true;
  }
  return false;
}

function toAdjustedRound({ entry: settlement, body: closed }: Closing, { entry, body }: Adjustment): AdjustedRound {
  const { route, day, currency, decimals } = closed.settlement;
  const { overShort, because, changes, byDriver } = body;
  const machines = changes.map(({ machine }) => machine).filter((machine) => machine !== null);
  return {
    ...{ entry, settlement, route, day, currency, decimals, overShort },
    because: because.map(({ what }) => what),
    machines: [...new Set(machines)],
    drivers: byDriver.map(({ driver }) => driver),
  };
}
