import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CsvCell, csvText, writeCsv } from '../../../src/report/index.js';

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

  // Figures go around csv-stringify; what it would write of whole rows is the measure.
  it('is byte for byte what csv-stringify writes of the same rows', () => {
    const special = fc.constantFrom(
      '"',
      ',',
      '\r',
      '\n',
      '\r\n',
      "'",
      '=',
      '-',
      ' ',
      ';',
      '',
      '\ufeff',
      '\u2028',
      '😀',
    );
    const text = fc.oneof(
      fc.string({ unit: 'binary' }),
      fc.array(fc.oneof(special, fc.string({ maxLength: 3 }))).map((parts) => parts.join('')),
      fc.constantFrom('Oat bar', '12.50', '-3', '=1+1'),
    );
    const own = fc.oneof(text, fc.constantFrom('12.50', '-0.05', '2026-11-24 10:15:00', 'floor restart', 'EUR', ''));
    const cell: fc.Arbitrary<CsvCell> = fc.oneof(
      text.map(csvText),
      own,
      fc.integer(),
      fc.maxSafeInteger(),
      fc.constant(null),
    );
    fc.assert(
      fc.property(fc.array(fc.array(cell, { minLength: 1, maxLength: 6 }), { minLength: 1 }), (rows) => {
        const texts = rows.map((row) =>
          row.map((one) => (one === null ? '' : typeof one === 'object' ? one.text : String(one))),
        );
        expect(writeCsv(rows)).toBe(stringify(texts, { record_delimiter: 'windows' }));
      }),
      { seed: 8, numRuns: 500 },
    );
  });

  it('writes a text alike however often and in whichever table it stands', () => {
    const names = Array.from({ length: 5000 }, (_, i) => `=SITE "${i}", ${i}`);
    const rows = names.map((name) => [csvText(name), 1]);
    const expected = names.map((_, i) => `"'=SITE ""${i}"", ${i}",1\r\n`).join('');
    expect(writeCsv(rows)).toBe(expected);
    expect(writeCsv(names.map((name) => [csvText(name), 1]))).toBe(expected);
  });
});
