import { spawnSync } from 'node:child_process';
import { chmodSync, cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { withDatabase } from '../book/store/temporary-book.js';
import { ROOT, runProgram, SHEETS } from '../cli/run-program.js';

const SCRIPT = fileURLToPath(new URL('run-as-nobody.mjs', import.meta.url));

// An archive, an auditor's copy, a folder one may not write to: only the system's own rights can show what is refused there.
describe.skipIf(process.platform === 'win32')('a book that lies where nothing may be written', () => {
  let work: string;
  const sheets = SHEETS.map((one) => (one.startsWith('--') ? one : join(ROOT, one)));

  beforeAll(async () => {
    work = mkdtempSync(join(tmpdir(), 'coilbook-archive-'));
    chmodSync(work, 0o777);
    mkdirSync(join(work, 'made'));
    const folder = join(ROOT, 'fixtures/demo');
    const days = [
      'day',
      join(folder, 'captures'),
      '--day',
      '2026-11-23',
      '--book',
      join(work, 'made/coilbook.db'),
      ...sheets,
    ];
    expect((await runProgram([...days, '--counts', join(folder, 'counts.csv')])).status).toBeLessThan(3);
  });
  afterAll(() => {
    chmodSync(work, 0o777);
    for (const name of readdirSync(work)) chmodSync(join(work, name), 0o777);
    rmSync(work, { recursive: true, force: true });
  });

  /** Run a command as a user who may only read; the folder for temporary files is one of its own. */
  function runAsNobody(archive: string, argv: readonly string[]) {
    const temporary = mkdtempSync(join(work, 'tmp-'));
    chmodSync(temporary, 0o777);
    const out = mkdtempSync(join(work, 'out-'));
    chmodSync(out, 0o777);
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      [SCRIPT, ...argv.map((one) => one.replace('OUT', out)), '--book', join(archive, 'coilbook.db')],
      { encoding: 'utf8', env: { ...process.env, TMPDIR: temporary }, cwd: out },
    );
    return { status, stdout, stderr, left: readdirSync(temporary), written: readdirSync(out) };
  }

  /** Lay a book as it is, files beside it and all, into a folder where nobody may write. */
  function archive(from: string): string {
    const to = mkdtempSync(join(work, 'archive-'));
    for (const name of readdirSync(from)) cpSync(join(from, name), join(to, name));
    for (const name of readdirSync(to)) chmodSync(join(to, name), 0o444);
    chmodSync(to, 0o555);
    return to;
  }

  const COMMANDS: readonly (readonly string[])[] = [
    ['book', 'head', '--json'],
    ['book', 'verify', '--json'],
    ['book', 'entries', '--json'],
    ['book', 'proof', '3'],
    ['settle', '--day', '2026-11-23', '--json'],
    ['day', '--day', '2026-11-23', '--json'],
    ['report', '--day', '2026-11-23', '--out', 'OUT/pages'],
    ['book', 'export', '--parquet', 'OUT/tables'],
  ];

  it('opens for everything that records nothing, and says the same as from its own place', {
    timeout: 240_000,
  }, async () => {
    const made = join(work, 'made');
    const from = archive(made);
    const before = readdirSync(from);
    for (const command of COMMANDS) {
      const named = command[0] === 'book' && command[1] !== 'export' ? command : [...command, ...sheets];
      const away = runAsNobody(from, named);
      expect([command, away.stderr, away.status! < 3, away.left]).toEqual([command, '', true, []]);
      expect(readdirSync(from)).toEqual(before);
      if (command.some((one) => one.startsWith('OUT'))) {
        expect(away.written.length).toBeGreaterThan(0);
        continue;
      }
      const { out } = await runProgram([...named, '--book', join(made, 'coilbook.db')]);
      expect(away.stdout).toBe(out);
    }
  });

  it('shows also what was only in the log when the copy was made', async () => {
    const running = mkdtempSync(join(work, 'running-'));
    cpSync(join(work, 'made/coilbook.db'), join(running, 'coilbook.db'));
    const path = join(running, 'coilbook.db');
    const entry = `INSERT INTO entry SELECT max(seq) + 1, 'count-entered', '', NULL, NULL, NULL, NULL, '{}' FROM entry`;
    await withDatabase(path, (database) => {
      const size = database.prepare('SELECT count(*) FROM entry').pluck().get() as number;
      database.pragma('wal_autocheckpoint = 0');
      database.exec(entry);
      expect(statSync(`${path}-wal`).size).toBeGreaterThan(0);
      const from = archive(running);
      chmodSync(from, 0o755);
      rmSync(join(from, 'coilbook.db-shm'), { force: true });
      chmodSync(from, 0o555);
      const { stdout, stderr, left } = runAsNobody(from, ['book', 'entries', '--json']);
      expect([stderr, left]).toEqual(['', []]);
      expect(stdout.trim().split('\n')).toHaveLength(size + 1);
    });
  });

  it('says what is the case where something is to be recorded, and where the book may not even be read', () => {
    const from = archive(join(work, 'made'));
    const bytes = readFileSync(join(from, 'coilbook.db'));
    const before = readdirSync(from);
    const close = [
      'settle',
      '--day',
      '2026-11-23',
      '--close',
      '--by',
      'N. Okafor',
      '--counts',
      join(ROOT, 'fixtures/demo/counts.csv'),
      ...sheets,
    ];
    const refused = runAsNobody(from, close);
    expect([refused.status, refused.stderr]).toEqual([66, expect.any(String)]);
    expect(refused.stderr).toMatch(/^coilbook: The book .+ (can not be written|could not be opened)[^\n]+\n$/);
    chmodSync(join(from, 'coilbook.db'), 0o000);
    const hidden = runAsNobody(from, ['book', 'head']);
    expect(hidden).toMatchObject({ status: 66, left: [] });
    expect(hidden.stderr).toMatch(/^coilbook: The book .+ could not be opened[^\n]+\n$/);
    chmodSync(join(from, 'coilbook.db'), 0o444);
    expect(readFileSync(join(from, 'coilbook.db')).equals(bytes)).toBe(true);
    expect(readdirSync(from)).toEqual(before);
  });
});
