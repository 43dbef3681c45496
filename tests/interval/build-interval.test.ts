import { describe, expect, it } from 'vitest';
import { buildInterval } from '../../src/interval/index.js';
import type { PlanRow } from '../../src/model/index.js';
import { Roster } from '../../src/sheets/index.js';
import { machineRow } from '../support/check-cases.js';
import { codesOf, intervalOf, readOf } from '../support/interval-cases.js';

const BEFORE = ['VA1*20000*150', 'VA2*300*3', 'VA3*100*1', 'PA1*11*150', 'PA2*100*15000', 'PA1*12*100', 'PA2*50*5000'];
const AFTER = ['VA1*20500*154', 'VA2*400*4', 'VA3*100*1', 'PA1*11*150', 'PA2*102*15300', 'PA1*12*100', 'PA2*52*5200'];

const planRow = (column: string, price: number): PlanRow => ({
  machine: 'M1',
  column,
  product: null,
  price,
  cardPrice: null,
  par: null,
  capacity: null,
  from: null,
  place: { file: 'plan.csv', row: 2 },
});

describe('buildInterval', () => {
  it('gives the columns in the order of the later read, then those that are gone', () => {
    const to = ['VA1*20500*154', 'PA1*12*100', 'PA2*52*5200', 'PA1*13*90', 'PA2*1*90'];
    expect(intervalOf(BEFORE, to).columns.map(({ column }) => column)).toEqual(['12', '13', '11']);
  });

  it('adds up columns', () => {
    expect(intervalOf(BEFORE, AFTER).totals).toMatchObject({ sold: 4, value: 500, unexplained: 0, loss: null });
  });

  it('takes the machine own totals where columns do not say', () => {
    expect(intervalOf(BEFORE, AFTER).totals).toMatchObject({ test: 1, free: 0 });
    expect(intervalOf(['VA1*20000*150'], ['VA1*20500*154']).totals).toMatchObject({
      sold: 4,
      value: 500,
      unexplained: null,
    });
  });

  it('adds up what prices off plan cost, over the columns that have a plan', () => {
    const roster = new Roster({ machines: [machineRow()], plan: [planRow('11', 160), planRow('99', 1)] });
    expect(intervalOf(BEFORE, AFTER, { roster }).totals.loss).toBe(20);
  });

  it('has nobody to ask for a plan where the machine is not known', () => {
    const roster = new Roster({ plan: [planRow('11', 160)] });
    expect(intervalOf(BEFORE, AFTER, { roster }).totals.loss).toBeNull();
  });

  it('takes the plan by date, and without a date only a plan that always held', () => {
    const roster = new Roster({ machines: [machineRow()], plan: [{ ...planRow('11', 160), from: '2026-11-21' }] });
    expect(intervalOf(BEFORE, AFTER, { roster }).columns[0]).toMatchObject({ pricePlan: 160, pricePlanFrom: null });
    expect(intervalOf(BEFORE, ['ID5', ...AFTER], { roster }).columns[0]).toMatchObject({ pricePlan: null });
  });

  it('says clocks, money and both reads', () => {
    const interval = intervalOf(BEFORE, AFTER);
    expect(interval).toMatchObject({
      clockFrom: '2026-11-20T10:00:00',
      clockTo: '2026-11-21T10:00:00',
      currency: 'EUR',
      decimals: 2,
      basis: 'lifetime',
      floor: false,
    });
    expect([interval.from.file, interval.to.file]).toEqual(['from.dex', 'to.dex']);
  });

  it('takes no amount of one money from that of another, but counts hold', () => {
    const cash = ['CA3*****100*100*0*0', 'CA15*500'];
    const interval = intervalOf([...BEFORE, ...cash], ['ID4*2*756*CHF', ...AFTER, ...cash]);
    expect(interval.totals).toEqual({ sold: 4, value: null, test: 1, free: 0, loss: null, unexplained: null });
    expect(interval.columns[0]).toMatchObject({ sold: 2, value: null, priceFrom: null, priceTo: 150, split: [] });
    expect(interval.cash).toMatchObject({ cashIn: null, tubesFrom: null, tubesTo: 500, isCashBookedAsCard: false });
    expect(codesOf(interval)).toEqual(['currency-changed']);
  });

  it('gives findings the weight that a profile says', () => {
    const profile = { name: 'p', severities: { 'price-changed': 'doubt' } } as const;
    const to = AFTER.map((segment) => (segment === 'PA1*12*100' ? 'PA1*12*110' : segment));
    expect(intervalOf(BEFORE, to, { profile }).findings[0]).toMatchObject({ code: 'price-changed', severity: 'doubt' });
  });

  it('refuses one read twice', () => {
    const taken = readOf('from', BEFORE);
    expect(() => buildInterval(taken, taken, new Roster())).toThrow(RangeError);
  });
});

describe('buildInterval: basis and floor', () => {
  const every = { profile: { name: 'p', resets: 'every-read' } } as const;

  it('is interval where what was sold rests on interval counters', () => {
    const segments = (sold: number): string[] => [
      'PA1*11*150',
      `PA2*0*0*${sold}*${sold * 150}`,
      'PA1*12*100',
      'PA2*0*0*0*0',
    ];
    expect(intervalOf(segments(5), segments(3), every)).toMatchObject({ basis: 'interval', floor: true });
    expect(intervalOf(segments(0), segments(0), every)).toMatchObject({ basis: 'interval' });
  });

  it('is that of the machine own totals where there are no columns', () => {
    expect(intervalOf(['CA3*700'], ['CA3*300'], every).basis).toBe('interval');
    expect(intervalOf([], []).basis).toBe('lifetime');
  });

  it('is restart, and a floor, where counters started again', () => {
    const restarted = ['CB1*B2', 'VA1*300*2', 'PA1*11*150', 'PA2*2*300'];
    expect(intervalOf(BEFORE, restarted)).toMatchObject({ basis: 'restart', floor: true, totals: { sold: 2 } });
  });

  it('is lifetime, and a floor, where they go on on a board that is said to be new', () => {
    const kept = (vends: number, since: number): string[] => [
      `VA1*${vends * 100}*${vends}*${since * 100}*${since}`,
      'PA1*11*100',
      `PA2*${vends}*${vends * 100}`,
    ];
    expect(intervalOf(kept(500, 7), ['CB1*B2', ...kept(503, 3)])).toMatchObject({
      basis: 'lifetime',
      floor: true,
      totals: { sold: 3 },
    });
  });

  it('gives no figure where the restart is not clear', () => {
    const interval = intervalOf(['VA1*20000*150'], ['CB1*B2', 'VA1*90000*900']);
    expect(interval).toMatchObject({ basis: 'restart', floor: true, totals: { sold: null, value: null } });
    expect(codesOf(interval)).toEqual(['board-changed']);
  });
});
