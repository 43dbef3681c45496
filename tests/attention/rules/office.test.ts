import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../src/findings/index.js';
import { DayScenario, startMachine } from '../../day/day-scenario.js';

describe('sheets, statements, money units and the program itself', () => {
  it.each([
    ['currency-differs', 'money-unit'],
    ['bad-row', 'office-sheet'],
    ['check-crashed', 'program'],
    ['deposit-missing', 'accounts-open'],
  ] as const)('list %s as %s, of which nobody knows what it costs', (code, cause) => {
    const office = new DayScenario();
    office.take(startMachine(), { at: '2026-11-23T20:00:00' });
    const finding: Finding = { code, severity: 'doubt', message: 'Something.', machine: 'M1' };
    const later = { ...finding, message: 'Something else.' };
    const [item, ...others] = office.make('2026-11-23', { findings: [finding, later, finding] }).attention;
    expect(others).toEqual([]);
    expect(item).toMatchObject({ machine: 'M1', cause, stake: { amount: null, perDay: null } });
    expect(item!.what).toBe('Something. (And 1 more.)');
  });
});
