import { describe, expect, it } from 'vitest';
import { EXIT, StatusKeeper } from '../../src/cli/exit-status.js';
import { type FindingCode, makeFinding } from '../../src/findings/index.js';

const statusOf = (codes: readonly FindingCode[], isStrict = false): number => {
  const keeper = new StatusKeeper(isStrict);
  keeper.add(codes.map((code) => makeFinding(code, 'Said.')));
  return keeper.status;
};

describe('StatusKeeper', () => {
  it('keeps the worst: nothing, doubts, faults, input, defect', () => {
    expect(statusOf([])).toBe(EXIT.ok);
    expect(statusOf(['padding'])).toBe(EXIT.ok);
    expect(statusOf(['padding', 'clock-wrong'])).toBe(EXIT.doubts);
    expect(statusOf(['cut-short', 'clock-wrong'])).toBe(EXIT.faults);
    expect(statusOf(['unreadable-file', 'cut-short'])).toBe(EXIT.input);
    expect(statusOf(['sheet-unreadable'])).toBe(EXIT.input);
    expect(statusOf(['unreadable-file', 'check-crashed'])).toBe(EXIT.defect);
  });

  it('takes a doubt for a fault when strict, but never a note', () => {
    expect(statusOf(['clock-wrong'], true)).toBe(EXIT.faults);
    expect(statusOf(['padding'], true)).toBe(EXIT.ok);
  });

  it('is raised, never lowered', () => {
    const keeper = new StatusKeeper(false);
    keeper.raise(EXIT.faults);
    keeper.raise(EXIT.doubts);
    expect(keeper.status).toBe(EXIT.faults);
  });
});
