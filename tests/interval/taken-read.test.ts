import { describe, expect, it } from 'vitest';
import { isSameMoney, namesOfReads, placeIn } from '../../src/interval/taken-read.js';
import { machineRow } from '../support/check-cases.js';
import { takeSegments } from '../support/taken.js';

describe('namesOfReads', () => {
  it('has the names of all reads that say whose they are', () => {
    const names = namesOfReads([
      takeSegments(['ID1*S1*M****A1']),
      takeSegments(['ID1**M', 'CB1*B1']),
      takeSegments(['ID1*00']),
    ]);
    expect(['S1', 'B1', '00'].map((name) => names.find(name))).toEqual(['asset A1', 'board B1', null]);
  });
});

describe('isSameMoney', () => {
  const money = (id4: string) => takeSegments(['ID1*S1', id4]);
  it('is not where currency or decimals differ', () => {
    expect(isSameMoney(money('ID4*2*978*EUR'), money('ID4*2*978*EUR'))).toBe(true);
    expect(isSameMoney(money('ID4*2*978*EUR'), money('ID4*2*756*CHF'))).toBe(false);
    expect(isSameMoney(money('ID4*2*978*EUR'), money('ID4*0*978*EUR'))).toBe(false);
  });

  it('is where one of the two does not say', () => {
    expect(isSameMoney(money('ID4*2*978*EUR'), money('ID4*2'))).toBe(true);
    expect(isSameMoney(money('ID4'), money('ID4*2*978*EUR'))).toBe(true);
  });
});

describe('placeIn', () => {
  const taken = takeSegments(['ID1*S1', 'VA1*100*1'], { file: 'x.dex' });

  it('adds the file, and the machine where it is known', () => {
    expect(placeIn(taken, null)).toEqual({ file: 'x.dex', read: 0 });
    expect(placeIn({ ...taken, machine: machineRow({ machine: 'M7' }) }, null)).toEqual({
      file: 'x.dex',
      read: 0,
      machine: 'M7',
    });
  });

  it('leaves the value of a figure out', () => {
    const place = placeIn(taken, taken.read.figure('VA101'));
    expect(place).toMatchObject({ file: 'x.dex', element: 'VA101', segment: 'VA1', read: 0 });
    expect(place).not.toHaveProperty('value');
  });
});
