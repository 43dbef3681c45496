import { describe, expect, it } from 'vitest';
import { traceFigure } from '../../../src/explain/index.js';
import { layTrace } from '../../../src/report/index.js';
import { PLAIN_STYLE } from '../../../src/report/text/style.js';
import { pairInterval } from '../../explain/pair-interval.js';

const lay = (id: string, before: readonly string[], after: readonly string[], plan: readonly string[] = []) =>
  layTrace(traceFigure(pairInterval(before, after, { plan }), id)!, PLAIN_STYLE);
const COLUMN = (count: number, value: number) => ['PA1*11*150*Oat bar', `PA2*${count}*${value}`];

describe('layTrace', () => {
  it('shows the arithmetic with file, line and element of each value', () => {
    expect(lay('columns.11.sold', COLUMN(129, 19350), COLUMN(141, 21150))).toEqual([
      'columns.11.sold = 12',
      'Column 11, Oat bar: paid vends.',
      '',
      '    141  PA201 paid vends, number, since initialisation, at the later read',
      '         after.dex, line 6, PA201',
      '  - 129  PA201 paid vends, number, since initialisation, at the earlier read',
      '         before.dex, line 6, PA201',
      '  =  12',
    ]);
  });

  it('shows amounts with their currency, products with a cross, and other figures by name', () => {
    const lines = lay('columns.11.unexplained', ['PA1*11*150', 'PA2*0*0'], ['PA1*11*160', 'PA2*12*1850']);
    expect(lines[0]).toBe('columns.11.unexplained = 0.00 EUR');
    expect(lines.map((line) => line.trim())).toContain('figure columns.11.value');
    const at = lines.indexOf('  - 10.50  7 vends at their price');
    expect(lines.slice(at + 1, at + 4)).toEqual(['           7  vends', '      x 1.50  price', '      = 10.50']);
  });

  it('says why a figure is not known, and shows what there is', () => {
    const lines = lay('columns.11.sold', COLUMN(500, 500), COLUMN(400, 700));
    expect(lines[0]).toBe('columns.11.sold = not known');
    expect(lines[2]).toBe('The counter went down, and no cause was found.');
    expect(lines.at(-1)).toBe('  = not known');
  });

  it('shows figures that are no sums', () => {
    expect(lay('columns.11.pricePlan', COLUMN(1, 150), COLUMN(1, 150), ['11,1.50'])[0]).toBe(
      'columns.11.pricePlan = 1.50 EUR',
    );
    expect(lay('columns.11.loss', COLUMN(1, 150), COLUMN(1, 150), ['11,1.50']).join('\n')).toContain(
      'Nothing was sold off plan.',
    );
  });
});
