import { describe, expect, it } from 'vitest';
import { driversOf, joinNames, nameBag, nameBagAndVisit, tellWhen } from '../../src/settlement/name-bags.js';
import { makeCount } from './scenario.js';

const NAMED = makeCount('M1', '2026-11-24T10:15', { bag: 'B1' });
const UNNAMED = makeCount('M1', '2026-11-24');

describe('names of bags', () => {
  it('are their own, else their visit', () => {
    expect([nameBag(NAMED), nameBagAndVisit(NAMED)]).toEqual(['bag B1', 'bag B1 of 2026-11-24 10:15']);
    expect([nameBag(UNNAMED), nameBagAndVisit(UNNAMED)]).toEqual(['the bag of 2026-11-24', 'the bag of 2026-11-24']);
  });

  it('cannot steer a terminal, and do not run on', () => {
    const name = nameBag({ ...NAMED, bag: `\u001b[2J${'x'.repeat(500)}` });
    expect(name).toMatch(/^bag \\x1B\[2Jx+…$/);
    expect(name.length).toBeLessThan(50);
  });
});

describe('words', () => {
  it('show seconds only where there are some', () => {
    expect(tellWhen('2026-11-24T10:15:00')).toBe('2026-11-24 10:15');
    expect(tellWhen('2026-11-24T10:15:30')).toBe('2026-11-24 10:15:30');
    expect(tellWhen('2026-11-24')).toBe('2026-11-24');
  });

  it('join names', () => {
    expect([joinNames([]), joinNames(['A']), joinNames(['A', 'B']), joinNames(['A', 'B', 'C'])]).toEqual([
      '',
      'A',
      'A and B',
      'A, B and C',
    ]);
  });

  it('name each driver once, the usual one where a row names none', () => {
    const rows = [{ ...NAMED, driver: 'Lou' }, NAMED, { ...NAMED, driver: 'Lou' }];
    expect(driversOf(rows, 'Kim')).toEqual(['Lou', 'Kim']);
    expect(driversOf(rows, null)).toEqual(['Lou']);
  });
});
