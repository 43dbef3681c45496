import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { SentFile } from '../../../src/driver/desk/messages.js';
import { readOffice } from '../../../src/driver/desk/office-desk.js';
import { recogniseFile } from '../../../src/driver/desk/recognise-file.js';
import { sortFiles } from '../../../src/driver/desk/sort-files.js';
import { buildCapture, bytesOf } from '../../support/build-capture.js';

const sheet = (name: string): Buffer => readFileSync(new URL(`../../../fixtures/demo/${name}`, import.meta.url));
const sent = (path: string, content: Uint8Array | string): SentFile => ({
  path,
  file: new File([typeof content === 'string' ? content : new Uint8Array(content)], path),
});
const GOOD = buildCapture(['ID1*S1*M1****A1', 'VA1*100*1']);
const always = () => true;
const pause = () => Promise.resolve();

describe('recogniseFile', () => {
  it('tells the sheets of the office apart by their header', () => {
    expect(
      ['machines.csv', 'plan.csv', 'captures.csv', 'counts.csv'].map((name) => recogniseFile(sheet(name))),
    ).toEqual(['machines', 'plan', 'captures list', 'other-sheet']);
  });

  it('knows sheets as spreadsheets write them: semicolons, tabs, a byte-order mark, UTF-16, a sep line', () => {
    for (const text of ['machine;asset\nM1;A1', '\ufeffMachine\tAsset\nM1\tA1', 'sep=;\nMACHINE;ASSET\nM1;A1'])
      expect(recogniseFile(Buffer.from(text))).toBe('machines');
    expect(recogniseFile(Buffer.from('\ufeffmachine,serial\nM1,S1', 'utf16le'))).toBe('machines');
  });

  it('knows a plan also without what tells the decimals of its prices', () => {
    expect(recogniseFile(Buffer.from('machine,column,price\nM1,11,1.50\n'))).toBe('plan');
  });

  it('takes everything else for a capture, which checking will say more of', () => {
    const others = [
      GOOD,
      GOOD.slice(30),
      Buffer.alloc(0),
      Buffer.alloc(900),
      Buffer.from('Dear Sir'),
      Buffer.from('a,b\n1,2'),
    ];
    expect(others.map(recogniseFile)).toEqual(others.map(() => 'capture'));
    // A capture in which a sheet's words stand is a capture all the same.
    expect(recogniseFile(buildCapture(['ID1*S1', 'machine,asset', 'M1,A1']))).toBe('capture');
    expect(recogniseFile(bytesOf('file\rST*001*0001\r'))).toBe('capture');
  });
});

describe('sortFiles', () => {
  it('orders captures by path, and lets the later of two sheets of one kind count', async () => {
    const files = [
      sent('b.dex', GOOD),
      sent('z/machines.csv', 'machine,asset\nM2,A2'),
      sent('a/c.dex', GOOD),
      sent('machines.csv', 'machine,asset\nM1,A1'),
      sent('counts.csv', sheet('counts.csv')),
    ];
    const { captures, sheets, unused } = await sortFiles(files, always, pause);
    expect(captures.map(({ path }) => path)).toEqual(['a/c.dex', 'b.dex']);
    expect([...sheets].map(([kind, { path }]) => [kind, path])).toEqual([['machines', 'z/machines.csv']]);
    expect(unused.map(({ path }) => path)).toEqual(['counts.csv', 'machines.csv']);
  });

  it('takes what can not be read for a capture, and stops when nobody wants it', async () => {
    const gone = sent('gone.dex', 'x');
    Object.assign(gone.file, { slice: () => ({ size: 1, arrayBuffer: () => Promise.reject(new Error('gone')) }) });
    expect((await sortFiles([gone], always, pause)).captures).toEqual([gone]);
    expect((await sortFiles([sent('a.dex', GOOD)], () => false, pause)).captures).toEqual([]);
  });
});

describe('readOffice', () => {
  it('knows nothing without sheets', async () => {
    const { roster, findings, sheets } = await readOffice(new Map());
    expect([roster.books.machines, findings, sheets]).toEqual([[], [], []]);
  });

  it('reads each sheet, says what is wrong in the order of the command, and how many rows are used', async () => {
    const office = await readOffice(
      new Map([
        ['captures list', sent('c.csv', 'file,machine\na.dex,M9\n')],
        ['plan', sent('p.csv', 'machine,column,price\nM1,11,1.50\nM1,11,1.60\nM8,1,1\n')],
        ['machines', sent('m.csv', 'machine,asset,currency\nM1,A1,EUR\nM2,A1,EUR\n')],
      ] as const),
    );
    expect(office.roster.planned('M1', '11', null)?.price).toBe(150);
    expect(office.sheets).toEqual([
      { file: 'c.csv', kind: 'captures list', rows: 1 },
      { file: 'p.csv', kind: 'plan', rows: 2 },
      { file: 'm.csv', kind: 'machines', rows: 2 },
    ]);
    expect(office.findings.map(({ file, code }) => `${file} ${code}`)).toEqual([
      'm.csv duplicate-row',
      'p.csv duplicate-row',
      'p.csv bad-cell',
      'p.csv unknown-machine',
      'c.csv unknown-machine',
    ]);
  });

  it('goes on without a sheet that can not be read', async () => {
    const gone = sent('m.csv', 'x');
    Object.assign(gone.file, { arrayBuffer: () => Promise.reject(new Error('gone')) });
    const office = await readOffice(new Map([['machines', gone]] as const));
    expect(office.findings.map(({ code }) => code)).toEqual(['unreadable-file']);
  });
});
