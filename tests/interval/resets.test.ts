import { describe, expect, it } from 'vitest';
import { hasIntervalFallen, judgeReset, judgeResetByCounters } from '../../src/interval/resets.js';
import type { Profile } from '../../src/profile/index.js';
import { type PairOptions, readOf } from '../support/interval-cases.js';

const judge = (from: readonly string[], to: readonly string[], options: PairOptions = {}) => {
  const { from: ofFrom, to: ofTo, ...both } = options;
  return judgeReset(readOf('from', from, { ...both, ...ofFrom }), readOf('to', to, { ...both, ...ofTo }));
};
const stateOf = (from: readonly string[], to: readonly string[], options: PairOptions = {}): string =>
  judge(from, to, options).state;

describe('judgeReset: by arithmetic (D is what the lifetime counter moved by)', () => {
  it('the interval counter now is D: the earlier read cleared it', () => {
    expect(stateOf(['VA1*5000*50*700*7'], ['VA1*5300*53*300*3'])).toBe('cleared');
  });

  it('it is what it was and D: it was kept', () => {
    expect(stateOf(['VA1*5000*50*700*7'], ['VA1*5300*53*1000*10'])).toBe('kept');
  });

  it('it is less than both: somebody else cleared it', () => {
    expect(stateOf(['VA1*5000*50*700*7'], ['VA1*5300*53*200*2'])).toBe('unseen');
  });

  it('one counter that is less is enough, since others may not have moved before that reset', () => {
    const from = ['VA1*5000*50*700*7', 'CA3*100*100*0*0*900*900*0*0', 'DA2*100*1*100*1'];
    const to = ['VA1*5300*53*200*2', 'CA3*200*200*0*0*1100*1100*0*0', 'DA2*200*2*0*0'];
    expect(stateOf(from, to)).toBe('unseen');
  });

  it('unless the machine says that nobody else read it, and most counters agree', () => {
    const from = ['VA1*5000*50*700*7', 'CA2*5000*50*700*7', 'DA2*100*1*100*1', 'EA3*********4'];
    const to = ['VA1*5300*53*300*3', 'CA2*5300*53*300*3', 'DA2*200*2*50*1', 'EA3*********5'];
    expect(judge(from, to)).toEqual({ state: 'cleared', isCertain: false, readsBetween: 'none' });
  });

  it('a counter at 0 at both ends tells it only where the machine counted a reset by another read', () => {
    const from = ['VA1*5000*50*0*0', 'EA3*********4*1'];
    expect(stateOf(from, ['VA1*5300*53*0*0', 'EA3*********6*2'])).toBe('unseen');
    expect(stateOf(from, ['VA1*5300*53*0*0', 'EA3*********6*1'])).toBe('not-known');
    expect(stateOf(from, ['VA1*5300*53*0*0', 'EA3*********5*2'])).toBe('not-known');
  });

  it('a counter that stood at 0 fits both and says nothing', () => {
    expect(stateOf(['VA1*5000*50*0*0'], ['VA1*5300*53*300*3'])).toBe('not-known');
  });

  it('counters that contradict each other: the greater number, without being sure', () => {
    const from = ['VA1*5000*50*700*7', 'CA2*5000*50*700*7'];
    const to = ['VA1*5300*53*300*3', 'CA2*5300*53*1000*10', 'EA3*********5'];
    expect(judge(from, to)).toMatchObject({ state: 'cleared', isCertain: false });
    expect(stateOf(['VA1*5000**700', 'CA2*5000**700'], ['VA1*5300**300', 'CA2*5300**1000'])).toBe('not-known');
  });

  it('leaves out lifetime counters that are not kept, went down, or are absent', () => {
    expect(stateOf(['VA1*0*0*700*7'], ['VA1*0*0*300*3'])).toBe('not-known');
    expect(stateOf(['VA1*9990**700'], ['VA1*10**300'])).toBe('not-known');
    expect(stateOf(['VA1***700*7'], ['VA1***300*3'])).toBe('not-known');
  });

  it('asks the columns where totals say nothing', () => {
    const from = ['PA1*11', 'PA2*50*5000*7*700', 'PA1*12', 'PA2*9*90*0*0'];
    expect(stateOf(from, ['PA1*11', 'PA2*53*5300*3*300', 'PA1*13', 'PA2*1*1*1*1'])).toBe('cleared');
  });

  it('leaves amounts out where the money changed', () => {
    const from = ['ID4*2*978*EUR', 'VA1*500000*50*70000*7'];
    expect(stateOf(from, ['ID4*0*978*EUR', 'VA1*5300*53*300*3'])).toBe('cleared');
  });

  it('is certain of what counters say only where nobody else can have cleared others', () => {
    const [from, to] = [['VA1*5000*50*700*7'], ['VA1*5300*53*300*3']];
    expect(judge(from, to)).toMatchObject({ isCertain: false });
    expect(judge([...from, 'EA3*********4'], [...to, 'EA3*********5'])).toMatchObject({ isCertain: true });
    expect(judge([...from, 'EA3*********4*2'], [...to, 'EA3*********9*2'])).toMatchObject({ isCertain: true });
    expect(judge([...from, 'EA3*********4*2'], [...to, 'EA3*********9*3'])).toMatchObject({ isCertain: false });
  });
});

describe('judgeReset: without lifetime counters', () => {
  const from = ['VA1***700*7'];
  const to = ['VA1***900*9'];
  const with309 = (segments: string[], reads: number): string[] => [...segments, `EA3*********${reads}`];
  const known = (profile: Partial<Profile>): PairOptions => ({ profile: { name: 'p', ...profile } });

  it('goes by the profile of a machine that never resets', () => {
    expect(judge(from, to, known({ resets: 'never' }))).toMatchObject({ state: 'kept', isCertain: true });
  });

  it('goes by the profile of a machine that every read clears', () => {
    const every = known({ resets: 'every-read' });
    expect(judge(from, to, every)).toMatchObject({ state: 'cleared', isCertain: false });
    expect(judge(with309(from, 3), with309(to, 4), every)).toMatchObject({ state: 'cleared', isCertain: true });
    expect(judge(with309(from, 3), with309(to, 5), every)).toMatchObject({ state: 'unseen', isCertain: false });
  });

  it('goes by the reason of the earlier read on a machine that service reads clear', () => {
    const service = known({ resets: 'service-read' });
    const reason = (of: 'service' | 'scheduled' | 'on demand' | null): PairOptions => ({
      ...service,
      from: { reason: of },
    });
    expect(stateOf(from, to, reason('service'))).toBe('cleared');
    expect(stateOf(from, to, reason('scheduled'))).toBe('kept');
    expect(stateOf(from, to, reason('on demand'))).toBe('kept');
    expect(stateOf(from, to, reason(null))).toBe('not-known');
  });

  it('goes by more resets than one of the two reads can have made (EA310, EA301; manual L0190D, p. 42)', () => {
    const counted = (reads: number | '', resets: number, more = ''): string => `EA3*${more}********${reads}*${resets}`;
    expect(judge([...from, counted(3, 1)], [...to, counted(5, 3)])).toMatchObject({
      state: 'unseen',
      isCertain: false,
    });
    // One of the two may be the earlier read's own.
    expect(stateOf([...from, counted(3, 1)], [...to, counted(5, 2)])).toBe('not-known');
    expect(stateOf([...from, counted(3, 1)], [...to, counted(4, 3)])).toBe('not-known');
    expect(stateOf([...from, counted(3, 1)], [...to, counted(5, 3)], known({ resets: 'never' }))).toBe('kept');
    expect(stateOf([...from, counted(3, 1)], [...to, counted(5, 3)], known({ resets: 'service-read' }))).toBe('unseen');
    const by301 = (profile: PairOptions) => stateOf([...from, 'EA3*4***R1'], [...to, 'EA3*6***R1***R2'], profile);
    expect(by301({})).toBe('not-known');
    expect(by301(known({ ea301: 'reads-with-reset' }))).toBe('unseen');
  });

  it('takes counters that are lower, with no other read in between, for cleared by the earlier read', () => {
    const lower = ['VA1***300*3'];
    expect(judge(with309(from, 3), with309(lower, 4))).toMatchObject({ state: 'cleared', isCertain: true });
    expect(stateOf(with309(from, 3), with309(lower, 5))).toBe('not-known');
    expect(stateOf(with309(from, 3), with309(to, 4))).toBe('not-known');
  });
});

describe('judgeResetByCounters', () => {
  it('is the arithmetic alone', () => {
    const judgeBy = (from: string, to: string) => judgeResetByCounters(readOf('from', [from]), readOf('to', [to]));
    expect(judgeBy('VA1*5000*50*700*7', 'VA1*5300*53*300*3')).toBe('cleared');
    expect(judgeBy('VA1***700*7', 'VA1***300*3')).toBeNull();
  });
});

describe('hasIntervalFallen', () => {
  const hasFallen = (from: string[], to: string[]) => hasIntervalFallen(readOf('from', from), readOf('to', to));
  it('looks at totals and columns', () => {
    expect(hasFallen(['VA1***700'], ['VA1***300'])).toBe(true);
    expect(hasFallen(['VA1***700'], ['VA1***700'])).toBe(false);
    expect(hasFallen(['PA1*11', 'PA2***7'], ['PA1*11', 'PA2***3'])).toBe(true);
    expect(hasFallen(['PA1*11', 'PA2***7'], ['PA1*11'])).toBe(false);
  });
});
