import { describe, expect, it } from 'vitest';
import { quote, refuse, took } from '../../src/sheets/cell-reading.js';

describe('cell readings', () => {
  it('hold a value or a refusal', () => {
    expect(took(0)).toEqual({ value: 0 });
    expect(refuse('"x" is no amount', 'an amount')).toEqual({
      refusal: { code: 'bad-cell', says: '"x" is no amount', expected: 'an amount' },
    });
    expect(refuse('', '', 'ambiguous-date')).toMatchObject({ refusal: { code: 'ambiguous-date' } });
  });

  it('quote text with nothing hidden in it and no more of it than can be read', () => {
    expect(quote('\u001b[31m')).toBe('"\\x1B[31m"');
    expect(quote('x'.repeat(100))).toBe(`"${'x'.repeat(60)}…"`);
  });
});
