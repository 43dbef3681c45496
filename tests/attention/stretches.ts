import fc from 'fast-check';
import type { PastColumn, PastStretch } from '../../src/attention/index.js';
import { fromSeconds, toSeconds } from '../support/simulator/index.js';

const START = toSeconds('2026-10-01T00:00:00');

/** A moment some minutes after the first of October 2026, a Thursday. */
export const minute = (minutes: number): string => fromSeconds(START + minutes * 60);

/** A stretch between two moments, given in minutes after the first of October 2026. */
export function stretch(from: number, to: number, given: Partial<PastStretch> = {}): PastStretch {
  return {
    from: minute(from),
    to: minute(to),
    currency: 'EUR',
    decimals: 2,
    sold: 0,
    value: 0,
    cashSales: 0,
    cardSales: null,
    bills: 0,
    floor: false,
    columns: [],
    ...given,
  };
}

/** Stretches of one day each, one after the other, with so many vends of 1.00. */
export function days(...sold: (number | null)[]): PastStretch[] {
  return sold.map((count, day) =>
    stretch(day * 1440, (day + 1) * 1440, { sold: count, value: count === null ? null : count * 100 }),
  );
}

/** One column of a stretch. */
export function pastColumn(column: string, given: Partial<PastColumn> = {}): PastColumn {
  return { column, sold: 0, value: 0, loss: 0, offBy: 0, ...given };
}

/** Vends and lengths of stretches, as they may be. */
export const arbitrarySales: fc.Arbitrary<{ sold: number; minutes: number }[]> = fc.array(
  fc.record({ sold: fc.nat(60), minutes: fc.integer({ min: 1, max: 5000 }) }),
  { minLength: 1, maxLength: 12 },
);

/** Such stretches one after the other, each vend worth so much, and the minute at which the last one ends. */
export function chain(
  sales: readonly { readonly sold: number; readonly minutes: number }[],
  price: number,
): { readonly stretches: PastStretch[]; readonly end: number } {
  let end = 0;
  const stretches = sales.map(({ sold, minutes }) => {
    const from = end;
    end += minutes;
    return stretch(from, end, { sold, value: sold * price });
  });
  return { stretches, end };
}
