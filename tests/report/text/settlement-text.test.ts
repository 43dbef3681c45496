import { describe, expect, it } from 'vitest';
import { makeFinding } from '../../../src/findings/index.js';
import { describeSettlement, laySettlement, laySettlements } from '../../../src/report/index.js';
import { PLAIN_STYLE } from '../../../src/report/text/style.js';
import type { Settlement, Visit } from '../../../src/settlement/index.js';
import { settleDemo } from '../../support/demo-files.js';

const [DEMO] = settleDemo().settlements as [Settlement];
const lay = (changes: Partial<Settlement> = {}) => laySettlement({ ...DEMO, ...changes }, PLAIN_STYLE);
const visitOf = (machine: string, changes: Partial<Visit> = {}): Visit => ({
  ...DEMO.visits.find((visit) => visit.machine === machine)!,
  ...changes,
});
const totals = (changes: Partial<Settlement['totals']>): Partial<Settlement> => ({
  totals: { ...DEMO.totals, ...changes },
});

describe('laySettlement', () => {
  it('begins with the answer', () => {
    expect(lay()[0]).toBe('Route R7, 2026-11-23: 5.00 EUR short on 6 settled visits; 2 visits still open.');
    const nothing = { coins: 0, bills: 0, total: 0 };
    expect(lay(totals({ overShort: nothing, openVisits: 0 }))[0]).toBe(
      'Route R7, 2026-11-23: no difference on 6 settled visits.',
    );
    expect(lay(totals({ overShort: { ...nothing, total: 120 } }))[0]).toMatch(/1\.20 EUR over on 6 settled visits/);
    expect(lay(totals({ overShort: { ...nothing, total: null } }))[0]).toMatch(/difference not known on 6/);
    expect(lay(totals({ settledVisits: 0, openVisits: 1 }))[0]).toMatch(
      /nothing could be settled; 1 visit still open\.$/,
    );
    expect(lay({ route: null })[0]).toMatch(/^No route, 2026-11-23/);
    expect(describeSettlement({ ...DEMO, currency: null })).toBe('Route R7, 2026-11-23');
  });

  it('marks what is a floor, and prints a dash for what is not known', () => {
    const lines = lay({ visits: [visitOf('V108')] });
    expect(lines.find((line) => line.startsWith('  V108'))).toMatch(/>= \d+\.\d\d +91\.20 +-$/);
    const nothing = { coins: null, bills: null };
    const unknown = lay({ visits: [visitOf('V108', { expected: nothing, counted: nothing, expectedLines: [] })] });
    expect(unknown.find((line) => line.startsWith('  V108'))).toMatch(/unread +- +- +-$/);
    expect(unknown.join('\n')).not.toContain('counted:');
  });

  it('takes a machine without bills for what it is', () => {
    const visit = visitOf('V101', { expected: { coins: 500, bills: 0 }, counted: { coins: 500, bills: null } });
    expect(lay({ visits: [visit] }).find((line) => line.startsWith('  V101'))).toMatch(/agreed +5\.00 +5\.00 +0\.00$/);
  });

  it('shows what is expected line by line where more than one thing moved', () => {
    const lines = [
      { what: 'to-cash-box', kind: 'coins', amount: 12000, source: 'counters' },
      { what: 'filled', kind: 'coins', amount: -400, source: 'sheet' },
      { what: 'bills', kind: 'bills', amount: 0, source: 'counters' },
    ] as const;
    const visit = visitOf('V106', { expectedLines: lines, expected: { coins: 11600, bills: 0 } });
    const text = lay({ visits: [visit] })
      .join('\n')
      .replaceAll(/\n +/g, ' ');
    expect(text).toContain(
      'expected: coins 116.00 (to the cash box +120.00, filled by hand -4.00 (from the sheet)), bills 0.00',
    );
  });

  it('has a table of drivers where there are several', () => {
    const drivers = [
      { driver: 'Robin Sample', totals: DEMO.totals },
      { driver: null, totals: { ...DEMO.totals, overShort: { coins: 0, bills: 0, total: 0 } } },
    ];
    const lines = lay({ drivers });
    expect(lines.find((line) => line.startsWith('  Robin Sample'))).toMatch(/-5\.00$/);
    expect(lines.find((line) => line.startsWith('  no driver'))).toMatch(/0\.00$/);
    expect(lay().some((line) => line.startsWith('  Robin Sample'))).toBe(false);
  });

  it('says what belongs to the round as a whole', () => {
    const findings = [makeFinding('mixed-currency', 'Two currencies.')];
    expect(lay({ findings })).toContain('doubt  Two currencies.');
  });

  it('leaves out what was not asked of it: losses without a plan, visits without a finding', () => {
    const lines = lay({ ...totals({ loss: null }), visits: [visitOf('V101', { findings: [] })] });
    expect(lines.join('\n')).not.toMatch(/lost by prices|V101, Library/);
  });

  it('puts visits with doubts before those with notes', () => {
    const text = lay().join('\n');
    expect(text.indexOf('\nV106, College block B')).toBeLessThan(text.indexOf('\nV104, Swimming hall'));
  });
});

describe('laySettlements', () => {
  it('counts how visits stand where there are several rounds', () => {
    expect(laySettlements([DEMO, DEMO], [], PLAIN_STYLE)[0]).toBe(
      '2 rounds, 16 visits: 10 agreed, 2 short, 2 unread, 2 unsettled.',
    );
    expect(laySettlements([], [], PLAIN_STYLE)[0]).toMatch(/^Nothing to settle/);
  });

  it('begins with a sheet that could not be used: nothing below can be read without knowing that', () => {
    const lost = makeFinding('sheet-column-missing', 'counts.csv lacks column visited_at.');
    const lines = laySettlements([DEMO], [makeFinding('bad-row', 'counts.csv, row 3: bad.'), lost], PLAIN_STYLE);
    expect(lines[0]).toBe('fault  counts.csv lacks column visited_at.');
    expect(lines.filter((line) => line.includes('lacks column'))).toHaveLength(1);
    expect(lines).toContain('doubt  counts.csv, row 3: bad.');
  });

  it('ends with what belongs to no round, and with the cautions', () => {
    const lines = laySettlements([DEMO], [makeFinding('bad-row', 'counts.csv, row 3: bad.')], PLAIN_STYLE);
    expect(lines.indexOf('Cautions')).toBeGreaterThan(lines.indexOf('doubt  counts.csv, row 3: bad.'));
  });
});
