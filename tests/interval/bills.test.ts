import { describe, expect, it } from 'vitest';
import { readBills } from '../../src/interval/bills.js';
import type { Profile } from '../../src/profile/index.js';
import { pairOf } from '../support/interval-cases.js';

const CASH = 'CA3****';
/** Bills between two reads, from what CA305 to CA310 hold at both. */
function read(from: string, to: string, options: { profile?: Profile; more?: readonly string[] } = {}) {
  const { more = [], ...rest } = options;
  const pair = pairOf([`${CASH}*${from}`, ...more], [`${CASH}*${to}`, ...more], rest);
  const bills = readBills(pair, {
    cashIn: pair.difference('CA305', 'CA301'),
    toCashBox: pair.difference('CA306', 'CA302'),
    toTubes: pair.difference('CA307', 'CA303'),
  });
  return { ...bills, said: bills.findings.map(({ code, message }) => `${code}: ${message}`) };
}

describe('readBills: CA310', () => {
  it('is a value', () => {
    const { value, how, said, difference } = read('9000*5000*1000*6*0*3000', '11500*6000*1500*8*0*4000');
    expect([value, how, said, difference!.element.name]).toEqual([1000, 'value', [], 'CA310']);
    expect(read('9000*5000*1000*6*0*3000', '9100*5100*1000*6*0*3000')).toMatchObject({ value: 0, how: 'none' });
  });

  it('stands without the cash-in counter', () => {
    expect(read('*5000*1000*6*0*3000', '*6000*1500*8*0*4000')).toMatchObject({ value: 1000, how: 'value' });
  });

  it('that does not fit cash in is told, and kept', () => {
    const { value, how, said } = read('9000*5000*1000*6*0*3000', '11700*6000*1500*8*0*4000');
    expect([value, how]).toEqual([1000, 'value']);
    expect(said).toEqual(['cash-split: Bills are 10.00 EUR, but cash in less box and tubes is 12.00 EUR.']);
    expect(read('9000*5000*1000**0*3000', '9100*5000*1000**0*3000')).toMatchObject({ value: 0, how: 'none' });
  });

  it('that does not move gives way to CA308 where that fits', () => {
    expect(read('9000*5000*1000*3000*0*0', '11500*6000*1500*4000*0*0')).toMatchObject({ value: 1000, how: 'value' });
  });
});

describe('readBills: CA308', () => {
  it('is a value where it is what is left of cash in', () => {
    const { value, how, said, difference } = read('9000*5000*1000*3000', '11500*6000*1500*4000');
    expect([value, how, said, difference!.element.name]).toEqual([1000, 'value', [], 'CA308']);
  });

  it('is a number where what is left, for each, lies between the smallest and largest bill (Crane Autobar Infinity, p. 33)', () => {
    const listed = { more: ['CA14*500', 'CA14*2000', 'CA14*0'] };
    const { value, how, said } = read('9000*5000*1000*6', '11500*6000*1500*8', listed);
    expect([value, how]).toEqual([1000, 'count']);
    expect(said).toEqual([
      'bills-as-count: The machine gives bills as a number (2); their value, 10.00 EUR, follows from cash in.',
    ]);
    expect(read('0*0*0*6', '4000*0*0*8', listed)).toMatchObject({ value: 4000, how: 'count' });
    expect(read('0*0*0*6', '4001*0*0*8', listed)).toMatchObject({ value: null, how: 'not-known' });
    expect(read('0*0*0*6', '999*0*0*8', listed)).toMatchObject({ value: null });
  });

  it('is no number where no so many bills of the machine, or notes of the currency, make what is left', () => {
    // 5 bills for 25.06 is no sum of notes; 3 for 30.00 is none of fives and twenties.
    expect(read('0*0*0*6', '2506*0*0*11')).toMatchObject({ value: null, how: 'not-known' });
    expect(read('0*0*0*6', '2506*0*0*11').said[0]).toMatch(/^cash-split: .*neither a value nor a number of bills fits/);
    expect(read('0*0*0*6', '3000*0*0*9')).toMatchObject({ value: 3000, how: 'count' });
    expect(read('0*0*0*6', '3100*0*0*9', { more: ['CA14*500', 'CA14*2000'] })).toMatchObject({ value: null });
    expect(read('0*0*0*6', '3000*0*0*9', { more: ['CA14*500', 'CA14*2000'] })).toMatchObject({ value: 3000 });
  });

  it('takes the bills listed at either read, since a machine that leaves zeros out lists those that came', () => {
    const pair = pairOf(['CA3*****0*0*0*6', 'CA14*2000'], ['CA3*****2500*0*0*8', 'CA14*500']);
    const moved = {
      cashIn: pair.difference('CA305', null),
      toCashBox: pair.difference('CA306', null),
      toTubes: pair.difference('CA307', null),
    };
    expect(readBills(pair, moved)).toMatchObject({ value: 2500, how: 'count' });
  });

  it('is held against the notes of the currency where the machine lists no bills', () => {
    expect(read('0*0*0*6', '1000*0*0*8')).toMatchObject({ value: 1000, how: 'count' });
    expect(read('0*0*0*6', '900*0*0*8')).toMatchObject({ value: null });
    expect(read('0*0*0*6', '1000*0*0*8', { more: ['ID4'] })).toMatchObject({ value: null });
    expect(read('0*0*0*6', '1000*0*0*8', { more: ['ID4*2**XYZ'] })).toMatchObject({ value: null });
  });

  it('at rest with nothing left says that no bills came', () => {
    expect(read('9000*5000*1000*6', '10500*6000*1500*6')).toMatchObject({ value: 0, how: 'none', findings: [] });
  });

  it('that fits neither is told with both', () => {
    const { value, said } = read('9000*5000*1000*3000', '11500*6000*1500*3700');
    expect(value).toBeNull();
    expect(said).toEqual([
      'cash-split: Bills moved by 700, but cash in less box and tubes is 10.00 EUR: neither a value nor a number of bills fits.',
    ]);
  });

  it('is what a profile says, and nothing else', () => {
    const [value, count] = [{ name: 'p', bills: 'value' } as const, { name: 'p', bills: 'count' } as const];
    expect(read('0*0*0*6', '1000*0*0*8', { profile: value })).toMatchObject({ value: null });
    expect(read('0*0*0*6', '1000*0*0*8', { profile: count })).toMatchObject({ value: 1000, how: 'count' });
    expect(read('0*0*0*1000', '1000*0*0*2000', { profile: count })).toMatchObject({ value: null });
  });

  it('without the cash-in counter can only be read by a profile', () => {
    const [value, count] = [{ name: 'p', bills: 'value' } as const, { name: 'p', bills: 'count' } as const];
    expect(read('*0*0*6', '*0*0*8', { profile: value })).toMatchObject({ value: 2, how: 'value' });
    expect(read('*0*0*6', '*0*0*8').said[0]).toContain('cannot be told whether that is a value or a number');
    expect(read('*0*0*6', '*0*0*8', { profile: count }).said[0]).toContain('2 bills came in; without the cash-in');
    expect(read('*0*0*6', '*0*0*6')).toMatchObject({ value: 0, how: 'none', findings: [] });
  });
});

describe('readBills: no counter that tells', () => {
  it('needs none where cash in is all in box and tubes', () => {
    expect(read('9000*5000*1000', '10500*6000*1500')).toMatchObject({ value: 0, how: 'none', findings: [] });
    expect(read('*5000*1000', '*6000*1500')).toMatchObject({ value: null, how: 'not-known', findings: [] });
  });

  it('says how much came in that went nowhere', () => {
    expect(read('9000*5000*1000', '11500*6000*1500').said[0]).toContain(
      '10.00 EUR came in that went neither to the box',
    );
  });

  it('takes a counter that went down for a setting that was changed, and no fault', () => {
    const changed = read('9000*5000*1000*3000', '10500*5500*1000*7', { more: ['VA1*1*1'] });
    expect([changed.value, changed.difference]).toEqual([null, null]);
    expect(changed.said[0]).toContain('(3000 then, 7 now)');
    expect(changed.said[0]).toContain('as if it had been set to give a number instead of a value');
    expect(read('9000*5000*1000*3000', '9500*5500*1000*7')).toMatchObject({ value: 0, how: 'none', difference: null });
  });

  it('tells a counter that came with nothing to show that it stood at 0', () => {
    expect(read('9000*5000*1000', '10500*5500*1000*7').said[0]).toMatch(
      /\(nothing then, 7 now\) does not tell what bills came\.$/,
    );
    expect(read('9000*5000*1000*7', '10500*5500*1000').said[0]).toContain('(7 then, nothing now)');
  });
});

describe('readBills: interval counters', () => {
  it('asks CA304 where the setting was changed and the earlier read cleared it', () => {
    const pair = pairOf(
      ['CA3*500*500*0*0*9000*5000*1000*3000', 'EA3*********4'],
      ['CA3*1500*500*0*2*10500*5500*1000*7', 'EA3*********5'],
    );
    const moved = {
      cashIn: pair.difference('CA305', null),
      toCashBox: pair.difference('CA306', null),
      toTubes: pair.difference('CA307', null),
    };
    expect(readBills(pair, moved)).toMatchObject({ value: 1000, how: 'count', difference: null });
  });

  it('takes no remainder of figures that cover different times', () => {
    const pair = pairOf(['CA3*****9000*5000*1000*3000'], ['CA3*****11500*6000*1500*4000']);
    const [cashIn, toCashBox, toTubes] = (['CA305', 'CA306', 'CA307'] as const).map((name) =>
      pair.difference(name, null),
    );
    const moved = { cashIn: cashIn!, toCashBox: toCashBox!, toTubes: toTubes! };
    expect(readBills(pair, { ...moved, toTubes: { ...toTubes!, floor: true } })).toMatchObject({ value: null });
    expect(readBills(pair, { ...moved, toCashBox: { ...toCashBox!, floor: true } })).toMatchObject({ value: null });
  });
});
