import { describe, expect, it } from 'vitest';
import { CHECKS, isDoubtOfFigures } from '../../src/checks/index.js';
import { FINDING_CODES } from '../../src/findings/index.js';

/** What checks doubt and counters do not suffer from: to be mended at the machine, not known anyway, or said of every figure. */
const OTHERS = [
  'change-short',
  'clock-jump',
  'clock-wrong',
  'device-missing',
  'event-active',
  'missing-segment',
  'price-off-plan',
  'unknown-machine',
];

describe('isDoubtOfFigures', () => {
  it('knows of every doubt that a check can have whether it bears on figures', () => {
    const codes = new Set(CHECKS.flatMap((check) => check.codes));
    const left = [...codes].filter((code) => {
      const { severity } = FINDING_CODES[code];
      return severity === 'doubt' && !isDoubtOfFigures({ code, severity });
    });
    expect(left.sort()).toEqual(OTHERS);
  });

  it('takes a note for no doubt, nor a fault, for which a capture is not used at all', () => {
    expect(isDoubtOfFigures({ code: 'integrity-range', severity: 'note' })).toBe(false);
    expect(isDoubtOfFigures({ code: 'integrity-range', severity: 'doubt' })).toBe(true);
    expect(isDoubtOfFigures({ code: 'integrity-damaged', severity: 'fault' })).toBe(false);
  });
});
