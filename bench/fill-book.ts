// Runs the program many times in one process, with a clock of its own for each run: what takes a book through many nights
// without starting the program for each. Arguments: a file of runs, JSON, one a line: {"args": [...], "now": "..."}.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Writable } from 'node:stream';
import { pathToFileURL } from 'node:url';
import { PROJECT } from './run-measured.js';

interface Run {
  readonly args: readonly string[];
  readonly now: string;
}

type RunProgram = typeof import('../src/cli/index.js').run;

const { run } = (await import(pathToFileURL(join(PROJECT, 'dist', 'cli', 'index.js')).href)) as { run: RunProgram };
const nowhere = (): Writable => new Writable({ write: (_chunk, _encoding, done) => done() });
for (const line of readFileSync(process.argv[2]!, 'utf8').trim().split('\n')) {
  const { args, now } = JSON.parse(line) as Run;
  const status = await run([...args], {
    stdin: process.stdin,
    stdout: nowhere(),
    stderr: process.stderr,
    env: {},
    now: () => new Date(now),
    cwd: process.cwd(),
  });
  if (status > 2) throw new Error(`coilbook ${args.join(' ')} ended with ${status}`);
}
