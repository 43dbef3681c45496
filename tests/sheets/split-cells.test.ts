import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { splitCells } from '../../src/sheets/split-cells.js';

const NAMES = ['machine', 'coins', 'bills', 'note'];
const split = (text: string) => splitCells(text, (name) => NAMES.includes(name));
const cellsOf = (text: string) => split(text).rows.map(({ cells }) => cells);

describe('splitCells', () => {
  // RFC 4180, section 2: rules 5 to 7, with its own examples.
  it('takes quotation marks as RFC 4180 does', () => {
    expect(cellsOf('machine,coins,bills\r\n"aaa","bbb","ccc"\r\nzzz,yyy,xxx')).toEqual([
      ['aaa', 'bbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ]);
    expect(cellsOf('machine,coins,bills\r\n"aaa","b \r\nbb","ccc"\r\nzzz,yyy,xxx')).toEqual([
      ['aaa', 'b \nbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ]);
    expect(cellsOf('machine,coins,bills\r\n"aaa","b""bb","ccc"')).toEqual([['aaa', 'b"bb', 'ccc']]);
  });

  // RFC 4180, section 2, rule 2: the last line may or may not have an ending.
  it.each(['\n', '\r\n', '\r'])('takes lines that end with %j', (end) => {
    expect(cellsOf(['machine,coins', 'M1,1', 'M2,2'].join(end))).toEqual([
      ['M1', '1'],
      ['M2', '2'],
    ]);
    expect(cellsOf(['machine,coins', 'M1,1', 'M2,2', ''].join(end))).toEqual([
      ['M1', '1'],
      ['M2', '2'],
    ]);
  });

  it('takes endings of several kinds in one sheet', () => {
    expect(cellsOf('machine,coins\rM1,1\nM2,2\r\nM3,3')).toEqual([
      ['M1', '1'],
      ['M2', '2'],
      ['M3', '3'],
    ]);
  });

  it('reads back what a CSV writer wrote, and agrees with another reader', () => {
    // Cells are trimmed here, and line endings inside cells made one kind; neither is what RFC 4180 asks.
    const cell = fc
      .string({ unit: fc.constantFrom('a', '1', '"', ',', ';', '\t', '\n', ' ', "'", '€') })
      .map((s) => s.trim());
    const row = fc.array(cell, { minLength: 4, maxLength: 4 }).filter((cells) => cells.some((c) => c !== ''));
    fc.assert(
      fc.property(
        fc.array(row, { maxLength: 8 }),
        fc.constantFrom(',', ';', '\t'),
        fc.boolean(),
        (rows, delimiter, quoted) => {
          const text = stringify([NAMES, ...rows], { delimiter, quoted, record_delimiter: '\n' });
          const read = split(text);
          expect(read.separator).toBe(delimiter);
          expect(read.rows.map(({ cells }) => cells)).toEqual(rows);
          expect(read.rows.every(({ hasBrokenQuotes }) => !hasBrokenQuotes)).toBe(true);
          expect([read.header.cells, ...rows]).toEqual(parse(text, { delimiter, record_delimiter: '\n' }));
        },
      ),
    );
  });

  it('counts rows as a spreadsheet does, blank ones and all, and a cell with lines as part of its row', () => {
    const { header, rows } = split('machine,note\n\nM1,"a\nb"\n , \nM2,c\n\n');
    expect(header.row).toBe(1);
    expect(rows.map(({ row, cells }) => [row, cells[0]])).toEqual([
      [3, 'M1'],
      [5, 'M2'],
    ]);
  });

  it('finds a header below blank rows', () => {
    const { header, rows } = split('\n,,\nmachine,coins\nM1,1');
    expect(header).toMatchObject({ row: 3, cells: ['machine', 'coins'] });
    expect(rows.map(({ row }) => row)).toEqual([4]);
  });

  it.each([
    ['machine,coins,bills', ','],
    ['machine;coins;bills', ';'],
    ['machine\tcoins\tbills', '\t'],
    ['machine', ','],
    ['machine;0,05;0,10;0,20', ';'],
    ['machine,"coins;or;so;many",bills', ','],
    ['what;is;this', ';'],
    ['machine;a,b,c,d,e;coins', ';'],
  ])('knows the separator of %j', (header, separator) => {
    expect(split(header).separator).toBe(separator);
  });

  it('takes a first line that names the separator at its word', () => {
    const sheet = split('sep=;\nmachine;note\nM1;a,b');
    expect(sheet).toMatchObject({ separator: ';', header: { row: 1, cells: ['machine', 'note'] } });
    expect(sheet.rows).toMatchObject([{ row: 2, cells: ['M1', 'a,b'] }]);
    expect(split('"SEP=\t"\r\nmachine\tnote').separator).toBe('\t');
  });

  it('has no cells where there are none', () => {
    expect(split('sep=;\n').header.cells).toEqual([]);
    expect(split(',,,\n').header.cells).not.toContain('');
  });

  it.each([
    ['one that never closes', 'machine,note\nM1,"a\nM2,b\nM3,c', [2]],
    ['text after the closing one', 'machine,note\nM1,"a"b\nM2,c', [2]],
    ['one that closes rows later', 'machine,note\nM1,"a\nM2,"b"\nM3,c', [2]],
  ])('marks quotation marks that are wrong: %s', (_, text, broken) => {
    const { rows } = split(text);
    expect(rows.filter(({ hasBrokenQuotes }) => hasBrokenQuotes).map(({ row }) => row)).toEqual(broken);
  });

  it('takes a quotation mark inside a cell as a letter', () => {
    expect(cellsOf('machine,note\nM1,5" tube')).toEqual([['M1', '5" tube']]);
  });

  it('never throws', () => {
    const text = fc.string({
      unit: fc.constantFrom('a', '"', ',', ';', '\t', '\n', '\r', ' ', '=', 'sep='),
      maxLength: 60,
    });
    fc.assert(
      fc.property(text, (any) => {
        const { header, rows } = split(any);
        expect(rows.every(({ row, cells }) => row > header.row && cells.some((cell) => cell !== ''))).toBe(true);
      }),
    );
  });
});
