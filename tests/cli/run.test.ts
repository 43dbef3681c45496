import { Readable, Writable } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { EXIT, run, type Terminal } from '../../src/cli/index.js';
import { Collector, ROOT, runProgram } from './run-program.js';

describe('wrong use', () => {
  it.each([
    [['chekc', 'a.dex'], "coilbook: unknown command 'chekc' (Did you mean check?)\n"],
    [['check'], "coilbook: missing required argument 'captures'\n"],
    [['check', 'a.dex', '--josn'], "coilbook: unknown option '--josn' (Did you mean --json?)\n"],
    [
      ['check', 'a.dex', '--decimals', '9'],
      'coilbook: --decimals: expected a number of decimals from 0 to 6, not "9"\n',
    ],
    [['settle', '--counts', 'c.csv'], 'coilbook: --captures or --book: where the captures are must be given\n'],
    [['settle', '--captures', 'a.dex'], 'coilbook: --counts: the bags as counted must be given\n'],
    [['check', 'a.dex', '--json', '--csv'], 'coilbook: --json and --csv cannot be given together\n'],
  ])('%j gives one clear line and status 64', async (argv, message) => {
    expect(await runProgram(argv)).toMatchObject({ status: 64, err: message, out: '' });
  });

  it('without a command shows the help and is wrong use', async () => {
    const { status, err } = await runProgram([]);
    expect(status).toBe(64);
    expect(err).toContain('Usage: coilbook');
  });
});

describe('help', () => {
  it.each(['check', 'explain', 'interval', 'settle'])('%s has an example, and fits a terminal', async (command) => {
    const { status, out, err, lines } = await runProgram([command, '--help']);
    expect([status, err]).toEqual([0, '']);
    expect(out).toMatch(new RegExp(`\nExample:\n {2}coilbook ${command} `));
    for (const option of ['--machines', '--plan', '--captures-list', '--profiles', '--json', '--csv', '--strict']) {
      expect(out).toContain(option);
    }
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  it('lists the commands and the exit statuses', async () => {
    const { status, out } = await runProgram(['--help']);
    expect(status).toBe(0);
    for (const word of ['check', 'explain', 'interval', 'settle', 'Exit status', '64', '66', '70']) {
      expect(out).toContain(word);
    }
  });

  it('says its version', async () => {
    expect(await runProgram(['--version'])).toMatchObject({
      status: 0,
      out: expect.stringMatching(/^\d+\.\d+\.\d+\n$/),
    });
  });
});

/** A terminal with something out of order. */
const terminal = (broken: Partial<Terminal>): Terminal & { stderr: Collector } => {
  const stderr = new Collector(false);
  const base = { stdin: Readable.from([]), stdout: new Collector(false), env: {}, now: () => new Date(0), cwd: ROOT };
  return { ...base, ...broken, stderr };
};
const CHECK = ['check', 'fixtures/demo/captures', '--json'];

describe('a defect of the program', () => {
  const broken = () => {
    throw new TypeError('x is not a \u001b[2Jfunction');
  };

  it('is said in short, with status 70', async () => {
    const around = terminal({ now: broken });
    expect(await run(CHECK, around)).toBe(EXIT.defect);
    expect(around.stderr.text).toBe(
      'coilbook: a defect of this program: x is not a \\x1B[2Jfunction\nSet COILBOOK_DEBUG=1 to see where. Your captures were only read, never changed.\n',
    );
  });

  it('shows where only when asked to', async () => {
    const around = terminal({ now: broken, env: { COILBOOK_DEBUG: '1' } });
    expect(await run(CHECK, around)).toBe(EXIT.defect);
    expect(around.stderr.text).toMatch(/TypeError: .*\n\s+at /);
  });
});

describe('an output that fails', () => {
  const failing = (code: string): Writable =>
    new Writable({
      write(_chunk, _encoding, done) {
        done(Object.assign(new Error(`write ${code}`), { code }));
      },
    });

  it('is no error when the reader has gone', async () => {
    const around = terminal({ stdout: failing('EPIPE') });
    expect(await run(CHECK, around)).toBe(EXIT.ok);
    expect(around.stderr.text).toBe('');
  });

  it('is said when the disk is full', async () => {
    const around = terminal({ stdout: failing('ENOSPC') });
    expect(await run(CHECK, around)).toBe(EXIT.input);
    expect(around.stderr.text).toBe('coilbook: standard output could not be written: the disk is full.\n');
  });
});
