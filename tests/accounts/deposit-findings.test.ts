import { describe, expect, it } from 'vitest';
import { judgeMatch, type UntoldMatch } from '../../src/accounts/deposit-findings.js';
import { DEPOSIT_WINDOW_DAYS, type DepositReason, type DepositState } from '../../src/accounts/deposit-match.js';
import { matchExample } from './example-accounts.js';

const [MATCHED, DIFFERING] = matchExample().matches as readonly UntoldMatch[] as [UntoldMatch, UntoldMatch];
const ALONE = { gross: null, deposits: [] } as const;
const UNSOLD = { sales: null, intervals: [], from: null, to: null } as const;
const told = (state: DepositState, reason: DepositReason | null, more: Partial<UntoldMatch> = {}) =>
  judgeMatch({ ...DIFFERING, state, reason, ...more }).map(
    ({ code, severity, message }) => `${code} ${severity} ${message}`,
  );

describe('judgeMatch', () => {
  it('says nothing of what fits, or is not due', () => {
    expect(judgeMatch(MATCHED)).toEqual([]);
    expect(told('matched', null)).toEqual([]);
    expect(told('open', 'not-due')).toEqual([]);
  });

  it.each<[DepositState, DepositReason | null, Partial<UntoldMatch>, string]>([
    [
      'differing',
      null,
      {},
      'deposit-differs doubt Machine M1: 4.80 EUR sold by card from 2026-11-17 to 2026-11-18, 4.50 EUR deposited on 2026-11-18: 0.30 EUR too little.',
    ],
    [
      'differing',
      'edges',
      { difference: 30, isAtLeast: true },
      'deposit-differs doubt Machine M1: 4.80 EUR sold by card from 2026-11-17 to 2026-11-18, 4.50 EUR deposited on 2026-11-18: at least 0.30 EUR too much. Reads and deposits do not begin and end together, so that it may be more.',
    ],
    [
      'missing',
      null,
      ALONE,
      'deposit-missing doubt Machine M1: 4.80 EUR sold by card from 2026-11-17 to 2026-11-18, and no deposit for it.',
    ],
    [
      'missing',
      'sales-floor',
      { ...ALONE, salesIsFloor: true },
      'deposit-missing doubt Machine M1: at least 4.80 EUR sold by card from 2026-11-17 to 2026-11-18, and no deposit for it.',
    ],
    [
      'extra',
      null,
      UNSOLD,
      'deposit-extra doubt Machine M1: 4.50 EUR deposited on 2026-11-18, and nothing sold by card that it could be for.',
    ],
    [
      'unclear',
      'edges',
      ALONE,
      'deposit-unclear doubt Machine M1: 4.80 EUR sold by card from 2026-11-17 to 2026-11-18, and no deposit of their own. Reads and deposits do not begin and end together, which can explain it.',
    ],
    [
      'unclear',
      'edges',
      UNSOLD,
      'deposit-unclear doubt Machine M1: 4.50 EUR deposited on 2026-11-18, and no sales of its own. Reads and deposits do not begin and end together, which can explain it.',
    ],
    [
      'unclear',
      'equally-good',
      { sales: null, machine: null },
      'deposit-unclear doubt Device CR-1: card sales from 2026-11-17 to 2026-11-18 that are not known, 4.50 EUR deposited on 2026-11-18. More than one way to put them together is equally good; none was chosen.',
    ],
    [
      'unclear',
      'equally-good',
      { ...ALONE, sales: null, machine: null, device: null },
      'deposit-unclear doubt A machine without a name: card sales from 2026-11-17 to 2026-11-18 that are not known, and no deposit of their own. More than one way to put them together is equally good; none was chosen.',
    ],
    [
      'unclear',
      'sales-floor',
      { salesIsFloor: true },
      'deposit-unclear doubt Machine M1: at least 4.80 EUR sold by card from 2026-11-17 to 2026-11-18, 4.50 EUR deposited on 2026-11-18. The counters show no more than the least that was sold, which can explain it.',
    ],
    [
      'unclear',
      'other-currency',
      UNSOLD,
      'mixed-currency doubt Machine M1: 4.50 EUR deposited on 2026-11-18, which is not the money that the machine counts in.',
    ],
    [
      'matched',
      'in-total',
      {},
      'deposit-unclear note Machine M1: 4.50 EUR deposited is what was sold by card from 2026-11-17 to 2026-11-18, as a whole; which deposit pays for which days the amounts do not tell.',
    ],
  ])('%s %s', (state, reason, more, message) => {
    expect(told(state, reason, more)).toEqual([message]);
  });

  it('stands at the deposit, else at the capture, and makes hostile text visible', () => {
    expect(judgeMatch(DIFFERING)[0]).toMatchObject({ file: 'deposits.csv', row: 3, machine: 'M1' });
    const [missing] = judgeMatch({ ...DIFFERING, ...ALONE, state: 'missing', machine: 'M\u001b[2J' });
    expect(missing).toMatchObject({ file: 'read-2.dex' });
    expect(missing!.message).toContain('Machine M\\x1B[2J:');
  });
});

describe('the window', () => {
  // Processors pay out a day or a few after the sales (common practice).
  it('is a few days', () => {
    expect(DEPOSIT_WINDOW_DAYS).toBe(3);
  });
});
