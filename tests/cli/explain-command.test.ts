import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { ExplanationJson } from '../../src/report/index.js';
import { makeFolder } from '../io/temporary-folder.js';
import { buildCapture } from '../support/build-capture.js';
import { captureOf } from './demo-truth.js';
import { csvOf, expectReadable, jsonOf, ROOT, runProgram, SHEETS } from './run-program.js';

const CAPTURE = captureOf('2026-11-20-0805-v101.dex');
const lineCount = readFileSync(`${ROOT}/${CAPTURE}`, 'latin1').trim().split('\r\n').length;

describe('explain', () => {
  it('puts every segment in words, element by element', async () => {
    const outcome = await runProgram(['explain', CAPTURE, ...SHEETS]);
    expectReadable(outcome);
    const { lines, out, status } = outcome;
    expect(lines[0]).toBe(CAPTURE);
    expect(lines.filter((line) => /^line \d+ /.test(line))).toHaveLength(lineCount);
    expect(out).toContain('  ID501     261120            20 November 2026: machine date');
    expect(out).toContain('  CA305     5876733           58767.33 EUR: cash in, value, since initialisation');
    expect(out).toMatch(/G85 {2}.*; fits the bytes exactly/);
    expect(status).toBe(0);
  });

  it('keeps what nobody knows as it is', async () => {
    const long = 'x'.repeat(100);
    const stdin = buildCapture(['ID1*S1', `ZZ9*7**${long}`]);
    const outcome = await runProgram(['explain', '-'], { stdin });
    expectReadable(outcome);
    expect(outcome.out).toContain('ZZ9  not in the dictionary');
    expect(outcome.out).toContain('  ZZ902     (empty)');
    expect(outcome.out.replaceAll(/\n +/g, '')).toContain(long);
  });

  it('prints one JSON object a segment', async () => {
    const segments = jsonOf<ExplanationJson>(await runProgram(['explain', CAPTURE, '--json']), 'explanation');
    expect(segments).toHaveLength(lineCount);
    expect(segments[0]).toMatchObject({ file: CAPTURE, id: 'DXS', line: 1, read: null });
  });

  it('prints one CSV row an element', async () => {
    const rows = csvOf(await runProgram(['explain', CAPTURE, '--csv']));
    expect(rows.find(({ element }) => element === 'CA1501')).toMatchObject({
      segment: 'CA15',
      text: '9360',
      words: '93.60 EUR',
    });
  });

  it('sets several captures apart, and goes on after one that can not be read', async () => {
    const folder = makeFolder({ 'a.dex': buildCapture(['ID1*S1']), 'b.dex': buildCapture(['ID1*S2']), 'c.dex': '' });
    const { out, status } = await runProgram(['explain', 'a.dex', 'gone.dex', 'b.dex', 'c.dex'], { cwd: folder });
    expect(out).toMatch(/^a\.dex\n\nline 1 [\s\S]*\n\nb\.dex\n\nline 1 /);
    expect(out).toMatch(/fault {2}gone\.dex could not be read: there is no such file or folder\./);
    expect(out).toMatch(/fault {2}The file is empty/);
    expect(status).toBe(66);
  });
});

describe('explain, used wrongly', () => {
  it('says what counts are for', async () => {
    expect(await runProgram(['explain', CAPTURE, '--counts', 'c.csv'])).toMatchObject({
      status: 64,
      err: 'coilbook: --counts needs --figure: it says which figure to explain\n',
    });
  });
});
