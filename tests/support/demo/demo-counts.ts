import type { DemoLife } from './play-days.js';

/** A bag as it was counted in the office the next morning. */
export interface DemoCount {
  readonly machine: string;
  readonly visitedAt: string;
  readonly bag: string;
  readonly coins: number;
  readonly bills: number;
  readonly countedAt: string;
  readonly note: string;
}

/** What is missing from a bag between the machine and the count, in coins. */
export const SHORT_BAG = { machine: 'V106', coins: 500 };

/** The bag sheet of these gives the day only. */
const DATE_ONLY = new Set(['V103', 'V107']);

/** The bags of the last day's round. */
export function countBags(lives: readonly DemoLife[]): readonly DemoCount[] {
  return lives.map(({ plan, visits }, place) => {
    const visit = visits.at(-1)!;
    const isShort = plan.machine === SHORT_BAG.machine;
    return {
      machine: plan.machine,
      visitedAt: DATE_ONLY.has(plan.machine) ? visit.at.slice(0, 10) : visit.at.slice(0, 16).replace('T', ' '),
      bag: `B${4401 + place}`,
      coins: visit.bag.coins - (isShort ? SHORT_BAG.coins : 0),
      bills: visit.bag.bills,
      countedAt: `2026-11-24 07:${String(10 + place * 5).padStart(2, '0')}`,
      note: plan.machine === 'V108' ? 'handheld would not connect' : '',
    };
  });
}
