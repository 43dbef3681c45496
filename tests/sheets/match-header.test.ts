import { describe, expect, it } from 'vitest';
import { matchHeader, normaliseHeader } from '../../src/sheets/match-header.js';

describe('normaliseHeader', () => {
  it.each([
    'visited_at',
    'Visited At',
    ' VISITED-AT ',
    'visited\u00a0at',
    'visited - at',
    'visited__at',
    'Visited\nat',
  ])('knows %j for visited_at', (text) => {
    expect(normaliseHeader(text)).toBe('visited_at');
  });
});

describe('matchHeader', () => {
  const known = new Set(['machine', 'coins']);
  const match = (...cells: string[]) =>
    matchHeader({ row: 1, cells, hasBrokenQuotes: false }, known, (header) =>
      /^\d/.test(header) ? Number(header) : null,
    );

  it('tells known, further, unknown and repeated columns apart', () => {
    expect(match('Coins', 'Machine', '0.50', 'colour', 'COINS', '', 'Size', '')).toEqual({
      indexes: new Map([
        ['coins', 0],
        ['machine', 1],
      ]),
      extras: [{ index: 2, header: '0.50', extra: 0.5 }],
      unknown: ['colour', 'Size'],
      repeated: ['coins'],
      width: 7,
    });
  });

  it('has no width without names', () => {
    expect(match('', '').width).toBe(0);
  });
});
