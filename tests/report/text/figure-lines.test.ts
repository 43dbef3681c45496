import { describe, expect, it } from 'vitest';
import { layFigures } from '../../../src/report/text/figure-lines.js';

describe('layFigures', () => {
  it('aligns amounts at their last digit, with a dash for what is not known', () => {
    const lines = [
      ['cash in', 25280],
      ['  bills', null],
      ['tube difference', 150, 'signed'],
    ] as const;
    expect(layFigures(lines, { currency: 'EUR', decimals: 2 })).toEqual([
      '  cash in          252.80',
      '    bills               -',
      '  tube difference   +1.50',
    ]);
  });
});
