import { closeSync, ftruncateSync, openSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { CheckJson, SettlementJson } from '../../src/report/index.js';
import { makeFolder } from '../io/temporary-folder.js';
import { buildCapture } from '../support/build-capture.js';
import { expectReadable, jsonOf, runProgram } from './run-program.js';

const GOOD = buildCapture(['ID1*S1*M1****A1', 'ID4*2*978*EUR', 'CB1*B1', 'VA1*100*1']);
const utf16 = (text: string): Buffer => Buffer.from(`\ufeff${text}`, 'utf16le');

describe('a file that is no capture', () => {
  const check = async (content: string | Uint8Array) => {
    const folder = makeFolder({ 'a.dex': content, 'b.dex': GOOD });
    const outcome = await runProgram(['check', 'a.dex', 'b.dex', '--json'], { cwd: folder });
    const [bad, good] = jsonOf<CheckJson>(outcome, 'check');
    expect(good).toMatchObject({ file: 'b.dex', verdict: 'sound' });
    expectReadable(await runProgram(['check', 'a.dex', 'b.dex'], { cwd: folder }));
    return { status: outcome.status, findings: bad!.findings.map(({ code, message }) => `${code}: ${message}`) };
  };

  // Signatures: JPEG (JFIF), Unicode byte order mark.
  it.each([
    ['empty', '', 'empty-file: The file is empty (0 bytes).'],
    [
      'a JPEG',
      Uint8Array.of(0xff, 0xd8, 0xff, 0xe0, 0, 16, 0x4a, 0x46),
      'not-a-capture: Nothing in this file is a capture: it looks like a JPEG picture.',
    ],
    [
      'NULs',
      new Uint8Array(5000),
      'not-a-capture: Nothing in this file is a capture: it looks like nothing but NUL bytes.',
    ],
    [
      'UTF-16',
      utf16('ST*001*0001\r\nSE*2*0001\r\n'),
      'not-a-capture: Nothing in this file is a capture: it looks like text in UTF-16 (two bytes a character).',
    ],
  ])('%s: one message, and the rest is checked', async (_, content, message) => {
    expect(await check(content)).toEqual({ status: 2, findings: [message] });
  });

  it('with CR alone at line ends is a capture, with a doubt', async () => {
    const { status, findings } = await check(
      buildCapture(['ID1*S1*M1', 'ID4*2*978*EUR', 'CB1*B1', 'VA1*100*1'], { eol: '\r' }),
    );
    expect([status, findings.length]).toEqual([1, 1]);
    expect(findings[0]).toMatch(/^integrity-line-endings: .*the content is whole\.$/);
  });

  it('is read in pieces however long it is: memory stays flat', async () => {
    const folder = makeFolder({ 'b.dex': GOOD });
    const file = openSync(join(folder, 'sparse.dex'), 'w');
    ftruncateSync(file, 400 * 1024 * 1024);
    closeSync(file);
    const before = process.memoryUsage().rss;
    const outcome = await runProgram(['check', 'sparse.dex', 'b.dex', '--json'], { cwd: folder });
    const grown = (process.memoryUsage().rss - before) / 1024 / 1024;
    expect(jsonOf<CheckJson>(outcome, 'check').map(({ verdict }) => verdict)).toEqual(['read-again', 'sound']);
    expect(grown).toBeLessThan(150);
  });
});

describe('a folder', () => {
  it('is walked where captures are expected, and refused where a sheet is', async () => {
    const folder = makeFolder({ 'in/deep/a.dex': GOOD, 'in/b.dex': GOOD });
    symlinkSync('..', join(folder, 'in/deep/up'));
    const walked = await runProgram(['check', 'in', '--json'], { cwd: folder });
    expect(jsonOf<CheckJson>(walked, 'check').map(({ file }) => file)).toEqual(['in/b.dex', 'in/deep/a.dex']);
    const sheet = await runProgram(['check', 'in', '--machines', 'in', '--json'], { cwd: folder });
    expect(jsonOf<CheckJson>(sheet, 'check')[0]!.general).toMatchObject([
      { code: 'unreadable-file', message: 'in could not be read: it is a folder, not a file.' },
    ]);
    expect(sheet.status).toBe(66);
  });
});

/** Two reads of one machine with 2.00 to the cash box between them. */
const capture = (box: number, time: string): Uint8Array =>
  buildCapture([
    'ID1*S1*M1****A1',
    'ID4*2*978*EUR',
    `ID5*${time}`,
    'CB1*B1',
    'VA1*1000*10',
    `CA3*0*0*0*0*${box}*${box}*0*0`,
  ]);

describe('a count sheet', () => {
  const settle = async (counts: string | Uint8Array) => {
    const folder = makeFolder({
      'c/1.dex': capture(1000, '261123*1000'),
      'c/2.dex': capture(1200, '261124*1000'),
      'counts.csv': counts,
      'machines.csv': 'machine,asset,route,currency\nM1,A1,R1,EUR\n',
      'list.csv': 'file,received_at,reason\n1.dex,2026-11-23 10:00,service\n2.dex,2026-11-24 10:00,service\n',
    });
    const argv = [
      'settle',
      '--captures',
      'c',
      '--counts',
      'counts.csv',
      '--machines',
      'machines.csv',
      '--captures-list',
      'list.csv',
    ];
    const outcome = await runProgram([...argv, '--json'], { cwd: folder });
    const text = await runProgram(argv, { cwd: folder });
    expectReadable(text);
    const objects = outcome.lines.map((line) => JSON.parse(line)) as SettlementJson[];
    const said = objects.flatMap(({ general = [], visits = [] }) => [
      ...general,
      ...visits.flatMap(({ findings }) => findings),
    ]);
    return {
      status: outcome.status,
      text: text.out,
      states: objects.flatMap(({ visits = [] }) => visits.map(({ machine, state }) => `${machine} ${state}`)),
      said: said.map(({ code, row, field, message }) => ({ code, row, field, message })),
    };
  };
  const HEAD = 'machine,visited_at,bag,coins,bills';
  const ROW = 'M1,2026-11-24 10:00,B1,2.00,0';

  it('that is right settles the visit', async () => {
    const { states, said, status } = await settle(`${HEAD}\n${ROW}\n`);
    expect([states, said, status]).toEqual([['M1 agreed'], [], 0]);
  });

  it('without a column it must have is refused whole', async () => {
    const { said, status } = await settle('machine,bag,coins\nM1,B1,2.00\n');
    expect(said[0]).toMatchObject({ code: 'sheet-column-missing' });
    expect(said[0]!.message).toMatch(
      /^counts\.csv lacks .*column visited_at; its columns are machine, bag, coins\. No row of it is used\.$/,
    );
    expect(status).toBe(2);
  });

  it.each([
    [
      'negative money',
      'M1,2026-11-24 10:00,B2,-2.00,0',
      'coins',
      /counts\.csv, row 3, column coins: .*below zero; expected an amount of 0 or more\. The row is left out/,
      // Somebody counted a bag there: it stays open, as it does in a book.
      ['M1 unsettled', 'M1 agreed'],
    ],
    [
      'an ambiguous date',
      'M1,03/04/2026,B2,2.00,0',
      'visited_at',
      /counts\.csv, row 3, column visited_at: .*expected a date such as 2026-11-24.*The row is left out; the other row is used\./,
      ['M1 agreed'],
    ],
  ])(
    '%s: file, row, column, what was expected, and what was done with the rest',
    async (_, row, field, message, expected) => {
      const { said, states } = await settle(`${HEAD}\n${ROW}\n${row}\n`);
      expect([...new Set(said.map((finding) => finding.row))]).toEqual([3]);
      expect(said[0]).toMatchObject({ row: 3, field, message: expect.stringMatching(message) });
      expect(states).toEqual(expected);
    },
  );

  it('with decimal commas is read, and how it was taken is said', async () => {
    const { said, states } = await settle(`${HEAD.replaceAll(',', ';')}\nM1;2026-11-24 10:00;B1;2,00;0\n`);
    expect(states).toEqual(['M1 agreed']);
    expect(said).toMatchObject([{ code: 'sheet-format', message: expect.stringMatching(/counts\.csv .*comma/) }]);
    // In a sheet with commas between cells, 12,50 stands in quotes.
    expect((await settle(`${HEAD}\nM1,2026-11-24 10:00,B1,"2,00",0\n`)).states).toEqual(['M1 agreed']);
  });

  it('that counts a bag twice says which rows', async () => {
    const { said, status } = await settle(`${HEAD}\n${ROW}\nM1,2026-11-24 10:05,B1,3.00,0\n`);
    expect(said.find(({ code }) => code === 'duplicate-row')).toMatchObject({ row: 3, field: 'bag' });
    expect(said.map(({ code }) => code)).toContain('two-counts');
    expect(status).toBe(2);
  });

  it('with a machine nobody knows says so, and settles the others', async () => {
    const { said, states } = await settle(`${HEAD}\n${ROW}\nM9,2026-11-24 10:00,B9,2.00,0\n`);
    const finding = said.find(({ code }) => code === 'unknown-machine')!;
    expect(finding).toMatchObject({ row: 3, field: 'machine' });
    expect(states).toContain('M1 agreed');
  });

  it('in UTF-16, or a spreadsheet program’s own file, is told from CSV', async () => {
    expect((await settle(utf16(`${HEAD}\r\n${ROW}\r\n`))).states).toEqual(['M1 agreed']);
    const { said, status } = await settle(Uint8Array.of(0x50, 0x4b, 0x03, 0x04, 20, 0));
    expect(said[0]!.message).toMatch(/^counts\.csv is a zip archive.*No row of it is used\.$/);
    expect(status).toBe(66);
  });
});

describe('a profile', () => {
  it('that can not be used says why, and the captures are checked all the same', async () => {
    const folder = makeFolder({ 'a.dex': GOOD, 'p.json': '{"name":"p","decimals":"two"}' });
    const outcome = await runProgram(['check', 'a.dex', '--profiles', 'p.json', '--json'], { cwd: folder });
    const [check] = jsonOf<CheckJson>(outcome, 'check');
    expect(check!.general).toMatchObject([{ code: 'profile-invalid', file: 'p.json' }]);
    expect(check!.general![0]!.message).toMatch(/decimals/);
    expect([check!.verdict, outcome.status]).toEqual(['sound', 2]);
  });
});
