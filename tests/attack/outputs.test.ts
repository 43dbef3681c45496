import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ROOT, SHEETS } from '../cli/run-program.js';

const BIN = join(ROOT, 'bin/coilbook.js');
const DEMO = join(ROOT, 'fixtures/demo');
const sheets = SHEETS.map((one) => (one.startsWith('--') ? one : join(ROOT, one)));
const counts = ['--counts', join(DEMO, 'counts.csv')];

let work: string;
beforeAll(() => {
  if (!existsSync(join(ROOT, 'dist/cli/index.js'))) execFileSync('npm', ['run', '--silent', 'build'], { cwd: ROOT });
  work = mkdtempSync(join(tmpdir(), 'coilbook-out-'));
  const { status } = coilbook(['day', join(DEMO, 'captures'), '--day', '2026-11-23', ...sheets]);
  expect(status).toBeLessThan(3);
});
afterAll(() => rmSync(work, { recursive: true, force: true }));

/** Run the built program from a shell, in which `"$@"` stands for it and its arguments. */
function coilbook(argv: readonly string[], shell = '"$@"') {
  const args = ['-c', shell, 'sh', process.execPath, BIN, ...argv];
  return spawnSync('sh', args, { cwd: work, encoding: 'utf8' });
}

describe.skipIf(process.platform !== 'linux')('a full disk under standard output', () => {
  const COMMANDS: readonly (readonly string[])[] = [
    ['--help'],
    ['check', '--help'],
    ['check', join(DEMO, 'captures')],
    ['check', join(DEMO, 'captures'), '--json'],
    ['interval', join(DEMO, 'captures'), '--csv', ...sheets],
    ['explain', join(DEMO, 'captures/2026-11-20-0805-v101.dex')],
    ['settle', '--captures', join(DEMO, 'captures'), ...counts, ...sheets, '--json'],
    ['day', '--day', '2026-11-23', ...sheets],
    ['book', 'head'],
    ['book', 'entries'],
    ['book', 'verify', '--json'],
  ];

  it.each(COMMANDS)('ends %s with one line and status 66', (...argv) => {
    const { status, stderr } = coilbook(argv, '"$@" >/dev/full');
    expect([status, stderr]).toEqual([66, 'coilbook: standard output could not be written: the disk is full.\n']);
  });

  it('does not hide what was recorded', () => {
    const close = ['settle', '--book', 'coilbook.db', '--day', '2026-11-23', '--close', '--by', 'N. Okafor'];
    const { status, stderr } = coilbook([...close, ...counts, ...sheets], '"$@" >/dev/full');
    expect(status).toBe(66);
    expect(stderr).toMatch(
      /^coilbook: recorded \d+ counts.*\ncoilbook: standard output could not be written: the disk is full\.\n$/,
    );
    expect(coilbook(['book', 'entries', '--kind', 'settlement-closed', '--json']).stdout).not.toBe('');
  });
});

describe.skipIf(process.platform === 'win32')('what is written', () => {
  const modes = (folder: string): Set<string> =>
    new Set(
      readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((name) => {
        const found = statSync(join(folder, name));
        return `${found.isDirectory() ? 'folder' : 'file'} ${(found.mode & 0o777).toString(8)}`;
      }),
    );

  it.each([
    ['umask 022', [], ['folder 700', 'file 600']],
    ['umask 002', [], ['folder 700', 'file 600']],
    ['umask 027', [], ['folder 750', 'file 640']],
    ['umask 077', [], ['folder 700', 'file 600']],
    ['umask 022', ['--readable-by', 'group'], ['folder 750', 'file 640']],
    ['umask 077', ['--readable-by', 'all'], ['folder 755', 'file 644']],
    ['umask 000', ['--readable-by', 'owner'], ['folder 700', 'file 600']],
  ])('is readable as %s and %j say', (mask, options, expected) => {
    const folder = mkdtempSync(join(work, 'modes-'));
    const made = join(folder, 'made');
    const place = ['--book', join(made, 'coilbook.db'), '--out', join(made, 'out'), ...options];
    const capture = join(DEMO, 'captures/2026-11-20-0805-v101.dex');
    const day = coilbook(['day', capture, '--day', '2026-11-20', ...place], `${mask}; mkdir -p "${made}"; "$@"`);
    expect([day.status! < 3, day.stderr]).toEqual([true, '']);
    expect(modes(made)).toEqual(new Set(expected));
  });

  it('is no empty name of anything', () => {
    for (const argv of [
      ['check', ''],
      ['day', ''],
      ['check', 'a.dex', '--machines', ''],
      ['day', '--out='],
    ]) {
      const { status, stderr } = coilbook(argv);
      expect([argv, status]).toEqual([argv, 64]);
      expect(stderr).toMatch(/^coilbook: (an argument|--out) is empty; expected a name or a value\n$/);
    }
  });

  it('says in words why it could not be', () => {
    const file = join(work, 'coilbook.db');
    const before = readFileSync(file);
    for (const out of [join(file, 'out'), join(work, 'x'.repeat(300))]) {
      const { status, stderr } = coilbook(['day', '--day', '2026-11-23', '--out', out, ...sheets]);
      expect([out, status]).toEqual([out, 66]);
      expect(stderr).toMatch(
        /^coilbook: .* could not be written: (a part of its path is no folder|its name is too long)\.\n$/,
      );
    }
    expect(readFileSync(file).equals(before)).toBe(true);
  });
});
