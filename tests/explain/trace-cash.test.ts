import { describe, expect, it } from 'vitest';
import { traceFigure } from '../../src/explain/index.js';
import { checkTraces } from './check-traces.js';
import { notesOf, pairInterval, partsOf } from './pair-interval.js';

const stepOf = (interval: ReturnType<typeof pairInterval>, id: string) => {
  checkTraces(interval);
  return traceFigure(interval, id)!.step;
};
/** CA3 with lifetime counters only: cash in, to box, to tubes, bills (CA308), bills (CA310). */
const ca3 = (cashIn: number, box: number, tubes: number, bills: number | '' = '', stated: number | '' = ''): string =>
  `CA3*****${cashIn}*${box}*${tubes}*${bills}**${stated}`;

describe('traces of cash', () => {
  it('take the earlier counter from the later one', () => {
    const step = stepOf(pairInterval([ca3(1000, 600, 400)], [ca3(1500, 900, 600)]), 'cash.toCashBox');
    expect([step.value, partsOf(step)]).toEqual([300, ['+900', '-600']]);
  });

  it('say why a counter is not known', () => {
    const step = stepOf(pairInterval([], []), 'cash.cashIn');
    expect([step.how, step.note]).toEqual(['unknown', 'Neither read has this counter; absent is not zero.']);
    expect(stepOf(pairInterval([], []), 'cash.cardSales').note).toMatch(/no such counter/);
  });

  it('take bills from their own counter, or from what cash in leaves over', () => {
    const stated = stepOf(pairInterval([ca3(0, 0, 0, '', 0)], [ca3(1500, 500, 0, '', 1000)]), 'cash.bills');
    expect([stated.value, stated.parts[0]!.place?.element]).toEqual([1000, 'CA310']);
    const value = stepOf(pairInterval([ca3(0, 0, 0, 0)], [ca3(1500, 500, 0, 1000)]), 'cash.bills');
    expect([value.value, value.parts[0]!.place?.element]).toEqual([1000, 'CA308']);
    const number = stepOf(pairInterval([ca3(0, 0, 0, 0)], [ca3(1500, 500, 0, 2)]), 'cash.bills');
    expect([number.value, partsOf(number), notesOf(number)[0]]).toEqual([
      1000,
      ['+1500', '-500', '-0'],
      'The machine gives bills as a number (2); their value follows from cash in.',
    ]);
    const none = stepOf(pairInterval([ca3(0, 0, 0)], [ca3(500, 500, 0)]), 'cash.bills');
    expect([none.value, none.note]).toEqual([0, 'No counter says it; it follows from cash in.']);
    const neither = stepOf(pairInterval([ca3(0, 0, 0, 0)], [ca3(1500, 500, 0, 7)]), 'cash.bills');
    expect([neither.value, neither.note]).toEqual([null, expect.stringMatching(/findings say which/)]);
  });

  it('leave coins dispensed by hand out of the change', () => {
    const before = [ca3(0, 0, 0), 'CA4***1000*0', 'CA15*5000', 'CA2*0*0'];
    const included = [ca3(0, 0, 0), 'CA4***1300*200', 'CA15*4700', 'CA2*0*0'];
    const step = stepOf(pairInterval(before, included), 'cash.dispensed');
    expect([step.value, partsOf(step)]).toEqual([100, ['+300', '-200']]);
    const apart = [ca3(0, 0, 0), 'CA4***1300*200', 'CA15*4500', 'CA2*0*0'];
    expect(partsOf(stepOf(pairInterval(before, apart), 'cash.dispensed'))).toEqual(['+300']);
    expect(partsOf(stepOf(pairInterval(before, apart), 'cash.tubeDifference'))).toHaveLength(6);
    expect(stepOf(pairInterval([], []), 'cash.dispensed').value).toBeNull();
  });

  it('add up the coins of the tubes where their total is not given', () => {
    const tubes = ['CA17*0*10*73', 'CA17*1*20*69'];
    const step = stepOf(pairInterval(tubes, ['CA17*0*10*70', 'CA17*1*20*60']), 'cash.tubesTo');
    expect([step.value, partsOf(step)]).toEqual([1900, ['+700', '+1200']]);
    expect(step.parts[0]!.parts.map(({ value, unit, place }) => [value, unit, place?.element])).toEqual([
      [10, 'money', 'CA1702'],
      [70, 'count', 'CA1703'],
    ]);
    expect(stepOf(pairInterval(tubes, []), 'cash.tubesTo')).toMatchObject({
      value: null,
      note: expect.stringMatching(/does not say/),
    });
    expect(stepOf(pairInterval(['CA15*500'], ['CA15*700']), 'cash.tubesFrom').parts[0]!.place?.element).toBe('CA1501');
  });

  it('set cash in against sales, change and overpayment', () => {
    const before = [ca3(0, 0, 0), 'CA2*0*0', 'CA4***0*0', 'CA8*0*0', 'CA15*1000', 'DA4*0*0'];
    const after = [ca3(1000, 600, 400), 'CA2*700*7', 'CA4***200*0', 'CA8*0*50', 'CA15*1200', 'DA4*50*0'];
    const step = stepOf(pairInterval(before, after), 'cash.customerDifference');
    expect([step.value, partsOf(step)]).toEqual([0, ['+1000', '-700', '-50', '-50', '-200']]);
  });

  // "Cash sale" option: Evoca 9200 manual p. 87, N&W Opera Touch manual p. 65.
  it('say so where cash sales are booked as card sales', () => {
    const before = [ca3(0, 0, 0), 'CA2*0*0', 'CA4***0*0', 'DA2*0*0', 'CA15*1000'];
    const after = [ca3(1000, 600, 400), 'CA2*0*0', 'CA4***200*0', 'DA2*900*9', 'CA15*1200'];
    const step = stepOf(pairInterval(before, after), 'cash.customerDifference');
    expect([step.value, step.note]).toEqual([null, expect.stringMatching(/books cash sales as card sales/)]);
  });

  it('take nothing from one currency to another, though the digits are there', () => {
    const after = ['ID4*2*840*USD', ca3(1500, 900, 600), 'PA1*11*100', 'PA2*5*500', 'DA2*100*1', 'CA15*900'];
    const before = [ca3(1000, 600, 400), 'PA1*11*100', 'PA2*1*100', 'DA2*50*1', 'CA15*500'];
    const interval = pairInterval(before, after);
    for (const id of ['cash.cashIn', 'cash.cardSales', 'columns.11.value']) {
      expect([id, stepOf(interval, id)]).toMatchObject([
        id,
        { value: null, note: expect.stringMatching(/same money/) },
      ]);
    }
    expect(stepOf(interval, 'columns.11.sold').value).toBe(4);
    expect(stepOf(interval, 'cash.tubesTo').value).toBe(900);
  });
});
