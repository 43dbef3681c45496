import { describe, expect, it } from 'vitest';
import { makeFinding } from '../../src/findings/index.js';
import { buildIntervals, type TakenRead } from '../../src/interval/index.js';
import { Roster } from '../../src/sheets/index.js';
import { machineRow } from '../support/check-cases.js';
import { readOf } from '../support/interval-cases.js';
import type { TakenOptions } from '../support/taken.js';

const NONE = new Roster();
function read(
  file: string,
  day: number,
  counted: number,
  more: readonly string[] = [],
  options: TakenOptions = {},
): TakenRead {
  const given = new Set(more.map((segment) => segment.split('*')[0]));
  const own = [
    `ID5*2611${String(day).padStart(2, '0')}*1000`,
    `VA1*${counted * 100}*${counted}`,
    `CA3*****${counted * 100}*${counted * 100}*0*0`,
  ];
  return readOf('to', [...own.filter((segment) => !given.has(segment.split('*')[0])), ...more], { file, ...options });
}
const build = (...reads: readonly TakenRead[]) => {
  const { intervals, findings, machines } = buildIntervals(reads, NONE);
  return {
    pairs: intervals.map(({ from, to, totals }) => `${from.file}${to.file} ${totals.sold}`),
    found: findings.map(({ code, severity, file }) => [code, severity, file]),
    machines: [...machines].map(([key, own]) => [key, own.map(({ file }) => file).join('')]),
  };
};

describe('buildIntervals', () => {
  it('makes an interval of every two consecutive reads of a machine, in whatever order they come', () => {
    const reads = [read('c', 3, 130), read('a', 1, 100), read('b', 2, 120)];
    expect(build(...reads)).toEqual({ pairs: ['ab 20', 'bc 10'], found: [], machines: [['asset A1', 'abc']] });
  });

  it('keeps machines apart, and takes one with a single read', () => {
    const other = ['ID1*S2*M****A2', 'CB1*B2'];
    expect(build(read('a', 1, 100), read('x', 1, 50, other), read('b', 2, 120))).toEqual({
      pairs: ['ab 20'],
      found: [],
      machines: [
        ['asset A1', 'ab'],
        ['asset A2', 'x'],
      ],
    });
    expect(build()).toEqual({ pairs: [], found: [], machines: [] });
  });

  it('counts a read once, however often it came', () => {
    const { pairs, found } = build(read('a', 1, 100), read('b', 2, 120), { ...read('a', 1, 100), file: 'c' });
    expect([pairs, found]).toEqual([['ab 20'], [['duplicate-read', 'note', 'c']]]);
  });

  it('leaves out a read with faults, says why, and spans it', () => {
    const faults = [
      makeFinding('integrity-damaged', 'x'),
      makeFinding('integrity-damaged', 'y'),
      makeFinding('cut-short', 'z'),
    ];
    const damaged = read('b', 2, 999, [], { faults });
    expect(build(read('a', 1, 100), damaged, read('c', 3, 130))).toMatchObject({
      pairs: ['ac 30'],
      found: [['capture-unusable', 'fault', 'b']],
    });
    const [finding] = buildIntervals([damaged], NONE).findings;
    expect(finding!.message).toContain('(integrity-damaged, cut-short)');
    const doubted = read('b', 2, 999, [], { faults: [makeFinding('segment-count', 'x')] });
    expect(build(doubted).found).toEqual([['capture-unusable', 'doubt', 'b']]);
  });

  it('says of a read that names no machine that it belongs to no interval', () => {
    const { found, machines } = build(read('a', 1, 100, ['ID1*000*M****000', 'CB1']));
    expect([found, machines]).toEqual([[['unknown-machine', 'doubt', 'a']], []]);
  });
});

describe('buildIntervals: the five causes of a counter that goes down', () => {
  const firstCode = (...reads: readonly TakenRead[]): unknown => {
    const { intervals, findings } = buildIntervals(reads, NONE);
    return [
      intervals.map(({ totals, floor }) => [totals.sold, floor]),
      [...findings, ...intervals.flatMap((one) => one.findings)].map(({ code }) => code),
    ];
  };

  it('1. out of order: the later capture has the earlier clock, and the counters are followed', () => {
    expect(firstCode(read('a', 4, 500), read('b', 3, 510))).toEqual([[[10, false]], ['out-of-order', 'clock-jump']]);
  });

  it('1. out of order: fewer reads', () => {
    const counted = (file: string, day: number, vends: number, reads: number) =>
      read(file, day, vends, [`EA3*********${reads}`]);
    expect(firstCode(counted('a', 4, 500, 8), counted('b', 3, 510, 9))).toEqual([
      [[10, false]],
      ['out-of-order', 'clock-jump'],
    ]);
  });

  it('2. roll-over: 10^k is added', () => {
    const vends = (file: string, day: number, count: number, value: number) =>
      read(file, day, 0, [`VA1*${value}*${count}`, 'CA3*****5000*5000*0*0']);
    expect(firstCode(vends('a', 1, 9_996, 30_000), vends('b', 2, 3, 30_700))).toEqual([
      [[7, false]],
      ['counter-rollover'],
    ]);
  });

  it('3. memory cleared: what was sold since is a floor', () => {
    expect(firstCode(read('a', 1, 500), read('b', 2, 7))).toEqual([[[7, true]], ['memory-cleared']]);
    const dated = firstCode(read('a', 1, 500, ['EA4*240304*0900']), read('b', 3, 90, ['EA4*261102*0900']));
    expect(dated).toEqual([[[90, true]], ['memory-cleared']]);
  });

  it('4. board changed: what was sold since is a floor', () => {
    expect(firstCode(read('a', 1, 500), read('b', 2, 7, ['CB1*B2']))).toEqual([[[7, true]], ['board-changed']]);
  });

  it('5. another machine: nothing is taken from one to the other', () => {
    const machines = [machineRow({ machine: 'M1', asset: null })];
    const roster = new Roster({ machines });
    const listed = { roster, listedAs: 'M1' };
    const { intervals, findings } = buildIntervals(
      [read('a', 1, 500, [], listed), read('b', 2, 7, ['ID1*S2*M****A2', 'CB1*B2', 'PA1*77*10'], listed)],
      roster,
    );
    expect([intervals, findings.map(({ code, machine }) => [code, machine])]).toEqual([[], [['other-machine', 'M1']]]);
  });

  it('none of them: a fault, and no figure', () => {
    expect(firstCode(read('a', 1, 500), read('b', 2, 510, ['VA1*40000*400']))).toEqual([
      [[null, false]],
      ['counter-backward', 'counter-backward'],
    ]);
  });
});

describe('buildIntervals: eras', () => {
  it('takes no interval across two boards whose reads lie in each other', () => {
    const { pairs, found } = build(
      read('a', 1, 500),
      read('x', 2, 70, ['CB1*B2']),
      read('b', 3, 510),
      read('y', 4, 90, ['CB1*B2']),
    );
    expect(pairs).toEqual(['ab 10', 'xy 20']);
    expect(found).toEqual([['other-machine', 'doubt', 'x']]);
  });

  it('goes on within each era', () => {
    const { pairs } = build(
      read('a', 1, 500),
      read('b', 2, 510),
      read('c', 3, 7, ['CB1*B2']),
      read('d', 4, 9, ['CB1*B2']),
    );
    expect(pairs).toEqual(['ab 10', 'bc 7', 'cd 2']);
  });
});
