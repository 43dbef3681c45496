import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvText, writeCsv } from '../../../src/report/index.js';

describe('csvText', () => {
  // OWASP, "CSV Injection": cells that begin with = + - @ tab or CR act as formulas.
  it('makes harmless what a spreadsheet would take for a formula', () => {
    const cells = ['=1+1', '+1 800', '-cmd', '@SUM(A1)', '＝1', '-2+3', '=HYPERLINK("x")'];
    for (const cell of cells) expect(csvText(cell)!.text).toBe(`'${cell}`);
    expect(csvText('\t=1')!.text).toBe("'\\x09=1");
    expect(csvText('\r=1')!.text).toBe("'\\x0D=1");
  });

  it('leaves numbers and plain text alone', () => {
    for (const cell of ['-12.50', '+3', '-7', '12,50', 'Oat bar', 'a=b', '', ' =1'])
      expect(csvText(cell)!.text).toBe(cell);
    expect(csvText(null)).toBeNull();
  });

  it('shows hidden characters', () => {
    expect(csvText('a\u001b[2J\u202eb')!.text).toBe('a\\x1B[2J\\u{202E}b');
  });
});

describe('writeCsv', () => {
  // RFC 4180: CR LF at line ends, quotes around cells that hold commas, quotes or line breaks.
  it('writes as RFC 4180 says, with nothing for what is not known', () => {
    const rows = [
      ['a', 'b', 'c'],
      [null, 0, csvText('say "hi", now')],
    ];
    expect(writeCsv(rows)).toBe('a,b,c\r\n,0,"say ""hi"", now"\r\n');
  });

  it('is read back as it was by another reader, and no cell of it is a formula', () => {
    const text = fc.oneof(
      fc.string({ unit: 'binary' }),
      fc.tuple(fc.constantFrom('=', '+', '-', '@', '\t', '\r', '\n', '"'), fc.string()).map((parts) => parts.join('')),
    );
    const cell = fc.oneof(text.map(csvText), fc.integer(), fc.constant(null));
    fc.assert(
      fc.property(fc.array(fc.array(cell, { minLength: 2, maxLength: 5 }), { minLength: 1 }), (rows) => {
        const back: string[][] = parse(writeCsv(rows), { relax_column_count: true, skip_empty_lines: false });
        const expected = rows.map((row) =>
          row.map((one) => (one === null ? '' : typeof one === 'object' ? one.text : String(one))),
        );
        expect(back).toEqual(expected);
        for (const one of back.flat()) expect(one).not.toMatch(/^[=@\t\r]|^[+-](?!\d+([.,]\d+)?$)/);
      }),
      { seed: 6 },
    );
  });
});
