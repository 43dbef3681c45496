import { describe, expect, it } from 'vitest';
import { UsageError } from '../../src/cli/exit-status.js';
import { periodOf, refuseBackward } from '../../src/cli/period-options.js';

describe('periodOf', () => {
  it('leaves out what was not given', () => {
    expect(periodOf({})).toEqual({});
    expect(periodOf({ from: '2026-11-01' })).toEqual({ from: '2026-11-01' });
    expect(periodOf({ from: '2026-11-01', to: '2026-11-01' })).toEqual({ from: '2026-11-01', to: '2026-11-01' });
  });

  it('refuses days that run backward', () => {
    expect(() => periodOf({ from: '2026-11-02', to: '2026-11-01' })).toThrow(UsageError);
    expect(() => periodOf({ from: '2026-11-02', to: '2026-11-01' })).toThrow(
      '--from 2026-11-02 is after --to 2026-11-01',
    );
    expect(() => refuseBackward('2026-12-01', '2026-11-30', ['--a', '--b'])).toThrow(
      '--a 2026-12-01 is after --b 2026-11-30',
    );
  });
});
