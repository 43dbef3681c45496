import { outlineFigures, type PastStretch } from '../../attention/index.js';
import { type LocalDate, type LocalDateTime, moveDate } from '../../model/index.js';
import { fitsStep, KeptFigures, unpackGap } from '../kept/index.js';
import type { BookStep, BookStore } from '../store/index.js';

/** Days looked back, first and, where they give less than so many stretches, at most. */
const DAYS = [35, 120];
const ENOUGH = 5;

/**
 * What a machine did up to a time, as it was worked out then; oldest first.
 *
 * @param key - of the machine, as the book has it
 * @param until - where the reads at hand begin; null when there are none
 */
export async function recallPast(
  store: BookStore,
  key: string,
  day: LocalDate,
  until: LocalDateTime | null,
): Promise<readonly PastStretch[]> {
  const atTo = until ?? `${day}T23:59:59`;
  let past: PastStretch[] = [];
  for (const days of DAYS) {
    const from = moveDate(atTo.slice(0, 10) < day ? atTo.slice(0, 10) : day, -days);
    past = [];
    for (const step of await store.stepsOf(key, { atFrom: `${from}T00:00:00`, atTo })) {
      const stretch = outlineKept(step);
      if (stretch !== null) past.push(stretch);
    }
    if (past.length >= ENOUGH) break;
  }
  return past;
}

/** Null where it tells nothing, or is not what was worked out. */
function outlineKept(step: BookStep): PastStretch | null {
  if (!fitsStep(step) || unpackGap(step, String) !== null) return null;
  return outlineFigures(step.fromAt, step.toAt, new KeptFigures(step));
}
