import { describe, expect, it } from 'vitest';
import { CABINET_CAUTIONS } from '../../src/findings/index.js';
import { judgePair } from '../../src/interval/pair-findings.js';
import { type PairOptions, pairOf } from '../support/interval-cases.js';

const judge = (from: readonly string[], to: readonly string[], options: PairOptions = {}) =>
  judgePair(pairOf(from, to, options)).map(({ code, severity, message }) => [code, severity, message]);

const USED = ['VA1*500000*5000*700*7', 'PA1*11', 'PA2*5000*500000'];
const CLEARED = ['VA1*300*3*300*3', 'PA1*11', 'PA2*3*300'];
const LATER = ['VA1*500300*5003*300*3', 'PA1*11', 'PA2*5003*500300'];

describe('judgePair', () => {
  it('has nothing to say of two reads that follow each other', () => {
    expect(judge(USED, LATER)).toEqual([]);
  });

  it('tells a new board, with what shows it and what is lost', () => {
    const [finding] = judgePair(pairOf(USED, [...CLEARED, 'CB1*B2']));
    expect(finding).toMatchObject({ code: 'board-changed', severity: 'doubt', element: 'CB101', file: 'to.dex' });
    expect(finding!.message).toBe(
      'The control board was changed (the control board serial number changed; now B2). What was sold since the counters started again is known and is a floor; what was sold before that, after the last read, is lost.',
    );
    expect(finding!.advice).toMatch(/^Ask who changed the board/);
    const serial = judge([...USED, 'CB1'], [...CLEARED, 'CB1', 'ID1*S2*M****A1']);
    expect(serial).toEqual([['board-changed', 'doubt', expect.stringContaining('now S2')]]);
  });

  it('tells a cleared memory', () => {
    expect(judge(USED, CLEARED)).toEqual([
      [
        'memory-cleared',
        'doubt',
        expect.stringMatching(/^The memory was cleared: 4 of 4 lifetime counters are back near zero/),
      ],
    ]);
  });

  it('tells what the counters are worth where that is in question', () => {
    expect(judge(USED, [...LATER, 'CB1*B2'])[0]![2]).toContain('go on from where they stood');
    expect(judge(USED, ['VA1*600000*6000*10*1', 'CB1*B2'])[0]![2]).toContain('no figure is taken from them');
  });

  it('tells money that is not the same', () => {
    expect(judge(['ID4*2*978*EUR'], ['ID4*0*978*EUR'])).toEqual([
      ['currency-changed', 'doubt', expect.stringMatching(/in EUR with 2 decimals, the later in EUR with 0 decimals/)],
    ]);
    const [finding] = judge(['ID4*2*978*EUR'], ['ID4**756*CHF']);
    expect(finding![2]).toContain('CHF with unknown decimals');
    expect(judge(['ID4*2*978*EUR'], ['ID4*0'])[0]![2]).toContain('no currency with 0 decimals');
  });

  it('tells an asset number that was changed on the same machine', () => {
    expect(judge(USED, [...LATER, 'ID1*S1*M****A2'])).toEqual([
      ['relabelled', 'doubt', expect.stringMatching(/from A1 to A2: board and serial number did not/)],
    ]);
  });

  it('tells a reset by somebody else, and the reads that confirm it', () => {
    const unseen = ['VA1*500300*5003*100*1', 'PA1*11', 'PA2*5003*500300'];
    expect(judge(USED, unseen)).toEqual([['unseen-reset', 'note', expect.not.stringContaining('counted')]]);
    const counted = (reads: number) => judge([...USED, 'EA3*********4'], [...unseen, `EA3*********${reads}`])[0]![2];
    expect(counted(6)).toContain('The machine counted 1 other read in between.');
    expect(counted(8)).toContain('The machine counted 3 other reads in between.');
    expect(judge(['VA1***700*7'], ['VA1***100*1'], { profile: { name: 'p', resets: 'every-read' } })).toEqual([]);
  });
});

describe('judgePair: order and clocks', () => {
  const at = (day: number, time = '1000') => `ID5*2611${day}*${time}`;

  it('notes times that contradict the counters, and follows the counters', () => {
    const reads = { from: { receivedAt: '2026-11-22T10:00:00' }, to: { receivedAt: '2026-11-21T10:00:00' } };
    expect(judge(USED, LATER, reads)).toEqual([
      ['out-of-order', 'note', expect.stringContaining('though it arrived before it')],
    ]);
    expect(judge([...USED, at(20, '1005')], [...LATER, at(20, '1000')])).toEqual([
      ['out-of-order', 'note', expect.stringContaining('though it has an earlier clock')],
    ]);
  });

  it('doubts the order where arrival and clock both contradict it', () => {
    const reads = { from: { receivedAt: '2026-11-22T10:00:00' }, to: { receivedAt: '2026-11-21T10:00:00' } };
    const [first, second] = judge([...USED, at(22)], [...LATER, at(21)], reads);
    expect(first).toEqual(['out-of-order', 'doubt', expect.stringContaining('and the clock says the same')]);
    expect(second![0]).toBe('clock-jump');
  });

  it('tells a clock that went back by more than ten minutes (domain rule: the default tolerance)', () => {
    const back = judge([...USED, at(20, '1011')], [...LATER, at(20, '1000')]);
    expect(back.map(([code]) => code)).toEqual(['out-of-order', 'clock-jump']);
    expect(back[1]![2]).toBe(
      "The machine's clock went back: 2026-11-20 10:11 at the earlier read, 2026-11-20 10:00 at the later. That may be the end of daylight-saving time.",
    );
    expect(judge([...USED, at(20, '1010')], [...LATER, at(20, '1000')]).map(([code]) => code)).toEqual([
      'out-of-order',
    ]);
    expect(judge([...USED, 'ID5'], LATER)).toEqual([]);
  });

  it('takes more than an hour for no change from daylight-saving time', () => {
    const [, finding] = judge([...USED, at(20, '1101')], [...LATER, at(20, '1000')]);
    expect(finding![2]).toMatch(/10:00 at the later\.$/);
  });

  it('shows hidden characters in the name of a file', () => {
    const [finding] = judge([...USED, at(22)], LATER, { from: { file: 'a\u001b[2J.dex' } });
    expect(finding![2]).toContain('a\\x1B[2J.dex');
  });

  it('gives the cautions with advice that sends a hand into a cabinet', () => {
    const [, finding] = judgePair(pairOf([...USED, at(22)], LATER));
    expect(finding!.advice).toMatch(/^Set the machine's clock\./);
    expect(finding!.cautions).toEqual(CABINET_CAUTIONS);
  });

  it('says nothing of the order across a restart, which goes by time', () => {
    expect(judge([...USED, at(22)], [...CLEARED, 'CB1*B2']).map(([code]) => code)).toEqual([
      'board-changed',
      'clock-jump',
    ]);
  });

  it('tells reads that were given in the wrong order', () => {
    expect(judge([...LATER, at(22)], USED)).toEqual([
      ['out-of-order', 'doubt', expect.stringContaining('the two are in the wrong order')],
    ]);
  });
});
