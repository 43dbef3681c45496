import { describe, expect, it } from 'vitest';
import type { PlanRow } from '../../src/model/index.js';
import { Roster } from '../../src/sheets/index.js';
import { machineRow } from '../support/check-cases.js';
import { intervalOf } from '../support/interval-cases.js';

function planRow(given: Partial<PlanRow>): PlanRow {
  const place = { file: 'plan.csv', row: 2 };
  const nothing = { product: null, price: null, cardPrice: null, par: null, capacity: null, from: null };
  return { machine: 'M1', column: '11', ...nothing, place, ...given };
}
const rosterOf = (...plan: readonly Partial<PlanRow>[]): Roster =>
  new Roster({ machines: [machineRow({ currency: 'EUR', decimals: 2 })], plan: plan.map(planRow) });

const BEFORE = ['VA1*15000*100', 'PA1*11*150*COLA', 'PA2*100*15000***2*50', 'PA3*4*600', 'PA4*2*300'];
const AFTER = ['VA1*16820*112', 'PA1*11*160*COLA', 'PA2*112*16820***3*80', 'PA3*5*750', 'PA4*2*300'];

describe('measureColumn', () => {
  it('gives sales, prices, split, test and free vends', () => {
    const [column] = intervalOf(BEFORE, AFTER).columns;
    expect(column).toMatchObject({
      column: '11',
      product: 'COLA',
      sold: 12,
      value: 1820,
      discounts: 30,
      priceFrom: 150,
      priceTo: 160,
      cardPriceTo: null,
      pricePlan: null,
      pricePlanFrom: null,
      cardPricePlan: null,
      split: [
        { count: 7, price: 150 },
        { count: 5, price: 160 },
      ],
      unexplained: 0,
      test: 1,
      free: 0,
      loss: null,
      basis: 'lifetime',
      floor: false,
      inFrom: true,
      inTo: true,
    });
    expect([column!.soldDifference.from, column!.valueDifference.to, column!.testDifference.value]).toEqual([
      100, 16_820, 1,
    ]);
  });

  it('takes the plan in force at either read', () => {
    const roster = rosterOf({ price: 150, product: 'Cola' }, { price: 160, from: '2026-11-21', product: 'Cola 0.33' });
    const [column] = intervalOf(BEFORE, AFTER, { roster }).columns;
    expect(column).toMatchObject({ product: 'Cola 0.33', pricePlan: 160, pricePlanFrom: 150, loss: 0 });
  });

  it('takes the product of the earlier plan or read where the later says none', () => {
    const bare = AFTER.map((segment) => (segment.startsWith('PA1') ? 'PA1*11*160' : segment));
    expect(intervalOf(BEFORE, bare).columns[0]!.product).toBe('COLA');
    expect(intervalOf(BEFORE.slice(0, 1), ['PA1*11*160']).columns[0]!.product).toBeNull();
    const gone = intervalOf(BEFORE, ['VA1*1*1'], { roster: rosterOf({ price: 150, product: 'Cola' }) });
    expect(gone.columns[0]).toMatchObject({ product: 'Cola', inTo: false, sold: null, priceTo: null, priceFrom: 150 });
  });

  it('holds no plan against other money than the roster has', () => {
    for (const money of [{ currency: 'CHF' }, { decimals: 0 }]) {
      const machines = [machineRow({ currency: 'EUR', decimals: 2, ...money })];
      const roster = new Roster({ machines, plan: [planRow({ price: 150, product: 'Cola' })] });
      expect(intervalOf(BEFORE, AFTER, { roster }).columns[0]).toMatchObject({
        product: 'Cola',
        pricePlan: null,
        loss: null,
      });
    }
  });

  it('looks up what cards pay where a card price is planned', () => {
    const cards = (price: number): string[] => [...AFTER, `PA7*11*DA*3*${price}`, 'DA2*1*1'];
    const roster = rosterOf({ price: 160, cardPrice: 170 });
    expect(intervalOf(BEFORE, cards(165), { roster }).columns[0]).toMatchObject({
      cardPricePlan: 170,
      cardPriceTo: 165,
    });
    expect(intervalOf(BEFORE, cards(165)).columns[0]).toMatchObject({ cardPricePlan: null, cardPriceTo: null });
  });

  it('explains by the planned card price only where the machine has a card reader', () => {
    const segments = (sold: number, value: number, more: string[] = []): string[] => [
      'VA1*15000*100',
      'PA1*11*150',
      `PA2*${sold}*${value}`,
      ...more,
    ];
    const roster = rosterOf({ price: 150, cardPrice: 160 });
    const to = segments(105, 15_770);
    expect(intervalOf(segments(100, 15_000), to, { roster }).columns[0]!.unexplained).toBe(20);
    for (const reader of ['DA2*1*1', 'DB2*1*1']) {
      expect(intervalOf(segments(100, 15_000), [...to, reader], { roster }).columns[0]!.unexplained).toBe(0);
    }
  });

  it('is a floor where any of its figures is', () => {
    const every = { profile: { name: 'p', resets: 'every-read' } } as const;
    const [column] = intervalOf(['PA1*11*150', 'PA2***5*750'], ['PA1*11*150', 'PA2***3*450'], every).columns;
    expect(column).toMatchObject({ sold: 3, value: 450, floor: true, basis: 'interval' });
  });
});
