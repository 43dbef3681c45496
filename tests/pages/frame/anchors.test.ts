import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anchorText, cashAnchor, columnAnchor } from '../../../src/pages/frame/index.js';

describe('anchors', () => {
  it('are the same for whoever links and whoever is linked to', () => {
    expect(columnAnchor('11')).toBe('columns-11');
    expect(columnAnchor('A"1', 2)).toBe('interval-2-columns-A_22_1');
    expect(cashAnchor('toCashBox')).toBe('cash-to-cash-box');
    expect(cashAnchor('bills', 3)).toBe('interval-3-cash-bills');
  });

  it('differ for different columns, and hold nothing that ends an attribute', () => {
    const column = fc.string({ unit: 'binary', maxLength: 8 });
    fc.assert(
      fc.property(column, column, (one, other) => {
        expect(anchorText(one)).toMatch(/^[\w-]*$/);
        expect(anchorText(one) === anchorText(other)).toBe(one === other);
      }),
    );
    expect(anchorText('x'.repeat(100_000))).toHaveLength(60);
  });
});
