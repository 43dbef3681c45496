import { describe, expect, it } from 'vitest';
import type { LocationStatement } from '../../../src/accounts/index.js';
import { makeFinding } from '../../../src/findings/index.js';
import { layStatements } from '../../../src/report/text/statements-text.js';
import { PLAIN_STYLE } from '../../../src/report/text/style.js';
import { stateExample } from '../../accounts/example-accounts.js';

const ALL = stateExample();
const [HALL, YARD, SHED, FOYER] = ALL as [LocationStatement, LocationStatement, LocationStatement, LocationStatement];
const lay = (statements: readonly LocationStatement[], general: Parameters<typeof layStatements>[1] = []) =>
  layStatements(statements, general, PLAIN_STYLE);

describe('layStatements', () => {
  it('begins with what is to be paid in all', () => {
    // 4.81 and 0.10; Shed's is not known, and Foyer has none.
    expect(lay(ALL)[0]).toBe('4 statements: commission at least 4.91 EUR, not known for 1.');
    expect(lay([YARD, FOYER])[0]).toBe('2 statements: commission 0.10 EUR.');
    expect(lay([FOYER, FOYER])[0]).toBe('2 statements: no commission stated.');
    expect(lay([SHED, SHED])[0]).toBe('2 statements: commission not known for 2.');
    expect(lay([])).toEqual(['No statement: the machine sheet states no commission and no tax rate.']);
  });

  it('adds nothing across currencies, nor beyond what can be added', () => {
    expect(lay([YARD, { ...YARD, currency: 'JPY', decimals: 0 }, YARD])[0]).toBe(
      '3 statements: commission 0.20 EUR, 10 JPY.',
    );
    const most = { ...YARD, commission: { ...YARD.commission!, amount: Number.MAX_SAFE_INTEGER } };
    expect(lay([most, most])[0]).toBe('2 statements: commission beyond what can be added.');
  });

  it('lets one statement stand for itself', () => {
    expect(lay([HALL])[0]).toBe('=Hall, 3: commission at least 4.81 EUR on at least 47.36 EUR sold.');
  });

  it('carries the caution once, and what belongs to no statement', () => {
    const unread = makeFinding('sheet-unreadable', 'plan.csv is no sheet.', { file: 'plan.csv' });
    const unusable = makeFinding('capture-unusable', 'The read is left out.', { file: 'a.dex' });
    const lines = lay(ALL, [unusable, unread]);
    expect(lines[0]).toBe('fault  plan.csv is no sheet.');
    const text = lines.join('\n');
    expect(text.indexOf('The read is left out.')).toBeGreaterThan(text.indexOf('Foyer'));
    expect(text.split('Tax, fiscal and wage consequences follow local law')).toHaveLength(2);
    expect(text).toMatch(/\n\nCautions\n {2}Tax, fiscal/);
  });
});
