import { describe, expect, it } from 'vitest';
import { readProfile } from '../../src/profile/index.js';

const read = (data: unknown): ReturnType<typeof readProfile> => readProfile('p.json', JSON.stringify(data));

describe('reading a profile', () => {
  it('takes one that says everything', () => {
    const profile = {
      name: 'maker-x',
      models: ['MODEL-A'],
      decimals: 2,
      bills: 'count',
      dispensedIncludesByHand: true,
      integrity: { range: 'from-dxs', byteOrder: 'low-first' },
      rollOverDigits: { PA201: 6 },
      tubesEstimated: true,
      resets: 'service-read',
      ea301: 'all-reads',
      zeroSegmentsLeftOut: true,
      priceLists: { '0': 'cash', '3': 'card', '5': 'test' },
      severities: { 'clock-wrong': 'note' },
      elements: { XX101: 'a thing of the maker' },
    };
    expect(read(profile)).toEqual({ profile, findings: [] });
    expect(read({ name: 'short', rollOverDigits: 8 }).profile).toEqual({ name: 'short', rollOverDigits: 8 });
  });

  it.each([
    ['no name', {}],
    ['an empty name', { name: '' }],
    ['an unknown key', { name: 'p', decimal: 2 }],
    ['decimals that are none', { name: 'p', decimals: -1 }],
    ['a severity that is none', { name: 'p', severities: { 'clock-wrong': 'bad' } }],
    ['a code that is none', { name: 'p', severities: { 'no-such-code': 'note' } }],
    ['digits that are too few', { name: 'p', rollOverDigits: 2 }],
    ['a list', []],
    ['nothing', null],
  ])('refuses %s, and says why', (_, data) => {
    const { profile, findings } = read(data);
    expect(profile).toBeNull();
    expect(findings).toMatchObject([{ code: 'profile-invalid', severity: 'fault', file: 'p.json' }]);
    expect(findings[0]!.message).toMatch(/^The profile was not used: ./);
  });

  it('refuses what is no JSON, without letting it steer a terminal', () => {
    const { profile, findings } = readProfile('p.json', '{"\u001b[2J');
    expect(profile).toBeNull();
    expect(findings[0]!.message).toMatch(/it is not JSON/);
    expect(findings[0]!.message).not.toContain('\u001b');
  });
});
