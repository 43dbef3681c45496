import { describe, expect, it } from 'vitest';
import { UsageError } from '../../src/cli/exit-status.js';
import { checkShape, intervalShape, readOptions, settleShape } from '../../src/cli/option-shapes.js';

describe('readOptions', () => {
  it('gives defaults, and what was given as what it means', () => {
    expect(readOptions(checkShape, {})).toMatchObject({ profiles: [], strict: false, json: false, install: false });
    const given = { decimals: '3', currency: 'kwd', clockTolerance: '15', receivedAt: '2026-11-24 10:15' };
    expect(readOptions(checkShape, given)).toMatchObject({
      ...{ decimals: 3, currency: 'KWD', clockTolerance: 15, receivedAt: '2026-11-24T10:15:00' },
    });
  });

  it('names the option as it is typed, what was expected, and what was given', () => {
    const refusal = (options: Record<string, unknown>) => () => readOptions(checkShape, options);
    expect(refusal({ clockTolerance: 'x' })).toThrow(UsageError);
    expect(refusal({ clockTolerance: 'x' })).toThrow(
      '--clock-tolerance: expected a whole number of minutes, 0 or more, not "x"',
    );
    expect(refusal({ receivedAt: '2026-02-30 10:00' })).toThrow(/--received-at: expected a date and time such as/);
    expect(refusal({ receivedAt: '24.11.2026' })).toThrow(/--received-at/);
    expect(refusal({ currency: 'XAU' })).toThrow(/--currency: expected an alphabetic code of ISO 4217/);
    expect(refusal({ profiles: [''] })).toThrow(/^--profiles: expected a file or folder$/);
    expect(() => readOptions(intervalShape, { table: 'x' })).toThrow('--table: expected sales or cash, not "x"');
  });

  it('takes amounts and percentages with point or comma', () => {
    const read = (tolerance: string) => () => readOptions(settleShape, { captures: ['a'], tolerance });
    expect(read('0,50')().tolerance).toBe('0,50');
    for (const wrong of ['-1', '1e3', '.5', '1.', '']) expect(read(wrong)).toThrow(/--tolerance/);
  });
});
