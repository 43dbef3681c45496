import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { makeFolder } from '../io/temporary-folder.js';
import { writeCapture } from '../settlement/scenario.js';
import { type Outcome, runProgram } from './run-program.js';

// Domain rule: a visit carries what its captures carry, and so does every figure that rests on them.
const LAST = 'in/b.dex';
const SETTLE = ['--counts', 'counts.csv', '--machines', 'machines.csv', '--day', '2026-11-24'];
const sheets = ['--machines', 'machines.csv', '--captures-list', 'list.csv'];
const codes = (outcome: Outcome, key: 'visits' | 'findings'): string[] => {
  const [first] = outcome.out.split('\n').filter(Boolean);
  const { [key]: found } = JSON.parse(first!);
  return (key === 'findings' ? found : found[0].findings).map(({ code }: { code: string }) => code);
};

/** The last capture as it is given, or without its integrity value, or without the end of its transmission. */
const HARMS: Readonly<Record<string, { code: string; change: (text: string) => string } | null>> = {
  whole: null,
  'without integrity value': {
    code: 'integrity-absent',
    change: (text) => text.replace(/G85[^\r]*\r\n/, '').replace(/SE\*(\d+)/, (_, n) => `SE*${n - 1}`),
  },
  'without its end': { code: 'cut-short', change: (text) => text.replace(/DXE[^\r]*\r\n/, '') },
  'with another number of segments': {
    code: 'segment-count',
    change: (text) => text.replace(/SE\*(\d+)/, (_, n) => `SE*${Number(n) + 1}`),
  },
};

describe.each(Object.entries(HARMS))('a capture %s', (_, harm) => {
  let here = '';
  const expected = harm === null ? [] : [harm.code];
  const status = harm === null ? 0 : 1;

  beforeEach(() => {
    here = makeFolder();
    mkdirSync(join(here, 'in'));
    const write = (file: string, text: string): void => writeFileSync(join(here, file), text, 'latin1');
    const text = (shown: Parameters<typeof writeCapture>[0]) => Buffer.from(writeCapture(shown)).toString('latin1');
    write('in/a.dex', text({ at: '2026-11-20T10:00' }));
    const last = text({ at: '2026-11-24T10:00', box: 700, bills: 500, sold: 12 });
    write(LAST, harm === null ? last : harm.change(last));
    write('machines.csv', 'machine,asset,currency,decimals\nM1,A1,EUR,2\n');
    write('list.csv', 'file,reason\na.dex,service\nb.dex,service\n');
    write('counts.csv', 'machine,visited_at,bag,coins,bills\nM1,2026-11-24 10:00,B1,7.00,5.00\n');
  });
  const run = (...argv: string[]) => runProgram(argv, { cwd: here });

  it('is judged by check', async () => {
    expect((await run('check', LAST, ...sheets)).status).toBe(status);
  });

  it('makes the visit agree only in doubt, in files', async () => {
    const argv = ['settle', '--captures', 'in', '--captures-list', 'list.csv', ...SETTLE];
    const outcome = await run(...argv, '--json');
    expect([outcome.status, codes(outcome, 'visits')]).toEqual([status, expected]);
    expect(outcome.out).toContain('"state":"agreed"');
    expect((await run(...argv)).lines[0]!.includes('1 visit in doubt')).toBe(harm !== null);
    if (harm !== null) expect((await run(...argv, '--strict')).status).toBe(2);
  });

  it('makes it so in the book, whether it is worked out anew or kept', async () => {
    await run('day', 'in', '--book', 'b.book', '--day', '2026-11-24', '--out', 'out', ...sheets);
    const outcome = await run('settle', '--book', 'b.book', ...SETTLE, '--json');
    expect([outcome.status, codes(outcome, 'visits')]).toEqual([status, expected]);
  });

  it('carries it into interval and into the arithmetic behind a figure', async () => {
    const outcome = await run('interval', 'in', ...sheets, '--json');
    expect([outcome.status, codes(outcome, 'findings')]).toEqual([status, expected]);
    const traced = await run('explain', 'in', '--figure', 'cash.toCashBox', ...sheets);
    expect(traced.out.includes('Its capture is in doubt')).toBe(harm !== null);
  });
});
