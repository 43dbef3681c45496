import { describe, expect, it } from 'vitest';
import { describeInterval, layInterval, layIntervals } from '../../../src/report/index.js';
import { PLAIN_STYLE } from '../../../src/report/text/style.js';
import { textWidth } from '../../../src/report/text/text-width.js';
import { type Known, pairInterval } from '../../explain/pair-interval.js';

const CLOCKS = ['ID5*261123*1000', 'ID5*261124*1215'] as const;
const lay = (before: readonly string[], after: readonly string[], known: Known = {}) =>
  layInterval(pairInterval([CLOCKS[0], ...before], [CLOCKS[1], ...after], known), PLAIN_STYLE);
const rowOf = (lines: readonly string[], column: string) => lines.find((line) => line.startsWith(`  ${column} `));

describe('layInterval', () => {
  it('begins with what was sold', () => {
    const lines = lay(['PA1*11*100*Oat bar', 'PA2*1*100'], ['PA1*11*100*Oat bar', 'PA2*3*300']);
    expect(lines.slice(0, 4)).toEqual([
      'M1: 2 sold for 2.00 EUR',
      '  from 2026-11-23 10:00  before.dex',
      '  to   2026-11-24 12:15  after.dex',
      '  1 d 2 h, from lifetime counters',
    ]);
  });

  it('says what is not known, and never 0 for it', () => {
    const lines = lay(['PA1*11*100', 'PA2*500*100'], ['PA1*11*100', 'PA2*400*300']);
    expect(lines[0]).toBe('M1: sales not known for 2.00 EUR');
    expect(rowOf(lines, '11')).toMatch(/^ {2}11 +- +2\.00/);
    expect(lay([], [])[0]).toBe('M1: sales not known');
    expect(lay([], [])).toContain('  The reads have no columns.');
    expect(lay(['PA1*11*100', 'PA2*1*500'], ['PA1*11*100', 'PA2*3*400'])[0]).toBe('M1: 2 sold for a value not known');
  });

  it('counts the columns that sold nothing', () => {
    const still = ['PA1*11*100', 'PA2*1*100', 'PA1*12*100', 'PA2*1*100'];
    expect(lay(still, still)).toContain('  2 more columns sold nothing.');
  });

  it('remarks on columns: new, gone, off plan, at several prices, unexplained, test and free vends', () => {
    const before = [
      ...['PA1*11*100', 'PA2*1*100', 'PA3*0*0', 'PA4*0*0', 'PA1*12*120', 'PA2*0*0', 'PA1*13*100', 'PA2*0*0'],
      ...['PA1*14*100', 'PA2*0*0', 'PA1*16*100', 'PA2*3*300'],
    ];
    const after = [
      ...['PA1*11*100', 'PA2*1*100', 'PA3*2*0', 'PA4*3*0', 'PA1*12*130', 'PA2*3*370', 'PA1*13*110', 'PA2*2*220'],
      ...['PA1*14*100', 'PA2*2*230', 'PA1*15*100', 'PA2*4*400'],
    ];
    const lines = lay(before, after, { plan: ['13,1.20'] });
    expect(rowOf(lines, '11')).toMatch(/2 test; 3 free$/);
    expect(rowOf(lines, '12')).toMatch(/2 at 1\.20, 1 at 1\.30$/);
    expect(rowOf(lines, '13')).toMatch(/off plan: -0\.20; was 1\.00$/);
    expect(rowOf(lines, '14')).toMatch(/unexplained \+0\.30$/);
    expect(rowOf(lines, '15')).toMatch(/new$/);
    expect(rowOf(lines, '16')).toMatch(/gone$/);
    for (const line of lines) expect(textWidth(line)).toBeLessThanOrEqual(80);
  });

  it('puts a remark that is too long below its column', () => {
    const name = 'A name of a product that is rather long for a table';
    const before = [`PA1*11*100*${name}`, 'PA2*0*0', 'PA3*0*0', 'PA4*0*0'];
    const after = [`PA1*11*120*${name}`, 'PA2*5*560', 'PA3*1*0', 'PA4*1*0'];
    const lines = lay(before, after);
    const at = lines.indexOf(rowOf(lines, '11')!);
    expect(lines[at + 1]).toMatch(/^ {10}\d at 1\.00, \d at 1\.20; 1 test; 1 free$/);
  });

  it('says which counters it rests on, and where it is a floor', () => {
    const columns = (count: number) => ['PA1*11*100', `PA2*${count}*${count * 100}`];
    const restarted = lay(['CB1*OLD', 'VA1*100000*1000', ...columns(500)], ['CB1*NEW', 'VA1*300*3', ...columns(3)]);
    expect(restarted[0]).toBe('M1: at least 3 sold for 3.00 EUR');
    expect(restarted[3]).toMatch(/since the counters started again/);
    const fallback = lay(['PA1*11*100', 'PA2***0*0'], ['PA1*11*100', 'PA2***3*300']);
    expect(fallback[3]).toMatch(/from interval counters, for want of lifetime ones/);
  });

  it('names a machine that is on no roster by what it says of itself, and by nothing else', () => {
    const named = (...segments: string[]) => {
      const interval = pairInterval([...segments, CLOCKS[0]], [...segments, CLOCKS[1]]);
      const to = { ...interval.to, machine: null };
      return describeInterval({ ...interval, to });
    };
    expect(named()).toBe('machine A1, M, 2026-11-23 10:00 to 2026-11-24 12:15');
    expect(named('ID1*S9')).toMatch(/^machine S9, 2026/);
    expect(named('ID1*')).toMatch(/^machine without a name, 2026/);
  });
});

describe('layIntervals', () => {
  const interval = (count: number) =>
    pairInterval(['PA1*11*100', 'PA2*1*100'], ['PA1*11*100', `PA2*${count}*${count * 100}`]);

  it('lets one stand for itself, and counts several', () => {
    expect(layIntervals([interval(3)], [], PLAIN_STYLE)[0]).toBe('M1: 2 sold for 2.00 EUR');
    expect(layIntervals([interval(3), interval(4)], [], PLAIN_STYLE)[0]).toBe(
      '2 intervals of 1 machine: nothing to look at.',
    );
    expect(layIntervals([], [], PLAIN_STYLE)).toEqual(['No interval: it takes two usable reads of one machine.']);
  });

  it('says how many have faults and doubts', () => {
    const faulty = pairInterval(['PA1*11*100', 'PA2*500*100'], ['PA1*11*100', 'PA2*400*300']);
    const doubtful = pairInterval(['PA1*11*100', 'PA2*0*0'], ['PA1*11*100', 'PA2*2*230']);
    const [summary] = layIntervals([faulty, doubtful, doubtful, interval(2)], [], PLAIN_STYLE);
    expect(summary).toBe('4 intervals of 1 machine: 1 with faults, 2 with doubts.');
  });
});
