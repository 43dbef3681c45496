import type { AttentionItem } from '../../../src/attention/index.js';
import type { Day } from '../../../src/day/index.js';
import { makeFinding } from '../../../src/findings/index.js';
import type { MachineLine } from '../../../src/pages/index.js';

/** A thing to look at; what is not given is ordinary. */
export function attentionItem(given: Partial<AttentionItem> = {}): AttentionItem {
  return {
    machine: 'V1',
    location: 'Library',
    route: 'R7',
    driver: null,
    cause: 'price-off-plan',
    severity: 'doubt',
    what: 'Column 23 is priced 1.40 EUR, the plan says 1.50 EUR.',
    stake: { amount: 60, bound: 'exact', perDay: 17, how: 'So far: what was charged against the plan.' },
    currency: 'EUR',
    decimals: 2,
    todo: 'Set the price and check the label.',
    cautions: ['inside', 'harness'],
    codes: ['price-off-plan'],
    findings: [makeFinding('price-off-plan', 'Column 23 is priced 1.40 EUR.', { file: 'a.dex', line: 77 })],
    ...given,
  };
}

/** A machine that was read and sold something; what is not given is ordinary. */
export function machineLine(given: Partial<MachineLine> = {}): MachineLine {
  return {
    machine: 'V1',
    location: 'Library',
    route: 'R7',
    driver: 'Robin Sample',
    isKnown: true,
    isExpected: true,
    reads: 1,
    faulty: 0,
    lastRead: '2026-11-23T22:00:20',
    sold: 43,
    value: 5530,
    isFloor: false,
    intervals: 1,
    currency: 'EUR',
    decimals: 2,
    ...given,
  };
}

/** A day without rows, as a writer that is at its end gives it. */
export function emptyDay(given: Partial<Day> = {}): Day {
  return {
    day: '2026-11-23',
    files: { files: 0, sound: 0, doubtful: 0, readAgain: 0, setAside: 0, reads: 0, duplicates: 0 },
    machines: { expected: 0, read: 0, unknown: 0 },
    totals: [],
    attention: [],
    sales: [],
    cash: [],
    settlements: [],
    adjusted: [],
    refill: [],
    ...given,
  };
}
