import { describe, expect, it } from 'vitest';
import { adviseAtCabinet, CABINET_CAUTIONS, CAUTIONS } from '../../../src/checks/index.js';
import { makeFinding } from '../../../src/findings/index.js';
import { cautionsFor, cautionsIn, dropCautions, layCautions } from '../../../src/report/text/cautions-text.js';
import { PLAIN_STYLE } from '../../../src/report/text/style.js';

describe('cautions in a report', () => {
  it('are taken out of the advice and shown once', () => {
    const advice = adviseAtCabinet('Set the price.', CAUTIONS.food);
    expect(dropCautions(advice)).toBe('Set the price.');
    expect(cautionsIn([advice, advice])).toEqual([...CABINET_CAUTIONS, CAUTIONS.food]);
    const lines = layCautions(cautionsIn([advice]), PLAIN_STYLE);
    expect(lines.slice(0, 2)).toEqual(['', 'Cautions']);
    expect(lines.join(' ').replaceAll(/ +/g, ' ')).toContain('Never rock or tilt a machine: it can fall and kill.');
  });

  it('go with every code whose advice sends a hand into a cabinet, whoever wrote it', () => {
    const finding = makeFinding('price-off-plan', 'Off plan.', { advice: 'Set the price to 1.50 EUR.' });
    expect(cautionsFor([finding])).toEqual(CABINET_CAUTIONS);
    expect(cautionsFor([makeFinding('price-off-plan', 'Off plan.')])).toEqual([]);
  });

  it('go with money that is over or short', () => {
    expect(cautionsFor([makeFinding('short', '5.00 EUR short.')])).toEqual([CAUTIONS.overShort, CAUTIONS.accounts]);
  });

  it('are not there where nothing calls for them', () => {
    const finding = makeFinding('cut-short', 'Too short.', { advice: 'Read the machine again.' });
    expect(layCautions(cautionsFor([finding]), PLAIN_STYLE)).toEqual([]);
    expect(dropCautions('Read the machine again.')).toBe('Read the machine again.');
  });
});
