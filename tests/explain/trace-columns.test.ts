import { describe, expect, it } from 'vitest';
import { traceFigure } from '../../src/explain/index.js';
import { checkTraces } from './check-traces.js';
import { notesOf, pairInterval, partsOf } from './pair-interval.js';

const column = (price: number, count: number, value: number, more: readonly string[] = []): string[] => [
  `PA1*11*${price}*Oat bar`,
  `PA2*${count}*${value}`,
  ...more,
];
const stepOf = (interval: ReturnType<typeof pairInterval>, id: string) => {
  checkTraces(interval);
  return traceFigure(interval, id)!.step;
};

describe('traces of a column', () => {
  it('take the earlier counter from the later one', () => {
    const step = stepOf(pairInterval(column(150, 129, 19350), column(150, 141, 21150)), 'columns.11.sold');
    expect([step.value, partsOf(step)]).toEqual([12, ['+141', '-129']]);
    expect(step.parts.map(({ place }) => [place?.file, place?.element])).toEqual([
      ['after.dex', 'PA201'],
      ['before.dex', 'PA201'],
    ]);
  });

  it('add what a counter ran past', () => {
    const step = stepOf(pairInterval(column(150, 9995, 500), column(150, 3, 1700)), 'columns.11.sold');
    expect([step.value, partsOf(step)]).toEqual([8, ['+3', '-9995', '+10000']]);
    expect(step.parts[2]!.label).toMatch(/ran past its last digit/);
  });

  it('say why a figure is not known', () => {
    const noteOf = (before: string[], after: string[], id: string) =>
      notesOf(stepOf(pairInterval(before, after), id))[0];
    expect(noteOf(column(150, 500, 500), column(150, 400, 700), 'columns.11.sold')).toMatch(/went down, and no cause/);
    expect(noteOf(column(150, 5, 500), ['PA1*11*150'], 'columns.11.sold')).toMatch(/not have this counter any more/);
    expect(noteOf(['PA1*11*150'], column(150, 5, 500), 'columns.11.sold')).toMatch(/nothing shows that it stood at 0/);
    expect(noteOf(column(150, 5, 500), column(150, 6, 650), 'columns.11.test')).toMatch(
      /Neither read has this counter/,
    );
    expect(noteOf(['PA1*11*150'], ['PA1*11*150'], 'columns.11.unexplained')).toMatch(/cannot be judged/);
    expect(noteOf(column(150, 5, 500), column(150, 6, 650), 'columns.11.pricePlan')).toMatch(/No plan gives a price/);
    expect(noteOf(column(150, 5, 500), column(150, 6, 650), 'columns.11.loss')).toMatch(/not known/);
    expect(noteOf(['PA1*11'], ['PA1*11'], 'columns.11.priceTo')).toMatch(/part of it is not known/);
  });

  it('count a new column from 0, and say so', () => {
    const step = stepOf(
      pairInterval(['PA1*12*100', 'PA2*1*100'], [...column(150, 4, 600), 'PA1*12*100', 'PA2*1*100']),
      'columns.11.sold',
    );
    expect([step.value, partsOf(step), step.note]).toEqual([
      4,
      ['+4'],
      'The earlier read does not have it; it stood at 0 then.',
    ]);
  });

  it('give nothing for a column that is gone', () => {
    const interval = pairInterval([...column(150, 4, 600), 'PA1*12*100', 'PA2*1*100'], ['PA1*12*100', 'PA2*1*100']);
    expect(stepOf(interval, 'columns.11.sold').value).toBeNull();
    expect(stepOf(interval, 'columns.11.priceTo').value).toBeNull();
    expect(stepOf(interval, 'columns.11.priceFrom').value).toBe(150);
  });

  it('explain value by vends at their prices', () => {
    const changed = stepOf(pairInterval(column(150, 0, 0), column(160, 12, 1850)), 'columns.11.unexplained');
    expect(partsOf(changed)).toEqual(['+1850', '-1050', '-800']);
    expect(changed.parts[1]!.parts.map(({ value }) => value)).toEqual([7, 150]);
    const mismatch = stepOf(pairInterval(column(150, 1, 150), column(150, 3, 430)), 'columns.11.unexplained');
    expect([mismatch.value, partsOf(mismatch)]).toEqual([-20, ['+280', '-300']]);
  });

  it('put discounts back', () => {
    const before = ['PA1*11*150', 'PA2*0*0*0*0*0*0*0*0'];
    const after = ['PA1*11*150', 'PA2*3*400*3*400*1*50*1*50'];
    const step = stepOf(pairInterval(before, after), 'columns.11.unexplained');
    expect(partsOf(step)).toEqual(['+400', '+50', '-450']);
  });

  it('tell price lists apart', () => {
    const before = ['PA1*11*150', 'PA2*10*1500', 'PA7*11*CA*0*150*6*900', 'PA7*11*DA*1*130*4*520'];
    const after = ['PA1*11*150', 'PA2*15*2230', 'PA7*11*CA*0*150*9*1350', 'PA7*11*DA*1*130*6*780'];
    const step = stepOf(pairInterval(before, after, { plan: ['11,1.50'] }), 'columns.11.unexplained');
    expect(step.value).not.toBeNull();
  });

  it('reckon what prices off plan cost', () => {
    const one = pairInterval(column(140, 0, 0), column(140, 6, 840), { plan: ['11,1.50'] });
    expect([stepOf(one, 'columns.11.loss').value, partsOf(stepOf(one, 'columns.11.loss'))]).toEqual([
      60,
      ['+900', '-840'],
    ]);
    expect(stepOf(one, 'totals.loss').value).toBe(60);
    const none = pairInterval(column(150, 0, 0), column(150, 6, 900), { plan: ['11,1.50'] });
    expect(stepOf(none, 'columns.11.loss')).toMatchObject({ value: 0, note: 'Nothing was sold off plan.' });
    expect(stepOf(none, 'columns.11.pricePlan')).toMatchObject({ how: 'sheet', value: 150 });
    const discounted = ['PA1*11*140', 'PA2*3*370*3*370*1*50*1*50'];
    const with50 = pairInterval(['PA1*11*140', 'PA2*0*0*0*0*0*0*0*0'], discounted, { plan: ['11,1.50'] });
    expect(partsOf(stepOf(with50, 'columns.11.loss'))).toEqual(['+450', '-370', '-50']);
  });

  it('say so where what it cost was reckoned share by share', () => {
    // Cash list as planned, card list without a planned price: only the cash list is judged.
    const before = ['PA1*11*150', 'PA2*10*1400', 'PA7*11*CA*0*140*5*700', 'PA7*11*DA*1*140*5*700'];
    const after = ['PA1*11*140', 'PA2*14*1960', 'PA7*11*CA*0*140*7*980', 'PA7*11*DA*1*140*7*980'];
    const step = stepOf(pairInterval(before, after, { plan: ['11,1.50'] }), 'columns.11.loss');
    expect(step.value).not.toBeNull();
    if (step.how === 'constant') expect(step.note).toMatch(/Share by share/);
  });
});
