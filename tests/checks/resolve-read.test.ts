import { describe, expect, it } from 'vitest';
import { resolveRead } from '../../src/checks/resolve-read.js';
import type { Read } from '../../src/read/index.js';
import { readCaptures } from '../../src/read/index.js';
import { Roster, readCapturesList, readMachines, readPlan } from '../../src/sheets/index.js';
import { buildCapture } from '../support/build-capture.js';

const rowsOf = <Row>({ rows }: { readonly rows: readonly Row[] }): readonly Row[] => rows;

const MACHINES = rowsOf(
  readMachines({
    file: 'machines.csv',
    content: [
      'machine,asset,serial,currency,decimals,profile',
      'M1,A1,S1,EUR,2,',
      'M2,A2,S2,JPY,,',
      'M3,A3,S3,,,tenths',
      '',
    ].join('\n'),
  }),
);
const CAPTURES = rowsOf(
  readCapturesList({
    file: 'list.csv',
    content: [
      'file,received_at,reason,signal,machine,bag',
      'a.dex,2026-11-24 10:15,service,9,M1,B7',
      'b.dex,,on demand,,M9,',
      '',
    ].join('\n'),
  }),
);
const PLAN = rowsOf(
  readPlan(
    {
      file: 'plan.csv',
      content:
        'machine,column,product,price,from\nM1,11,Oat bar,1.50,\nM1,11,Oat bar,1.60,2026-11-24\nM1,12,Toffee,1.00,2026-11-25\n',
    },
    { decimalsOf: () => 2, currencyOf: () => 'EUR', defaultDecimals: null },
  ),
);
const roster = new Roster({
  machines: MACHINES,
  capturesList: CAPTURES,
  plan: PLAN,
  profiles: [
    { name: 'tenths', decimals: 1 },
    { name: 'by-model', models: ['MODEL-X'], decimals: 3 },
  ],
});

const readOf = (...segments: string[]): Read => readCaptures(buildCapture(segments)).reads[0]!;
const NOTHING_SAID = readOf('ID1*UNHEARD*MODEL-Y');

describe('machine of a read', () => {
  it('is that of its asset, before that of its serial, before what a list or an option says', () => {
    const byAsset = readOf('ID1*S2*M****A1');
    expect(resolveRead('x.dex', byAsset, { roster })).toMatchObject({ machine: { machine: 'M1' }, matchedBy: 'asset' });
    const bySerial = readOf('ID1*S2*M****A9');
    expect(resolveRead('x.dex', bySerial, { roster })).toMatchObject({
      machine: { machine: 'M2' },
      matchedBy: 'serial',
    });
    expect(resolveRead('in/a.dex', bySerial, { roster })).toMatchObject({
      machine: { machine: 'M2' },
      saidMachine: { machine: 'M1' },
    });
    expect(resolveRead('in/a.dex', NOTHING_SAID, { roster })).toMatchObject({
      machine: { machine: 'M1' },
      matchedBy: 'list',
    });
    const said = resolveRead('in/a.dex', NOTHING_SAID, { roster, saidMachine: 'M3' });
    expect(said).toMatchObject({ machine: { machine: 'M3' }, saidMachine: { machine: 'M3' }, matchedBy: 'list' });
  });

  it('is not known from a file name, nor from a list that names a machine the roster lacks', () => {
    for (const file of ['M1.dex', 'b.dex']) {
      const resolved = resolveRead(file, NOTHING_SAID, { roster });
      expect(resolved).toMatchObject({ machine: null, saidMachine: null, matchedBy: null });
      expect(resolved.plan('11')).toBeNull();
    }
  });
});

describe('money of a read', () => {
  const moneyOf = (read: Read, defaults = { currency: 'USD', decimals: 2 }) => {
    const { currency, decimals } = resolveRead('x.dex', read, { roster, defaults });
    return [currency, decimals];
  };

  it('is what ID4 says, else the roster, else the option', () => {
    expect(moneyOf(readOf('ID1*S2*M****A2', 'ID4*0*978*EUR'))).toEqual(['EUR', 0]);
    // Decimals of the yen: ISO 4217.
    expect(moneyOf(readOf('ID1*S2*M****A2'))).toEqual(['JPY', 0]);
    expect(moneyOf(readOf('ID1*S1*M****A1'))).toEqual(['EUR', 2]);
    expect(moneyOf(NOTHING_SAID)).toEqual(['USD', 2]);
    const { currency, decimals } = resolveRead('x.dex', NOTHING_SAID, { roster });
    expect([currency, decimals]).toEqual([null, null]);
  });

  it("has the decimals of the machine's profile, named by the roster or found by model, before all others", () => {
    expect(moneyOf(readOf('ID1*S3*M****A3', 'ID4*2*978*EUR'))).toEqual(['EUR', 1]);
    expect(moneyOf(readOf('ID1*S8*MODEL-X', 'ID4*2*978*EUR'))).toEqual(['EUR', 3]);
  });
});

describe('circumstances of a read', () => {
  it('come from the captures list', () => {
    expect(resolveRead('a.dex', NOTHING_SAID, { roster })).toMatchObject({
      receivedAt: '2026-11-24T10:15:00',
      reason: 'service',
      bag: 'B7',
      signal: 9,
    });
    expect(resolveRead('c.dex', NOTHING_SAID, { roster })).toMatchObject({
      receivedAt: null,
      reason: null,
      bag: null,
      signal: null,
    });
  });

  it('take the time received from an option before the list, and from the file after it', () => {
    const timeOf = (file: string, more: object) => resolveRead(file, NOTHING_SAID, { roster, ...more }).receivedAt;
    const times = { receivedAt: '2026-01-01T00:00:00', fileTime: '2026-02-02T00:00:00' };
    expect(timeOf('a.dex', times)).toBe('2026-01-01T00:00:00');
    expect(timeOf('a.dex', { fileTime: times.fileTime })).toBe('2026-11-24T10:15:00');
    expect(timeOf('b.dex', { fileTime: times.fileTime })).toBe('2026-02-02T00:00:00');
  });

  it('have the plan that is in force when it was received, else by its clock', () => {
    const read = readOf('ID1*S1*M****A1', 'ID5*261120*0805');
    const { plan } = resolveRead('x.dex', read, { roster });
    expect(plan('11')?.price).toBe(150);
    expect(plan('12')).toBeNull();
    expect(resolveRead('a.dex', read, { roster }).plan('11')?.price).toBe(160);
    expect(resolveRead('x.dex', readOf('ID1*S1*M****A1'), { roster }).plan('11')?.price).toBe(150);
  });
});
