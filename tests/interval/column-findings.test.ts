import { describe, expect, it } from 'vitest';
import { CABINET_CAUTIONS } from '../../src/findings/index.js';
import type { PlanRow } from '../../src/model/index.js';
import { Roster } from '../../src/sheets/index.js';
import { machineRow } from '../support/check-cases.js';
import { codesOf, intervalOf, messageOf } from '../support/interval-cases.js';

const rosterOf = (...plan: readonly Partial<PlanRow>[]): Roster => {
  const nothing = { product: null, price: null, cardPrice: null, par: null, capacity: null, from: null };
  const rows = plan.map((row) => ({
    machine: 'M1',
    column: '11',
    ...nothing,
    place: { file: 'plan.csv', row: 2 },
    ...row,
  }));
  return new Roster({ machines: [machineRow()], plan: rows });
};
const column = (price: number, sold: number, value: number, more: readonly string[] = []): string[] => [
  `VA1*${value}*${sold}`,
  `PA1*11*${price}`,
  `PA2*${sold}*${value}`,
  ...more,
];

describe('judgeColumns: prices', () => {
  it('notes a price that changed', () => {
    const interval = intervalOf(column(150, 100, 15_000), column(160, 100, 15_000));
    expect(interval.findings).toMatchObject([
      { code: 'price-changed', severity: 'note', element: 'PA102', column: '11' },
    ]);
    expect(interval.findings[0]!.message).toBe('Column 11: the price changed from 1.50 EUR to 1.60 EUR.');
  });

  it('tells a price off plan, what it cost, and what to do with its cautions', () => {
    const interval = intervalOf(column(150, 100, 15_000), column(150, 112, 16_800), {
      roster: rosterOf({ price: 160 }),
    });
    const [finding] = interval.findings;
    expect(finding).toMatchObject({ code: 'price-off-plan', severity: 'doubt', expected: '1.60', received: '1.50' });
    expect(finding!.message).toBe('Column 11 is priced 1.50 EUR, the plan says 1.60 EUR. This cost 1.20 EUR.');
    expect(finding!.advice).toBe('Set the price to 1.60 EUR and check the label, or correct the plan.');
    expect(finding!.cautions).toEqual(CABINET_CAUTIONS);
  });

  it('tells it with no sales too, since customers see the label', () => {
    const interval = intervalOf(column(150, 100, 15_000), column(150, 100, 15_000), {
      roster: rosterOf({ price: 160 }),
    });
    expect(messageOf(interval, 'price-off-plan')).toBe('Column 11 is priced 1.50 EUR, the plan says 1.60 EUR.');
  });

  it('tells what customers paid more', () => {
    const interval = intervalOf(column(150, 100, 15_000), column(150, 112, 16_800), {
      roster: rosterOf({ price: 140 }),
    });
    expect(messageOf(interval, 'price-off-plan')).toMatch(/Customers paid 1\.20 EUR more than planned\.$/);
  });

  it('tells sales off plan though the price is right now', () => {
    const interval = intervalOf(column(150, 100, 15_000), column(160, 112, 16_850), {
      roster: rosterOf({ price: 160 }),
    });
    expect(codesOf(interval)).toEqual(['price-changed', 'price-off-plan']);
    expect(messageOf(interval, 'price-off-plan')).toBe(
      'Column 11 was sold off plan in this interval, though it is priced as planned now. This cost 0.70 EUR.',
    );
  });

  it('does not claim more than it knows where the plan changed in between', () => {
    const roster = rosterOf({ price: 150 }, { price: 160, from: '2026-11-21' });
    const interval = intervalOf(column(150, 100, 15_000), column(150, 112, 16_800), { roster });
    expect(messageOf(interval, 'price-off-plan')).toMatch(/This cost up to 1\.20 EUR; the plan changed in between\.$/);
    const lower = rosterOf({ price: 150 }, { price: 140, from: '2026-11-21' });
    const dear = intervalOf(column(150, 100, 15_000), column(150, 112, 16_800), { roster: lower });
    expect(messageOf(dear, 'price-off-plan')).toMatch(
      /paid up to 1\.20 EUR more than planned; the plan changed in between\.$/,
    );
  });

  it('holds the card list against the card price, where the plan has one', () => {
    const cards = (price: number): string[] => column(150, 100, 15_000, [`PA7*11*DA*3*${price}*0*0`]);
    const roster = rosterOf({ price: 150, cardPrice: 170 });
    expect(messageOf(intervalOf(cards(165), cards(165), { roster }), 'price-off-plan')).toBe(
      'Column 11 is priced for cards 1.65 EUR, the plan says 1.70 EUR.',
    );
    expect(codesOf(intervalOf(cards(170), cards(170), { roster }))).not.toContain('price-off-plan');
    expect(codesOf(intervalOf(cards(165), cards(165), { roster: rosterOf({ price: 150 }) }))).not.toContain(
      'price-off-plan',
    );
    const both = intervalOf(cards(165), cards(165), { roster: rosterOf({ price: 160, cardPrice: 170 }) });
    expect(codesOf(both).filter((code) => code === 'price-off-plan')).toHaveLength(2);
  });

  it('gives figures as the machine has them where decimals are not known', () => {
    const bare = (sold: number, value: number): string[] => ['ID4', ...column(150, sold, value)];
    const interval = intervalOf(bare(100, 15_000), bare(100, 15_000), { roster: rosterOf({ price: 160 }) });
    expect(interval.findings[0]).toMatchObject({ expected: '160', received: '150' });
  });
});

describe('judgeColumns: money', () => {
  it('names money that fits no known price', () => {
    const interval = intervalOf(column(150, 100, 15_000), column(160, 110, 16_553));
    expect(messageOf(interval, 'price-mismatch')).toBe(
      'Column 11: 10 vends brought 15.53 EUR, 0.03 EUR more than known prices (1.50 EUR, 1.60 EUR) explain.',
    );
    const one = intervalOf(column(150, 100, 15_000), column(150, 101, 15_140));
    expect(messageOf(one, 'price-mismatch')).toBe(
      'Column 11: 1 vend brought 1.40 EUR, 0.10 EUR less than known prices (1.50 EUR) explain.',
    );
  });

  it('names the discounts that it went by', () => {
    const discounted = (sold: number, value: number, discounts: number): string[] => [
      `VA1*${value}*${sold}`,
      'PA1*11*150',
      `PA2*${sold}*${value}***1*${discounts}`,
    ];
    const interval = intervalOf(discounted(100, 15_000, 50), discounted(104, 15_570, 70));
    expect(messageOf(interval, 'price-mismatch')).toContain(
      'brought 5.70 EUR and 0.20 EUR of discounts, 0.10 EUR less than',
    );
  });

  it('says nothing of amounts where the money changed', () => {
    const interval = intervalOf(column(150, 100, 15_000), ['ID4*0*978*EUR', ...column(2, 101, 151)]);
    expect(codesOf(interval)).toEqual(['currency-changed']);
  });
});

describe('judgeColumns: come and gone', () => {
  const OTHER = ['PA1*12*90', 'PA2*50*4500'];

  it('tells a column that is only in the later read', () => {
    const to = ['VA1*15450*105', ...column(150, 100, 15_000, ['PA1*12*90', 'PA2*5*450']).slice(1)];
    expect(messageOf(intervalOf(column(150, 100, 15_000), to), 'column-appeared')).toBe(
      'Column 12 is only in the later read; it is taken to have started at 0.',
    );
  });

  it('tells where it did not start at 0', () => {
    const from = ['VA1*15000*100*750*5', 'PA1*11*150', 'PA2*100*15000*5*750', 'EA3*********4'];
    const to = (reset: number, count: number, interval: number): string[] => [
      `VA1*15300*102*${reset}*${count}`,
      'PA1*11*150',
      `PA2*102*15300*${count}*${reset}`,
      'PA1*12*90',
      `PA2*5000*450000*${interval}*${interval * 90}`,
      'EA3*********5',
    ];
    expect(messageOf(intervalOf(from, to(300, 2, 3)), 'column-appeared')).toContain(
      'its sales are those since the last reset',
    );
    const kept = intervalOf(from, to(1050, 7, 40));
    expect(messageOf(kept, 'column-appeared')).toContain(
      'it counted before that, so what it sold in between is not known',
    );
    expect(kept.columns[1]!.sold).toBeNull();
  });

  // From memory: a controller can be set to number its selections otherwise, and their counters stay as they are.
  it('leaves out what columns under new numbers counted before, as the totals of the machine show', () => {
    const read = (ids: readonly [string, string], sold: number): string[] => [
      `VA1*${48_000 + 240 * sold}*${400 + 2 * sold}`,
      `PA1*${ids[0]}*150`,
      `PA2*${100 + sold}*${15_000 + 150 * sold}`,
      'PA3*2*300',
      `PA1*${ids[1]}*90`,
      `PA2*${300 + sold}*${27_000 + 90 * sold}`,
      'PA3*0*0',
    ];
    const interval = intervalOf(read(['11', '12'], 0), read(['A1', 'A2'], 3));
    expect(interval.columns.slice(0, 2)).toMatchObject([
      { column: 'A1', sold: null, value: null, test: null },
      { column: 'A2', sold: null, value: null, test: 0 },
    ]);
    expect(interval.totals).toMatchObject({ sold: 6, value: 720 });
    expect(interval.findings.filter(({ code }) => code === 'column-appeared').map(({ message }) => message)).toEqual(
      ['A1', 'A2'].map(
        (id) =>
          `Column ${id} is only in the later read; it counted before that, so what it sold in between is not known.`,
      ),
    );
  });

  it.each([
    ['no totals of vends, but of ways of paying', 'CA2', []],
    ['a total that was never counted', 'CA2', ['VA1*0*0']],
  ])('goes by %s', (_what, segment, more) => {
    const from = [...more, `${segment}*15000*100`, 'PA1*11*150', 'PA2*100*15000'];
    const to = (sold: number, column: string): string[] => [
      ...more,
      `${segment}*${15_000 + 90 * sold}*${100 + sold}`,
      'PA1*11*150',
      'PA2*100*15000',
      column,
      'PA2*5*450',
    ];
    expect(intervalOf(from, to(5, 'PA1*12*90')).columns[1]).toMatchObject({ sold: 5, value: 450 });
    expect(intervalOf(from, to(4, 'PA1*12*90')).columns[1]).toMatchObject({ sold: null, value: null });
  });

  it('takes a new column to have started at 0 where no total tells otherwise', () => {
    const interval = intervalOf(['PA1*11*150', 'PA2*1*150'], ['PA1*11*150', 'PA2*1*150', 'PA1*12*90', 'PA2*5*450']);
    expect(interval.columns[1]).toMatchObject({ sold: 5, value: 450 });
  });

  it('tells a column that is only in the earlier read, and takes the sums from the machine', () => {
    const interval = intervalOf(column(150, 100, 15_000, OTHER), column(150, 104, 15_600));
    expect(messageOf(interval, 'column-gone')).toBe(
      'Column 12 is only in the earlier read; what it sold since then is not known.',
    );
    expect(interval.totals).toMatchObject({ sold: 4, value: 600 });
  });
});
