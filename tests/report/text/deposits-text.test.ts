import { describe, expect, it } from 'vitest';
import type { DepositMatch, DepositTotals } from '../../../src/accounts/index.js';
import { makeFinding } from '../../../src/findings/index.js';
import { layDeposits } from '../../../src/report/text/deposits-text.js';
import { PLAIN_STYLE } from '../../../src/report/text/style.js';
import { matchExample } from '../../accounts/example-accounts.js';

const EXAMPLE = matchExample();
const [MATCHED, DIFFERING] = EXAMPLE.matches as [DepositMatch, DepositMatch];
const lay = (matches: readonly DepositMatch[], totals: Partial<DepositTotals> = {}) =>
  layDeposits({ matches, totals: [{ ...EXAMPLE.totals[0]!, ...totals }] }, [], PLAIN_STYLE);

describe('layDeposits', () => {
  const lines = layDeposits(EXAMPLE, [], PLAIN_STYLE);

  it('begins with the answer, what is amiss first', () => {
    expect(lines[0]).toBe('Card deposits: 1 differing, 1 missing, 1 extra, 2 matched.');
    expect(layDeposits({ matches: [], totals: [] }, [], PLAIN_STYLE)).toEqual([
      'No card sales and no deposits to compare.',
    ]);
  });

  it('shows each comparison, each kind of money by itself', () => {
    expect(lines).toContain('  M1       2026-11-18     4.80  2026-11-18   4.50       -0.30  differing');
    expect(lines).toContain('  M2       2026-11-18  >= 3.00  2026-11-18   3.00        0.00  matched');
    expect(lines).toContain('  M4       2026-11-18     5.00  -               -       -5.00  missing');
    expect(lines).toContain('  M9       -                 -  2026-11-18   1.00       +1.00  extra');
    expect(lines.filter((line) => line.startsWith('  amounts in '))).toHaveLength(2);
    const several = lay([
      { ...DIFFERING, machine: null, isAtLeast: true, deposits: [...MATCHED.deposits, ...DIFFERING.deposits] },
    ]);
    expect(several.find((line) => line.includes('CR-1'))).toMatch(/2026-11-18 x2 +4\.50 +at least -0\.30 +differing$/);
    const nameless = { ...DIFFERING, machine: null, device: null, difference: null };
    expect(lay([nameless]).some((line) => line.startsWith('  CR-1'))).toBe(true);
    expect(lay([{ ...nameless, deposits: [] }]).some((line) => /^ {2}- .* - +differing$/.test(line))).toBe(true);
  });

  it('gives fees as a rate of the deposits that state them', () => {
    const text = lines.join(' ').replaceAll(/ +/g, ' ');
    expect(text).toContain(
      '3 deposits, gross 20.06 EUR; fees 0.43 EUR (2.52 % of 17.06 EUR), net 16.63 EUR; 1 deposit left out of fees and net.',
    );
    const words = (totals: Partial<DepositTotals>) => lay([], totals).join(' ').replaceAll(/ +/g, ' ');
    expect(words({ withoutFees: 0 })).toContain('fees 0.43 EUR (2.52 %), net 16.63 EUR.');
    expect(words({ fees: null, fee: null, net: null, gross: null })).toContain('gross not known; fees not known.');
    expect(words({ fee: null, withoutFees: 0 })).toContain('fees 0.43 EUR, net 16.63 EUR.');
    expect(words({ deposits: 0 })).toContain('No deposits.');
  });

  it('says what to look at, and that consequences follow local law', () => {
    const text = lines.join('\n');
    expect(text).toContain('machine M1, deposits.csv, row 3, deposit-differs');
    expect(text).toMatch(/Cautions\n {2}Tax, fiscal and wage consequences follow local law/);
    expect(lay([MATCHED]).join('\n')).not.toContain('Cautions');
  });

  it('says first that a sheet could not be used, and last what belongs to no comparison', () => {
    const unread = makeFinding('sheet-unreadable', 'deposits.csv is no sheet.', { file: 'deposits.csv' });
    const row = makeFinding('bad-row', 'Row 3 could not be used.', { file: 'deposits.csv', row: 3 });
    const report = layDeposits(null, [row, unread], PLAIN_STYLE);
    expect(report[0]).toBe('fault  deposits.csv is no sheet.');
    expect(report).toContain('Nothing was compared: there are no deposits or no captures to read.');
    expect(report.join('\n')).toMatch(/captures to read\.\n\ndoubt {2}Row 3 could not be used\./);
    expect(report.join('\n')).not.toContain('Cautions');
    const all = layDeposits(EXAMPLE, [row], PLAIN_STYLE).join('\n');
    expect(all.indexOf('Row 3')).toBeGreaterThan(all.indexOf('deposit-differs'));
    expect(all.indexOf('Row 3')).toBeLessThan(all.indexOf('Cautions'));
  });

  it('fits 80 columns, also with long names and hostile text', () => {
    const machine = 'A very long name of a machine that goes on and on \u001b[31m\u202e';
    const wide = lay([
      {
        ...DIFFERING,
        machine,
        isAtLeast: true,
        sales: 999_999,
        gross: 999_900,
        deposits: [...MATCHED.deposits, ...DIFFERING.deposits],
      },
    ]);
    for (const line of [...lines, ...wide]) expect(line.length).toBeLessThanOrEqual(80);
    expect(wide.join('\n')).not.toMatch(/[\u001b\u202e]/);
  });
});
