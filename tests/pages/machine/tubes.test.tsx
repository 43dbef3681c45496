import { describe, expect, it } from 'vitest';
import { renderPart } from '../../../src/pages/index.js';
import { readTubeLevels } from '../../../src/pages/machine/tube-levels.js';
import { TubesPart } from '../../../src/pages/machine/tubes-part.js';
import { profileSchema } from '../../../src/profile/index.js';
import { readOf } from '../../support/interval-cases.js';
import { textOf } from '../support/look-at-page.js';

const TUBES = ['CA15*1200', 'CA17*0*50*4', 'CA17*1*100*10', 'CA17*2**7', 'CA17**200*0', 'CA17*5*20*x'];

describe('readTubeLevels', () => {
  it('gives each tube as the line says it, and nothing for what it does not say', () => {
    const { tubes, total, left, isEstimate } = readTubeLevels(readOf('to', TUBES));
    expect([total, left, isEstimate]).toEqual([1200, 0, false]);
    expect(tubes.map(({ name, coin, coins, amount }) => [name, coin, coins, amount])).toEqual([
      ['0', 50, 4, 200],
      ['1', 100, 10, 1000],
      ['2', null, 7, null],
      [null, 200, 0, 0],
      ['5', 20, null, null],
    ]);
    expect(tubes[1]!.line! - tubes[0]!.line!).toBe(1);
  });

  it('lists no more tubes than any mechanism has, and says how many more a capture claims', () => {
    const many = Array.from({ length: 500 }, (_, place) => `CA17*${place}*50*1`);
    const { tubes, left } = readTubeLevels(readOf('to', many));
    expect([tubes.length, left]).toEqual([24, 476]);
  });
});

const wordsOf = (segments: readonly string[], options = {}): string =>
  textOf(renderPart(<TubesPart latest={readOf('to', segments, options)} />));

describe('the tubes', () => {
  it('are drawn, and said in a table with the lines they come from', () => {
    const text = wordsOf(TUBES);
    expect(text).toContain('in all 12.00 EUR');
    expect(text).toMatch(/0\.50 4 1\.00 10 coin \? 7 2\.00 0, empty 0\.20 not known Coin tubes, in EUR/);
    expect(text).toMatch(/0\.50 4 2\.00 0 CA1703, line \d+ 1\.00 10 10\.00 1 CA1703/);
    expect(text).toMatch(/–not known 7 –not known 2 CA1703/);
    expect(text).toMatch(/2\.00 0 0\.00 not stated CA1703/);
  });

  it('say where levels are estimates, where nothing is known, and where there is no read', () => {
    const profile = profileSchema.parse({ name: 'low and full', tubesEstimated: true });
    expect(wordsOf(TUBES, { profile })).toContain('the levels are estimates');
    expect(wordsOf([])).toContain('in all –not known. The read does not say what each tube holds.');
    expect(wordsOf(Array.from({ length: 30 }, () => 'CA17*0*50*1'))).toContain('6 more tubes not shown');
    expect(textOf(renderPart(<TubesPart latest={null} />))).toBe('No usable read says what is in the tubes.');
  });
});
