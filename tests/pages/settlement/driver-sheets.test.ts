import { describe, expect, it } from 'vitest';
import { divideByDriver } from '../../../src/pages/settlement/driver-sheets.js';
import { demoInputs } from '../../day/demo-day.js';

const [demo] = demoInputs('2026-11-23').settlements.settlements;

describe('the sheets of a settlement', () => {
  it('hold every visit once, with the sums of its driver', () => {
    const sheets = divideByDriver(demo!, () => 1, 3);
    expect(sheets.map(({ visits, part, parts }) => [visits.length, part, parts])).toEqual([
      [3, 1, 3],
      [3, 2, 3],
      [2, 3, 3],
    ]);
    expect(sheets.flatMap(({ visits }) => visits)).toEqual(demo!.visits);
    for (const { driver, totals } of sheets) expect({ driver, totals }).toEqual(demo!.drivers[0]);
  });

  it('give joint bags of several drivers to that of the later visit, as the sums do', () => {
    const joint = { ...demo!.visits[0]!, driver: 'B', drivers: ['A', 'B'] };
    const drivers = [...demo!.drivers, { driver: 'B', totals: demo!.totals }];
    const sheets = divideByDriver({ ...demo!, drivers, visits: [joint, demo!.visits[1]!] }, () => 1, 10);
    expect(sheets.map(({ driver, visits }) => [driver, visits.length])).toEqual([
      ['Robin Sample', 1],
      ['B', 1],
    ]);
  });
});
