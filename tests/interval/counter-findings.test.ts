import { describe, expect, it } from 'vitest';
import { codesOf, intervalOf, messageOf, type PairOptions } from '../support/interval-cases.js';

describe('judgeCounters', () => {
  it('tells a roll-over with what was added', () => {
    const interval = intervalOf(['VA1*700*7', 'PA1*11', 'PA2*9998*700'], ['VA1*900*9', 'PA1*11', 'PA2*4*900']);
    expect(messageOf(interval, 'counter-rollover')).toMatch(
      /^PA201, .* \(column 11\): it ran past its last digit, from 9998 to 4, and started again; 10000 was added\.$/,
    );
    expect(interval.columns[0]!.sold).toBe(6);
  });

  it('says one thing once, however many columns it is about', () => {
    const columns = (sold: number): string[] =>
      Array.from({ length: 12 }, (_, i) => [`PA1*${11 + i}`, `PA2*${sold + i}*500`]).flat();
    const interval = intervalOf(['VA1*500*50', ...columns(500)], ['VA1*510*51', ...columns(490)]);
    const message = messageOf(interval, 'counter-backward');
    expect(message).toContain('(columns 11, 12, 13, 14, 15, 16, 17, 18 and 4 more)');
    expect(message).toContain('it went down, from 500 to 490 in column 11, and no cause was found');
    expect(interval.findings.find(({ code }) => code === 'counter-backward')).toMatchObject({
      severity: 'fault',
      element: 'PA201',
      column: '11',
    });
    expect(interval.columns.every(({ sold }) => sold === null)).toBe(true);
  });

  it('tells a counter that stands below 0', () => {
    const interval = intervalOf([], ['CA8*-5*-5']);
    expect(messageOf(interval, 'counter-backward')).toMatch(/it stands at -5\. Its figure is left out/);
  });

  it('tells counters that are there no more, segment by segment', () => {
    const interval = intervalOf(
      ['CA2*500*5', 'CA8**10', 'PA1*1', 'PA2*5*500', 'PA1*2', 'PA2*0*0'],
      ['CA2', 'PA1*1', 'PA1*2', 'PA2*0*0'],
    );
    const messages = interval.findings.filter(({ code }) => code === 'absent-counter').map(({ message }) => message);
    expect(messages).toEqual([
      expect.stringMatching(/^CA802 \(.*\): there at the earlier/),
      expect.stringMatching(/^CA201 \(cash sales\): there at the earlier read and not there now\. Absent is not zero/),
      expect.stringMatching(/^PA201, PA202 \(product, paid vends; column 1\): there at the earlier/),
    ]);
    expect(interval.findings.every(({ severity }) => severity === 'doubt')).toBe(true);
  });

  it('tells counters that come, where nothing shows that they stood at 0', () => {
    const interval = intervalOf(['VA1*900*9'], ['VA1*900*9', 'CA8*3*10']);
    expect(messageOf(interval, 'absent-counter')).toMatch(/^CA802 .*not there at the earlier read, and nothing shows/);
  });

  it('tells once that nothing shows when interval counters are cleared, and how to settle it', () => {
    const interval = intervalOf(['CA2***500*5', 'VA1***500*5'], ['CA2***700*7', 'VA1***700*7']);
    expect(codesOf(interval)).toEqual(['absent-counter']);
    expect(interval.findings[0]!.message).toContain('(VA104, VA103, CA203)');
    expect(interval.findings[0]!.advice).toContain("'resets'");
  });

  it('tells once that figures are floors, and why', () => {
    const every: PairOptions = { profile: { name: 'p', resets: 'every-read' } };
    const [before, after] = [['VA1***500*5'], ['VA1***300*3']];
    const unsure = intervalOf(before, after, every);
    expect(codesOf(unsure)).toEqual(['absent-counter']);
    expect(unsure.findings[0]!.message).toContain('nothing shows that nobody cleared the interval counters in between');
    const unseen = intervalOf([...before, 'EA3*********3'], [...after, 'EA3*********5'], every);
    expect(unseen.findings).toMatchObject([{ code: 'unseen-reset', severity: 'doubt' }]);
    expect(unseen.findings[0]!.message).toContain('somebody cleared the interval counters in between');
    expect([unseen.floor, unseen.totals.sold]).toEqual([true, 3]);
  });

  it('gives floors, and says why, where interval counters alone are kept and another read cleared them', () => {
    const read = (sold: number, value: number, box: number, reads: string) => [
      `VA1***${value}*${sold}`,
      `CA2***${value}*${sold}`,
      `CA3*${box + 100}*${box}*100*0`,
      'CA4*30*0',
      'PA1*11*100',
      `PA2***${sold}*${value}`,
      reads,
    ];
    const from = read(7, 700, 570, 'EA3*****261119*1000*OFFICE**40*12');
    const to = read(9, 900, 830, 'EA3*****261120*1800*STRANGER**42*14');
    const { findings, floor, basis, cash, columns, totals } = intervalOf(from, to);
    expect(findings).toMatchObject([{ code: 'unseen-reset', severity: 'doubt' }]);
    expect([floor, basis]).toEqual([true, 'interval']);
    expect(columns).toMatchObject([{ sold: 9, value: 900 }]);
    expect(totals).toMatchObject({ sold: 9, value: 900 });
    expect(cash).toMatchObject({ cashIn: 930, toCashBox: 830, toTubes: 100, bills: 0, dispensed: 30, cashSales: 900 });
    expect(cash.tubeDifference).toBeNull();
  });

  it('leaves counters that went down to the order, where the two reads are in the wrong one', () => {
    const interval = intervalOf(['VA1*900*9', 'ID5*261122*1000'], ['VA1*700*7']);
    expect(codesOf(interval)).toEqual(['out-of-order']);
  });

  it('shows hidden characters in the name of a column', () => {
    const interval = intervalOf(['PA1*1\u001b', 'PA2*9*90', 'VA1*1*1'], ['PA1*1\u001b', 'PA2*5*95', 'VA1*2*2']);
    expect(messageOf(interval, 'counter-backward')).toContain('(column 1\\x1B)');
  });
});
