import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { buildCapture } from '../support/build-capture.js';
import { jsonOf, runProgram } from './run-program.js';

const folder = mkdtempSync(join(tmpdir(), 'coilbook-money-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A machine whose cash box and sales stand at `amount`, in dinars of three decimals (ISO 4217: KWD). */
function capture(name: string, date: string, amount: number): string {
  const path = join(folder, name);
  const segments = [
    'ID1*S9*M*1***A9*6*1',
    'ID4*3*414*KWD',
    `ID5*${date}*1000`,
    'CB1*B9',
    `VA1*${amount}*${amount}*0*0`,
    `CA2*${amount}*${amount}*0*0`,
    `CA3*0*0*0*0*${amount}*${amount}*0*0`,
    'CA4*0*0*0*0',
    'CA15*0',
    'PA1*11*1',
    `PA2*${amount}*${amount}*0*0`,
  ];
  writeFileSync(path, buildCapture(segments));
  return path;
}

interface Round {
  readonly visits: readonly { readonly state: string; readonly overShort: { readonly total: number | null } }[];
}

async function settle(coins: string, decimals: string): Promise<Round> {
  const captures = [capture('a.dex', '261120', 100), capture('b.dex', '261123', 1350)];
  const counts = join(folder, 'counts.csv');
  writeFileSync(
    counts,
    `machine,visited_at,bag,coins,bills\nA9,2026-11-20 10:00,B0,0,0\nA9,2026-11-23 10:00,B1,${coins},0\n`,
  );
  const line = [
    'settle',
    '--captures',
    ...captures,
    '--counts',
    counts,
    '--decimals',
    decimals,
    '--day',
    '2026-11-23',
    '--json',
  ];
  return jsonOf<Round>(await runProgram(line), 'settlement')[0]!;
}

it('never holds a bag read in two decimals against a machine that counts in three: 12.50 is not 1.250', async () => {
  const { visits } = await settle('12.50', '2');
  expect(visits).toHaveLength(1);
  expect(visits[0]).toMatchObject({ state: 'unsettled', overShort: { total: null } });
});

it('settles the same bag read in the decimals of the machine', async () => {
  expect((await settle('1.25', '3')).visits[0]).toMatchObject({ state: 'agreed', overShort: { total: 0 } });
});
