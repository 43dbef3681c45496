import { describe, expect, it } from 'vitest';
import { resolveOptions } from '../../src/settlement/settle-options.js';

describe('resolveOptions', () => {
  it('tolerates nothing, looks 60 minutes to either side and takes hand moves in, unless said otherwise', () => {
    expect(resolveOptions({})).toEqual({
      route: null,
      day: null,
      tolerance: { amount: 0, basisPoints: 0 },
      windowMinutes: 60,
      ignoreHandMoves: false,
    });
  });

  it('keeps what is said', () => {
    const given = {
      route: 'R1',
      day: '2026-11-24',
      tolerance: { amount: 5, basisPoints: 50 },
      windowMinutes: 0,
      ignoreHandMoves: true,
    };
    expect(resolveOptions(given)).toEqual(given);
  });

  it.each([
    [{ tolerance: { amount: -1, basisPoints: 0 } }, 'tolerance.amount'],
    [{ tolerance: { amount: 0.5, basisPoints: 0 } }, 'tolerance.amount'],
    [{ tolerance: { amount: 0, basisPoints: Number.NaN } }, 'tolerance.basisPoints'],
    [{ windowMinutes: Number.POSITIVE_INFINITY }, 'windowMinutes'],
  ])('refuses %j', (options, name) => {
    expect(() => resolveOptions(options)).toThrow(new RangeError(`${name} is no whole number of 0 or more`));
  });
});
