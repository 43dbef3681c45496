import { describe, expect, it } from 'vitest';
import { measureCash } from '../../src/interval/cash-movement.js';
import { readTubes, tubeContents } from '../../src/interval/tubes.js';
import type { Profile } from '../../src/profile/index.js';
import { type PairOptions, pairOf, readOf } from '../support/interval-cases.js';

interface Moved {
  readonly dispensed: number;
  readonly byHand?: number | '';
  readonly filled?: number;
  readonly tubes: number | '';
  readonly changeBySales?: number | null;
}

/** Tubes that held 20.00 and took in 5.00, with what else happened. */
function read({ dispensed, byHand = 0, filled = 0, tubes, changeBySales = null }: Moved, options: PairOptions = {}) {
  const pair = pairOf(
    ['CA3*****9000*5000*1000*0', 'CA4***3000*200', 'CA10**700', 'CA15*2000'],
    [
      'CA3*****9500*5000*1500*0',
      `CA4***${3000 + dispensed}*${byHand === '' ? '' : 200 + byHand}`,
      `CA10**${700 + filled}`,
      `CA15*${tubes}`,
    ],
    options,
  );
  return readTubes(pair, { ...measureCash(pair), changeBySales });
}

describe('readTubes', () => {
  it('is what the tubes hold now less what they should: before + in − dispensed + filled', () => {
    expect(read({ dispensed: 300, filled: 400, tubes: 2600 })).toEqual({
      from: 2000,
      to: 2600,
      difference: 0,
      includesByHand: null,
      change: 300,
      either: null,
    });
    expect(read({ dispensed: 300, tubes: 2050 })).toMatchObject({ difference: -150, change: 300 });
    expect(read({ dispensed: 300, tubes: 2250 })).toMatchObject({ difference: 50 });
  });

  it('takes the reading of CA403 that closes (makers differ, from memory)', () => {
    expect(read({ dispensed: 300, byHand: 100, tubes: 2100 })).toMatchObject({
      includesByHand: false,
      difference: 0,
      change: 300,
    });
    expect(read({ dispensed: 400, byHand: 100, tubes: 2100 })).toMatchObject({
      includesByHand: true,
      difference: 0,
      change: 300,
    });
  });

  it('goes by the customers side first, which coins gone from the tubes do not touch', () => {
    // 1.00 by hand, in CA403; and 1.00 is gone from the tubes, so that the wrong reading would close.
    const included = { dispensed: 400, byHand: 100, tubes: 2000, changeBySales: 300 };
    expect(read(included)).toMatchObject({ includesByHand: true, difference: -100, change: 300 });
    const apart = { dispensed: 300, byHand: 100, tubes: 2200, changeBySales: 300 };
    expect(read(apart)).toMatchObject({ includesByHand: false, difference: 100, change: 300 });
  });

  it('follows a profile that says so', () => {
    const profile = (dispensedIncludesByHand: boolean): { profile: Profile } => ({
      profile: { name: 'p', dispensedIncludesByHand },
    });
    expect(read({ dispensed: 400, byHand: 100, tubes: 2100 }, profile(false))).toMatchObject({
      difference: 100,
      change: 400,
    });
    expect(read({ dispensed: 400, byHand: 100, tubes: 2000 }, profile(true))).toMatchObject({
      difference: -100,
      change: 300,
    });
    // It can not include more than it is.
    expect(read({ dispensed: 50, byHand: 100, tubes: 2000 }, profile(true))).toMatchObject({ change: null });
  });

  it('does not include by hand what is more than all of it', () => {
    expect(read({ dispensed: 50, byHand: 100, tubes: 2300 })).toMatchObject({
      includesByHand: false,
      difference: -50,
      change: 50,
    });
  });

  it('says both where nothing tells which', () => {
    expect(read({ dispensed: 400, byHand: 100, tubes: 2050 })).toMatchObject({
      difference: null,
      change: null,
      either: [50, -50],
    });
    expect(read({ dispensed: 400, byHand: 100, tubes: '' })).toMatchObject({
      difference: null,
      change: null,
      either: null,
    });
  });

  it('knows nothing where a counter is missing', () => {
    expect(read({ dispensed: 300, byHand: '', tubes: 2200 })).toMatchObject({ difference: null, change: null });
    const pair = pairOf(['CA15*2000'], ['CA15*2100']);
    expect(readTubes(pair, { ...measureCash(pair), changeBySales: null })).toMatchObject({
      from: 2000,
      to: 2100,
      change: null,
    });
  });

  it('holds no tubes against each other across a restart, though their levels hold', () => {
    const restarted = pairOf(
      ['VA1*900000*9000', 'CA3*****9000*5000*1000*0', 'CA4***3000*200', 'CA15*2000'],
      ['VA1*100*1', 'CB1*B2', 'CA3*****100*0*100*0', 'CA4***0*0', 'CA15*1500'],
    );
    const reading = readTubes(restarted, { ...measureCash(restarted), changeBySales: null });
    expect(reading).toMatchObject({ from: 2000, to: 1500, difference: null, change: 0 });
  });

  it('takes nothing from figures that do not cover the same time', () => {
    const pair = pairOf(
      ['CA3*****9000*5000*1000*0', 'CA4***3000*200', 'CA15*2000'],
      ['CA3*****9500*5000*1500*0', 'CA4***3400*300', 'CA15*2100'],
    );
    const moved = measureCash(pair);
    const floor = { ...moved, toTubes: { ...moved.toTubes, floor: true }, changeBySales: 300 };
    expect(readTubes(pair, floor)).toMatchObject({ difference: null, change: 300 });
    const mixed = { ...moved, byHand: { ...moved.byHand, floor: true }, changeBySales: 300 };
    expect(readTubes(pair, mixed)).toMatchObject({ change: null });
  });
});

describe('tubeContents', () => {
  const contents = (...segments: readonly string[]): number | null => tubeContents(readOf('to', segments).read);
  it('is what CA15 says, else the coins in every tube at their value', () => {
    expect(contents('CA15*2000', 'CA17*0*50*4')).toBe(2000);
    expect(contents('CA17*0*50*4', 'CA17*1*100*3')).toBe(500);
  });

  it('is not known where neither is given in full', () => {
    expect(contents()).toBeNull();
    expect(contents('CA15*x', 'CA17*0*50*4')).toBeNull();
    expect(contents('CA17*0*50*4', 'CA17*1*100')).toBeNull();
    expect(contents('CA17*0**4')).toBeNull();
  });
});
