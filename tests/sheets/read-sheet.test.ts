import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readCapturesList, readCounts, readMachines, readPlan, type Sheet } from '../../src/sheets/index.js';
import { EURO, moneyIn, outline } from '../support/sheet-reading.js';

const READERS = {
  machines: readMachines,
  plan: (sheet: Sheet) => readPlan(sheet, EURO),
  counts: (sheet: Sheet) => readCounts(sheet, EURO),
  'captures list': readCapturesList,
};
const readers = Object.entries(READERS);
const bytes = (...values: number[]): Uint8Array => Uint8Array.from(values);

describe.each(readers)('a %s sheet', (name, read) => {
  it.each([
    ['empty bytes', bytes(), 'x.csv is empty. No row of it is used.'],
    ['empty text', '', 'x.csv is empty. No row of it is used.'],
    ['only separators', ',,,\n;;\n', null],
    ['only a separator line', 'sep=;\n', 'x.csv is empty. No row of it is used.'],
    ['NULs', bytes(0, 0, 0), 'x.csv holds NUL characters, so it is no text. No row of it is used.'],
    [
      'a picture',
      bytes(0xff, 0xd8, 0xff, 0xe0, 0, 0x10),
      'x.csv holds NUL characters, so it is no text. No row of it is used.',
    ],
    [
      'a spreadsheet file',
      bytes(0x50, 0x4b, 3, 4),
      'x.csv is a zip archive, the form in which spreadsheet programs keep their own files, and no CSV text. No row of it is used.',
    ],
    ['another text', 'Dear all,\nplease find the counts\n', null],
    ['bytes without sense', bytes(0x80, 0x2c, 0xfe, 0x0a, 0x22, 0x90), null],
  ])('of %s gives one clear finding', (_, content, message) => {
    const { rows, findings } = read({ file: 'x.csv', content });
    expect(rows).toEqual([]);
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({ severity: 'fault', file: 'x.csv' });
    if (message === null) expect(findings[0]!.message).toContain(`lacks what a ${name} sheet must have, column `);
    else expect(findings[0]).toMatchObject({ code: 'sheet-unreadable', message });
  });

  it('never throws, whatever bytes it has', () => {
    const words = fc.constantFrom(
      'machine',
      'visited_at',
      'coins',
      'file',
      'column',
      'price',
      '0.50',
      'M1',
      '2026-11-24',
      '1,50',
      '"',
      ',',
      ';',
      '\t',
      '\n',
      '\r\n',
      ' ',
      '-',
      '\u202e',
      '€',
    );
    const text = fc.array(words, { maxLength: 60 }).map((parts) => parts.join(''));
    fc.assert(
      fc.property(fc.oneof(text, fc.uint8Array({ maxLength: 100 })), (content) => {
        const { rows, findings } = read({ file: 'x.csv', content });
        const places = rows.map(({ place }) => place.row);
        expect(places).toEqual(places.toSorted((a, b) => a - b));
        expect(new Set(places).size).toBe(places.length);
        for (const { message } of findings) expect(message).not.toMatch(/[\u0000-\u001f\u202e]/);
      }),
    );
  });
});

describe('an office sheet', () => {
  const plan = (content: string | Uint8Array, file = 'plan.csv') => readPlan({ file, content }, EURO);

  it('with a header and no rows is no fault, and is said', () => {
    expect(plan('machine,column,price\n\n').findings).toMatchObject([
      {
        code: 'sheet-empty',
        severity: 'doubt',
        message: 'plan.csv has a header and no rows under it. No row of it is used.',
      },
    ]);
  });

  it('names what it lacks and what it has', () => {
    expect(plan('machine|column|price\n').findings).toEqual([
      {
        code: 'sheet-column-missing',
        severity: 'fault',
        message:
          'plan.csv lacks what a plan sheet must have, column machine, column column, column price; its columns are machine|column|price. No row of it is used.',
        file: 'plan.csv',
        row: 1,
        expected: 'machine, column, price',
        received: 'machine|column|price',
      },
    ]);
  });

  it('that names a column twice is refused, since either may be meant', () => {
    expect(plan('machine,column,price,Price\nM1,11,1.50,1.60')).toMatchObject({
      rows: [],
      findings: [{ code: 'sheet-column-repeated', severity: 'fault', field: 'price' }],
    });
  });

  it('has one note for the columns left aside', () => {
    const { rows, findings } = plan('machine,column,price,colour,size\nM1,11,1.50,red,XL');
    expect(rows).toHaveLength(1);
    expect(findings).toMatchObject([
      {
        code: 'sheet-column-unknown',
        severity: 'note',
        message: 'plan.csv has columns without a meaning in a plan sheet, which are left aside: colour, size.',
        expected: 'machine, column, product, price, card_price, par, capacity, from',
      },
    ]);
  });

  it('finds its columns in any order, case and spelling', () => {
    const { rows, findings } = plan('Price,COLUMN, Machine ,Card Price\n1.50,11,M1,1.40');
    expect(rows).toMatchObject([{ machine: 'M1', column: '11', price: 150, cardPrice: 140 }]);
    expect(findings).toEqual([]);
  });

  it('can be in UTF-16 or windows-1252, and that is said', () => {
    const text = 'machine;column;price\nMé;11;1,50 €';
    const utf16 = new Uint8Array(Buffer.from(`\ufeff${text}`, 'utf16le'));
    expect(plan(utf16)).toMatchObject({
      rows: [{ machine: 'Mé', price: 150 }],
      findings: [
        { message: expect.stringContaining('text in UTF-16 (low byte first); cells separated by semicolons;') },
      ],
    });
    const latin = new Uint8Array(Buffer.from(text.replace('€', '\u0080'), 'latin1'));
    expect(plan(latin)).toMatchObject({
      rows: [{ machine: 'Mé', price: 150 }],
      findings: [{ message: expect.stringContaining('text in windows-1252') }],
    });
  });

  it('counts its rows as a spreadsheet does', () => {
    const { rows, findings } = plan('machine,column,price,product\r\n\r\nM1,11,1.50,"a\r\nb"\r\n,,,\r\nM2,11,x,\r\n');
    expect(rows.map(({ place }) => place.row)).toEqual([3, 5]);
    expect(findings).toMatchObject([{ row: 5 }]);
  });

  it('shows nothing hidden of its file or cells', () => {
    const { findings } = plan('machine,column,price\nM1,11,\u001b[2J\u202e9', 'p\u001b[31m.csv');
    expect(findings).toMatchObject([{ file: 'p\u001b[31m.csv', received: '\\x1B[2J\\u{202E}9' }]);
    expect(findings[0]!.message).toContain('p\\x1B[31m.csv, row 2, column price: "\\x1B[2J\\u{202E}9" is no amount');
  });

  it('learns which marks it uses from denominations in its header too', () => {
    const counts = (header: string) =>
      readCounts({ file: 'c', content: `machine;visited_at;bills;${header}\nM1;2026-11-24;1.250;0` }, EURO);
    expect(counts('0,50').rows).toMatchObject([{ bills: 125000 }]);
    expect(counts('0.50').rows).toEqual([]);
  });

  it('gives every good row, in order, whatever stands between', () => {
    const line = fc.constantFrom(
      'M1,2026-11-24,1.00',
      'M2,03/04/2026,1.00',
      'M3,2026-11-24,1,00',
      '',
      'M4,2026-11-24,-1',
      ',,',
      'M5,2026-11-24 09:00,2.00',
    );
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 40 }), (lines) => {
        const { rows, findings } = readCounts(
          { file: 'c', content: ['machine,visited_at,coins', ...lines].join('\n') },
          moneyIn('EUR', 2),
        );
        const isGood = (text: string): boolean => /^M[15]/.test(text);
        const good = lines.flatMap((text, i) => (isGood(text) ? [i + 2] : []));
        expect(rows.map(({ place }) => place.row)).toEqual(good);
        const bad = lines.flatMap((text, i) => (/^M[234]/.test(text) ? [i + 2] : []));
        expect(
          findings.filter(({ code }) => code !== 'duplicate-row' && code !== 'sheet-empty').map(({ row }) => row),
        ).toEqual(bad);
      }),
    );
  });

  it('keeps its findings in the order of its rows', () => {
    const { findings } = readMachines({ file: 'm', content: 'machine,asset,active\nM1,A,\nM2,A,?\nM1,B,?\nM3,C,?' });
    expect(outline(findings)).toEqual([
      'bad-cell 3 active',
      'duplicate-row 3 asset',
      'bad-cell 4 active',
      'duplicate-row 4 machine',
      'bad-cell 5 active',
    ]);
  });
});
