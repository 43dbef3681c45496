import { describe, expect, it } from 'vitest';
import { endOfDay, lastReadAt, moneyOfMachine, stretchesInMoney } from '../../src/attention/machine-day.js';
import { machineRow } from '../support/check-cases.js';
import { takeSegments } from '../support/taken.js';
import { machineDay } from './machine-days.js';
import { stretch } from './stretches.js';

const read = (id4: string, options = {}) => takeSegments(['ID1*S1*M****A1', `ID4*${id4}`, 'ID5*261123*0800'], options);
const named = (row: ReturnType<typeof machineRow> | null) => ({
  name: 'M1',
  row,
  location: null,
  route: null,
  driver: null,
});

describe('moneyOfMachine', () => {
  it('is that of its last read, else of its row on the roster, with the decimals of ISO 4217', () => {
    expect(moneyOfMachine(machineDay({ latest: read('0*392*JPY') }))).toEqual({ currency: 'JPY', decimals: 0 });
    expect(moneyOfMachine(machineDay())).toEqual({ currency: 'EUR', decimals: 2 });
    const yen = machineRow({ currency: 'JPY' });
    expect(moneyOfMachine(machineDay({ name: named(yen) }))).toEqual({ currency: 'JPY', decimals: 0 });
    const odd = machineRow({ currency: 'EUR', decimals: 1 });
    expect(moneyOfMachine(machineDay({ name: named(odd) }))).toEqual({ currency: 'EUR', decimals: 1 });
    expect(moneyOfMachine(machineDay({ name: named(null) }))).toEqual({ currency: null, decimals: null });
  });
});

describe('stretchesInMoney', () => {
  it('leaves out what was counted in another money', () => {
    const stretches = [stretch(0, 60), stretch(60, 120, { currency: 'CHF' }), stretch(120, 180, { decimals: 3 })];
    expect(stretchesInMoney(machineDay({ stretches }))).toEqual([stretches[0]]);
  });
});

describe('lastReadAt', () => {
  it('is when its last usable read came, else the end of what is known', () => {
    expect(lastReadAt(machineDay({ latest: read('2*978*EUR') }))).toBe('2026-11-23T08:00:00');
    expect(lastReadAt(machineDay({ latest: read('2*978*EUR', { receivedAt: '2026-11-23T08:01:00' }) }))).toBe(
      '2026-11-23T08:01:00',
    );
    expect(lastReadAt(machineDay({ stretches: [stretch(0, 60)] }))).toBe('2026-10-01T01:00:00');
    expect(lastReadAt(machineDay())).toBeNull();
  });
});

describe('endOfDay', () => {
  it('is its last second', () => {
    expect(endOfDay('2026-11-23')).toBe('2026-11-23T23:59:59');
  });
});
