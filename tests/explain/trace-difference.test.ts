import { describe, expect, it } from 'vitest';
import { traceFigure } from '../../src/explain/index.js';
import { checkTraces } from './check-traces.js';
import { notesOf, pairInterval } from './pair-interval.js';

const stepOf = (interval: ReturnType<typeof pairInterval>, id: string) => {
  checkTraces(interval);
  return traceFigure(interval, id)!.step;
};

describe('traces of differences say what they rest on:', () => {
  it('counters since the last reset, for want of others', () => {
    const before = ['VA1***0*0', 'PA1*11*100', 'PA2***0*0'];
    const step = stepOf(pairInterval(before, ['VA1***300*3', 'PA1*11*100', 'PA2***3*300']), 'columns.11.sold');
    expect([step.value, notesOf(step)[0]]).toEqual([
      3,
      expect.stringMatching(/for want of one since initialisation; the earlier read left it at 0/),
    ]);
  });

  it('that nobody can tell who cleared them', () => {
    const step = stepOf(pairInterval(['PA1*11*100', 'PA2***5*500'], ['PA1*11*100', 'PA2***8*800']), 'columns.11.sold');
    expect([step.value, step.note]).toEqual([null, expect.stringMatching(/cannot be told who cleared/)]);
  });

  it('a floor', () => {
    const step = stepOf(pairInterval(['PA1*11*100', 'PA2***9*900'], ['PA1*11*100', 'PA2***3*300']), 'columns.11.sold');
    expect([step.value, notesOf(step)[0]]).toEqual([3, expect.stringMatching(/The true figure may be higher/)]);
  });

  it('counters that started again', () => {
    const columns = (count: number) => ['PA1*11*100', `PA2*${count}*${count * 100}`];
    const before = ['CB1*OLD', 'VA1*100000*1000', ...columns(500)];
    const step = stepOf(pairInterval(before, ['CB1*NEW', 'VA1*300*3', ...columns(3)]), 'columns.11.sold');
    expect([step.value, notesOf(step)[0]]).toEqual([3, expect.stringMatching(/started again/)]);
  });

  it('zero segments that are left out', () => {
    const before = ['PA1*11*100', 'PA2*0*0', 'PA1*12*100', 'PA2*5*500', 'PA1*13*100'];
    const after = ['PA1*11*100', 'PA1*12*100', 'PA2*7*700', 'PA1*13*100'];
    const step = stepOf(pairInterval(before, after), 'columns.11.sold');
    if (step.value === 0) expect(step.note).toMatch(/still 0/);
    else expect(step.note).toMatch(/not have this counter any more/);
  });
});
