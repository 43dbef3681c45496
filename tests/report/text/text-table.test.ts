import { describe, expect, it } from 'vitest';
import { PLAIN_STYLE, TERMINAL_STYLE } from '../../../src/report/text/style.js';
import { layTable } from '../../../src/report/text/text-table.js';
import { textWidth } from '../../../src/report/text/text-width.js';

const COLUMNS = [
  { head: 'product', mayCut: true },
  { head: 'sold', align: 'right' },
] as const;

describe('layTable', () => {
  it('aligns columns, and sets the footer apart', () => {
    const rows = [
      ['Oat bar', '5'],
      ['Toffee', '112'],
    ];
    expect(layTable(COLUMNS, rows, PLAIN_STYLE, { indent: '  ', footer: ['total', '117'] })).toEqual([
      '  product  sold',
      '  Oat bar     5',
      '  Toffee    112',
      '  -------  ----',
      '  total     117',
    ]);
  });

  it('cuts what may be cut where it would be wider than a terminal, and never a number', () => {
    const lines = layTable(COLUMNS, [['x'.repeat(200), '123456']], PLAIN_STYLE);
    expect(lines[1]).toMatch(/^x+… {2}123456$/);
    expect(textWidth(lines[1]!)).toBe(80);
    const numbers = Array.from({ length: 12 }, (_, i) => ({ head: `n${i}` }));
    const row = numbers.map(() => '1234567890');
    expect(layTable(numbers, [row], PLAIN_STYLE)[1]).toBe(row.join('  '));
  });

  it('shows hidden characters of cells, so that none can steer a terminal', () => {
    expect(layTable(COLUMNS, [['a\u001b[2Jb\nc', '1']], PLAIN_STYLE)[1]).toContain('a\\x1B[2Jb\\x0Ac');
  });

  it('sets heads off by weight only', () => {
    const [head, row] = layTable(COLUMNS, [['a', '1']], TERMINAL_STYLE);
    expect(head).toBe('\u001b[2mproduct  sold\u001b[22m');
    expect(row).toBe('a           1');
  });
});
