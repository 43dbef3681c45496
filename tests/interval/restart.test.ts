import { describe, expect, it } from 'vitest';
import { judgeRestart } from '../../src/interval/restart.js';
import { type PairOptions, readOf } from '../support/interval-cases.js';

const judge = (from: readonly string[], to: readonly string[], options: PairOptions = {}) => {
  const { from: ofFrom, to: ofTo, ...both } = options;
  return judgeRestart(readOf('from', from, { ...both, ...ofFrom }), readOf('to', to, { ...both, ...ofTo }));
};

const USED = ['VA1*500000*5000*700*7', 'CA3*700*700*0*0*400000*300000*100000*0', 'PA1*11', 'PA2*5000*500000'];
const CLEARED = ['VA1*300*3*300*3', 'CA3*300*300*0*0*300*300*0*0', 'PA1*11', 'PA2*3*300'];
const LATER = ['VA1*500300*5003*300*3', 'CA3*300*300*0*0*400300*300300*100000*0', 'PA1*11', 'PA2*5003*500300'];

describe('judgeRestart', () => {
  it('says nothing of counters that go on', () => {
    expect(judge(USED, LATER)).toBeNull();
    expect(judge([...USED, 'EA4*240304*0900'], [...LATER, 'EA4*240304*0900'])).toBeNull();
    expect(judge([...USED, 'EA4*240304*0900'], LATER)).toBeNull();
  });

  it('sees another board by its serial number, or that of the machine', () => {
    expect(judge(USED, [...CLEARED, 'CB1*B2'])).toEqual({
      cause: 'board-changed',
      evidence: 'the control board serial number changed',
      wentDown: true,
      counters: 'from-zero',
    });
    expect(judge(USED, [...CLEARED, 'ID1*S2*M****A1'])).toMatchObject({
      cause: 'board-changed',
      evidence: 'the machine serial number changed',
    });
  });

  it('takes a board that does not give its number for none', () => {
    expect(judge([...USED, 'CB1'], [...LATER, 'CB1*B2'])).toBeNull();
    // Zeros are a number that was never given; that it is given now makes no other board.
    expect(judge([...USED, 'CB1*0000', 'ID1*000000*M****A1'], [...LATER, 'CB1*B2'])).toBeNull();
  });

  it('sees a cleared memory by the date of initialisation', () => {
    const restart = judge([...USED, 'EA4*240304*0900'], [...CLEARED, 'EA4*261120*1400']);
    expect(restart).toMatchObject({ cause: 'memory-cleared', counters: 'from-zero', wentDown: true });
    expect(restart!.evidence).toBe('the date of initialisation changed');
  });

  it('sees it by most counters being back near zero, though the date is that of the first initialisation', () => {
    const restart = judge([...USED, 'EA4*240304*0900'], [...CLEARED, 'EA4*240304*0900']);
    expect(restart).toMatchObject({ cause: 'memory-cleared', counters: 'from-zero' });
    expect(restart!.evidence).toBe('7 of 7 lifetime counters are back near zero');
  });

  it('takes two ways to write one date for no change', () => {
    expect(judge([...USED, 'EA4*240304*0900'], [...LATER, 'EA4*20240304*090000'])).toBeNull();
  });

  it('sees lower counters that are not near zero only with fewer reads and certain times', () => {
    const from = [...USED, 'EA3*********300'];
    const lower = ['VA1*200000*2000*300*3', 'CA3*0*0*0*0*200000*150000*50000*0', 'PA1*11', 'PA2*2000*200000'];
    const to = [...lower, 'EA3*********40'];
    const times = { from: { receivedAt: '2026-11-20T10:02:00' }, to: { receivedAt: '2026-11-21T10:01:00' } };
    expect(judge(from, to, times)).toMatchObject({ cause: 'memory-cleared', counters: 'from-zero', wentDown: true });
    expect(judge(from, to, times)!.evidence).toMatch(/^7 of 7 lifetime counters and the number of reads are lower/);
    expect(judge(from, to)).toBeNull();
    expect(judge(from, [...lower, 'EA3*********301'], times)).toBeNull();
    expect(judge(from, to, { ...times, to: { receivedAt: '2026-11-21T12:00:00' } })).toBeNull();
    expect(judge([...from, 'ID5'], to, times)).toBeNull();
    const backward = { from: { receivedAt: '2026-11-20T10:02:00' }, to: { receivedAt: '2026-11-20T10:01:00' } };
    expect(judge(from, [...to, 'ID5*261120*1000'], backward)).toBeNull();
  });
});

describe('judgeRestart: what the counters are worth', () => {
  const OTHER = 'CB1*B2';

  it('nothing went down, and the interval counters bear it out: they go on', () => {
    expect(judge(USED, [...LATER, OTHER])).toMatchObject({ wentDown: false, counters: 'go-on' });
    const kept = ['VA1*500300*5003*1000*10', 'CA3*1000*1000*0*0*400300*300300*100000*0'];
    expect(judge(USED, [...kept, OTHER])).toMatchObject({ counters: 'go-on' });
  });

  it('nothing went down, but all was counted since the last reset: they started at 0', () => {
    expect(judge(['VA1*200*2*100*1'], ['VA1*900*9*900*9', OTHER])).toMatchObject({
      wentDown: false,
      counters: 'from-zero',
    });
  });

  it('nothing went down, and nothing bears it out: not known', () => {
    expect(judge(['VA1*200*2*100*1'], ['VA1*900*9*50*1', OTHER])).toMatchObject({ counters: 'not-known' });
    expect(judge(['VA1*200*2'], ['VA1*900*9', OTHER])).toMatchObject({ counters: 'not-known' });
  });

  it('a board that was initialised before the earlier read counted elsewhere', () => {
    const dated = [...USED, 'EA4*240304*0900'];
    expect(judge(dated, [...CLEARED, OTHER, 'EA4*250101*0900'])).toMatchObject({
      wentDown: true,
      counters: 'not-known',
    });
    expect(judge(dated, [...CLEARED, OTHER, 'EA4*261120*1400'])).toMatchObject({ counters: 'from-zero' });
    // The same date as before says nothing of the new board, and without a clock there is nothing to hold it against.
    expect(judge(dated, [...CLEARED, OTHER, 'EA4*240304*0900'])).toMatchObject({ counters: 'from-zero' });
    expect(judge([...dated, 'ID5'], [...CLEARED, OTHER, 'EA4*250101*0900'])).toMatchObject({ counters: 'from-zero' });
  });

  it('on a machine with interval counters alone: lower than before, they started again', () => {
    expect(judge(['VA1***700*7'], ['VA1***300*3', OTHER])).toMatchObject({ counters: 'from-zero' });
    expect(judge(['VA1***700*7'], ['VA1***900*9', OTHER])).toMatchObject({ counters: 'not-known' });
  });
});
