import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { CheckJson } from '../../src/report/index.js';
import { makeFolder } from '../io/temporary-folder.js';
import { buildCapture, textOf } from '../support/build-capture.js';
import { csvOf, expectReadable, jsonOf, ROOT, runProgram, SHEETS } from './run-program.js';

const DEMO = 'fixtures/demo/captures';
const truth = JSON.parse(readFileSync(`${ROOT}/fixtures/demo/truth.json`, 'utf8')) as {
  captures: { file: string; machine: string; fault: string | null }[];
};
const GOOD = buildCapture(['ID1*S1*M1****A1', 'ID4*2*978*EUR', 'CB1*B1', 'VA1*100*1']);

describe('check --json', () => {
  it('says of every capture of the demo what was done to it', async () => {
    const outcome = await runProgram(['check', DEMO, ...SHEETS, '--json']);
    const checks = jsonOf<CheckJson>(outcome, 'check');
    expect(checks.map(({ file }) => file)).toEqual(truth.captures.map(({ file }) => `${DEMO}/${file}`).sort());
    const byFile = new Map(checks.map((check) => [check.file, check]));
    for (const { file, machine, fault } of truth.captures) {
      const { verdict, reads, findings } = byFile.get(`${DEMO}/${file}`)!;
      const codes = findings.map(({ code }) => code);
      expect([file, reads.map((read) => read.machine.name)]).toEqual([file, [machine]]);
      expect([file, verdict === 'read-again']).toEqual([file, fault === 'byte-changed' || fault === 'cut-short']);
      expect([file, codes.includes('integrity-damaged')]).toEqual([file, fault === 'byte-changed']);
      expect([file, codes.includes('cut-short')]).toEqual([file, fault === 'cut-short']);
      expect([file, codes.includes('integrity-line-endings')]).toEqual([file, fault === 'line-endings-changed']);
    }
    expect([outcome.status, outcome.err]).toEqual([2, '']);
  });

  it('carries what belongs to no capture on its first object', async () => {
    const folder = makeFolder({ 'a.dex': GOOD, 'b.dex': GOOD, 'm.csv': 'machine,asset\nM1,A1\nM1,A2\n' });
    const outcome = await runProgram(['check', 'a.dex', 'b.dex', '--machines', 'm.csv', '--json'], { cwd: folder });
    const [first, second] = jsonOf<CheckJson>(outcome, 'check');
    expect(first!.general!.map(({ code, row }) => [code, row])).toEqual([['duplicate-row', 3]]);
    expect(second).not.toHaveProperty('general');
    expect(outcome.status).toBe(1);
  });
});

describe('check as text', () => {
  it('begins with the answer, worst captures first, and says each caution once', async () => {
    const outcome = await runProgram(['check', DEMO, ...SHEETS]);
    expectReadable(outcome);
    const { lines, out, status } = outcome;
    expect(lines[0]).toBe('49 captures: 2 to read again, 7 doubtful, 40 sound.');
    expect(out.indexOf('\nRead again')).toBeLessThan(out.indexOf('\nDoubtful'));
    expect(out.split('Never rock or tilt a machine').length).toBe(2);
    expect(out).not.toContain('\nSound');
    expect(status).toBe(2);
  });

  it('shows one capture alone in full, and all of many when asked', async () => {
    const one = await runProgram(['check', `${DEMO}/2026-11-20-0805-v101.dex`, ...SHEETS]);
    expectReadable(one);
    expect([one.status, one.lines[0]]).toEqual([0, 'Sound: nothing to do.']);
    expect(one.out).toContain('machine    V101, Library foyer (asset TQ0101, serial SIM700101, model TRAY-45)');
    const all = await runProgram(['check', DEMO, ...SHEETS, '--all']);
    expect(all.out.split('\nSound: nothing to do.').length).toBe(41);
  });

  it('says good, marginal and weak of a signal in words', async () => {
    const { out } = await runProgram(['check', DEMO, ...SHEETS]);
    expect(out).toMatch(/weak\s+signal \(4 of 31\)/);
    expect(out).toMatch(/marginal\s+signal \(9 of 31\)/);
  });

  it('lists the reads of a file with many, as far as they can be looked over', async () => {
    const bytes = Buffer.concat(Array.from({ length: 25 }, () => GOOD));
    const outcome = await runProgram(['check', '-'], { stdin: bytes });
    expectReadable(outcome);
    expect(outcome.out).toContain('and 5 more reads; --json lists them all.');
  });
});

describe('check --csv', () => {
  it('has one row a capture, read back by another reader', async () => {
    const outcome = await runProgram(['check', DEMO, ...SHEETS, '--csv']);
    const rows = csvOf(outcome);
    expect(rows).toHaveLength(49);
    const damaged = rows.find(({ worst }) => worst === 'integrity-damaged')!;
    expect(damaged).toMatchObject({ verdict: 'read-again', machine: 'V107', integrity: 'damaged', faults: '1' });
    expect(outcome.err).toBe('');
  });

  it('has a row for a file without a read, and says beside the table what belongs to no capture', async () => {
    const folder = makeFolder({ 'a.dex': '', 'm.csv': 'machine,asset\nM1,A1\nM1,A2\n' });
    const outcome = await runProgram(['check', 'a.dex', '--machines', 'm.csv', '--csv'], { cwd: folder });
    expect(csvOf(outcome)).toMatchObject([{ file: 'a.dex', read: '', verdict: 'read-again', worst: 'empty-file' }]);
    expect(outcome.err).toContain('m.csv, row 3');
  });
});

describe('exit status of check', () => {
  const statusOf = async (capture: Uint8Array, ...argv: string[]) =>
    (await runProgram(['check', '-', ...argv], { stdin: capture })).status;
  const doubtful = buildCapture(['ID1*S1*M1', 'ID4*2*978*EUR', 'CB1*B1', 'VA1*100*1'], { seCount: 99 });

  it('is 0 for nothing to look at, 1 for a doubt, 2 for a fault', async () => {
    expect(await statusOf(GOOD)).toBe(0);
    expect(await statusOf(doubtful)).toBe(1);
    expect(await statusOf(buildCapture(['ID1*S1*M1'], { crc: 'wrong' }))).toBe(2);
  });

  it('takes a doubt for a fault where it is asked to be strict', async () => {
    expect(await statusOf(doubtful, '--strict')).toBe(2);
    const strict = await runProgram(['check', '-', '--strict', '--json'], { stdin: doubtful });
    expect(jsonOf<CheckJson>(strict, 'check')[0]!.verdict).toBe('read-again');
    expect(await statusOf(GOOD, '--strict')).toBe(0);
  });

  it('is 66 where something is missing, and the rest is still checked', async () => {
    const folder = makeFolder({ 'a.dex': GOOD });
    const outcome = await runProgram(['check', 'gone.dex', 'a.dex', '--json'], { cwd: folder });
    expect(jsonOf<CheckJson>(outcome, 'check').map(({ file, verdict }) => `${file} ${verdict}`)).toEqual([
      'gone.dex read-again',
      'a.dex sound',
    ]);
    expect(outcome.status).toBe(66);
  });
});

describe('options of check', () => {
  it('--machine says which machine it should be', async () => {
    const folder = makeFolder({ 'a.dex': GOOD, 'm.csv': 'machine,asset\nM1,A1\nM2,A2\n' });
    const codesFor = async (machine: string) => {
      const argv = ['check', 'a.dex', '--machines', 'm.csv', '--machine', machine, '--json'];
      const [check] = jsonOf<CheckJson>(await runProgram(argv, { cwd: folder }), 'check');
      return check!.findings.map(({ code }) => code);
    };
    expect(await codesFor('M1')).not.toContain('other-machine');
    expect(await codesFor('M2')).toContain('other-machine');
  });

  it('--received-at and --clock-tolerance judge the clock', async () => {
    const capture = buildCapture(['ID1*S1*M1', 'ID4*2*978*EUR', 'ID5*261124*1015', 'CB1*B1', 'VA1*100*1']);
    const codesFor = async (...argv: string[]) => {
      const outcome = await runProgram(['check', '-', '--json', ...argv], { stdin: capture });
      return jsonOf<CheckJson>(outcome, 'check')[0]!.findings.map(({ code }) => code);
    };
    expect(await codesFor()).toEqual([]);
    expect(await codesFor('--received-at', '2026-11-24 10:35')).toEqual(['clock-wrong']);
    expect(await codesFor('--received-at', '2026-11-24T10:35:00', '--clock-tolerance', '30')).toEqual([]);
  });

  it('--currency and --decimals stand in where nothing says them', async () => {
    const capture = buildCapture(['ID1*S1*M1', 'CB1*B1', 'VA1*100*1']);
    const moneyFor = async (...argv: string[]) => {
      const outcome = await runProgram(['check', '-', '--json', ...argv], { stdin: capture });
      const [read] = jsonOf<CheckJson>(outcome, 'check')[0]!.reads;
      return [read!.currency, read!.decimals];
    };
    expect(await moneyFor()).toEqual([null, null]);
    expect(await moneyFor('--currency', 'jpy')).toEqual(['JPY', 0]);
    expect(await moneyFor('--currency', 'EUR', '--decimals', '1')).toEqual(['EUR', 1]);
  });

  it('--profiles says how machines depart from the standard', async () => {
    const profile = { name: 'p', models: ['M1'], decimals: 1, severities: { 'segment-count': 'fault' } };
    const folder = makeFolder({
      'a.dex': buildCapture(['ID1*S1*M1', 'ID4*2*978*EUR', 'CB1*B1', 'VA1*100*1'], { seCount: 99 }),
      'p/p.json': JSON.stringify(profile),
    });
    const outcome = await runProgram(['check', '--profiles', 'p', 'a.dex', '--json'], { cwd: folder });
    expect(jsonOf<CheckJson>(outcome, 'check')).toMatchObject([{ verdict: 'read-again', reads: [{ decimals: 1 }] }]);
  });
});

describe('colours', () => {
  const out = async (isTTY: boolean, env: Record<string, string> = {}) =>
    (await runProgram(['check', '-'], { stdin: GOOD, isTTY, env })).out;

  it('are weights only, and only where a person looks at a terminal', async () => {
    expect(await out(true)).toContain('\u001b[1m');
    expect((await out(true)).replaceAll(/\u001b\[(?:1|2|22)m/g, '')).toBe(await out(false));
    expect(await out(false)).not.toContain('\u001b');
  });

  it('are left out for NO_COLOR and for terminals that know none', async () => {
    expect(await out(true, { NO_COLOR: '1' })).not.toContain('\u001b');
    expect(await out(true, { TERM: 'dumb' })).not.toContain('\u001b');
    // no-color.org: an empty value does not count.
    expect(await out(true, { NO_COLOR: '' })).toContain('\u001b');
  });
});

describe('progress', () => {
  it('is shown once a person at a terminal has waited more than a second, and taken away again', async () => {
    const slow = await runProgram(['check', DEMO], { isTTY: true, tick: 100 });
    expect(slow.err).toMatch(/\r\u001b\[K\d+ files …/);
    expect(slow.err.endsWith('\r\u001b[K')).toBe(true);
    expect((await runProgram(['check', DEMO], { isTTY: true })).err).toBe('');
    expect((await runProgram(['check', DEMO], { tick: 1000 })).err).toBe('');
  });
});

describe('text from a capture', () => {
  it('can not steer a terminal, in any form of output', async () => {
    const evil = '\u001b[2J\u009b31m\u00ad';
    const capture = buildCapture([`ID1*S${evil}*M${evil}****A${evil}`, 'ID4*2*978*EUR', `PA1*${evil}*100*${evil}`]);
    expect(textOf(capture)).toContain('\u001b');
    for (const form of [[], ['--json'], ['--csv']]) {
      const { out } = await runProgram(['check', '-', ...form], { stdin: capture });
      expect(out).toContain('A');
      expect(out).not.toMatch(/[\u0000-\u0009\u000b\u000c\u000e-\u001f\u007f-\u009f\u00ad]/);
    }
  });
});
