import { describe, expect, it } from 'vitest';
import { explainCapture } from '../../../src/explain/index.js';
import { layExplained } from '../../../src/report/index.js';
import { PLAIN_STYLE } from '../../../src/report/text/style.js';
import { Roster } from '../../../src/sheets/index.js';
import { buildCapture } from '../../support/build-capture.js';

const profile = { name: 'p', models: ['M1'], elements: { MA901: 'water filter' } };
const CAPTURE = buildCapture([
  'ID1*S1*M1',
  'ID4*2*978*EUR',
  'CA2*250**x',
  'PA1*11*125',
  'PA2*2*250',
  `MA9*7*${'y'.repeat(70)}`,
  'ZZ*1',
]);
const explained = explainCapture('a.dex', CAPTURE, { roster: new Roster({ profiles: [profile] }) });
const lay = (id: string) => layExplained(explained.find((segment) => segment.id === id)!, PLAIN_STYLE);

describe('layExplained', () => {
  it('puts a heading over the elements, one below the other', () => {
    expect(lay('CA2')).toEqual([
      'line 5     CA2  cash sales',
      '  CA201     250               2.50 EUR: cash sales, value, since initialisation',
      '  CA202     (empty)           cash sales, number, since initialisation',
      '  CA203     x                 not a number: cash sales, value, since last reset',
    ]);
  });

  it('names the column, and what the rest of the capture says', () => {
    expect(lay('PA2')[0]).toMatch(/^line 7 +PA2 .*; column 11$/);
    expect(lay('G85')[0]).toMatch(/fits the bytes exactly$/);
    expect(lay('ZZ')).toEqual(['line 9     ZZ  not in the dictionary', '  ZZ01      1']);
  });

  it("shows the profile's words, and a long text above its meaning", () => {
    expect(lay('MA9')[1]).toBe('  MA901     7                 water filter (by the profile)');
    expect(lay('MA9').slice(2).join('').replaceAll(/ {2,}/g, '')).toContain('y'.repeat(70));
    const long = layExplained(
      { ...explained[0]!, elements: [{ ...explained[0]!.elements[0]!, text: 'z'.repeat(40) }] },
      PLAIN_STYLE,
    );
    expect(long.at(1)).toMatch(/^ {2}DXS01 {5}z{40}$/);
    expect(long.at(2)).toMatch(/^ {12}communication identifier/);
  });
});
