import { describe, expect, it } from 'vitest';
import { sumVends } from '../../src/attention/sum-vends.js';
import { buildInterval, type Interval } from '../../src/interval/index.js';
import { Roster } from '../../src/sheets/index.js';
import { read } from './stock-reads.js';

const roster = new Roster();
const unasked = (): never => {
  throw new Error('not asked for');
};
const wholeOf = (pieces: readonly Interval[]) => () => buildInterval(pieces[0]!.from, pieces.at(-1)!.to, roster);
const group = (test: number, free: number) => ({ 11: [`PA3*${test}*0`, `PA4*${free}*0`] });

describe('sumVends', () => {
  const first = read(1, { vends: { 11: 100 }, groups: group(1, 0) });
  const second = read(2, { vends: { 11: 104 }, groups: group(2, 0) });
  const third = read(3, { vends: { 11: 105 }, groups: group(2, 3) });

  it('adds up paid, test and free vends from interval to interval', () => {
    const pieces = [buildInterval(first, second, roster), buildInterval(second, third, roster)];
    expect(sumVends('11', pieces, wholeOf(pieces))).toEqual({ sold: 5, test: 1, free: 3, doubts: [] });
  });

  it('is nothing over no time', () => {
    expect(sumVends('11', [], unasked)).toEqual({ sold: 0, test: 0, free: 0, doubts: [] });
  });

  it('is not known across a gap between two machines, or for a column that nobody has', () => {
    const piece = buildInterval(first, second, roster);
    expect(sumVends('11', [piece, null], unasked)).toEqual({ sold: null, test: null, free: null, doubts: ['absent'] });
    expect(sumVends('99', [piece], unasked)).toMatchObject({ sold: null, doubts: ['new-column', 'absent'] });
  });

  it('does not take a counter that was there before for one that the machine does not keep', () => {
    const without = read(4, { vends: { 11: 106 } });
    const piece = buildInterval(first, without, roster);
    expect(sumVends('11', [piece], unasked)).toEqual({ sold: 6, test: null, free: null, doubts: ['absent'] });
  });

  it('sets the ends against each other where a read in between leaves the column out', () => {
    const without = read(2, { vends: {} });
    const pieces = [buildInterval(first, without, roster), buildInterval(without, third, roster)];
    expect(sumVends('11', pieces, wholeOf(pieces))).toEqual({ sold: 5, test: 1, free: 3, doubts: [] });
    const never = [
      buildInterval(read(1, { vends: {} }), without, roster),
      buildInterval(without, read(3, { vends: {} }), roster),
    ];
    expect(sumVends('11', never, wholeOf(never))).toMatchObject({ sold: null });
  });
});
