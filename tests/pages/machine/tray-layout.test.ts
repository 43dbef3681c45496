import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layOutTrays } from '../../../src/pages/machine/tray-layout.js';

const traysOf = (...names: string[]): (string | null)[][] =>
  layOutTrays(names).trays.map(({ name, places }) => [name, ...places.map((place) => names[place]!)]);

describe('layOutTrays', () => {
  it('takes the first digit for the tray, the others for the place on it (common practice)', () => {
    expect(traysOf('21', '12', '11')).toEqual([
      ['1', '11', '12'],
      ['2', '21'],
    ]);
    expect(traysOf('101', '110', '201')).toEqual([
      ['1', '101', '110'],
      ['2', '201'],
    ]);
    expect(traysOf('A1', 'b2', 'A-10')).toEqual([
      ['A', 'A1', 'A-10'],
      ['B', 'b2'],
    ]);
    expect(layOutTrays(['11', '21']).how).toContain('the first of two digits');
    expect(layOutTrays(['A1', 'B1']).how).toContain('the letter');
  });

  it('guesses nothing where names are of two kinds, doubled, or say nothing: then all are in one list, and it is said', () => {
    for (const names of [['11', '5'], ['11', 'A2'], ['1', '2'], ['11', '11'], ['Cola', 'Tea'], []]) {
      expect(traysOf(...names)).toEqual([[null, ...names]]);
      expect(layOutTrays(names).how).toContain('do not say on which tray');
    }
  });

  it('has every column once, whatever they are called', () => {
    const name = fc.oneof(fc.stringMatching(/^[A-C0-9]{1,3}$/), fc.stringMatching(/^[1-4]\d$/), fc.string());
    fc.assert(
      fc.property(fc.array(name, { maxLength: 12 }), (names) => {
        const places = layOutTrays(names).trays.flatMap((tray) => tray.places);
        expect(places.toSorted((a, b) => a - b)).toEqual(names.map((_, place) => place));
      }),
      { numRuns: 200, seed: 7 },
    );
  });
});
