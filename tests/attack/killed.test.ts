import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ROOT, SHEETS } from '../cli/run-program.js';
import { SeededRandom } from '../support/demo/seeded-random.js';

const BIN = join(ROOT, 'bin/coilbook.js');
const DEMO = join(ROOT, 'fixtures/demo');
/** How often each command is killed; `npm run attack` does it more often. */
const KILLS = process.env.COILBOOK_ATTACK === undefined ? 3 : 130;
const SEED = Number(process.env.COILBOOK_ATTACK_SEED ?? 9);
const sheets = SHEETS.map((one) => (one.startsWith('--') ? one : join(ROOT, one)));
const counts = ['--counts', join(DEMO, 'counts.csv')];

let work: string;
beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'coilbook-killed-'));
});
afterAll(() => rmSync(work, { recursive: true, force: true }));

const start = (argv: readonly string[]): ChildProcess =>
  spawn(process.execPath, [BIN, ...argv], { cwd: work, stdio: 'ignore' });

const runToEnd = (argv: readonly string[]) =>
  spawnSync(process.execPath, [BIN, ...argv], { cwd: work, encoding: 'utf8' });

/** Files that no run that came to its end leaves behind. */
const leftOver = (): string[] =>
  readdirSync(work, { recursive: true, encoding: 'utf8' }).filter((name) =>
    /\.part|\.unfinished|-new$|-journal$/.test(name),
  );

const COMMANDS: readonly (readonly string[])[] = [
  ['day', join(DEMO, 'captures'), '--day', '2026-11-23', '--out', 'out', ...counts, ...sheets],
  ['report', '--day', '2026-11-23', '--out', 'pages', ...sheets],
  ['settle', '--book', 'coilbook.db', '--day', '2026-11-23', '--close', '--by', 'N. Okafor', ...counts, ...sheets],
  ['book', 'export', '--parquet', 'tables', ...sheets],
];

describe.skipIf(process.platform === 'win32')('a command that is killed', () => {
  it.each(['SIGKILL', 'SIGTERM'] as const)(
    'by %s at any moment, and run again, leaves no file over',
    { timeout: 0 },
    async (signal) => {
      const random = new SeededRandom(SEED);
      for (const argv of COMMANDS) {
        const begun = Date.now();
        expect([argv, runToEnd(argv).status! < 3]).toEqual([argv, true]);
        const lifetime = Date.now() - begun;
        for (let kill = 0; kill < KILLS; kill++) {
          // What is there already would not be made again.
          if (argv[0] === 'day') {
            rmSync(join(work, 'out'), { recursive: true, force: true });
            for (const end of ['', '-wal', '-shm']) rmSync(join(work, `coilbook.db${end}`), { force: true });
          }
          const child = start(argv);
          const ended = once(child, 'close');
          await delay(random.nat(lifetime));
          child.kill(signal);
          await ended;
          // Whoever is asked to end takes with it what is not finished.
          if (signal === 'SIGTERM') expect([argv, kill, leftOver()]).toEqual([argv, kill, []]);
          const again = runToEnd(argv);
          expect([argv, kill, again.stderr, again.status! < 3, leftOver()]).toEqual([
            argv,
            kill,
            expect.any(String),
            true,
            [],
          ]);
          expect(runToEnd(['book', 'verify']).stdout).toMatch(/^The book is whole/);
        }
      }
      expect(existsSync(join(work, 'out/day.json'))).toBe(true);
    },
  );
});
