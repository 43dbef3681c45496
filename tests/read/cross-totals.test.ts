import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Profile } from '../../src/profile/index.js';
import { type CrossTotal, computeCrossTotals, findCrossTotalDifferences } from '../../src/read/index.js';
import { buildCapture, type CaptureOptions } from '../support/build-capture.js';
import { changeSegments, GOOD_SEGMENTS, readFirst } from '../support/check-cases.js';

const totalsOf = (
  segments: readonly string[],
  profile: Profile | null = null,
  capture: CaptureOptions = {},
): CrossTotal[] => computeCrossTotals(readFirst(buildCapture(segments, capture)), profile);
const short = ({ id, span, column, total, parts }: CrossTotal): string =>
  `${id} ${span}${column === null ? '' : ` ${column}`}: ${total} ${parts}`;
const only = (segments: readonly string[], id: string, profile: Profile | null = null): string[] =>
  totalsOf(segments, profile)
    .map(short)
    .filter((line) => line.startsWith(id));
const ID = 'ID1*S';

describe('cross totals', () => {
  it('are all there for a good capture, and equal', () => {
    expect(totalsOf(GOOD_SEGMENTS).map(short)).toEqual([
      'column-count init: 20 20',
      'column-value init: 3000 3000',
      'column-count reset: 4 4',
      'column-value reset: 600 600',
      'device-value init: 3000 3000',
      'device-count init: 20 20',
      'device-value reset: 600 600',
      'device-count reset: 4 4',
      'tube-value level: 600 600',
    ]);
    expect(findCrossTotalDifferences(readFirst(buildCapture(GOOD_SEGMENTS)), null)).toEqual([]);
  });

  it('say what is compared, with the elements and the place of the total', () => {
    expect(totalsOf(GOOD_SEGMENTS)[4]).toMatchObject({
      unit: 'money',
      what: 'value of all paid vends since initialisation',
      partsWhat: 'cash, cashless and token sales',
      totalElement: 'VA101',
      partElements: ['CA201', 'DA201', 'DB201', 'TA201'],
      rollOver: null,
      totalPlace: { segment: 'VA1', element: 'VA101', line: 10, read: 0 },
    });
  });

  it('take a segment that is absent altogether for nothing, and a missing element for unknown', () => {
    // Zero segments may be left out (manual L0118P-SP, p. 62).
    expect(only([ID, 'VA1*100*1*100*1', 'DA2*100*1*100*1'], 'device')).toHaveLength(4);
    expect(only([ID, 'VA1*100*1*100*1', 'CA2*100*1*100*1', 'DA2*0'], 'device')).toEqual(['device-value init: 100 100']);
    expect(only([ID, 'VA1*100*1*100*1', 'CA2*x*1'], 'device')).toEqual(['device-count init: 1 1']);
    expect(only([ID, 'VA1*100'], 'device')).toEqual([]);
    expect(only([ID, 'VA1*x*1', 'CA2*1*1'], 'device')).toEqual(['device-count init: 1 1']);
  });

  it('do not take cash sales for nothing where cash came in', () => {
    expect(only([ID, 'VA1*100*1*100*1', 'CA3*1', 'DA2*100*1*100*1'], 'device')).toEqual([]);
  });

  it('leave columns out that can not be summed', () => {
    expect(only([ID, 'VA1*100*1', 'PA1*1', 'PA2*1', 'PA1*2', 'PA2*1*50'], 'column')).toEqual([
      'column-count init: 1 2',
    ]);
    expect(only([ID, 'VA1*100*1', 'PA1*1', 'PA1*2'], 'column')).toEqual([]);
    expect(only([ID, 'PA1*1', 'PA2*1'], 'column')).toEqual([]);
    expect(only([ID, 'VA1**1*5*1', 'PA1*1', 'PA2*1*5*1*5', 'PA1*2'], 'column')).toEqual([
      'column-count init: 1 1',
      'column-count reset: 1 1',
      'column-value reset: 5 5',
    ]);
    // Sums beyond what can be kept exactly are not known.
    expect(only([ID, 'VA1**1', 'PA1*1', 'PA2*9007199254740991', 'PA1*2', 'PA2*9007199254740991'], 'column')).toEqual(
      [],
    );
  });

  it('leave products out where one stands out of its place, but nothing else', () => {
    const orphan = [ID, 'VA1*100*1*0*0', 'CA2*100*1*0*0', 'PA2*1*100', 'PA1*1', 'PA2*1*100'];
    expect(totalsOf(orphan).map(short)).toEqual([
      'device-value init: 100 100',
      'device-count init: 1 1',
      'device-value reset: 0 0',
      'device-count reset: 0 0',
    ]);
    expect(only([...GOOD_SEGMENTS, 'VA1*1', 'EA3*1'], 'column')).toHaveLength(4);
  });

  it('are not judged on a cut read', () => {
    expect(totalsOf(GOOD_SEGMENTS, null, { cutAt: -60 })).toEqual([]);
  });

  describe('of price lists', () => {
    const column = [ID, 'PA1*1*150', 'PA2*10*1500*2*300', 'PA7*1*CA*0*150*6*900*1*150', 'PA7*1*DA*0*150*4*600*1*150'];

    it('sum over devices and lists, for each column', () => {
      expect(only(column, 'list')).toEqual([
        'list-count init 1: 10 10',
        'list-value init 1: 1500 1500',
        'list-count reset 1: 2 2',
        'list-value reset 1: 300 300',
      ]);
    });

    it('leave out lists that a profile calls free or test', () => {
      // On one maker 4 is free and 5 is test (Saeco Freestanding 400, p. 29).
      const profile: Profile = { name: 'p', priceLists: { '0': 'cash', '4': 'free', '5': 'test' } };
      const more = [...column, 'PA7*1*CA*4*0*7*0*0*0', 'PA7*1*CA*5*0*9*0*0*0', 'PA7*1*CA*9*0*0*0*0*0', 'PA7*1*CA'];
      expect(only(more.slice(0, -1), 'list-count init', profile)).toEqual(['list-count init 1: 10 10']);
      expect(only(more.slice(0, -1), 'list-count init')).toEqual(['list-count init 1: 10 26']);
      expect(only(more, 'list', profile)).toEqual([]);
    });

    it('need both sides', () => {
      expect(only([ID, 'PA1*1', 'PA7*1*CA*0*150*6*900', 'PA1*2', 'PA2*5'], 'list')).toEqual([]);
      expect(only([ID, 'PA1*1', 'PA2*6', 'PA7*1*CA*0*150*6*900'], 'list')).toEqual(['list-count init 1: 6 6']);
    });
  });

  describe('of tubes', () => {
    it.each([
      [['CA15*600', 'CA17*0*50*4', 'CA17*1*100*4'], ['tube-value level: 600 600']],
      [['CA15*600', 'CA17*0*50*4'], ['tube-value level: 600 200']],
      [['CA15*600', 'CA17*0*50'], []],
      [['CA15*600', 'CA17*0**4'], []],
      [['CA15*', 'CA17*0*50*4'], []],
      [['CA15*600'], []],
      [['CA17*0*50*4'], []],
    ])('%j: %j', (segments, expected) => {
      expect(only([ID, ...segments], 'tube')).toEqual(expected);
    });
  });

  describe('that rolled over', () => {
    const rollOver = (total: number, part: number, profile: Profile | null = null): number | null =>
      totalsOf([ID, `VA1*${total}`, `CA2*${part}`], profile)[0]!.rollOver;

    // A total that differs from the sum of its parts by exactly 10^k, k = 4…9 (domain rule).
    it.each([
      [500, 10_500, 10_000],
      [500, 1_000_000_500, 1_000_000_000],
      [10_500, 500, 10_000],
      [500, 1500, null],
      [500, 10_501, null],
      [500, 10_000_000_500, null],
      [500, 500, null],
    ])('%i for %i: %s', (total, part, expected) => {
      expect(rollOver(total, part)).toBe(expected);
    });

    it('is none where the total that lacks 10^k stands above it: a counter starts again below (arithmetic)', () => {
      expect(rollOver(2_443_820, 2_543_820)).toBeNull();
      expect(rollOver(43_820, 143_820)).toBe(100_000);
    });

    it('at the width that a profile gives', () => {
      const profile: Profile = { name: 'p', rollOverDigits: { VA101: 3 } };
      expect(rollOver(500, 1500, profile)).toBe(1000);
      expect(rollOver(500, 1500, { name: 'p', rollOverDigits: { CA201: 3 } })).toBe(1000);
      expect(rollOver(500, 1500, { name: 'p', rollOverDigits: { CA202: 3 } })).toBeNull();
    });
  });

  it('say so of a total with changed parts', () => {
    const [difference] = findCrossTotalDifferences(
      readFirst(buildCapture(changeSegments({ put: ['CA15*700'] }))),
      null,
    );
    expect(difference).toMatchObject({ id: 'tube-value', total: 700, parts: 600 });
  });
});

describe('differences of cross totals', () => {
  it('are those of all cross totals that differ, whatever the columns and lists', () => {
    const number = fc.constantFrom('0', '1', '2', '10', '300', '', 'x', '-1', '12345678901234567');
    const counts = fc.array(number, { minLength: 3, maxLength: 5 }).map((cells) => cells.join('*'));
    const column = fc.tuple(
      fc.option(counts),
      fc.array(fc.tuple(fc.constantFrom('0', '4'), counts), { maxLength: 3 }),
      fc.boolean(),
    );
    const columns = fc.array(column, { maxLength: 4 });
    const profiles = fc.constantFrom<(Profile | null)[]>(
      null,
      { name: 'p' },
      { name: 'p', priceLists: { '4': 'free' } },
    );
    fc.assert(
      fc.property(columns, counts, profiles, (groups, totals, profile) => {
        const segments = groups.flatMap(([paid, lists, isCopied], at) => [
          `PA1*${10 + at}*100`,
          ...(paid === null ? [] : [`PA2*${paid}`]),
          ...lists.map(([list, sold]) => `PA7*${10 + at}*CA*${list}*100*${isCopied && paid !== null ? paid : sold}`),
        ]);
        const read = readFirst(buildCapture([ID, `VA1*${totals}`, ...segments]));
        const all = computeCrossTotals(read, profile).filter(({ total, parts }) => total !== parts);
        expect(findCrossTotalDifferences(read, profile)).toEqual(all);
      }),
      { seed: 5, numRuns: 1500 },
    );
  });
});
