import { truthBetween } from '../simulator/index.js';
import type { DemoLife } from './play-days.js';

/** What one machine sold by card on one day, from the opening visit on, and what became of it. */
export interface SoldByCard {
  readonly machine: string;
  readonly day: string;
  readonly amount: number;
  /** What the processor paid for it; null for nothing at all. */
  readonly paid: number | null;
}

/** A row of the processor's sheet. */
export interface DemoDeposit {
  readonly machine: string | null;
  readonly device: string | null;
  readonly date: string;
  readonly gross: number;
  readonly fees: number;
  readonly reference: string;
}

/** The processor keeps 0.04 of every deposit and 1.9 % of it, rounded up. */
const feesOf = (gross: number): number => 4 + Math.ceil((gross * 19) / 1000);

/** The deposit of this day never came. */
const UNPAID_DAY = '2026-11-21';
/** The deposit of this day was too small. */
const SHORT_DAY = { day: '2026-11-23', by: 150 };
/** A deposit for a card device that stands in none of the machines. */
const STRAY = { device: 'CRSIM700911', date: '2026-11-23', gross: 320 };

/**
 * The processor's deposits: the sales of a day, which ends at 22:00, are paid the day after. Its account was opened with the
 * first visit, so that what was sold before is in no deposit. One day was not paid, one too little, and one deposit is somebody else's.
 */
export function payDeposits(lives: readonly DemoLife[]): {
  readonly sold: readonly SoldByCard[];
  readonly deposits: readonly DemoDeposit[];
} {
  const sold = lives.filter(({ plan }) => plan.config.devices.card).flatMap(sellByDay);
  const paid = sold.flatMap(({ machine, day, paid: gross }, i): DemoDeposit[] => {
    const { config } = lives.find(({ plan }) => plan.machine === machine)!.plan;
    const device = `CR${config.identity.serial}`;
    const row = { machine: null, device, date: dayAfter(day), reference: `P-70${i + 1}` };
    return gross === null ? [] : [{ ...row, gross, fees: feesOf(gross) }];
  });
  const stray = { ...STRAY, machine: null, fees: feesOf(STRAY.gross), reference: 'P-731' };
  return { sold, deposits: [...paid, stray].sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0)) };
}

/** From one evening's read to the next, within which all of a day's sales lie; the first day from its visit on. */
function sellByDay({ plan, reads, visits }: DemoLife): SoldByCard[] {
  const evenings = reads.filter(({ reason }) => reason === 'scheduled').map(({ read }) => read.snapshot);
  return evenings.map((evening, i) => {
    const before = i === 0 ? visits[0]!.snapshot : evenings[i - 1]!;
    const amount = truthBetween(before, evening).cash.cardSales;
    const day = evening.at.slice(0, 10);
    const paid = day === UNPAID_DAY ? null : day === SHORT_DAY.day ? amount - SHORT_DAY.by : amount;
    return { machine: plan.machine, day, amount, paid };
  });
}

function dayAfter(day: string): string {
  return new Date(Date.parse(`${day}T00:00:00Z`) + 86_400_000).toISOString().slice(0, 10);
}
