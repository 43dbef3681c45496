import { describe, expect, it } from 'vitest';
import { makeFinding } from '../../src/findings/index.js';
import { chooseProfile, type Profile, rollOverModulus, weighFindings } from '../../src/profile/index.js';

const PROFILES: Profile[] = [
  { name: 'by-name' },
  { name: 'by-model', models: ['M1', 'M2'] },
  { name: 'later', models: ['M2'] },
];

describe('choosing a profile', () => {
  it.each([
    ['by-name', null, 'by-name'],
    ['by-name', 'M1', 'by-name'],
    ['missing', 'M1', null],
    [null, 'M2', 'by-model'],
    [null, 'M9', null],
    [null, null, null],
  ])('named %s, model %s: %s', (named, model, expected) => {
    expect(chooseProfile(PROFILES, named, model)?.name ?? null).toBe(expected);
  });
});

describe('weighing findings', () => {
  const findings = [makeFinding('clock-wrong', 'C.'), makeFinding('padding', 'P.')];

  it('leaves them without a profile, or with one that says nothing of weights', () => {
    expect(weighFindings(findings, null)).toBe(findings);
    expect(weighFindings(findings, { name: 'p' })).toBe(findings);
  });

  it('raises and lowers', () => {
    const profile: Profile = { name: 'p', severities: { 'clock-wrong': 'note', padding: 'fault' } };
    expect(weighFindings(findings, profile).map(({ severity }) => severity)).toEqual(['note', 'fault']);
  });

  it('keeps those that weigh as much already', () => {
    const [clock] = weighFindings(findings, { name: 'p', severities: { 'clock-wrong': 'doubt' } });
    expect(clock).toBe(findings[0]);
  });
});

describe('where a counter rolls over', () => {
  it.each([
    [null, null],
    [{ name: 'p' }, null],
    [{ name: 'p', rollOverDigits: 6 }, 1_000_000],
    [{ name: 'p', rollOverDigits: { PA202: 8 } }, 100_000_000],
    [{ name: 'p', rollOverDigits: { PA201: 8 } }, null],
  ])('%j: %s', (profile, expected) => {
    expect(rollOverModulus(profile, 'PA202')).toBe(expected);
  });
});
