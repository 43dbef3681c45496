import { describe, expect, it } from 'vitest';
import { bestTime, isSameMoney, machineKey, placeIn, readNumber } from '../../src/interval/taken-read.js';
import { machineRow } from '../support/check-cases.js';
import { takeSegments } from '../support/taken.js';

describe('machineKey', () => {
  const cases: readonly (readonly [segments: string[], key: string | null])[] = [
    [['ID1*S1*M****A1', 'CB1*B1'], 'asset A1'],
    [['ID1*S1*M', 'CB1*B1'], 'serial S1'],
    [['ID1**M', 'CB1*B1'], 'board B1'],
    [['ID1**M'], null],
    // Numbers that were never given to the machine tell it from no other (common practice).
    [['ID1*S1*M****000000'], 'serial S1'],
    [['ID1*0000*M****  ', 'CB1*B1'], 'board B1'],
    [['ID1*000*M****00', 'CB1*0'], null],
  ];
  for (const [segments, key] of cases) {
    it(`${segments.join(' ')}: ${key}`, () => expect(machineKey(takeSegments(segments))).toBe(key));
  }

  it('is the roster name where there is one', () => {
    expect(machineKey(takeSegments(['ID1*S1'], { ...{}, ...{ file: 'a' } }))).toBe('serial S1');
    const taken = { ...takeSegments(['ID1*S1']), machine: machineRow({ machine: 'M7' }) };
    expect(machineKey(taken)).toBe('machine M7');
  });
});

describe('readNumber', () => {
  it('takes zeros and spaces for no number', () => {
    expect(['A0', '100', '0', '00 0', '', ' ', null].map(readNumber)).toEqual([
      'A0',
      '100',
      null,
      null,
      null,
      null,
      null,
    ]);
  });
});

describe('bestTime', () => {
  it('is the time received, else the clock', () => {
    const segments = ['ID1*S1', 'ID5*261124*1015'];
    expect(bestTime(takeSegments(segments, { receivedAt: '2026-11-24T10:20:00' }))).toBe('2026-11-24T10:20:00');
    expect(bestTime(takeSegments(segments))).toBe('2026-11-24T10:15:00');
    expect(bestTime(takeSegments(['ID1*S1']))).toBeNull();
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
