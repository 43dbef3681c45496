import { describe, expect, it } from 'vitest';
import { traceFigure } from '../../src/explain/index.js';
import { checkTraces } from './check-traces.js';
import { pairInterval, partsOf } from './pair-interval.js';

const stepOf = (interval: ReturnType<typeof pairInterval>, id: string) => {
  checkTraces(interval);
  return traceFigure(interval, id)!.step;
};

describe('traces of totals', () => {
  it('add up the columns', () => {
    const before = ['PA1*11*100', 'PA2*1*100', 'PA1*12*200*Toffee', 'PA2*1*200'];
    const after = ['PA1*11*100', 'PA2*3*300', 'PA1*12*200*Toffee', 'PA2*2*400'];
    const step = stepOf(pairInterval(before, after), 'totals.value');
    expect([step.value, partsOf(step)]).toEqual([400, ['+200', '+200']]);
    expect(step.parts.map(({ label, ref }) => [label, ref])).toEqual([
      ['column 11', 'columns.11.value'],
      ['column 12, Toffee', 'columns.12.value'],
    ]);
  });

  it("take the machine's own total where a column is not known, or there are none", () => {
    const before = ['VA1*1000*10', 'PA1*11*100', 'PA2*500*100'];
    const after = ['VA1*1400*14', 'PA1*11*100', 'PA2*400*500'];
    const step = stepOf(pairInterval(before, after), 'totals.sold');
    expect([step.value, step.parts[0]!.place?.element]).toEqual([4, 'VA102']);
    expect(step.note).toMatch(/Not every column is known/);
    const bare = stepOf(pairInterval(['VA1*1000*10'], ['VA1*1400*14']), 'totals.value');
    expect([bare.value, bare.note]).toEqual([400, 'The reads have no columns.']);
  });

  it('name the columns that stand in the way', () => {
    const before = ['PA1*11*100', 'PA2*500*100', 'PA1*12*100', 'PA2*1*100'];
    const after = ['PA1*11*100', 'PA2*400*500', 'PA1*12*100', 'PA2*2*200'];
    const step = stepOf(pairInterval(before, after), 'totals.sold');
    expect(step.value).toBeNull();
    expect(step.parts.map(({ ref }) => ref)).toEqual(['columns.11.sold']);
    expect(stepOf(pairInterval(before, after), 'totals.unexplained').note).toMatch(/Not every column/);
    expect(stepOf(pairInterval(before, after), 'totals.loss').note).toMatch(/No column has what it takes/);
  });

  it('hold back a total in another money', () => {
    const step = stepOf(pairInterval(['VA1*1000*10'], ['ID4*2*840*USD', 'VA1*1400*14']), 'totals.value');
    expect([step.value, step.note]).toEqual([null, expect.stringMatching(/same money/)]);
  });
});
